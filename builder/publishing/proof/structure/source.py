"""The words of the HTML that a PDF was made from, in its own order and with their language."""

from collections.abc import Iterator
from dataclasses import dataclass

from selectolax.lexbor import LexborHTMLParser, LexborNode

from builder.publishing.proof.read_back import fold_text

RUNNING = "data-running"
"""Marks what the press repeats at the head or foot of each page."""
_SILENT = {"head", "style", "script", "svg", "title", "template"}
_TEXT = "-text"
_BLOCKS = {"p", "h1", "h2", "h3", "h4", "h5", "h6", "li", "div"}


@dataclass(frozen=True, slots=True)
class Passage:
    """Words of one language in a row."""

    letters: str
    """Folded as ``fold_text`` does it."""
    language: str


@dataclass(frozen=True, slots=True)
class Source:
    """What a PDF must say, in order."""

    language: str
    title: str
    passages: tuple[Passage, ...]
    running: tuple[Passage, ...] = ()
    """What the press repeats on each page, block by block."""

    @property
    def letters(self) -> str:
        """Return the letters of its text, without what is repeated."""
        return "".join(passage.letters for passage in self.passages)

    @property
    def languages(self) -> tuple[str, ...]:
        """Return every language in it but its own."""
        others = (each.language for each in self.passages if each.language != self.language)
        return tuple(dict.fromkeys(others))

    def list_unsaid(self) -> tuple[Passage, ...]:
        """Return what is repeated and stands nowhere else, each once."""
        said, found = strip_digits(self.letters), []
        for passage in self.running:
            letters = strip_digits(passage.letters)
            if letters and letters not in said:
                said += letters
                found.append(passage)
        return tuple(found)


def strip_digits(letters: str) -> str:
    """Leave out numbers, as those of pages, which are never the same twice."""
    return "".join(letter for letter in letters if not letter.isdigit())


def read_source(html: str) -> Source:
    """Read the words of a page of HTML."""
    page = LexborHTMLParser(html)
    root = page.root
    title = page.css_first("title")
    language = (root.attributes.get("lang") or "") if root else ""
    main: list[Passage] = []
    running: list[Passage] = []
    if page.body is not None:
        _read_into(page.body, language, main, running)
    return Source(language, title.text().strip() if title else "", tuple(main), tuple(running))


def join_sources(sources: tuple[Source, ...]) -> Source:
    """Put texts behind each other under the first one's title and language."""
    first = sources[0]
    return Source(
        first.language,
        first.title,
        tuple(each for source in sources for each in source.passages),
        tuple(each for source in sources for each in source.running),
    )


def _read_into(
    node: LexborNode, language: str, main: list[Passage], running: list[Passage]
) -> None:
    for child in node.iter(include_text=True):
        if child.tag == _TEXT:
            letters = fold_text(child.text())
            if letters:
                main.append(Passage(letters, language))
        elif child.tag not in _SILENT and child.tag is not None:
            own = child.attributes.get("lang") or language
            if RUNNING in child.attributes:
                running += _read_blocks(child, own)
            else:
                _read_into(child, own, main, running)


def _read_blocks(node: LexborNode, language: str) -> Iterator[Passage]:
    """Yield the words of each block of what is repeated as one passage."""
    blocks = [child for child in node.iter() if child.tag in _BLOCKS]
    if blocks:
        for child in blocks:
            yield from _read_blocks(child, language)
        return
    letters = fold_text(node.text())
    if letters:
        yield Passage(letters, language)
