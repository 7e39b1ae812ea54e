"""Whether a chapter of a book means the same to readers of XML and to those of web pages.

Chapters are judged as web pages; books are shown by programs that read XML (EPUB 3.3, 6.1).
"""

from collections.abc import Iterator, Mapping
from xml.parsers import expat

from selectolax.lexbor import LexborHTMLParser, LexborNode

_SPACES = {"html": "http://www.w3.org/1999/xhtml", "svg": "http://www.w3.org/2000/svg"}
"""What kind of elements begin with each; no other names its kind."""
_BARE = "-"
"""How the reader of pages names what is no element: a text, a comment."""
Event = tuple[str, object]
"""An element that begins, with its attributes; one that ends; or a text."""


def is_same_as_xml(content: bytes, tree: LexborHTMLParser) -> bool:
    """Tell whether a chapter, as XML, has the elements and texts of the ``tree``."""
    reading = _Reading()
    try:
        reading.parser.Parse(content, True)  # as its documentation calls it
    except (expat.ExpatError, ValueError, RecursionError):
        return False
    if reading.is_strange or tree.root is None:
        return False
    return reading.events == list(_join_texts(_walk(tree.root)))


class _Reading:
    """What a reader of XML makes of a chapter."""

    def __init__(self) -> None:
        self.events: list[Event] = []
        self.is_strange = False
        """Whether it holds what readers of pages pass over: styles by instruction, entities."""
        self.parser = expat.ParserCreate()
        self.parser.buffer_text = True
        self.parser.StartElementHandler = self._begin
        self.parser.EndElementHandler = self._end
        self.parser.CharacterDataHandler = self._say
        self.parser.ProcessingInstructionHandler = self._refuse
        self.parser.StartCdataSectionHandler = self._refuse
        self.parser.EntityDeclHandler = self._refuse

    def _begin(self, name: str, attributes: Mapping[str, str]) -> None:
        if ":" in name or attributes.get("xmlns", "") != _SPACES.get(name, ""):
            self.is_strange = True
        self.events.append(_begin(name, attributes))

    def _end(self, name: str) -> None:
        self.events.append(("end", name))

    def _say(self, text: str) -> None:
        if self.events and self.events[-1][0] == "text":
            text = f"{self.events.pop()[1]}{text}"
        if shown := "".join(text.split()):
            self.events.append(("text", shown))

    def _refuse(self, *_: object) -> None:
        self.is_strange = True


def _begin(name: str, attributes: Mapping[str, str | None]) -> Event:
    return ("begin", (name, {each: value or "" for each, value in attributes.items()}))


def _walk(root: LexborNode) -> Iterator[Event]:
    """Yield what a reader of pages makes of it, in the same form."""
    waiting: list[LexborNode | str] = [root]
    while waiting:
        node = waiting.pop()
        if isinstance(node, str):
            yield ("end", node)
            continue
        name = node.tag or _BARE
        if name == "-text":
            yield ("text", "".join((node.text_content or "").split()))
        elif not name.startswith(_BARE):
            yield _begin(name, node.attributes)
            waiting.append(name)
            waiting += reversed(list(node.iter(include_text=True)))


def _join_texts(events: Iterator[Event]) -> Iterator[Event]:
    """Yield texts that stand beside each other as one, and none that shows nothing."""
    said: list[str] = []
    for kind, value in events:
        if kind == "text":
            said.append(str(value))
            continue
        if text := "".join(said):
            yield ("text", text)
        said.clear()
        yield (kind, value)
