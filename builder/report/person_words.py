"""One person on one day in plain words: how they go on, what changed, what to look at.

For the coach's own eyes: it names the person, and is never written to a file.
"""

from collections.abc import Iterable, Iterator

from builder.course.course import Course
from builder.planning.look_at import Look, LookKind
from builder.planning.overview import PersonOverview
from builder.planning.permission import Adaptation, AdaptationKind
from builder.records.person import Person
from builder.report.days import say_day
from builder.report.look_words import say_look, say_unanswered
from builder.report.progress_words import name_lesson, say_progress
from builder.report.sources import write_sources
from builder.report.trend_words import say_retest, say_sides, say_trends
from builder.sums import advance
from builder.sums.citation import Citation

CAUTION = (
    "It says what is on record, and is no finding about anybody. It clears nobody: local rules "
    "and licensed clinicians come first."
)
_RULES = (
    *(advance.READY_TWICE, advance.WEAKER_OUTCOME, advance.EASIER_TWICE),
    *(advance.SIX_WEEKS, advance.AGAIN_THREE_TIMES, advance.TWO_WEEKS),
)


def write_person(course: Course, overview: PersonOverview) -> str:
    """Write all of one person, the cautions at the top and the sources last."""
    person = overview.person
    looks = dict.fromkeys(say_look(course, look) for look in _pick_looks(overview))
    sections = (
        ("Conditions", list(_say_conditions(course, overview))),
        ("Strands", [say_progress(course, overview, each) for each in overview.progress]),
        ("Sets and rests of what comes next", list(_say_doses(course, overview))),
        ("Sides", [say_sides(course, each) for each in overview.sides]),
        ("Measures", list(say_trends(course, overview.trends))),
        ("Look at next", list(looks)),
        ("Measure again", [say_retest(course, each) for each in overview.retests]),
    )
    lines = [
        f"{person.name} ({person.id}) on {say_day(overview.day)}",
        _say_last_day(overview),
        *([f"Goal: {person.goal}"] if person.goal else ()),
        "",
        course.settings.caution,
        CAUTION,
    ]
    for title, rows in sections:
        lines += ["", title, *(f"- {row}" for row in rows or ["nothing on record"])]
    return "\n".join([*lines, "", *write_sources(list_citations(overview))])


def list_citations(overview: PersonOverview) -> tuple[Citation, ...]:
    """Return every source of what is said, each once."""
    compared = (
        comparison
        for trend in overview.trends
        for comparison in (trend.from_first, trend.from_previous)
        if comparison
    )
    own: list[Iterable[Citation]] = [_RULES]
    own += [each.citations for each in overview.sides]
    own += [each.citations for each in compared]
    own += [each.citations for each in overview.rests.values()]
    return tuple(dict.fromkeys(citation for row in own for citation in row))


def _pick_looks(overview: PersonOverview) -> Iterator[Look]:
    """Leave out what other sections say: clinicians' answers and what is to be measured.

    The answer to a notice of the lesson itself is told with it, because the notice goes on holding.
    """
    for look in overview.looks:
        if look.kind is not LookKind.RETEST and not _is_said(look.adaptation):
            yield look


def _is_said(adaptation: Adaptation | None) -> bool:
    if adaptation is None or adaptation.kind is not AdaptationKind.CLEARED:
        return False
    is_general = adaptation.notice is None or adaptation.notice.everywhere
    return is_general and not adaptation.ask_again


def _say_last_day(overview: PersonOverview) -> str:
    last_day = overview.standing.last_day
    if last_day is None:
        return "No class on record yet."
    weeks = overview.standing.weeks_away
    ago = f", {weeks} week{'' if weeks == 1 else 's'} ago" if weeks else ""
    return f"Last class on {say_day(last_day)}{ago}."


def _say_conditions(course: Course, overview: PersonOverview) -> Iterator[str]:
    person: Person = overview.person
    for name in person.conditions:
        named = course.name_condition(name)
        if name in overview.uncleared:
            yield say_unanswered(course, name)
        else:
            yield f"{named}: a clinician said yes on {say_day(person.cleared[name])}"
    if person.hands_on is None or person.hands_on > overview.day:
        yield "hands: no consent on record, so words only"
    else:
        yield f"hands: agreed on {say_day(person.hands_on)}; ask again each time"


def _say_doses(course: Course, overview: PersonOverview) -> Iterator[str]:
    for name, rest in overview.rests.items():
        plan = overview.side_plans.get(name)
        sides = (
            f"{plan.first} first, {plan.weaker_sets} sets there and {plan.stronger_sets} on the "
            "other side; "
            if plan
            else ""
        )
        yield f"{name_lesson(course, name)}: {sides}rest {rest.seconds:g} s"
