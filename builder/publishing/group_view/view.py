"""What the page of a group says, as finished words."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from builder.course.course import Course
from builder.language import Language, language_of
from builder.planning.group import Group, GroupMember
from builder.planning.progress import Direction, Progress
from builder.planning.retest import Retest


@dataclass(frozen=True, slots=True)
class StrandCell:
    """Where one person is in one strand."""

    strand: str
    way: str
    """Which way they go, in words."""
    lesson: str
    """The next lesson; empty where there is none."""
    last: str
    """The lesson that was worked on last, where it is another one."""


@dataclass(frozen=True, slots=True)
class ToSee:
    """One thing that a coach has to see to."""

    kind: str
    what: str
    is_caution: bool


@dataclass(frozen=True, slots=True)
class MemberRow:
    """One person."""

    id: str
    name: str
    last_class: str
    cells: tuple[StrandCell, ...]
    to_see: tuple[ToSee, ...]


@dataclass(frozen=True, slots=True)
class GroupView:
    """The page."""

    language: str
    title: str
    studio: str
    caution: str
    strands: tuple[str, ...]
    rows: tuple[MemberRow, ...]
    left_out: str
    """Who is not on the page because their rows have faults; empty for nobody."""


def view_group(course: Course, group: Group, studio: str) -> GroupView:
    """Put a group into words, in the language of the course."""
    language = language_of(course.settings.language)
    strands = [each for each in course.vocabulary.strands.values() if course.lessons_of(each.id)]
    return GroupView(
        language.tag,
        language.say("The group on {day}", day=language.date(group.day)),
        studio,
        course.settings.caution,
        tuple(strand.title for strand in strands),
        tuple(_view_member(course, language, member) for member in group.members),
        _say_left_out(language, group.left_out),
    )


def _say_left_out(language: Language, ids: Sequence[str]) -> str:
    if not ids:
        return ""
    return language.say(
        "Not on this page, because their rows have faults: {people}.", people=language.all_of(ids)
    )


def _view_member(course: Course, language: Language, member: GroupMember) -> MemberRow:
    standing = member.overview.standing
    last_class = (
        language.date(standing.last_day)
        if standing.last_day
        else language.say("no class on record yet")
    )
    return MemberRow(
        member.person.id,
        member.person.name,
        last_class,
        tuple(
            _view_cell(course, language, each, standing.current.get(each.strand_id, ""))
            for each in member.overview.progress
        ),
        tuple(_list_to_see(course, language, member)),
    )


def _view_cell(course: Course, language: Language, progress: Progress, last: str) -> StrandCell:
    way = {
        Direction.START: language.say("start with"),
        Direction.FORWARD: language.say("on to"),
        Direction.STAY: language.say("stay with"),
        Direction.BACK: language.say("back to"),
        Direction.WAIT: language.say("wait"),
        Direction.DONE: language.say("all known"),
    }[progress.direction]
    strand = course.vocabulary.strands[progress.strand_id].title
    is_other = bool(last) and last != progress.lesson_id
    named_last = language.say("last: {lesson}", lesson=course.name_lesson(last)) if is_other else ""
    return StrandCell(strand, way, course.name_lesson(progress.lesson_id), named_last)


def _list_to_see(course: Course, language: Language, member: GroupMember) -> Iterator[ToSee]:
    """Yield what is to be seen to, cautions first."""
    for name in member.unanswered:
        words = language.say("no clinician's answer on record")
        yield ToSee(words, course.name_condition(name), is_caution=True)
    for name in member.old_answers:
        day = language.date(member.person.cleared[name])
        words = language.say("clinician's answer is old: ask again")
        what = language.say("{condition}, of {day}", condition=course.name_condition(name), day=day)
        yield ToSee(words, what, is_caution=True)
    if member.is_away:
        weeks = member.overview.standing.weeks_away
        what = language.say_many("{count} week", "{count} weeks", weeks)
        yield ToSee(language.say("away"), what, is_caution=True)
    for name in member.stuck:
        yield ToSee(
            language.say("stuck: look together"), course.name_lesson(name), is_caution=False
        )
    for retest in member.retests:
        yield ToSee(
            language.say("measure again"), _say_retest(course, language, retest), is_caution=False
        )


def _say_retest(course: Course, language: Language, retest: Retest) -> str:
    said = {"measure": retest.measure.title, "lesson": course.name_lesson(retest.lesson_id)}
    if retest.newest is None:
        return language.say("{measure}, in {lesson}: never measured", **said)
    day = language.date(retest.due)
    return language.say("{measure}, in {lesson}: due since {day}", day=day, **said)
