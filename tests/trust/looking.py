"""Looks at everything that a build wrote for what runs, fetches or opens anything."""

import zipfile
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path
from xml.etree import ElementTree

import pikepdf
from selectolax.lexbor import LexborHTMLParser

from tests.trust.vectors import HOST

_ACTIONS = {
    "/JavaScript",
    "/Launch",
    "/GoToR",
    "/GoToE",
    "/SubmitForm",
    "/ImportData",
    "/Rendition",
}
_KEYS = {"/EmbeddedFiles", "/EmbeddedFile", "/JS", "/JavaScript", "/AA", "/AF", "/EF", "/RichMedia"}
"""Keys and actions of PDF (ISO 32000-2, 12.6.4 and 7.11.4) that run, open or carry something."""


def find_live_nodes(html: str) -> Iterator[str]:
    """Yield what a page holds that a mark or a vector would have made."""
    for node in LexborHTMLParser(html).css("*"):
        values = {name: value or "" for name, value in node.attributes.items()}
        if any(name.startswith("on") for name in values) or values.get("src") == "x":
            yield node.html or ""
        if node.tag in ("i", "iframe", "object", "embed", "base", "math", "style", "foreignobject"):
            yield node.html or ""
        for name in ("src", "href", "srcset", "action", "data", "xlink:href", "style"):
            address = "".join(values.get(name, "").split()).lower()
            if HOST in address or address.startswith(("javascript:", "data:text", "file:")):
                yield node.html or ""
        runs = node.tag == "script" and "json" not in values.get("type", "")
        if runs and "pwned" in node.text():
            yield node.html or ""


def find_live_parts(book: bytes) -> Iterator[str]:
    """Yield the same of a book, whose chapters are XML."""
    with zipfile.ZipFile(BytesIO(book)) as opened:
        for name in opened.namelist():
            if name.endswith((".xhtml", ".opf", ".svg", ".xml")):
                for node in ElementTree.fromstring(opened.read(name)).iter():  # noqa: S314  # ours
                    marks = (key for key, value in node.items() if key[:2] == "on" or value == "x")
                    yield from (f"{name} {node.tag} {mark}" for mark in marks)


def find_pdf_acts(pdf: bytes, address: str) -> Iterator[str]:
    """Yield what a PDF does besides leading to a page of the site at an address."""
    with pikepdf.open(BytesIO(pdf)) as opened:
        for thing in opened.objects:
            if isinstance(thing, pikepdf.Dictionary | pikepdf.Stream):
                yield from _find_acts(thing, address)


def _find_acts(thing: pikepdf.Object, address: str) -> Iterator[str]:
    keys = set(map(str, thing.keys()))
    yield from keys & _KEYS
    if str(thing.get("/S", "")) in _ACTIONS:
        yield str(thing["/S"])
    action = thing.get("/A", thing)
    uri = action.get("/URI") if isinstance(action, pikepdf.Dictionary) else None
    if uri is not None and not str(uri).startswith(address):
        yield f"/URI {uri}"
    opening = thing.get("/OpenAction")
    if isinstance(opening, pikepdf.Dictionary):
        yield f"/OpenAction {opening}"


def read_whole(folder: Path) -> Iterator[tuple[str, bytes]]:
    """Yield every file below a folder, with what is packed in PDFs and archives unpacked."""
    for path in sorted(path for path in folder.rglob("*") if path.is_file()):
        content = path.read_bytes()
        yield path.relative_to(folder).as_posix(), content
        if path.suffix == ".pdf":
            target = BytesIO()
            with pikepdf.open(path) as opened:
                opened.save(target, stream_decode_level=pikepdf.StreamDecodeLevel.all,
                            compress_streams=False, qdf=True)  # fmt: skip
            yield path.name, target.getvalue()
        elif path.suffix in (".epub", ".zip"):
            with zipfile.ZipFile(path) as opened_zip:
                yield from ((name, opened_zip.read(name)) for name in opened_zip.namelist())
