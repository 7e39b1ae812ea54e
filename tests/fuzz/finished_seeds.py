"""Small finished files as a start for changes: a page, lists, a PDF, a book, pictures, archives."""

import gzip
import io
import tarfile
from functools import cache
from typing import Any

import pikepdf
from PIL import Image, PngImagePlugin

from tests.fuzz.zips import write_parts

PAGE = b"""<!doctype html><html lang="en"><head><title>Breath</title>
<link rel="canonical" href="https://saltmarsh-studio.example/"><meta name="a" content="x">
<script type="application/ld+json">{"@id": "https://saltmarsh-studio.example/", "a": ["b"]}</script>
<style>@import "a.css"; p { background: url(b.png) }</style></head>
<body><nav><a href="b/">B</a></nav>
<article id="top"><h1 id="breath">Breath</h1><p style="color: red" hidden>no</p>
<p>In and <a href="#breath">out</a>, <img src="a.png" srcset="b.png 2x" alt=""></p>
<template><a id="t" href="x">y</a></template></article></body></html>
"""
SEARCH = b'{"config": {}, "docs": [{"location": "", "text": "x"}, {"location": "b/#c"}]}'
WORKER = b'const edition = {"pages": {"index.html": "0f"}, "kept": {"cards": {"files": {}}}};\n'
SITEMAP = (
    b'<?xml version="1.0"?><urlset><url><loc>https://saltmarsh-studio.example/</loc></url></urlset>'
)
HEADERS = b"/*\n  X-Frame-Options: DENY\n/b/\n  Cache-Control: no-cache\nhttps://a.b/*\n"
MANIFEST = b'{"start_url": "./", "icons": [{"src": "a.png"}]}'
KEPT = b'{"title": ["A quiet breath"], "steps": ["In.", "Out."]}'
_CONTAINER = b"""<?xml version="1.0"?><container><rootfiles>
<rootfile full-path="EPUB/package.opf"/></rootfiles></container>
"""
_PACKAGE = b"""<?xml version="1.0"?><package><manifest>
<item id="nav" href="nav.xhtml" properties="nav"/><item id="a" href="a.xhtml"/></manifest>
<spine><itemref idref="nav"/><itemref idref="a"/></spine></package>
"""


@cache
def make_pdf() -> bytes:
    """Return a PDF with words, links of each kind, named spots, an outline and an attachment."""
    pdf = pikepdf.Pdf.new()
    page = pdf.add_blank_page(page_size=(200, 100))
    font = pikepdf.Dictionary(Type="/Font", Subtype="/Type1", BaseFont="/Helvetica")
    page.obj.Resources = pikepdf.Dictionary(Font=pikepdf.Dictionary(F1=pdf.make_indirect(font)))
    page.obj.Contents = pdf.make_stream(b"BT /F1 12 Tf 20 50 Td (Breathe in) Tj ET")
    page.obj.Annots = pikepdf.Array([pdf.make_indirect(_link(each)) for each in _list_actions()])
    pdf.Root.Dests = pikepdf.Dictionary(a=pikepdf.Array([page.obj, pikepdf.Name.Fit]))
    with pdf.open_outline() as outline:
        outline.root.append(pikepdf.OutlineItem("Breathe", 0))
    pdf.attachments["a.txt"] = pikepdf.AttachedFileSpec(pdf, b"words", filename="a.txt")
    pdf.docinfo["/Title"] = "A card"
    target = io.BytesIO()
    pdf.save(target, static_id=True, compress_streams=False)
    return target.getvalue()


def _list_actions() -> tuple[pikepdf.Dictionary, ...]:
    return (
        pikepdf.Dictionary(S=pikepdf.Name.URI, URI=pikepdf.String("https://a.example/")),
        pikepdf.Dictionary(S=pikepdf.Name.GoTo, D=pikepdf.String("a")),
        pikepdf.Dictionary(S=pikepdf.Name.GoToR, F=pikepdf.Dictionary(UF=pikepdf.String("b.pdf"))),
    )


def _link(action: pikepdf.Dictionary) -> pikepdf.Dictionary:
    return pikepdf.Dictionary(
        Type=pikepdf.Name.Annot, Subtype=pikepdf.Name.Link, Rect=[0, 0, 9, 9], A=action
    )


@cache
def make_book() -> bytes:
    """Return an EPUB of two pages."""
    parts = [
        ("mimetype", b"application/epub+zip"),
        ("META-INF/container.xml", _CONTAINER),
        ("EPUB/package.opf", _PACKAGE),
        ("EPUB/nav.xhtml", b'<html><body><nav><a href="a.xhtml#b">A</a></nav></body></html>'),
        ("EPUB/a.xhtml", b'<html><body id="b"><img src="c.png"/><p>In.</p></body></html>'),
    ]
    return write_parts(parts)


@cache
def list_pictures() -> tuple[bytes, ...]:
    """Return small pictures of several kinds, with words and a place in their metadata."""
    exif = Image.Exif()
    exif[0x010E] = "A mat"
    exif.get_ifd(0x8825)[2] = (1.0, 2.0, 3.0)
    words = PngImagePlugin.PngInfo()
    words.add_text("Comment", "A mat", zip=True)
    words.add_itxt("Title", "Eine Matte", "de", "Titel")
    options: dict[str, dict[str, Any]] = {
        "PNG": {"pnginfo": words, "exif": exif},
        "JPEG": {"exif": exif, "comment": b"A mat"},
        "GIF": {"comment": b"A mat"},
        "WEBP": {"exif": exif, "xmp": b"<x exif:GPSLatitude='1'/>"},
        "TIFF": {"exif": exif},
    }
    return tuple(_save(kind, chosen) for kind, chosen in options.items())


def _save(kind: str, options: dict[str, Any]) -> bytes:
    target = io.BytesIO()
    Image.new("P" if kind == "GIF" else "RGB", (8, 8)).save(target, kind, **options)
    return target.getvalue()


@cache
def list_archives() -> tuple[bytes, ...]:
    """Return archives of several kinds, some inside others, and a text with a file written out."""
    inner = write_parts([("a.txt", b"words"), ("b.html", PAGE)])
    tar = io.BytesIO()
    with tarfile.open(fileobj=tar, mode="w", format=tarfile.PAX_FORMAT) as file:
        entry = tarfile.TarInfo("a/b.txt")
        entry.size = 5
        file.addfile(entry, io.BytesIO(b"words"))
    return (
        write_parts([("c.zip", inner), ("d.txt", b"more")]),
        gzip.compress(tar.getvalue(), mtime=0),
        tar.getvalue(),
        b'<img src="data:image/png;base64,iVBORw0KGgo="> data:application/zip;base64,UEsDBA==',
        "Wörter".encode("utf-16"),
    )
