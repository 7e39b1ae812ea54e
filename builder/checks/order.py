"""Order: every lesson comes after what it builds on, and nothing is out of reach."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from builder import rules
from builder.course.course import Course
from builder.course.graph import find_before, find_circles, find_reachable
from builder.course.lesson import Lesson
from builder.course.names import suggest
from builder.findings import Finding, Rule


def find_unknown_builds_on(course: Course) -> Iterator[Finding]:
    """Report names in ``builds_on`` that are no lesson."""
    for lesson in course.lessons:
        yield from _unknown(course, lesson, "builds_on", rules.BUILDS_ON_UNKNOWN)


def find_unknown_neighbours(course: Course) -> Iterator[Finding]:
    """Report names in ``easier`` and ``harder`` that are no lesson."""
    for lesson in course.lessons:
        for key in ("easier", "harder"):
            yield from _unknown(course, lesson, key, rules.NEIGHBOUR_UNKNOWN)


def find_circular_order(course: Course) -> Iterator[Finding]:
    """Report lessons that build on each other, with the whole circle."""
    for circle in find_circles(course.graph):
        way = " builds on ".join((*circle, circle[0]))
        yield rules.CIRCULAR_ORDER.at(
            course.by_id[circle[0]].at("builds_on"),
            f"nobody can start here: {way}",
            "take one of these names out of builds_on",
        )


def find_unreachable_lessons(course: Course) -> Iterator[Finding]:
    """Report lessons that no way leads to from a first lesson, circles apart.

    Only the first lessons out of reach are told; what waits behind them is counted.
    """
    graph = {lesson.id: _known_or_missing(course, lesson) for lesson in course.lessons}
    in_circles = {name for circle in find_circles(course.graph) for name in circle}
    waiting = set(graph) - find_reachable(graph) - in_circles
    for lesson in course.lessons:
        blocks = [name for name in graph[lesson.id] if name not in graph or name in in_circles]
        if lesson.id not in waiting or not blocks:
            continue
        behind = sum(lesson.id in find_before(course.graph, name) for name in waiting)
        lessons = "1 lesson" if behind == 1 else f"{behind} lessons"
        yield rules.UNREACHABLE_LESSON.at(
            lesson.at("builds_on"),
            f"no way leads here{f', nor to {lessons} behind it' if behind else ''}, "
            f'because "{blocks[0]}" can\'t be reached',
            "mend what it builds on first",
        )


def find_skipped_levels(course: Course) -> Iterator[Finding]:
    """Report a strand whose levels leave a number out."""
    for strand_id in course.vocabulary.strands:
        lessons = course.lessons_of(strand_id)
        for before, lesson in pairwise(lessons):
            if lesson.level > before.level + 1 and not course.unreadable:
                yield rules.SKIPPED_LEVEL.at(
                    lesson.at("level"),
                    f'strand "{strand_id}" goes from level {before.level} to {lesson.level}',
                    f"make this level {before.level + 1}",
                )


def find_higher_levels(course: Course) -> Iterator[Finding]:
    """Report a lesson that builds on a higher level of its own strand."""
    for lesson in course.lessons:
        for index, name in enumerate(lesson.builds_on):
            other = course.by_id.get(name)
            if other and other.strand == lesson.strand and other.level > lesson.level:
                yield rules.BUILDS_ON_HIGHER_LEVEL.at(
                    lesson.at(f"builds_on.{index}"),
                    f'level {lesson.level} builds on "{name}" of level {other.level}',
                    "raise this level, or build on an earlier lesson",
                )


def find_easier_not_easier(course: Course) -> Iterator[Finding]:
    """Report an easier version that asks more than the lesson itself."""
    for lesson in course.lessons:
        for index, name in enumerate(lesson.easier):
            if name in course.by_id and not _is_easier(course, name, lesson.id):
                yield rules.EASIER_NOT_EASIER.at(
                    lesson.at(f"easier.{index}"),
                    f'"{name}" {_compare(course, name, lesson.id)}',
                    "name a lesson that comes before this one or asks less",
                )


def find_harder_not_harder(course: Course) -> Iterator[Finding]:
    """Report a harder version that asks less than the lesson itself."""
    for lesson in course.lessons:
        for index, name in enumerate(lesson.harder):
            if name in course.by_id and not _is_easier(course, lesson.id, name):
                yield rules.HARDER_NOT_HARDER.at(
                    lesson.at(f"harder.{index}"),
                    f'"{name}" {_compare(course, name, lesson.id)}',
                    "name a lesson that builds on this one or asks more",
                )


def find_no_way_back(course: Course) -> Iterator[Finding]:
    """Report a harder version that doesn't name the lesson as its easier one, and the reverse."""
    for lesson in course.lessons:
        for key, back in (("harder", "easier"), ("easier", "harder")):
            for index, name in enumerate(getattr(lesson, key)):
                other = course.by_id.get(name)
                if other and lesson.id not in getattr(other, back):
                    yield rules.NO_WAY_BACK.at(
                        lesson.at(f"{key}.{index}"),
                        f'"{name}" is named as {key}, but does not name "{lesson.id}" as {back}',
                        f'add "{lesson.id}" to {back} in {other.path}',
                    )


