"""What the page of a group says, as finished words."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from builder.course.course import Course
from builder.findings import spell_out
from builder.language import Language, language_of
from builder.planning.group import Group, GroupMember
from builder.planning.measured_days import has_many_readers
from builder.planning.progress import Direction, Progress
from builder.planning.retest import Retest
from builder.records.studio import StudioSettings
from builder.sums.paper import Paper, choose_sheet


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
    """What a coach has to see to with one person, under a heading."""

    id: str
    name: str
    what: str
    """Empty where the heading says it all."""


@dataclass(frozen=True, slots=True)
class ToSeeGroup:
    """Everybody with whom the same has to be seen to."""

    kind: str
    is_caution: bool
    people: tuple[ToSee, ...]


@dataclass(frozen=True, slots=True)
class MemberRow:
    """Where one person is."""

    id: str
    name: str
    last_class: str
    cells: tuple[StrandCell, ...]


@dataclass(frozen=True, slots=True)
class GroupView:
    """The page."""

    language: str
    title: str
    studio: str
    caution: str
    to_see: tuple[ToSeeGroup, ...]
    """Cautions first; without a kind that holds for nobody."""
    strands: tuple[str, ...]
    rows: tuple[MemberRow, ...]
    left_out: str
    """Who is not on the page because their rows have faults; empty for nobody."""
    paper: Paper


def view_group(course: Course, group: Group, studio: StudioSettings) -> GroupView:
    """Put a group into words, in the language of the course."""
    language = language_of(course.settings.language)
    strands = [each for each in course.vocabulary.strands.values() if course.lessons_of(each.id)]
    return GroupView(
        language.tag,
        language.say("The group on {day}", day=language.date(group.day)),
        studio.name,
        course.settings.caution,
        tuple(_group_to_see(course, language, group.members)),
        tuple(strand.title for strand in strands),
        tuple(_view_member(course, language, member) for member in group.members),
        _say_left_out(language, group.left_out),
        choose_sheet(studio.paper),
    )


def _say_left_out(language: Language, ids: Sequence[str]) -> str:
    if not ids:
        return ""
    people = language.all_of([spell_out(each) for each in ids])
    return language.say(
        "Not on this page, because their rows have faults: {people}.", people=people
    )


def _view_member(course: Course, language: Language, member: GroupMember) -> MemberRow:
    standing = member.overview.standing
    last_class = (
        language.say("last class: {day}", day=language.short_date(standing.last_day))
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


def _group_to_see(
    course: Course, language: Language, members: Sequence[GroupMember]
) -> Iterator[ToSeeGroup]:
    """Yield what is to be seen to, cautions first, and then with whom nothing is."""
    told = [_Told(course, language, member) for member in members]
    kinds: tuple[tuple[str, bool, Callable[[_Told], str]], ...] = (
        (language.say("No clinician's answer on record"), True, _Told.say_unanswered),
        (language.say("A clinician's answer is old: ask again"), True, _Told.say_old_answers),
        (language.say("Away for six weeks or more"), True, _Told.say_away),
        (language.say("Stuck: look together"), False, _Told.say_stuck),
        (language.say("Measure again: what is due, and since when"), False, _Told.say_retests),
    )
    quiet = list(told)
    for title, is_caution, say in kinds:
        said = [(each, words) for each in told if (words := say(each))]
        quiet = [each for each in quiet if not say(each)]
        if said:
            people = tuple(ToSee(*each.named, words) for each, words in said)
            yield ToSeeGroup(title, is_caution, people)
    if quiet:
        people = tuple(ToSee(*each.named, "") for each in quiet)
        yield ToSeeGroup(
            language.say("Nothing on record to see to"), is_caution=False, people=people
        )


@dataclass(frozen=True, slots=True)
class _Told:
    """What is told of one member; empty words where there is nothing."""

    course: Course
    language: Language
    member: GroupMember

    @property
    def named(self) -> tuple[str, str]:
        """Return id and name."""
        return self.member.person.id, self.member.person.name

    def say_unanswered(self) -> str:
        """Name the conditions without an answer."""
        return ", ".join(self.course.name_condition(name) for name in self.member.unanswered)

    def say_old_answers(self) -> str:
        """Name the conditions whose answer is old, with its day."""
        return ", ".join(
            self.language.say(
                "{condition}, of {day}",
                condition=self.course.name_condition(name),
                day=self.language.date(self.member.person.cleared[name]),
            )
            for name in self.member.old_answers
        )

    def say_away(self) -> str:
        """Say for how many weeks somebody was away."""
        weeks = self.member.overview.standing.weeks_away
        return (
            self.language.say_many("{count} week", "{count} weeks", weeks)
            if self.member.is_away
            else ""
        )

    def say_stuck(self) -> str:
        """Name the lessons that somebody is stuck at."""
        return ", ".join(self.course.name_lesson(name) for name in self.member.stuck)

    def say_retests(self) -> str:
        """Name the measures that are due: those never read, then the oldest first."""
        ordered = sorted(self.member.retests, key=lambda each: (each.newest is not None, each.due))
        return "; ".join(_say_retest(self.course, self.language, each) for each in ordered)


def _say_retest(course: Course, language: Language, retest: Retest) -> str:
    """Name a measure, with its lesson where several record it, and since when it is due."""
    named = retest.measure.title
    if has_many_readers(course, retest.measure.id):
        lesson = course.name_lesson(retest.lesson_id)
        named = language.say("{measure}, {lesson}", measure=named, lesson=lesson)
    if retest.newest is None:
        return language.say("{measure} (never)", measure=named)
    day = language.short_date(retest.due)
    return language.say("{measure} ({day})", measure=named, day=day)
