"""Tempo: counts stay inside what a person at rest, or on the move, can keep up easily."""

from collections.abc import Iterator

from builder import rules
from builder.course.course import Course
from builder.course.graph import find_before
from builder.course.lesson import Lesson, Limb
from builder.course.tempo import PAUSE_SECONDS, Tempo, format_seconds
from builder.findings import Finding
from builder.sums.timing import time_drill


def find_cycles_out_of_band(course: Course) -> Iterator[Finding]:
    """Report breaths that are shorter or longer than the course's band."""
    limits = course.settings.limits
    low, high = limits.cycle_min_seconds, limits.cycle_max_seconds
    for lesson, tempo in _counted(course):
        cycle = tempo.cycle_seconds
        if low <= cycle <= high:
            continue
        bound = f"under the {format_seconds(low)}" if cycle < low else f"over the {high:g}"
        yield rules.CYCLE_OUT_OF_BAND.at(
            lesson.at("tempo"),
            f"one breath at {tempo} takes {format_seconds(cycle)} s, {bound} s of this course",
            "lengthen a phase" if cycle < low else "shorten a phase",
        )


def find_long_inhales(course: Course) -> Iterator[Finding]:
    """Report calming drills whose in-breath is longer than the out-breath."""
    for lesson, tempo in _counted(course):
        if lesson.strand.aim == "calm" and tempo.inhale > tempo.exhale:
            yield rules.LONG_INHALE.at(
                lesson.at("tempo"),
                f"the inhale of {format_seconds(tempo.inhale)} s is longer than the exhale "
                f"of {format_seconds(tempo.exhale)} s in a calming drill",
                "make the exhale at least as long as the inhale",
            )


def find_holds_before_count(course: Course) -> Iterator[Finding]:
    """Report holds on lessons before which no plain count has been learned.

    A measured hold of a check (aim "observe") is no drill and needs no count.
    """
    for lesson in course.lessons:
        before = find_before(course.graph, lesson.id) - {lesson.id}
        names = {lesson.id, *before}
        unknown = any(course.unreadable & set(course.by_id[name].builds_on) for name in names)
        if not _trains_hold(course, lesson) or unknown:
            continue
        if not any(_is_plain_count(course, course.by_id[name]) for name in before):
            yield rules.HOLD_BEFORE_COUNT.at(
                lesson.at("tempo" if _has_tempo_hold(lesson) else "traits"),
                f"{_describe_hold(lesson)} comes before any plain count",
                "build on a lesson with a counted tempo and no hold, such as 4-1-4-1",
            )


def find_long_holds(course: Course) -> Iterator[Finding]:
    """Report holds over the course's limit."""
    limit = course.settings.limits.hold_max_seconds
    for lesson, tempo in _counted(course):
        if tempo.longest_hold_seconds > limit:
            yield rules.HOLD_TOO_LONG.at(
                lesson.at("tempo"),
                f"a hold of {format_seconds(tempo.longest_hold_seconds)} s is over the "
                f"{format_seconds(limit)} s of this course",
                "shorten the hold",
            )


def find_limbs_up_too_long(course: Course) -> Iterator[Finding]:
    """Report moving drills whose slowest phase leaves a limb in the air for too long."""
    limit = course.settings.limits.limb_up_max_seconds
    for lesson, tempo in _counted(course):
        longest = max(tempo.phases)
        if longest > limit and set(lesson.drill.moving) - {Limb.TRUNK}:
            yield rules.LIMB_UP_TOO_LONG.at(
                lesson.at("tempo"),
                f"a phase of {format_seconds(longest)} s leaves a limb up longer than "
                f"{format_seconds(limit)} s",
                "shorten that phase, or let the limbs rest",
            )


def find_boxes_while_moving(course: Course) -> Iterator[Finding]:
    """Report equal-phase tempos and breath-holds in drills that move."""
    for lesson in course.lessons:
        drill = lesson.drill
        is_box = drill.tempo is not None and drill.tempo.is_box
        has_hold = "breath-hold" in course.traits_by_lesson[lesson.id]
        if not drill.moving or not (is_box or has_hold):
            continue
        what = f"the box tempo {drill.tempo}" if is_box else _describe_hold(lesson)
        yield rules.BOX_WHILE_MOVING.at(
            lesson.at("moving"),
            f"{what} comes together with a moving {' and '.join(drill.moving)}",
            "keep still, or use 4-1-4-1 or shorter",
        )


def find_long_boxes(course: Course) -> Iterator[Finding]:
    """Report box drills that take longer than equal phases were studied for."""
    limits = course.settings.limits
    for lesson, tempo in _counted(course):
        minutes = time_drill(lesson.drill, limits.set_up_seconds).drill_seconds / 60
        if tempo.is_box and minutes > limits.box_max_minutes:
            yield rules.BOX_TOO_LONG.at(
                lesson.at("dose"),
                f"equal phases go on for {minutes:.3g} minutes, over the "
                f"{limits.box_max_minutes:g} of this course",
                "take sets, breaths or rest away",
            )


def _counted(course: Course) -> Iterator[tuple[Lesson, Tempo]]:
    for lesson in course.lessons:
        if lesson.drill.tempo:
            yield lesson, lesson.drill.tempo


def _has_tempo_hold(lesson: Lesson) -> bool:
    return lesson.drill.tempo is not None and lesson.drill.tempo.has_breath_hold


def _trains_hold(course: Course, lesson: Lesson) -> bool:
    is_check = lesson.strand.aim == "observe"
    named = "breath-hold" in course.traits_by_lesson[lesson.id]
    return _has_tempo_hold(lesson) or (named and not is_check)


def _is_plain_count(course: Course, lesson: Lesson) -> bool:
    has_hold = "breath-hold" in course.traits_by_lesson[lesson.id]
    return lesson.drill.tempo is not None and not has_hold


def _describe_hold(lesson: Lesson) -> str:
    tempo = lesson.drill.tempo
    if tempo and tempo.longest_hold_seconds > PAUSE_SECONDS:
        return f"a hold of {format_seconds(tempo.longest_hold_seconds)} s"
    return "a timed hold"
