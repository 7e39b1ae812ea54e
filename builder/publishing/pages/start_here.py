"""Start here: the self-check, run by a script on the device only."""

from markupsafe import Markup

from builder.course.placement import Condition, Placement, Question
from builder.language import mark
from builder.publishing.pages.links import SAFETY, START, Site
from builder.publishing.pages.templates import render_block, render_page, write_header, write_json

_ABOUT = mark(
    "Some questions and two or three looks at your own breath, and where to start. Nobody is told."
)


def make_start_page(site: Site, table: Placement) -> str:
    """Write the self-check of a course that has a placement table."""
    page = render_page(
        "start-here.md",
        site.language,
        header=write_header(
            site.language.say("Start here"), site.language.say(_ABOUT), "search: {exclude: true}"
        ),
        ask_first=table.ask_first,
        questions=[_view_question(site, question) for question in table.questions],
        table=_write_table(site, table),
        safety_href=site.link(START, SAFETY),
    )
    caution = site.course.settings.caution
    return f"{page}\n{render_block('end.html', site.language, caution=caution)}\n"


def _view_question(site: Site, question: Question) -> dict[str, object]:
    lesson = site.course.by_id.get(question.lesson_id)
    return {
        "id": question.id,
        "text": question.text,
        "answers": question.answers,
        "is_timed": question.is_timed,
        "lesson": None if lesson is None else lesson.title,
        "href": site.link_lesson(START, question.lesson_id),
    }


def _write_table(site: Site, table: Placement) -> Markup:
    """Return strands, ways and names of lessons as JSON for the script."""
    course = site.course
    starts = [
        {
            "strand": start.strand_id,
            "title": course.vocabulary.strands[start.strand_id].title,
            "ways": [
                {
                    "when": [[c.question_id, _write_condition(c)] for c in way.conditions],
                    "lesson": way.lesson_id,
                    "why": way.why,
                }
                for way in start.ways
            ],
        }
        for start in table.starts
    ]
    names = {way.lesson_id for start in table.starts for way in start.ways} & set(course.by_id)
    lessons = {
        name: {"title": course.by_id[name].title, "href": site.link_lesson(START, name)}
        for name in sorted(names)
    }
    return write_json({"starts": starts, "lessons": lessons})


def _write_condition(condition: Condition) -> object:
    """Return a list of answers, or the bounds of a timed one."""
    if condition.answers:
        return sorted(condition.answers)
    return {"least": condition.from_seconds, "under": condition.under_seconds}
