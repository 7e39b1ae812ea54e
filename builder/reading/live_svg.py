"""What a drawing runs, fetches or takes in from others when its own address is opened.

A page shows a drawing as a picture, in which nothing runs. Who opens the file itself has a
document before them, with all that SVG 2 (W3C, chapters 2 and 15) and its style sheets may do.
"""

import re
from collections.abc import Iterator
from xml.parsers import expat

from builder.reading.browser_address import Use, find_address_fault
from builder.reading.safe_svg import SvgFault

DRAWINGS = frozenset({".svg"})
"""Endings of drawings."""
_SEPARATOR = " "
_PAGES = "http://www.w3.org/1999/xhtml"
_RUN = frozenset({"script", "handler", "listener", "foreignObject", "iframe"})
_ADDRESSES = frozenset({"href", "src", "data", "action", "formaction"})
_OPENED = "a"
"""An element whose address is only opened when somebody asks for it."""
_OWN_PICTURE = re.compile(r"data:image/(?:png|jpeg|gif|webp)[;,]", re.IGNORECASE)
_URL = re.compile(r"url\(\s*+[\"']?+\s*+([^\"')]*)", re.IGNORECASE)
_SPELT = re.compile(r"@import|\\", re.IGNORECASE)
"""What fetches by itself in a style, and what could spell anything otherwise."""
_MOVED = re.compile(r"\s*(?:.*href|on.*)\s*", re.IGNORECASE | re.DOTALL)
"""Attributes that no animation may change."""
_STYLE = "style"
_LONGEST = 60


class _Watch:
    """Notes what is live while a drawing is read."""

    def __init__(self) -> None:
        self.parser = expat.ParserCreate(namespace_separator=_SEPARATOR)
        self.parser.StartElementHandler = self.begin
        self.parser.EndElementHandler = self.end
        self.parser.CharacterDataHandler = self.write
        self.parser.ProcessingInstructionHandler = self.note_order
        self.faults: list[SvgFault] = []
        self.style: list[str] | None = None
        self.style_line = 0

    def note(self, fact: str, line: int = 0) -> None:
        """Note a fault, where the parser stands unless a line is given."""
        self.faults.append(SvgFault(line or self.parser.CurrentLineNumber, fact))

    def begin(self, name: str, attributes: dict[str, str]) -> None:
        """Look at an element and at each of its attributes."""
        space, _, local = name.rpartition(_SEPARATOR)
        if local in _RUN or space == _PAGES:
            self.note(f'the drawing holds "<{local}>"')
        for key, value in attributes.items():
            for fact in _judge(local, key.rpartition(_SEPARATOR)[2], value):
                self.note(fact)
        if local == _STYLE:
            self.style, self.style_line = [], self.parser.CurrentLineNumber

    def end(self, name: str) -> None:
        """Look at a style sheet as a whole."""
        if name.rpartition(_SEPARATOR)[2] == _STYLE and self.style is not None:
            if _fetches("".join(self.style)):
                self.note("the drawing's style fetches something", self.style_line)
            self.style = None

    def write(self, text: str) -> None:
        """Keep the words of a style sheet."""
        if self.style is not None:
            self.style.append(text)

    def note_order(self, target: str, _data: str) -> None:
        """Tell of a sheet that is fetched, or run, before the drawing is shown."""
        if target.lower().startswith("xml-stylesheet"):
            self.note(f'the drawing holds an order to a program, "<?{target}"')


def find_live_parts(content: bytes) -> tuple[SvgFault, ...]:
    """Return what in a drawing does more than show lines and words, or why it can't be read."""
    watch = _Watch()
    try:
        watch.parser.Parse(content, True)
    except expat.ExpatError as error:
        watch.note(f"this is no drawing that can be read ({expat.ErrorString(error.code)})")
    except (ValueError, LookupError):
        watch.note("the drawing can't be read on from here")
    return tuple(watch.faults)


def _judge(element: str, name: str, value: str) -> Iterator[str]:
    shown = f'"{name}" of "{value[:_LONGEST]}"'
    if name.lower().startswith("on"):
        yield f"the drawing holds {shown}"
    elif name in _ADDRESSES:
        use = Use.LINK if element == _OPENED else Use.PICTURE
        if not _OWN_PICTURE.match(value) and find_address_fault(value, use):
            yield f"the drawing fetches or runs {shown}"
    elif name == "attributeName" and _MOVED.fullmatch(value):
        yield f"the drawing moves an address, {shown}"
    elif _fetches(value) if name == _STYLE else any(map(_is_elsewhere, _URL.findall(value))):
        yield f"the drawing fetches {shown}"


def _fetches(style: str) -> bool:
    return bool(_SPELT.search(style)) or any(map(_is_elsewhere, _URL.findall(style)))


def _is_elsewhere(address: str) -> bool:
    return not address.startswith("data:") and find_address_fault(address, Use.PICTURE) is not None
