"""What a client sheet holds, in a few lines for the coach who made it."""

from collections.abc import Iterable, Iterator

from builder.course.course import Course
from builder.planning.home_days import CLASS_IS_WORK, MINUTES_AT_HOME, QUIET_DAYS
from builder.planning.home_ladder import NEXT_RUNGS
from builder.planning.home_lessons import DONE_IN_CLASS, FIVE_AT_HOME, WhyInClass
from builder.planning.home_plan import HomeLesson, HomePlan
from builder.report.counted import count
from builder.report.days import say_day
from builder.report.progress_words import name_lesson
from builder.sums.practice import GARBER, find_frequency

RULES = (DONE_IN_CLASS, FIVE_AT_HOME, MINUTES_AT_HOME, CLASS_IS_WORK, QUIET_DAYS, NEXT_RUNGS)
_WHYS = {
    WhyInClass.NEW: "not done with a coach yet",
    WhyInClass.LOOK: "a coach is to look first",
    WhyInClass.BARRED: "barred for this person",
    WhyInClass.NO_ROOM: "no room in these weeks",
}


def write_sheet_summary(course: Course, plan: HomePlan, pages: int, files: Iterable[str]) -> str:
    """Write what stands on a sheet, what was left to the class and why, and where the files are."""
    return "\n".join(_list_lines(course, plan, pages, tuple(files)))


def _list_lines(
    course: Course, plan: HomePlan, pages: int, files: tuple[str, ...]
) -> Iterator[str]:
    first, last = say_day(plan.span.first_day), say_day(plan.span.last_day)
    lessons, leaves = count(len(plan.lessons), "lesson"), count(pages, "page")
    yield f"{plan.person_id}, {first} to {last}: {lessons} on {leaves}"
    if plan.asks_first:
        named = ", ".join(course.name_condition(name) for name in plan.asks_first)
        yield f"- no lessons: a licensed clinician comes first ({named})"
    for home in plan.lessons:
        days = f"{count(len(home.days), 'day')}, {home.minutes} min each"
        yield f"- {name_lesson(course, home.lesson_id)}: {days}{_say_thin_weeks(plan, home)}"
    if plan.ladder:
        rungs = ", ".join(str(rung) for rung in plan.ladder.rungs)
        yield f"- ladder from {plan.ladder.easy_seconds:g} s: {rungs}"
    for left in plan.left:
        yield (
            f"- in class only, {course.vocabulary.strands[left.strand_id].title}: "
            + _WHYS[left.why]
        )
    if plan.retest:
        titles = ", ".join(measure.title for measure in plan.retest.measures)
        yield f"- measure again on {say_day(plan.retest.day)}: {titles}"
    yield "Ours, with no published source: " + "; ".join(rule.title for rule in RULES) + "."
    yield "Every caution, lesson, dose and stop sign was read back and found."
    yield f"Written: {', '.join(files)}. They are private: give them to this person only."


def _say_thin_weeks(plan: HomePlan, home: HomeLesson) -> str:
    weeks = plan.list_thin_weeks(home)
    if not weeks:
        return ""
    least = find_frequency(home.kind).least_days
    named = ", ".join(map(str, weeks))
    return (
        f"; week {named} has under {least} days, classes counted ({GARBER.authors} {GARBER.year})"
    )