def find_missing_readiness(course: Course) -> Iterator[Finding]:
    """Report a lesson that doesn't say when somebody is ready."""
    for lesson in course.lessons:
        if not lesson.words.ready_when:
            yield rules.READINESS_MISSING.at(
                lesson.at("ready_when"),
                "nobody can tell when they are ready to go on",
                "give a sign in ready_when that can be seen or counted",
            )


def find_lessons_out_of_order(course: Course) -> Iterator[Finding]:
    """Report lessons that strands and levels put before what they build on."""
    yield from find_out_of_order(course, tuple(lesson.id for lesson in course.lessons))


def find_out_of_order(course: Course, shown: Sequence[str]) -> Iterator[Finding]:
    """Report lessons that an order of pages shows before what they build on."""
    rank = {name: index for index, name in enumerate(shown)}
    in_circles = {name for circle in find_circles(course.graph) for name in circle}
    for name in shown:
        lesson = course.by_id.get(name)
        if lesson is None or name in in_circles:
            continue
        for index, before in enumerate(lesson.builds_on):
            if rank.get(before, -1) > rank[name]:
                yield rules.NAVIGATION_OUT_OF_ORDER.at(
                    lesson.at(f"builds_on.{index}"),
                    f'the site shows "{name}" before "{before}", on which it builds',
                    "change the level, or the order of strands or pages",
                )


def find_twin_lessons(course: Course) -> Iterator[Finding]:
    """Report two lessons that differ in their title only."""
    seen: dict[object, Lesson] = {}
    for lesson in course.lessons:
        words = lesson.words
        content = (
            lesson.drill,
            tuple(passage.text for passage in (*words.set_up, *words.steps)),
            words.cues,
        )
        twin = seen.setdefault(content, lesson)
        if twin is not lesson:
            yield rules.TWIN_LESSONS.at(
                lesson.at("title"),
                f'only the title differs from "{twin.id}"',
                "delete one of the two, or say what is different",
            )


def _unknown(course: Course, lesson: Lesson, key: str, rule: Rule) -> Iterator[Finding]:
    for index, name in enumerate(getattr(lesson, key)):
        if name not in course.by_id and name not in course.unreadable:
            yield rule.at(
                lesson.at(f"{key}.{index}"),
                f'no lesson has the id "{name}"',
                suggest(name, course.by_id) or "name a lesson of this course",
            )


def _known_or_missing(course: Course, lesson: Lesson) -> tuple[str, ...]:
    """Return what a lesson builds on, lessons with faulty files left out of the blame."""
    return tuple(name for name in lesson.builds_on if name not in course.unreadable)


def _is_easier(course: Course, easier: str, harder: str) -> bool:
    """Tell whether one lesson comes before another, or asks less and doesn't come after it."""
    if easier in find_before(course.graph, harder):
        return True
    if harder in find_before(course.graph, easier):
        return False
    first, second = course.demands[easier], course.demands[harder]
    place, other = course.by_id[easier], course.by_id[harder]
    same_strand_before = place.strand == other.strand and place.level < other.level
    return first.total < second.total or (first.total == second.total and same_strand_before)


def _compare(course: Course, name: str, lesson_id: str) -> str:
    return (
        f"has a demand of {course.demands[name].total} in all, "
        f"this lesson {course.demands[lesson_id].total}"
    )
