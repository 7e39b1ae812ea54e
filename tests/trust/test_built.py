"""What strangers wrote is words on every page, card and book, however it is built."""

import json
import re
import socket
from collections.abc import Iterator
from pathlib import Path

import pytest
from selectolax.lexbor import LexborHTMLParser

from builder.mkdocs_parts import Order
from builder.mkdocs_plugin import build_site
from builder.publishing.proof.read_back import read_pdf
from tests.browser_scripts.pages import SETTINGS
from tests.made_once import A6_ONLY, make_once
from tests.running import run_tool
from tests.trust.hostile import write_hostile
from tests.trust.looking import find_live_nodes, find_live_parts, find_pdf_acts, read_whole
from tests.trust.marked import MARK, mark_course
from tests.trust.vectors import ALONE, HOST, Vector, drawing, file, page

ADDRESS = "https://small.example/"


def build_marked(shelf: Path) -> Path:
    """Build the course that has markup in every field, with cards and everything."""

    def build(folder: Path) -> None:
        project = mark_course(folder / "project", with_notices=False)
        (project / "mkdocs.yml").write_text(A6_ONLY, encoding="utf-8")
        assert build_site(Order(project / "mkdocs.yml"), folder / "site") == ()

    return make_once(shelf, "marked-site", build) / "site"


def build_preview(shelf: Path, name: str, *vectors: Vector) -> Path:
    """Build the preview of a course that no other build would publish; pages have no policy."""

    def build(folder: Path) -> None:
        project = folder / "project"
        if vectors:
            write_hostile(project, vectors)
        else:
            mark_course(project, with_notices=True)
        (project / "mkdocs.yml").write_text(SETTINGS, encoding="utf-8")
        assert build_site(Order(project / "mkdocs.yml", is_preview=True), folder / "site") == ()

    return make_once(shelf, name, build) / "site"


@pytest.fixture(scope="module")
def marked(shelf: Path) -> Path:
    return build_marked(shelf)


@pytest.fixture(scope="module")
def previews(shelf: Path) -> tuple[Path, Path]:
    return build_preview(shelf, "marked-preview"), build_preview(shelf, "hostile", *ALONE)


def list_pages(site: Path) -> list[Path]:
    pages = sorted(site.rglob("*.html"))
    assert len(pages) > 20
    return pages


def test_no_field_becomes_an_element_of_any_page(marked: Path) -> None:
    for path in list_pages(marked):
        if path.parent.name == "proof":
            continue  # whole in itself: its own style stands in it, under a policy that names it
        assert list(find_live_nodes(path.read_text(encoding="utf-8"))) == [], path


def test_the_preview_runs_nothing_of_a_course_that_isnt_published(
    previews: tuple[Path, Path],
) -> None:
    for site in previews:
        for path in list_pages(site):
            assert list(find_live_nodes(path.read_text(encoding="utf-8"))) == [], path


def test_no_text_or_file_with_a_fault_comes_into_the_site(previews: tuple[Path, Path]) -> None:
    names = {path.relative_to(previews[1]).as_posix() for path in previews[1].rglob("*")}
    own = {vector.file.removeprefix("content/") for vector in ALONE} - {"_headers"}
    assert not own & names
    for path in list_pages(previews[1]):
        shown = LexborHTMLParser(path.read_text(encoding="utf-8"))
        for panel in shown.css(".tl-findings"):  # which quotes what it found
            panel.decompose()
        assert not {"pwned", HOST} & set(re.findall(r"[\w.]+", shown.text())), path


def test_what_is_written_is_still_read_as_it_was_written(marked: Path) -> None:
    html = (marked / "lessons/count/long-out/index.html").read_text(encoding="utf-8")
    assert LexborHTMLParser(html).text().count(MARK) > 8
    assert "49" not in LexborHTMLParser(html).css_first("h1").text()


