"""A finished site of a few files, each with links of its kind, and a second one in a folder."""

import gzip
import io
import json
import zipfile
from collections.abc import Callable, Mapping
from pathlib import Path

import pikepdf
import pytest

from builder.findings import Finding
from builder.publishing.proof.finished.faults import find_finished_faults
from builder.publishing.proof.finished.site import read_finished_site
from builder.publishing.site.offline import write_worker
from builder.publishing.site.policy import HEADERS, HEADERS_FILE, NO_JEKYLL
from builder.reading.addresses import Declared
from builder.work.folder_files import FolderFiles

ADDRESS = "https://studio.example/course/"
LESSON = "lessons/breath/wide-ribs/"
CARD = "cards/wide-ribs.pdf"
BOOK = "course.epub"
Find = Callable[..., list[tuple[str, str]]]


def write_page(path: str, body: str, address: str = ADDRESS) -> str:
    own = address + path.removesuffix("index.html")
    return (
        f'<html><head><link rel="canonical" href="{own}"></head>'
        f"<body><article>{body}</article></body></html>"
    )


def write_pdf(
    links: tuple[str, ...] = (), spots: tuple[str, ...] = (), code: str = f"{ADDRESS}{LESSON}"
) -> bytes:
    """Make a card of one page with a spot "end", links to addresses and spots, and a code."""
    pdf = pikepdf.new()
    page = pdf.add_blank_page()
    spot = pikepdf.Array([page.obj, pikepdf.Name.Fit])
    tree = pikepdf.NameTree.new(pdf)
    tree["end"] = spot
    pdf.Root.Names = pikepdf.Dictionary(Dests=tree.obj)
    notes = [
        pikepdf.Dictionary(
            Subtype=pikepdf.Name.Link, A=pikepdf.Dictionary(S=pikepdf.Name.URI, URI=link)
        )
        for link in links
    ]
    notes += [pikepdf.Dictionary(Subtype=pikepdf.Name.Link, Dest=name) for name in spots]
    page.obj.Annots = pdf.make_indirect(pikepdf.Array(notes))
    picture = pikepdf.Dictionary(S=pikepdf.Name.Figure, Alt=f"QR code of {code}")
    pdf.Root.StructTreeRoot = pdf.make_indirect(
        pikepdf.Dictionary(Type=pikepdf.Name.StructTreeRoot, K=pdf.make_indirect(picture))
    )
    target = io.BytesIO()
    pdf.save(target)
    return target.getvalue()


def write_book(change: Mapping[str, str | None] | None = None) -> bytes:
    """Make an EPUB of two pages; parts may be changed, or left out by None."""
    parts: dict[str, str | None] = {
        "META-INF/container.xml": (
            '<container><rootfiles><rootfile full-path="EPUB/book.opf"/></rootfiles></container>'
        ),
        "EPUB/book.opf": (
            '<package><manifest><item id="nav" href="nav.xhtml" properties="nav"/>'
            '<item id="one" href="one.xhtml"/><item id="css" href="book.css"/></manifest>'
            '<spine><itemref idref="one"/></spine></package>'
        ),
        "EPUB/nav.xhtml": '<html><body><nav><a href="one.xhtml#end">One</a></nav></body></html>',
        "EPUB/one.xhtml": (
            '<html><head><link rel="stylesheet" href="book.css"/></head><body>'
            f'<p id="end"><a href="{ADDRESS}{LESSON}#card=7K3QX">site</a>'
            '<a href="https://elsewhere.example/">x</a></p></body></html>'
        ),
        "EPUB/book.css": "p { margin: 0 }",
        **(change or {}),
    }
    target = io.BytesIO()
    with zipfile.ZipFile(target, "w") as file:
        file.writestr("mimetype", "application/epub+zip")
        for name, text in parts.items():
            if text is not None:
                file.writestr(name, text)
    return target.getvalue()


