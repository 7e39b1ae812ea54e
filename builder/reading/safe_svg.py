"""Drawings of people whom the studio doesn't know, written anew from shapes and words alone."""

import re
from dataclasses import dataclass, field
from xml.parsers import expat
from xml.sax.saxutils import escape, quoteattr

_SPACE = "http://www.w3.org/2000/svg"
_SEPARATOR = " "
_ROOT = "svg"
_ELEMENTS = frozenset(
    {
        *(_ROOT, "g", "defs", "title", "desc", "path", "rect", "circle", "ellipse", "line"),
        *("polyline", "polygon", "text", "tspan", "linearGradient", "radialGradient", "stop"),
        "clipPath",
    }
)
"""Nothing that runs, moves, fetches, repeats a part of the drawing or carries another format."""
_ATTRIBUTES = frozenset(
    {
        *("id", "width", "height", "viewBox", "preserveAspectRatio", "transform", "version"),
        *("d", "x", "y", "x1", "y1", "x2", "y2", "cx", "cy", "r", "rx", "ry", "dx", "dy"),
        *("points", "pathLength", "rotate", "textLength", "lengthAdjust", "offset", "fx", "fy"),
        *("gradientUnits", "gradientTransform", "spreadMethod", "clipPathUnits", "clip-path"),
        *("clip-rule", "fill", "fill-opacity", "fill-rule", "stroke", "stroke-width"),
        *("stroke-opacity", "stroke-linecap", "stroke-linejoin", "stroke-dasharray"),
        *("stroke-dashoffset", "stroke-miterlimit", "opacity", "color", "stop-color"),
        *("stop-opacity", "display", "visibility", "font-family", "font-size", "font-style"),
        *("font-weight", "text-anchor", "dominant-baseline", "letter-spacing", "role", "lang"),
        *("aria-label", "aria-hidden", "vector-effect", "paint-order", "shape-rendering"),
    }
)
_OWN_PART = re.compile(r"url\(#[A-Za-z_][\w.-]*\)(?: none)?")
_CALLS = re.compile(r"url|:|\\|/\*|@|expression|image|var\(|attr\(|env\(|src\(", re.IGNORECASE)
"""Signs of a value that is more than a number, a colour or a word."""
_WORDY = frozenset({"aria-label", "id", "font-family"})
"""Attributes whose values are shown or compared, and never acted on."""


@dataclass(frozen=True, slots=True)
class SvgFault:
    """What a drawing may not hold, and the line where it stands."""

    line: int
    fact: str


@dataclass(frozen=True, slots=True)
class SafeSvg:
    """A drawing written anew; what was left out of it is a fault."""

    content: bytes
    faults: tuple[SvgFault, ...]


class _UnreadableError(Exception):
    """The file is no drawing that can be read on."""


def make_safe_svg(content: bytes) -> SafeSvg:
    """Write a drawing anew; empty where it can't be read."""
    writing = _Writing(expat.ParserCreate(namespace_separator=_SEPARATOR))
    writing.attend()
    try:
        writing.parser.Parse(content, True)
    except expat.ExpatError as error:
        writing.note(f"this is no drawing that can be read ({expat.ErrorString(error.code)})")
    except (_UnreadableError, ValueError, LookupError):
        writing.note("the drawing can't be read on from here")
    else:
        return SafeSvg("".join(writing.parts).encode(), tuple(writing.faults))
    return SafeSvg(b"", tuple(writing.faults))


@dataclass(slots=True)
class _Writing:
    """A drawing while it is read and written."""

    parser: expat.XMLParserType
    parts: list[str] = field(default_factory=list)
    faults: list[SvgFault] = field(default_factory=list)
    left_out: int = 0
    """How deep we are in a part that is left out; 0 outside one."""
    depth: int = 0

    def attend(self) -> None:
        """Listen to everything that the parser tells."""
        self.parser.StartElementHandler = self.begin
        self.parser.EndElementHandler = self.end
        self.parser.CharacterDataHandler = self.write
        self.parser.StartDoctypeDeclHandler = self.refuse_declarations
        self.parser.ProcessingInstructionHandler = self.refuse_order

    def note(self, fact: str) -> None:
        """Note a fault where the parser stands."""
        self.faults.append(SvgFault(self.parser.CurrentLineNumber, fact))

    def begin(self, name: str, attributes: dict[str, str]) -> None:
        """Write an element that may stand, with the attributes that may."""
        space, _, local = name.rpartition(_SEPARATOR)
        self.depth += 1
        if self.left_out:
            self.left_out += 1
        elif space != _SPACE or local not in _ELEMENTS or (self.depth == 1) is not (local == _ROOT):
            self.note(f'the drawing holds "<{local}>"')
            self.left_out = 1
        else:
            space_told = f' xmlns="{_SPACE}"' if self.depth == 1 else ""
            self.parts.append(f"<{local}{space_told}{self._write_attributes(attributes)}>")

    def _write_attributes(self, attributes: dict[str, str]) -> str:
        written = ""
        for name, value in attributes.items():
            if name in _ATTRIBUTES and _is_plain(name, value):
                written += f" {name}={quoteattr(value)}"
            else:
                self.note(f'the drawing holds "{name.rpartition(_SEPARATOR)[2]}" of "{value:.60}"')
        return written

    def end(self, name: str) -> None:
        """Close an element that was written."""
        self.depth -= 1
        if self.left_out:
            self.left_out -= 1
        else:
            self.parts.append(f"</{name.rpartition(_SEPARATOR)[2]}>")

    def write(self, text: str) -> None:
        """Write words."""
        if not self.left_out:
            self.parts.append(escape(text))

    def refuse_declarations(self, *_: object) -> None:
        """Stop where a drawing declares its own entities, or asks for those of others."""
        self.note("the drawing begins with a document type, which could name other files")
        raise _UnreadableError

    def refuse_order(self, target: str, _data: str) -> None:
        """Leave out what is meant for another program."""
        self.note(f'the drawing holds an order to a program, "<?{target}"')


def _is_plain(name: str, value: str) -> bool:
    """Tell whether a value is words, numbers or a part of the same drawing."""
    if name in _WORDY or _OWN_PART.fullmatch(value):
        return True
    return _CALLS.search(value) is None
