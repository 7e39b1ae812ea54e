"""What stands in a page's content: which words under which mark, and what has no mark."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field

import pikepdf

from builder.publishing.proof.structure.fonts import NO_FONT, FontReading, read_font
from builder.publishing.proof.structure.objects import (
    Key,
    read_dictionary,
    read_name,
    read_number,
)

_SHOWS = {"Tj", "TJ", "'", '"'}
_PAINTS = {"f", "F", "f*", "B", "B*", "b", "b*", "S", "s", "sh", "INLINE IMAGE", "EI"}
_READ = f"q Q BDC BMC EMC Tf Do BI {' '.join((*_SHOWS, *_PAINTS))}"
_NEEDY = {"BMC", "BDC", "Tf", "Do", *_SHOWS}
"""These do something with what stands before them."""
_ARTIFACT = -1
"""Stands for a mark of what is no part of the text."""
_DEEPEST = 16
"""Forms within forms: ours have two."""


@dataclass(slots=True)
class ContentReading:
    """What stands in the contents of a file; a spot is its stream and its number in there."""

    words: dict[tuple[Key, int], str] = field(default_factory=dict)
    """Every marked spot, in the order in which they are drawn."""
    stray: list[str] = field(default_factory=list)
    """What is neither marked as part of the text nor as none."""
    tangled: list[str] = field(default_factory=list)
    """Marks that don't close, or stand in one another as they may not."""
    codes: dict[str, set[int]] = field(default_factory=dict)
    """Codes that are shown, by the key of their font."""
    fonts: dict[str, FontReading] = field(default_factory=dict)


class ContentReader:
    """Reads the pages of a file; fonts that pages share are read once."""

    def __init__(self) -> None:
        self.reading = ContentReading()
        self._fonts: dict[Key, str] = {}

    def read_page(self, page: pikepdf.Page, number: int) -> None:
        """Read a page, whose number counts from 1."""
        resources = read_dictionary(page.obj, "/Resources")
        holder = _Holder(page.obj, page.obj.objgen, resources, f"page {number}")
        _Stream(self, holder, mark=None, depth=0).read()

    def take_font(self, resources: pikepdf.Dictionary, name: str) -> str:
        """Return the key of a font of some resources."""
        font = read_dictionary(read_dictionary(resources, "/Font"), name)
        own = font.objgen
        key = self._fonts.get(own) if own != (0, 0) else None
        if key is None:
            reading = read_font(font) if len(font) else NO_FONT
            key = f"{reading.name or name} {len(self.reading.fonts)}"
            self.reading.fonts[key] = reading
            self.reading.codes[key] = set()
            if own != (0, 0):
                self._fonts[own] = key
        return key


@dataclass(frozen=True, slots=True)
class _Holder:
    """A page or a form with its content."""

    content: pikepdf.Object
    key: Key
    resources: pikepdf.Dictionary
    name: str


