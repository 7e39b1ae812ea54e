"""The body of a lesson: four known sections of paragraphs and list items.

Nothing else may stand there, so that page and card can say the same and no text is lost
between them.
"""

import re
from collections.abc import Collection, Iterator
from dataclasses import dataclass, field

from builder import rules
from builder.course.lesson import Passage
from builder.course.names import suggest
from builder.findings import Finding, Place
from builder.input_limits import BODY_CHARACTERS, PASSAGE_CHARACTERS, PASSAGES
from builder.reading.text_file import TextFile
from builder.rules.excess import tell_excess

SET_UP, STEPS, IF_HARD, COACH_NOTES = "Set up", "Steps", "If it is hard", "Coach notes"
SECTIONS = (SET_UP, STEPS, IF_HARD, COACH_NOTES)
NEEDED_SECTIONS = (SET_UP, STEPS)

_HEADING = re.compile(r"^(#{1,6})\s+(.*)$")
_ITEM = re.compile(r"^(?P<mark>[-*+]|[0-9]+[.)])\s+(?P<text>\S.*)$")
_FOREIGN = (
    (re.compile(r"^(```|~~~)"), "a code block"),
    (re.compile(r"^>"), "a quotation"),
    (re.compile(r"^\|"), "a table"),
    (re.compile(r"^\s+([-*+]|[0-9]+[.)])\s"), "a list inside a list"),
    (re.compile(r"<[A-Za-z!/?][^<>]*>"), "HTML"),
    (re.compile(r"!\["), "a picture"),
)


@dataclass(slots=True)
class _Section:
    title: str
    line: int
    passages: list[Passage] = field(default_factory=list)
    has_unnumbered: int = 0


def read_sections(
    file: TextFile,
) -> tuple[dict[str, tuple[Passage, ...]], list[Finding]]:
    """Read the body's sections; a section that isn't there comes back empty."""
    findings: list[Finding] = []
    sections: dict[str, _Section] = {}
    if len(file.body) > BODY_CHARACTERS.most:
        return dict.fromkeys(SECTIONS, ()), [_tell_long_body(file)]
    for section in _cut(file, findings):
        if section.title in sections:
            fact = f'the section "{section.title}" stands here again'
            findings.append(_malformed(file, section.line, fact, "join the two"))
        sections.setdefault(section.title, section)
    for title in NEEDED_SECTIONS:
        if title not in sections or not any(p.text for p in sections[title].passages):
            line = sections[title].line if title in sections else file.body_line
            fact = f'the section "{title}" is missing or empty'
            findings.append(_malformed(file, line, fact, f"write it under ## {title}"))
    findings += _find_overlong(file, sections.values())
    steps = sections.get(STEPS)
    if steps and steps.has_unnumbered:
        fact = "a step has no number"
        findings.append(
            _malformed(
                file, steps.has_unnumbered, fact, "begin each step with its number and a full stop"
            )
        )
    read = {title: tuple(sections[title].passages) for title in SECTIONS if title in sections}
    return {title: read.get(title, ()) for title in SECTIONS}, findings


def _tell_long_body(file: TextFile) -> Finding:
    place = Place(file.path, file.body_line)
    return tell_excess(place, BODY_CHARACTERS, len(file.body), "shorten it", "the body")


def _find_overlong(file: TextFile, sections: Collection[_Section]) -> Iterator[Finding]:
    count = sum(1 for section in sections for passage in section.passages if passage.text)
    if count > PASSAGES.most:
        place = Place(file.path, file.body_line)
        yield tell_excess(place, PASSAGES, count, "make two lessons of it", "the lesson")
    for section in sections:
        for passage in section.passages:
            if len(passage.text) > PASSAGE_CHARACTERS.most:
                place, length = Place(file.path, passage.line), len(passage.text)
                yield tell_excess(place, PASSAGE_CHARACTERS, length, "part it", "the passage")


def _cut(file: TextFile, findings: list[Finding]) -> Iterator[_Section]:
    section: _Section | None = None
    for line, text in enumerate(file.body.split("\n"), start=file.body_line):
        heading = _HEADING.match(text)
        if heading:
            if section:
                yield section
            section = _open(file, line, heading, findings)
        elif text.strip():
            _take(file, line, text, section, findings)
        elif section:
            section.passages.append(Passage("", line))
    if section:
        yield section


def _open(file: TextFile, line: int, heading: re.Match[str], findings: list[Finding]) -> _Section:
    title = heading[2].rstrip().rstrip("#").rstrip()
    known = {name.lower(): name for name in SECTIONS}
    if heading[1] != "##" or title.lower() not in known:
        cure = suggest(f"## {title}", [f"## {name}" for name in SECTIONS])
        fact = f'"{heading[0].strip()}" is no section of a lesson'
        cure = cure or f"use ## with one of {', '.join(SECTIONS)}"
        findings.append(_malformed(file, line, fact, cure))
    return _Section(known.get(title.lower(), title), line)


def _take(
    file: TextFile, line: int, text: str, section: _Section | None, findings: list[Finding]
) -> None:
    for pattern, what in _FOREIGN:
        if pattern.search(text):
            fact = f"{what} stands here, which a card can't show"
            findings.append(_malformed(file, line, fact, "use plain paragraphs and lists"))
            return
    if section is None:
        fact = "text stands before the first section"
        findings.append(_malformed(file, line, fact, f"start the body with ## {SET_UP}"))
        return
    _add(section, line, text)


def _add(section: _Section, line: int, text: str) -> None:
    item = _ITEM.match(text)
    passages = section.passages
    if item:
        if not item["mark"][0].isdigit():
            section.has_unnumbered = section.has_unnumbered or line
        passages.append(Passage(item["text"].strip(), line))
    elif passages and passages[-1].text:
        passages[-1] = Passage(f"{passages[-1].text} {text.strip()}", passages[-1].line)
    else:
        section.has_unnumbered = section.has_unnumbered or line
        passages.append(Passage(text.strip(), line))


def _malformed(file: TextFile, line: int, fact: str, cure: str) -> Finding:
    return rules.BODY_MALFORMED.at(Place(file.path, line), fact, cure)
