"""An ordinary page in a course that lacks some lessons: no sentence speaks of what isn't there.

Whole sentences go, then list items, table rows and sections that have nothing left.
"""

import re
from collections.abc import Collection, Iterator
from dataclasses import dataclass, field

from builder.starting.choice import LESSON_NAME

_HEADING = re.compile(r"(?P<marks>#{1,6})\s+(?P<title>.*?)\s*#*$")
_FENCE = re.compile(r"\s*(```|~~~)")
_ITEM = re.compile(r"(?P<indent>\s*)(?P<mark>[-*+]|(?P<number>[0-9]+)[.)])(?P<gap>\s+)(?P<text>.*)")
_SENTENCE_END = re.compile(r"(?<=[.!?])\s+(?=[A-Z\[*_“\"(])")
_LESSON_LINK = re.compile(r"\]\((?:\./)?lessons/(?P<strand>[^/)#]+)/(?P<lesson>[^/)#.]*)")


@dataclass(frozen=True, slots=True)
class Missing:
    """What a chosen course lacks: lessons by id, strands by id and title."""

    lessons: frozenset[str]
    strands: frozenset[str]
    strand_titles: tuple[str, ...]

    def spoken_of(self, text: str) -> bool:
        """Tell whether a text names or links to something that isn't there."""
        if any(name.strip() in self.lessons for name in LESSON_NAME.findall(text)):
            return True
        links = _LESSON_LINK.finditer(text)
        return any(
            link["strand"] in self.strands or link["lesson"] in self.lessons for link in links
        )

    def is_about(self, heading: str) -> bool:
        """Tell whether a heading is the title of a strand that isn't there."""
        words = heading.casefold()
        return any(
            re.match(rf"{re.escape(title.casefold())}(?!\w)", words) for title in self.strand_titles
        )


@dataclass(slots=True)
class _Block:
    """Lines that belong together: a heading, a list item, a paragraph, a row or a blank."""

    lines: list[str]
    depth: int = 0
    """The level of a heading; 0 for anything else."""
    is_code: bool = False

    @property
    def text(self) -> str:
        return "\n".join(self.lines)


@dataclass(slots=True)
class _Section:
    heading: _Block | None
    blocks: list[_Block] = field(default_factory=list)
    had_text: bool = False

    @property
    def depth(self) -> int:
        return self.heading.depth if self.heading else 0

    @property
    def has_text(self) -> bool:
        return any(block.text.strip() for block in self.blocks)


def leave_out(text: str, missing: Missing) -> str:
    """Return a page's Markdown without what speaks of missing lessons; as it is if none does."""
    header, body = _split(text)
    if not _concerns(body, missing):
        return text
    sections = [_thin(section, missing) for section in _cut(body)]
    kept = list(_drop_empty(_drop_strands(sections, missing)))
    blocks = [block for section in kept for block in (section.heading, *section.blocks) if block]
    lines = "\n".join(line for block in blocks for line in block.lines)
    return header + re.sub(r"\n{3,}", "\n\n", lines).rstrip("\n") + "\n"


def _concerns(body: str, missing: Missing) -> bool:
    headings = (match for match in map(_HEADING.fullmatch, body.split("\n")) if match)
    return missing.spoken_of(body) or any(missing.is_about(match["title"]) for match in headings)


def _split(text: str) -> tuple[str, str]:
    """Part the header from the body; the header stays as it is."""
    if not text.startswith("---\n"):
        return "", text
    end = text.find("\n---\n", 3)
    return (text[: end + 5], text[end + 5 :]) if end >= 0 else ("", text)


def _cut(body: str) -> Iterator[_Section]:
    section = _Section(None)
    for block in _blocks(body):
        if block.depth:
            yield section
            section = _Section(block)
        else:
            section.blocks.append(block)
            section.had_text = section.had_text or bool(block.text.strip())
    yield section


def _blocks(body: str) -> Iterator[_Block]:
    open_block: _Block | None = None
    in_code = False
    for line in body.split("\n"):
        fence = _FENCE.match(line)
        heading = None if in_code or fence else _HEADING.fullmatch(line)
        goes_on = open_block is not None and not fence and not heading and _goes_on(line)
        if open_block and (in_code or (goes_on and not open_block.is_code)):
            open_block.lines.append(line)
        else:
            if open_block:
                yield open_block
            depth = len(heading["marks"]) if heading else 0
            open_block = _Block([line], depth, is_code=bool(fence))
        if fence:
            in_code = not in_code
        elif open_block.depth or not line.strip():
            yield open_block
            open_block = None
    if open_block:
        yield open_block


def _goes_on(line: str) -> bool:
    """Tell whether a line belongs to the block before it."""
    return bool(line.strip()) and not _ITEM.fullmatch(line) and not line.startswith("|")


def _thin(section: _Section, missing: Missing) -> _Section:
    """Take the sentences out that speak of missing lessons, and number lists anew."""
    thinned = [_thin_block(block, missing) for block in section.blocks]
    kept = [block for block in thinned if block is not None]
    if len(kept) < len(thinned):
        kept = list(_number_anew(kept))
    return _Section(section.heading, kept, section.had_text)


def _thin_block(block: _Block, missing: Missing) -> _Block | None:
    """Return what is left of a block; None where nothing is."""
    if block.is_code or not missing.spoken_of(block.text):
        return block
    if block.lines[0].startswith("|"):
        return None
    item = _ITEM.fullmatch(block.lines[0])
    mark = block.lines[0][: item.start("text")] if item else ""
    words = " ".join(" ".join((block.lines[0][len(mark) :], *block.lines[1:])).split())
    kept = [part for part in _SENTENCE_END.split(words) if not missing.spoken_of(part)]
    return _Block([mark + " ".join(kept)]) if kept else None


def _number_anew(blocks: Collection[_Block]) -> Iterator[_Block]:
    """Count each numbered list up by one again."""
    last: dict[str, int] = {}
    for block in blocks:
        item = _ITEM.fullmatch(block.lines[0])
        if item and item["number"]:
            indent = item["indent"]
            last[indent] = last[indent] + 1 if indent in last else 1
            start, end = item.span("number")
            first = f"{block.lines[0][:start]}{last[indent]}{block.lines[0][end:]}"
            yield _Block([first, *block.lines[1:]])
        else:
            if block.text.strip() and not block.lines[0].startswith(" "):
                last = {}
            yield block


def _drop_strands(sections: Collection[_Section], missing: Missing) -> Iterator[_Section]:
    """Leave out sections about missing strands, with the sections inside them."""
    dropping = 0
    for section in sections:
        if dropping and (section.depth > dropping or not section.depth):
            continue
        dropping = 0
        heading = _HEADING.fullmatch(section.heading.lines[0]) if section.heading else None
        if heading and missing.is_about(heading["title"]):
            dropping = section.depth
        else:
            yield section


def _drop_empty(sections: Iterator[_Section]) -> Iterator[_Section]:
    """Leave out headings whose text has all gone, unless a smaller heading follows."""
    listed = list(sections)
    for at, section in enumerate(listed):
        following = listed[at + 1].depth if at + 1 < len(listed) else 0
        if section.has_text or not section.had_text or following > section.depth:
            yield section