class _Stream:
    """One run through a content stream."""

    def __init__(
        self, reader: ContentReader, holder: _Holder, mark: int | None, depth: int
    ) -> None:
        self._reader, self._reading, self._holder = reader, reader.reading, holder
        self._marks: list[int | None] = [mark]
        self._outer, self._depth = mark, depth
        self._font, self._fonts = "", [""]
        self._named: dict[str, str] = {}
        self._steps: dict[str, Callable[[list[pikepdf.Object]], None]] = {
            "q": lambda _: self._fonts.append(self._font),
            "Q": lambda _: self._leave(),
            "BMC": self._begin,
            "BDC": self._begin,
            "EMC": lambda _: self._end(),
            "Tf": lambda operands: self._choose(str(operands[0])),
            "Do": lambda operands: self._draw(str(operands[0])),
        }

    def read(self) -> None:
        """Read the stream from its beginning to its end."""
        for operands, operator in _parse(self._holder.content):
            if not operands and operator in _NEEDY:
                self._tangle("an instruction has nothing to work on")
                continue
            step = self._steps.get(operator)
            if step is not None:
                step(operands)
            elif operator in _SHOWS:
                self._show(operands[-1])
            else:
                self._touch("a drawing")
        if len(self._marks) != 1:
            self._reading.tangled.append(f"a mark on {self._holder.name} doesn't close")

    def _leave(self) -> None:
        if len(self._fonts) > 1:
            self._font = self._fonts.pop()

    def _choose(self, name: str) -> None:
        if name not in self._named:
            self._named[name] = self._reader.take_font(self._holder.resources, name)
        self._font = self._named[name]

    def _begin(self, operands: list[pikepdf.Object]) -> None:
        outer = self._marks[-1]
        number = self._find_number(operands)
        is_artifact = str(operands[0]) == "/Artifact"
        if number is not None and outer == _ARTIFACT:
            self._tangle("text stands within what is marked as none")
        elif is_artifact and outer is not None and outer != _ARTIFACT:
            self._tangle("what is marked as no text stands within text")
        elif number is not None and outer is not None:
            self._tangle("a mark stands within another")
        if number is not None:
            if (self._holder.key, number) in self._reading.words:
                self._tangle(f"mark {number} stands there twice")
            self._reading.words.setdefault((self._holder.key, number), "")
        self._marks.append(_ARTIFACT if is_artifact else outer if number is None else number)

    def _find_number(self, operands: list[pikepdf.Object]) -> int | None:
        properties = operands[1] if len(operands) > 1 else None
        if isinstance(properties, pikepdf.Name):
            named = read_dictionary(self._holder.resources, "/Properties")
            properties = read_dictionary(named, str(properties))
        number = read_number(properties, "/MCID")
        return number if number is not None and number >= 0 else None

    def _end(self) -> None:
        if len(self._marks) == 1:
            self._tangle("a mark closes that was never opened")
        else:
            self._marks.pop()

    def _tangle(self, fact: str) -> None:
        self._reading.tangled.append(f"{fact} on {self._holder.name}")

    def _touch(self, what: str) -> None:
        if self._marks[-1] is None:
            self._reading.stray.append(f"{what} on {self._holder.name}")

    def _show(self, shown: pikepdf.Object) -> None:
        text = b"".join(_list_strings(shown))
        if not self._font:
            self._font = self._reader.take_font(pikepdf.Dictionary(), "no font")
        font = self._reading.fonts[self._font]
        codes = font.read_codes(text)
        self._reading.codes[self._font].update(codes)
        letters = "".join(font.letters.get(code, "") for code in codes)
        self._touch(f'"{letters}"')
        mark = self._marks[-1]
        # Within a form that is drawn under a mark of its page, letters are part of a drawing.
        if mark is not None and mark not in (_ARTIFACT, self._outer):
            self._reading.words[self._holder.key, mark] += letters

    def _draw(self, name: str) -> None:
        stream = _read_stream(self._holder.resources, name)
        if stream is None or read_name(stream, "/Subtype") != "Form" or self._depth >= _DEEPEST:
            self._touch("a picture")
            return
        own = read_dictionary(stream, "/Resources") or self._holder.resources
        holder = _Holder(stream, stream.objgen, own, self._holder.name)
        _Stream(self._reader, holder, self._marks[-1], self._depth + 1).read()


def _read_stream(resources: pikepdf.Dictionary, name: str) -> pikepdf.Stream | None:
    """Return a picture or form of some resources; None where there is none."""
    value = read_dictionary(resources, "/XObject").get(name)
    return value if isinstance(value, pikepdf.Stream) else None


def _parse(content: pikepdf.Object) -> Iterator[tuple[list[pikepdf.Object], str]]:
    try:
        instructions = pikepdf.parse_content_stream(content, _READ)
    except TypeError as error:  # something stands there that no content can hold
        raise pikepdf.PdfError(str(error)) from error
    for instruction in instructions:
        yield list(instruction.operands), str(instruction.operator)


def _list_strings(shown: pikepdf.Object) -> Iterator[bytes]:
    if isinstance(shown, pikepdf.String):
        yield bytes(shown)
    elif isinstance(shown, pikepdf.Array):
        # Numbers between them come as numbers; a kind of object would be asked more slowly.
        yield from [bytes(part) for part in shown if type(part) is pikepdf.Object]
