"""A home plan put into the words of a sheet, in the person's language."""

from dataclasses import dataclass
from datetime import date

from markupsafe import Markup

from builder.course.course import Course
from builder.language import Language, mark
from builder.planning.home_lessons import WhyInClass
from builder.planning.home_plan import HomePlan
from builder.planning.overview import PersonOverview
from builder.publishing.client_sheet.cautions import group_notices, list_own_cautions
from builder.publishing.client_sheet.languages import SpokenCourse, speak_to
from builder.publishing.client_sheet.lessons import view_home_lesson
from builder.publishing.client_sheet.trends import view_trends
from builder.publishing.client_sheet.view import (
    Said,
    SheetRung,
    SheetView,
)
from builder.publishing.views.wording import (
    word_figures,
)
from builder.records.studio import StudioSettings
from builder.sums.paper import choose_sheet


@dataclass(frozen=True)
class SheetOrder:
    """All that a sheet is made from."""

    course: Course
    studio: StudioSettings
    overview: PersonOverview
    plan: HomePlan


def view_sheet(order: SheetOrder) -> SheetView:
    """Put a plan into words."""
    person, plan = order.overview.person, order.plan
    spoken = speak_to(order.course, order.studio, person)
    language = spoken.language
    settings = spoken.own.settings
    studio = order.studio
    return SheetView(
        language=language,
        person_id=person.id,
        name=person.name,
        goal=person.goal,
        period=_say_period(plan, order.overview.day, language),
        ask_first=_ask_first(spoken, plan),
        other_language=_tell_other_language(spoken, plan),
        own_cautions=list_own_cautions(spoken, plan, order.overview),
        cautions=group_notices(spoken, plan),
        caution=Said(settings.caution, settings.language),
        lessons=tuple(
            view_home_lesson(spoken, plan, lesson, number)
            for number, lesson in enumerate(plan.lessons, 1)
        ),
        no_lessons=_say_no_lessons(plan, language),
        with_coach=_say_with_coach(spoken, plan),
        ladder_title=_title_ladder(spoken, plan),
        rungs=_view_rungs(plan, language),
        trends=view_trends(spoken, order.overview.trends),
        retest=_say_retest(spoken, plan),
        studio=", ".join(part for part in (studio.name, studio.contact) if part),
        day=order.overview.day,
        accent=studio.colours.accent,
        paper=choose_sheet(studio.paper),
    )


def _say_period(plan: HomePlan, day: date, language: Language) -> str:
    """Say for which weeks a sheet is; one without lessons has the day on which it was made."""
    if not plan.lessons:
        return language.date(day)
    return language.say(
        "Practice at home from {first} to {last}",
        first=language.date(plan.span.first_day),
        last=language.date(plan.span.last_day),
    )


def _ask_first(spoken: SpokenCourse, plan: HomePlan) -> str | Markup:
    if not plan.asks_first:
        return ""
    known = spoken.own.vocabulary.conditions
    titles = [known[name].title if name in known else name for name in plan.asks_first]
    return spoken.language.say_html(
        "Ask a clinician before you practise at home, and tell your coach what they said. It is "
        "about this: {conditions}. Until then there are no lessons on this sheet.",
        conditions=spoken.set_all_apart(titles),
    )


def _tell_other_language(spoken: SpokenCourse, plan: HomePlan) -> str:
    """Say which of the cautions and words that hold for the whole sheet nobody translated."""
    language, other = spoken.language, spoken.original.settings.language
    said = (item for group in group_notices(spoken, plan) for item in group.cautions)
    if all(spoken.is_own(each.language) for each in said) and spoken.is_own(
        spoken.vocabulary_language
    ):
        return ""
    return language.say(
        "Some of this is in {language}, because nobody has translated it yet. Let your coach tell "
        "you what it says before you practise.",
        language=language.name_of(other),
    )


def _say_no_lessons(plan: HomePlan, language: Language) -> str:
    if plan.lessons or plan.asks_first:
        return ""
    if any(each.why is WhyInClass.NO_ROOM for each in plan.left):
        return language.say("These weeks have no room for practice at home beside your classes.")
    return language.say(
        "There is nothing to practise at home yet. Come to a class first: your coach shows you "
        "what comes next."
    )


def _say_with_coach(spoken: SpokenCourse, plan: HomePlan) -> str | Markup:
    """Name the strands at which a coach looks first; none of their lessons is on the sheet."""
    titles = [
        _name_strand(spoken, each.strand_id) for each in plan.left if each.why is WhyInClass.LOOK
    ]
    if not titles:
        return ""
    strands = Markup(", ").join(titles)
    return spoken.language.say_html("With your coach first: {strands}.", strands=strands)


def _name_strand(spoken: SpokenCourse, strand_id: str) -> Markup:
    course = spoken.own if strand_id in spoken.own.vocabulary.strands else spoken.original
    title = course.vocabulary.strands[strand_id].title
    return spoken.set_apart(title, course.settings.language)


def _title_ladder(spoken: SpokenCourse, plan: HomePlan) -> str | Markup:
    if plan.ladder is None:
        return ""
    course = spoken.find_course(plan.ladder.lesson_id)
    title = spoken.set_apart(course.by_id[plan.ladder.lesson_id].title, course.settings.language)
    return spoken.language.say_html("Your steps: {lesson}", lesson=title)


def _view_rungs(plan: HomePlan, language: Language) -> tuple[SheetRung, ...]:
    rungs = plan.ladder.rungs if plan.ladder else ()
    return tuple(
        SheetRung(
            word_figures(language, rung),
            language.say("{seconds} s", seconds=language.number(rung.cycle_seconds)),
        )
        for rung in rungs
    )


def _say_retest(spoken: SpokenCourse, plan: HomePlan) -> str | Markup:
    if plan.retest is None:
        return ""
    known = spoken.own.vocabulary.measures
    titles = [known[measure.id].title for measure in plan.retest.measures]
    day = spoken.language.date(plan.retest.day)
    measures = spoken.set_all_apart(titles)
    if plan.retest.is_class_day:
        text = mark("On {day} your coach measures again: {measures}.")
    else:
        text = mark("At your next class from {day} on, your coach measures again: {measures}.")
    return spoken.language.say_html(text, day=day, measures=measures)
