"""All files of one language to the course in that language, with every problem of them."""

import os
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from functools import partial
from pathlib import Path
from typing import TypeVar

from builder import rules
from builder.course.course import Course, Scope
from builder.course.release import Ledger
from builder.course.translation import (
    CourseWords,
    LessonWords,
    NoticeWords,
    PlacementWords,
    Translation,
    list_reachable,
    translate_course,
)
from builder.findings import Finding, Place
from builder.reading.opened_files import OpenedFiles
from builder.reading.pages import Page, read_glossary, read_page_text
from builder.reading.references import find_foreign_parts, find_wrong_references
from builder.reading.releases_file import LEDGER_FILE, read_ledger
from builder.reading.text_file import TextFile, split_header
from builder.reading.translation.compare import Pair, compare
from builder.reading.translation.files import (
    read_course_words,
    read_lesson_words,
    read_notice_words,
    read_placement_words,
)
from builder.reading.translation.kept import name_kept, read_kept
from builder.reading.translation.names import name_translation
from builder.reading.translation.originals import Kind, Original, list_originals
from builder.reading.translation.parts import (
    Parts,
    list_course_words_parts,
    list_lesson_parts,
    list_notice_parts,
    list_page_parts,
    list_placement_words_parts,
)
from builder.reading.translation.places import find_key, find_lesson_place, find_notice_place
from builder.reading.translation.schema import KINDS
from builder.sums.paper import find_usual_card

Words = TypeVar("Words", LessonWords, NoticeWords)
Placer = Callable[[str, int], Place]


@dataclass(frozen=True, slots=True)
class TranslationReading:
    """One language of a course, as far as it is sound."""

    course: Course | None
    """None where the course file has no translation that can be read."""
    pages: tuple[Page, ...]
    findings: tuple[Finding, ...]


def read_translation(
    folders: tuple[Path, Path], course: Course, pages: tuple[Page, ...], language: str, today: date
) -> TranslationReading:
    """Read one language of a course; ``folders`` are the project's and its content folder."""
    scope = course.settings.languages[language]
    reader = _Reader(*folders, course, language, scope, today)
    for original in list_originals(course, pages, scope):
        reader.read(original)
    ledger = reader.read_ledger()
    said = tuple(reader.pages)
    if reader.course_words is None:
        return TranslationReading(None, said, tuple(reader.findings))
    translation = Translation(
        language=language,
        course=reader.course_words,
        strands=scope.strands,
        lessons=reader.lessons,
        notices=reader.notices,
        placement=reader.placement,
        glossary=read_glossary(said),
        ledger=ledger,
    )
    reader.refuse_references(translation)
    translated = translate_course(course, translation)
    return TranslationReading(translated, said, tuple(reader.findings))