def write_sitemap(*paths: str) -> str:
    listed = "".join(f"<url><loc>{ADDRESS}{path}</loc></url>" for path in paths)
    return f"<urlset>{listed}</urlset>"


def make_site() -> dict[str, str | bytes]:
    """Give every file of a sound site but the worker's list and what hosts read."""
    data = '<script type="application/ld+json">{"url": "%s", "b": {"url": "%s"}}</script>'
    links = (
        f'<a href="{LESSON}">a</a><a href="{LESSON}#steps">b</a><a href="{CARD}">c</a>'
        f'<a href="{BOOK}">d</a><a href="{ADDRESS}{LESSON}#steps">e</a><a href="es/">f</a>'
        '<a href="/course/?q=1">g</a><a href="#top">h</a><a href="https://elsewhere.example/">i</a>'
    )
    back = '<h2 id="steps">Steps</h2><a href="../../../">home</a>'
    meta = f'<meta property="og:url" content="{ADDRESS}">'
    return {
        "index.html": write_page(
            "index.html", meta + links + data % (ADDRESS, "https://elsewhere.example/")
        ),
        f"{LESSON}index.html": write_page(f"{LESSON}index.html", back),
        "404.html": '<html><body><a href="/course/">home</a></body></html>',
        "site.css": "@font-face { src: url(font.woff2) }",
        "font.woff2": b"wOF2",
        CARD: write_pdf((f"{ADDRESS}{LESSON}#card=7K3QX", "mailto:a@studio.example"), ("end",)),
        BOOK: write_book(),
        "sitemap.xml": write_sitemap("", LESSON),
        "search/search_index.json": json.dumps(
            {"docs": [{"location": ""}, {"location": f"{LESSON}#steps"}]}
        ),
        "site.webmanifest": '{"start_url": "./", "icons": [{"src": "font.woff2"}]}',
        "es/index.html": write_page("es/index.html", '<a href="../">en</a><a href="uno/">1</a>'),
        "es/uno/index.html": write_page("es/uno/index.html", '<a href="../">inicio</a>'),
        "es/404.html": '<html><body><a href="/course/es/">inicio</a></body></html>',
        "es/sitemap.xml": write_sitemap("es/", "es/uno/"),
        "es/cards/uno.pdf": write_pdf(code=f"{ADDRESS}es/uno/"),
    }


def lay(folder: Path, files: Mapping[str, str | bytes | None]) -> None:
    for path, content in files.items():
        target = folder / path
        if content is None:
            target.unlink()
            continue
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(content.encode() if isinstance(content, str) else content)


def write_workers(folder: Path) -> None:
    """List both sites; that of the language keeps sounds of the whole."""
    write_worker(FolderFiles(folder / "es"), whole="../")
    write_worker(FolderFiles(folder), others=("es",))


@pytest.fixture
def site(tmp_path: Path) -> Path:
    """Write a sound site, with a site of its own in the folder es."""
    folder = tmp_path / "site"
    files = make_site()
    lay(folder, files)
    lay(folder, {"sitemap.xml.gz": gzip.compress(str(files["sitemap.xml"]).encode())})
    lay(folder, {HEADERS_FILE: HEADERS, NO_JEKYLL: "", "tracks/soft.flac": b"fLaC"})
    write_workers(folder)
    return folder


@pytest.fixture
def find(site: Path) -> Find:
    """Change files of the site, and give rule and place of each fault."""

    def find_faults(
        files: Mapping[str, str | bytes | None] | None = None, *, listed: bool = True
    ) -> list[tuple[str, str]]:
        lay(site, files or {})
        if listed:  # as a build does last
            write_workers(site)
        return [(finding.rule.id, finding.place.path) for finding in look(site)]

    return find_faults


def look(folder: Path, declared: Declared | None = None) -> tuple[Finding, ...]:
    return find_finished_faults(read_finished_site(folder), declared or Declared())
