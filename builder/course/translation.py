"""A course in another language: the same drills, order and notices in other words.

A translation holds words and nothing else. What a drill asks of the body, what comes before it and
which notices it carries is always the original's, so no translation can change it.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from typing import TypeVar

from builder.course.course import Course, Settings
from builder.course.lesson import Lesson, Words
from builder.course.notice import Instead, Notice, Review
from builder.course.placement import Placement, Question, StrandStart
from builder.course.release import Ledger
from builder.course.trait import Trait
from builder.course.vocabulary import PropUse, Vocabulary
from builder.findings import Place

Positions = Mapping[str, tuple[int, int]]
Value = TypeVar("Value")


@dataclass(frozen=True, slots=True)
class LessonWords:
    """What a lesson says in another language."""

    title: str
    summary: str
    words: Words
    allowed: Mapping[str, str]
    """Rule id to the reason why this translation may break it."""
    reviewed: Review | None
    """Who looked the translation over; None where nobody did."""
    path: str
    positions: Positions


@dataclass(frozen=True, slots=True)
class NoticeWords:
    """What a notice says in another language."""

    title: str
    short: str
    adapt: str
    long: str
    reviewed: Review | None
    path: str
    positions: Positions
    long_line: int


@dataclass(frozen=True, slots=True)
class CourseWords:
    """What the course file says in another language; words by id, field by field."""

    title: str
    summary: str
    caution: str
    paper: str
    """The size printed when nobody asks for another; empty for the original's."""
    papers: tuple[str, ...] | None
    """The sizes that its cards fit on; None where words are no longer than the original's."""
    vocabulary: Mapping[str, Mapping[str, Mapping[str, str]]]
    """Kind of word, such as ``props``, to id, to field, to words."""
    path: str
    positions: Positions


@dataclass(frozen=True, slots=True)
class PlacementWords:
    """What the placement table says in another language."""

    ask_first: tuple[str, ...]
    questions: Mapping[str, tuple[str, Mapping[str, str]]]
    """Question id to its text and its answers by id."""
    starts: Mapping[str, tuple[str, ...]]
    """Strand to the reason of each way into it, in order."""


@dataclass(frozen=True, slots=True)
class Translation:
    """Everything that was translated into one language."""

    language: str
    """BCP 47."""
    course: CourseWords
    strands: tuple[str, ...]
    """The strands that this language has."""
    lessons: Mapping[str, LessonWords] = field(default_factory=dict)
    notices: Mapping[str, NoticeWords] = field(default_factory=dict)
    placement: PlacementWords | None = None
    glossary: Mapping[str, str] = field(default_factory=dict)
    ledger: Ledger | None = None


def translate_course(course: Course, translation: Translation) -> Course:
    """Return a course in another language.

    It has the lessons that are translated and whose whole way up to them is; a notice that isn't
    translated stays as it is, because a caution in the wrong language is better than none.
    """
    vocabulary = _translate_vocabulary(course.vocabulary, translation)
    lessons = tuple(
        _translate_lesson(lesson, translation.lessons[lesson.id], vocabulary)
        for lesson in course.lessons
        if lesson.id in list_reachable(course, translation)
    )
    return replace(
        course,
        settings=_translate_settings(course.settings, translation),
        vocabulary=vocabulary,
        traits=_translate_traits(course.traits, translation),
        lessons=lessons,
        notices=tuple(
            _translate_notice(notice, translation.notices.get(notice.id), vocabulary)
            for notice in course.notices
        ),
        glossary=translation.glossary,
        placement=_translate_placement(course.placement, translation),
        ledger=translation.ledger,
        translations={},
    )


def list_reachable(course: Course, translation: Translation) -> frozenset[str]:
    """Return the translated lessons that build on none that isn't translated, however far back."""
    reachable: set[str] = set()
    for name in course.teaching_order:
        lesson = course.by_id[name]
        is_there = name in translation.lessons and lesson.strand.id in translation.strands
        if is_there and set(lesson.builds_on) <= reachable:
            reachable.add(name)
    return frozenset(reachable)