def test_facts_for_search_engines_are_whole_json(marked: Path) -> None:
    facts = 0
    for path in list_pages(marked):
        page_read = LexborHTMLParser(path.read_text(encoding="utf-8"))
        for node in page_read.css('script[type$="json"]'):
            facts += MARK in json.dumps(json.loads(node.text()), ensure_ascii=False).replace(
                '\\"', '"'
            )
    assert facts > 5


def test_entries_of_the_search_hold_no_elements(marked: Path) -> None:
    index = json.loads((marked / "search/search_index.json").read_text(encoding="utf-8"))
    for entry in index["docs"]:
        for key in ("title", "text"):
            assert list(find_live_nodes(entry[key])) == [], entry["location"]


def test_books_hold_no_element_of_an_author(marked: Path) -> None:
    (book,) = marked.rglob("*.epub")
    assert list(find_live_parts(book.read_bytes())) == []


def test_pdfs_carry_run_and_open_nothing(marked: Path) -> None:
    pdfs = sorted(marked.rglob("*.pdf"))
    assert len(pdfs) > 8
    for path in pdfs:
        assert list(find_pdf_acts(path.read_bytes(), ADDRESS)) == [], path


def test_cards_print_the_markup_as_words(marked: Path) -> None:
    words = "".join(page.text for page in read_pdf((marked / "cards/long-out.pdf").read_bytes()))
    assert "onerror=pwned" in "".join(words.split())


@pytest.fixture
def ear() -> Iterator[socket.socket]:
    """Listen at a port of this machine to which nobody may speak."""
    with socket.create_server(("127.0.0.1", 0)) as listening:
        listening.settimeout(0.2)
        yield listening


def list_reaching(secret: Path, port: int) -> tuple[Vector, ...]:
    """Return ways to a file beside the course and to a port."""
    host, path = f"http://127.0.0.1:{port}/", secret.as_uri()
    return (
        page("a", f"![x]({host}a.png)"), page("b", f"![x]({path})"),
        page("c", f'<img src="{path}">'),
        page("d", f'<link rel="attachment" href="{path}">'), page("e", f'--8<-- "{secret}"'),
        page("f", '--8<-- "../../secret.txt"'), page("g", f"{{% include '{secret}' %}}"),
        page("h", "![x](../../secret.txt)"), page("i", f"<style>@import url({host}i.css);</style>"),
        drawing("j", f'<image href="{path}"/>'), drawing("k", f'<image href="{host}k.png"/>'),
        drawing("l", f'<style>@font-face{{font-family:x;src:url({host}l.woff)}}</style>'),
        file("m.svg", f'<!DOCTYPE svg [<!ENTITY x SYSTEM "{path}">]><svg>&x;</svg>'),
        file("n.svg", f'<!DOCTYPE svg SYSTEM "{host}n.dtd"><svg/>'),
        file("o.css", f'@import "{host}o.css";'),
    )  # fmt: skip


@pytest.mark.parametrize("trust", ["trust: trusted\n", "trust: untrusted\n"])
def test_nothing_reads_a_file_beside_the_course_or_reaches_the_network(
    tmp_path: Path, ear: socket.socket, trust: str
) -> None:
    secret = tmp_path / "secret.txt"
    secret.write_text("canary-of-a-secret", encoding="utf-8")
    vectors = list_reaching(secret, ear.getsockname()[1])
    project = write_hostile(tmp_path / "project", vectors, trust)
    for name in ("link.md", "link.png", "link.txt", "lessons/count/link.md"):
        (project / "content" / name).symlink_to(secret)
    (project / "mkdocs.yml").write_text(SETTINGS, encoding="utf-8")
    assert run_tool("check", project).returncode == 1
    assert run_tool("build", "--quiet", project).returncode == 1
    assert not (project / "site").exists()
    assert build_site(Order(project / "mkdocs.yml", is_preview=True), tmp_path / "site") == ()
    for folder in (tmp_path / "site", project / ".cache"):
        for name, content in read_whole(folder):
            assert b"canary-of-a-secret" not in content, name
    with pytest.raises(TimeoutError):
        ear.accept()
