"""The words of a file part by part, under the same names in the original and in a translation."""

from collections.abc import Iterable, Mapping

from builder.course.course import Settings
from builder.course.lesson import Lesson, Passage
from builder.course.lesson import Words as LessonBody
from builder.course.notice import Notice
from builder.course.placement import Placement
from builder.course.trait import Trait
from builder.course.translation import CourseWords, LessonWords, NoticeWords, PlacementWords
from builder.course.vocabulary import Vocabulary
from builder.reading.pages import Page
from builder.reading.translation.schema import KINDS

Parts = Mapping[str, tuple[str, ...]]
"""Name of a part, such as ``step``, to its texts in order; empty parts are left out."""

LONG_TEXT = "paragraph"
"""The part whose number may differ: another language may cut a long text otherwise."""
_FIELDS = ("title", "term", "summary", "stand_in", "unit")
"""What a word of the vocabulary says to people."""


def list_lesson_parts(lesson: Lesson | LessonWords) -> Parts:
    """Return what a lesson says."""
    words = lesson.words
    return _fill(
        {
            "title": (lesson.title,),
            "summary": (lesson.summary,),
            **_list_cues(words),
            "watch for": words.watch_for,
            "ready when": words.ready_when,
            "stop if": words.stop_if,
            "set-up": _texts(words.set_up),
            "step": _texts(words.steps),
            "if it is hard": _texts(words.if_hard),
            "coach note": _texts(words.coach_notes),
        }
    )


def list_notice_parts(notice: Notice | NoticeWords) -> Parts:
    """Return what a notice says, its long text paragraph by paragraph."""
    return _fill(
        {
            "title": (notice.title,),
            "short": (notice.short,),
            "adapt": (notice.adapt,),
            LONG_TEXT: _split(notice.long),
        }
    )


def list_page_parts(page: Page) -> Parts:
    """Return what a page says, paragraph by paragraph."""
    return _fill(
        {
            "title": (page.title,),
            "description": (page.description,),
            LONG_TEXT: _split(page.markdown),
        }
    )


def list_course_parts(
    settings: Settings, vocabulary: Vocabulary, own_traits: Iterable[Trait]
) -> Parts:
    """Return what the course file says."""
    parts: dict[str, tuple[str, ...]] = {
        name: (getattr(settings, name),) for name in ("title", "summary", "caution")
    }
    words: dict[str, Mapping[str, object]] = {
        kind: getattr(vocabulary, kind) for kind in KINDS if kind != "traits"
    }
    words["traits"] = {trait.id: trait for trait in own_traits}
    for kind in KINDS:
        for name, value in words[kind].items():
            for key in _FIELDS:
                parts[f"{kind}.{name}.{key}"] = (getattr(value, key, ""),)
    return _fill(parts)


def list_course_words_parts(words: CourseWords) -> Parts:
    """Return what a course file's translation says."""
    parts: dict[str, tuple[str, ...]] = {
        name: (getattr(words, name),) for name in ("title", "summary", "caution")
    }
    for kind, names in words.vocabulary.items():
        for name, fields in names.items():
            parts |= {f"{kind}.{name}.{key}": (text,) for key, text in fields.items()}
    return _fill(parts)


def list_placement_parts(placement: Placement, strands: Iterable[str]) -> Parts:
    """Return what the placement table says of some strands."""
    wanted = frozenset(strands)
    parts: dict[str, tuple[str, ...]] = {"ask_first": placement.ask_first}
    for question in placement.questions:
        parts[f"questions.{question.id}.text"] = (question.text,)
        for name, answer in question.answers.items():
            parts[f"questions.{question.id}.answers.{name}"] = (answer,)
    for start in placement.starts:
        if start.strand_id in wanted:
            parts[f"start.{start.strand_id}"] = tuple(way.why for way in start.ways)
    return _fill(parts)


def list_placement_words_parts(words: PlacementWords, strands: Iterable[str]) -> Parts:
    """Return what a placement table's translation says of some strands."""
    wanted = frozenset(strands)
    parts: dict[str, tuple[str, ...]] = {"ask_first": words.ask_first}
    for question, (text, answers) in words.questions.items():
        parts[f"questions.{question}.text"] = (text,)
        parts |= {f"questions.{question}.answers.{name}": (said,) for name, said in answers.items()}
    parts |= {f"start.{name}": whys for name, whys in words.starts.items() if name in wanted}
    return _fill(parts)


def _list_cues(words: LessonBody) -> dict[str, tuple[str, ...]]:
    if words.cues is None:
        return {}
    return {"in-breath cue": (words.cues.inhale,), "out-breath cue": (words.cues.exhale,)}


def _texts(passages: Iterable[Passage]) -> tuple[str, ...]:
    return tuple(passage.text for passage in passages)


def _split(markdown: str) -> tuple[str, ...]:
    """Cut a text at its blank lines, with the white space of each piece folded."""
    blocks = markdown.replace("\r", "").split("\n\n")
    return tuple(" ".join(block.split()) for block in blocks if block.strip())


def _fill(parts: Mapping[str, tuple[str, ...]]) -> Parts:
    filled = {name: tuple(text for text in texts if text) for name, texts in parts.items()}
    return {name: texts for name, texts in filled.items() if texts}