def _translate_settings(settings: Settings, translation: Translation) -> Settings:
    words = translation.course
    address = settings.address and f"{settings.address.rstrip('/')}/{translation.language}/"
    return replace(
        settings,
        title=words.title,
        summary=words.summary,
        caution=words.caution,
        paper=words.paper or settings.paper,
        papers=words.papers,
        language=translation.language,
        address=address,
        path=words.path,
        positions=words.positions,
        translated_from=settings.language,
    )


def _translate_vocabulary(vocabulary: Vocabulary, translation: Translation) -> Vocabulary:
    def reword(kind: str, values: Mapping[str, Value]) -> dict[str, Value]:
        said = translation.course.vocabulary.get(kind, {})
        return {name: _reword(value, said.get(name, {})) for name, value in values.items()}

    strands = {name: vocabulary.strands[name] for name in translation.strands}
    return replace(
        vocabulary,
        strands=reword("strands", strands),
        positions=reword("positions", vocabulary.positions),
        props=reword("props", vocabulary.props),
        conditions=reword("conditions", vocabulary.conditions),
        measures=reword("measures", vocabulary.measures),
    )


def _translate_traits(traits: Mapping[str, Trait], translation: Translation) -> dict[str, Trait]:
    said = translation.course.vocabulary.get("traits", {})
    return {name: _reword(trait, said.get(name, {})) for name, trait in traits.items()}


def _reword(value: Value, words: Mapping[str, str]) -> Value:
    """Put other words into a value of the vocabulary."""
    change: Callable[..., Value] = replace  # a frozen value of ours
    return change(value, **words) if words else value


def _translate_lesson(lesson: Lesson, words: LessonWords, vocabulary: Vocabulary) -> Lesson:
    drill = lesson.drill
    return replace(
        lesson,
        title=words.title,
        summary=words.summary,
        strand=vocabulary.strands[lesson.strand.id],
        drill=replace(
            drill,
            position=vocabulary.positions[drill.position.id],
            props=_translate_props(drill.props, vocabulary),
        ),
        words=words.words,
        measures=tuple(vocabulary.measures[measure.id] for measure in lesson.measures),
        allowed=words.allowed,
        reviewed=words.reviewed,
        path=words.path,
        positions=words.positions,
    )


def _translate_props(props: tuple[PropUse, ...], vocabulary: Vocabulary) -> tuple[PropUse, ...]:
    return tuple(replace(use, prop=vocabulary.props[use.prop.id]) for use in props)


def _translate_notice(notice: Notice, words: NoticeWords | None, vocabulary: Vocabulary) -> Notice:
    moved = replace(notice, instead=_translate_instead(notice.instead, vocabulary))
    if words is None:
        return moved
    return replace(
        moved,
        title=words.title,
        short=words.short,
        adapt=words.adapt,
        long=words.long,
        reviewed=words.reviewed,
        place=Place(words.path),
        positions=dict(words.positions),
        long_line=words.long_line,
    )


def _translate_instead(instead: Instead | None, vocabulary: Vocabulary) -> Instead | None:
    """Say the same position and props; where a lesson is done is the original's to decide."""
    if instead is None:
        return None
    position = vocabulary.positions[instead.position.id]
    return Instead(position, _translate_props(instead.props, vocabulary))


def _translate_placement(placement: Placement | None, translation: Translation) -> Placement | None:
    """Return the table for the strands that there are; none where it isn't translated."""
    words = translation.placement
    if placement is None or words is None:
        return None
    return Placement(
        words.ask_first,
        tuple(_translate_question(question, words) for question in placement.questions),
        tuple(
            _translate_start(start, words)
            for start in placement.starts
            if start.strand_id in translation.strands
        ),
    )


def _translate_question(question: Question, words: PlacementWords) -> Question:
    text, answers = words.questions[question.id]
    return replace(question, text=text, answers={name: answers[name] for name in question.answers})


def _translate_start(start: StrandStart, words: PlacementWords) -> StrandStart:
    said = zip(start.ways, words.starts[start.strand_id], strict=True)
    return replace(start, ways=tuple(replace(way, why=why) for way, why in said))