@dataclass(slots=True)
class _Reader:
    root: Path
    folder: Path
    course: Course
    language: str
    scope: Scope
    today: date
    findings: list[Finding] = field(default_factory=list)
    texts: dict[str, str] = field(default_factory=dict)
    """What was read, by path."""
    course_words: CourseWords | None = None
    placement: PlacementWords | None = None
    lessons: dict[str, LessonWords] = field(default_factory=dict)
    notices: dict[str, NoticeWords] = field(default_factory=dict)
    pages: list[Page] = field(default_factory=list)
    files: OpenedFiles = field(init=False)

    def __post_init__(self) -> None:
        self.files = OpenedFiles(self.root, self.folder, self.findings, self.course.settings.trust)

    def read(self, original: Original) -> None:
        """Read the translation of one file, or say that there is none."""
        text, path = self._open(original.within)
        if text is None:
            if path:
                self.findings.append(_tell_missing(original, path, self.language))
            return
        match original.kind:
            case Kind.COURSE:
                self._read_course(original, text, path)
            case Kind.PLACEMENT:
                self._read_placement(original, text, path)
            case Kind.LESSON:
                words = self._read_words(text, path, read_lesson_words)
                if words:
                    self.lessons[original.id] = words
                    place = partial(find_lesson_place, words)
                    self._compare(original, list_lesson_parts(words), place)
            case Kind.NOTICE:
                notice = self._read_words(text, path, read_notice_words)
                if notice:
                    self.notices[original.id] = notice
                    place = partial(find_notice_place, notice)
                    self._compare(original, list_notice_parts(notice), place)
            case Kind.PAGE:
                self._read_page(original, text, path)

    def read_ledger(self) -> Ledger | None:
        """Read what was released in this language, where it keeps a ledger."""
        text, path = self._open(LEDGER_FILE)
        if text is None:
            return None
        ledger, findings = read_ledger(text, path, self.today)
        self.findings += findings
        return ledger

    def refuse_references(self, translation: Translation) -> None:
        """Note what texts point to and isn't there in this language."""
        there = list_reachable(self.course, translation)
        for name in translation.lessons:
            if name not in there:
                self.findings.append(_tell_left_out(self.course, translation, name, there))
        for path, text in self.texts.items():
            self.findings += find_wrong_references(text, path, there)

    def _open(self, within: str) -> tuple[str | None, str]:
        """Return a translation's text and its path; no path where the text can't be read."""
        path = self.folder / name_translation(within, self.language)
        name = path.relative_to(self.root).as_posix()
        if not os.path.lexists(path):
            return None, name
        text = self.files.open(path)
        return text, name if text is not None else ""

    def _read_course(self, original: Original, text: str, path: str) -> None:
        course = self.course
        known = {kind: getattr(course.vocabulary, kind, course.traits) for kind in KINDS}
        words, findings = read_course_words(text, path, known, self.today)
        self.findings += findings
        if words:
            paper = words.paper or find_usual_card(self.language)
            self.course_words = replace(words, paper=paper)
            place = partial(_find_dotted, path, words.positions)
            self._compare(original, list_course_words_parts(words, self.scope), place)

    def _read_placement(self, original: Original, text: str, path: str) -> None:
        words, positions, findings = read_placement_words(text, path)
        self.findings += findings
        if words is None:
            return
        before = len(self.findings)
        parts = list_placement_words_parts(words, self.scope.strands)
        self._compare(original, parts, partial(_find_dotted, path, positions))
        unlike = any(f.rule is rules.TRANSLATION_UNLIKE for f in self.findings[before:])
        unlike |= any(len(parts[name]) != len(texts) for name, texts in original.parts.items())
        self.placement = None if unlike else words

    def _read_words(
        self,
        text: str,
        path: str,
        read_words: Callable[[TextFile, date], tuple[Words | None, list[Finding]]],
    ) -> Words | None:
        self.texts[path] = text
        self.findings += find_foreign_parts(text, path)
        file, findings = split_header(text, path)
        self.findings += findings
        if file is None:
            return None
        answer: tuple[Words | None, list[Finding]] = read_words(file, self.today)
        self.findings += answer[1]
        return answer[0]

    def _read_page(self, original: Original, text: str, path: str) -> None:
        self.texts[path] = text
        self.findings += find_foreign_parts(text, path)
        page, findings = read_page_text(text, path, original.within)
        self.findings += findings
        if page:
            self.pages.append(page)
            self._compare(original, list_page_parts(page), lambda _name, _index: Place(path))

    def _compare(self, original: Original, translated: Parts, place: Placer) -> None:
        kept = read_kept(self.folder / name_kept(original.within, self.language))
        languages = self.course.settings.language, self.language
        pair = Pair(original, translated, kept, place, languages)
        self.findings += compare(pair)


def _find_dotted(
    path: str, positions: Mapping[str, tuple[int, int]], name: str, index: int
) -> Place:
    return find_key(path, positions, f"{name}.{index}")


def _tell_missing(original: Original, path: str, language: str) -> Finding:
    is_notice = original.kind is Kind.NOTICE
    rule = rules.NOTICE_UNTRANSLATED if is_notice else rules.TRANSLATION_MISSING
    return rule.at(
        original.place,
        f'the {original.kind} has no translation into "{language}"',
        f"write {path}; a draft comes from: tempoleaf translate {language} --draft",
    )


def _tell_left_out(
    course: Course, translation: Translation, name: str, there: frozenset[str]
) -> Finding:
    before = [each for each in course.by_id[name].builds_on if each not in there]
    words = translation.lessons[name]
    return rules.WAY_UNTRANSLATED.at(
        find_key(words.path, words.positions, "title"),
        f'the lesson is left out of "{translation.language}", because it builds on '
        f"{', '.join(before)}, which is not there",
        "translate what it builds on",
    )
