"""Files of a translation to its words; whatever is wrong with one is a finding in it."""

from collections.abc import Collection, Mapping
from datetime import date
from typing import TypeVar

from builder import rules
from builder.course.notice import Review
from builder.course.translation import CourseWords, LessonWords, NoticeWords, PlacementWords
from builder.findings import Finding
from builder.reading import body
from builder.reading.known import HeaderCheck
from builder.reading.lesson_file import dotted, make_words
from builder.reading.notice_file import find_long_line
from builder.reading.part import Part
from builder.reading.schema import ReviewPart
from builder.reading.text_file import TextFile
from builder.reading.translation.schema import (
    KINDS,
    CourseWordsFile,
    LessonWordsHeader,
    NoticeWordsHeader,
    PlacementWordsFile,
)
from builder.reading.validation import read_validated, validate
from builder.reading.yaml_tree import read_yaml

Header = TypeVar("Header", bound=Part)
Known = Mapping[str, Collection[str]]
"""Ids that a translation may use, by their kind."""


def read_lesson_words(file: TextFile, today: date) -> tuple[LessonWords | None, list[Finding]]:
    """Read a lesson's translation; None with all findings where any part of it is wrong."""
    sections, findings = body.read_sections(file)
    check, header, more = _read_header(file, LessonWordsHeader, today)
    findings += more
    if check is None or header is None:
        return None, findings
    for rule_id in header.allow:
        check.known(("allow", rule_id), rule_id, rules.RULES_BY_ID)
    words = LessonWords(
        title=header.title,
        summary=header.summary,
        words=make_words(header, sections),
        allowed=dict(header.allow),
        reviewed=_review(check, header.reviewed),
        path=file.path,
        positions=dotted(check.tree),
    )
    findings += check.findings
    return (None if findings else words), findings


def read_notice_words(file: TextFile, today: date) -> tuple[NoticeWords | None, list[Finding]]:
    """Read a notice's translation; None with all findings where any part of it is wrong."""
    check, header, findings = _read_header(file, NoticeWordsHeader, today)
    if check is None or header is None:
        return None, findings
    words = NoticeWords(
        title=header.title,
        short=header.short,
        adapt=header.adapt.strip(),
        long=file.body.strip(),
        reviewed=_review(check, header.reviewed),
        path=file.path,
        positions=dotted(check.tree),
        long_line=find_long_line(file),
    )
    findings += check.findings
    return (None if findings else words), findings


def read_course_words(
    text: str, path: str, known: Known, today: date
) -> tuple[CourseWords | None, list[Finding]]:
    """Read the course file's translation; None with all findings where any part is wrong."""
    tree, file, findings = read_validated(text, path, CourseWordsFile)
    if tree is None or file is None:
        return None, findings
    check = HeaderCheck(tree, path, today)
    vocabulary: dict[str, dict[str, dict[str, str]]] = {}
    for kind in KINDS:
        parts: Mapping[str, Part] = getattr(file, kind)
        vocabulary[kind] = {
            name: part.model_dump()
            for name, part in parts.items()
            if check.known((kind, name), name, known[kind])
        }
    words = CourseWords(
        title=file.title,
        summary=file.summary,
        caution=file.caution,
        paper=file.paper or "",
        papers=None if file.papers is None else tuple(file.papers),
        vocabulary=vocabulary,
        path=path,
        positions=dotted(tree),
    )
    findings += check.findings
    return (None if findings else words), findings


def read_placement_words(
    text: str, path: str
) -> tuple[PlacementWords | None, Mapping[str, tuple[int, int]], list[Finding]]:
    """Read the placement table's translation with the places of its texts."""
    tree, file, findings = read_validated(text, path, PlacementWordsFile)
    if tree is None or file is None:
        return None, {}, findings
    questions = {name: (part.text, dict(part.answers)) for name, part in file.questions.items()}
    starts = {strand: tuple(whys) for strand, whys in file.start.items()}
    return PlacementWords(tuple(file.ask_first), questions, starts), dotted(tree), findings


def _read_header(
    file: TextFile, model: type[Header], today: date
) -> tuple[HeaderCheck | None, Header | None, list[Finding]]:
    tree, findings = read_yaml(file.header, file.path, file.header_line)
    if tree is None:
        return None, None, findings
    header, more = validate(tree, model, file.path)
    return HeaderCheck(tree, file.path, today), header, [*findings, *more]


def _review(check: HeaderCheck, part: ReviewPart | None) -> Review | None:
    return check.review(part) if part else None
