"""Which files of a book are pages that its readers come to (EPUB 3.3, 4.2.6.3 and 5)."""

from collections import Counter
from collections.abc import Mapping
from xml.parsers import expat

CONTAINER = "META-INF/container.xml"
PACKAGE = "EPUB/package.opf"
_PAGE_TYPE = "application/xhtml+xml"
_STIFF = "pre-paginated"
"""Pages of a fixed size, which a screen shrinks."""
Elements = list[tuple[str, Mapping[str, str]]]


def list_read_chapters(texts: Mapping[str, bytes]) -> frozenset[str]:
    """Return the files, from the package's folder, that stand in the order of reading.

    ``texts`` has the container and the package by their names; none is read where either is
    damaged, names another package, or makes pages of a fixed size.
    """
    container, package = (_list_elements(texts.get(name, b"")) for name in (CONTAINER, PACKAGE))
    roots = [values.get("full-path") for name, values in container if name == "rootfile"]
    if roots != [PACKAGE] or any(_STIFF in text for text in _list_texts(package)):
        return frozenset()
    items = [values for name, values in package if name == "item"]
    counts = Counter(item.get("id") for item in items)
    pages = {
        item.get("id"): item.get("href", "")
        for item in items
        if item.get("media-type") == _PAGE_TYPE and counts[item.get("id")] == 1
    }
    order = (values for name, values in package if name == "itemref")
    asked = (values.get("idref") for values in order if values.get("linear", "yes") == "yes")
    return frozenset(pages[name] for name in asked if name in pages)


def _list_texts(elements: Elements) -> list[str]:
    return [value for _, values in elements for value in values.values()]


def _list_elements(content: bytes) -> Elements:
    """Return elements by their names without prefix; a text counts as a value of the one before.

    Nothing is returned for what is no XML, or has entities of its own.
    """
    found: list[tuple[str, dict[str, str]]] = []
    is_strange = False

    def begin(name: str, values: dict[str, str]) -> None:
        found.append((name.rpartition(":")[2], values))

    def say(text: str) -> None:
        values = found[-1][1]
        values[" text"] = values.get(" text", "") + text

    def refuse(*_: object) -> None:
        nonlocal is_strange
        is_strange = True

    parser = expat.ParserCreate()
    parser.StartElementHandler = begin
    parser.CharacterDataHandler = say
    parser.EntityDeclHandler = refuse
    try:
        parser.Parse(content, True)  # as its documentation calls it
    except (expat.ExpatError, ValueError):
        return []
    return [] if is_strange else list(found)
