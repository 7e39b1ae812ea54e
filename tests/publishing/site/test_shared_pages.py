"""What a shared address shows, by the Open Graph protocol (ogp.me), and the book beside the site.

A page needs og:title, og:type, og:image and og:url by that protocol; addresses are whole ones.
"""

import re
from html import unescape
from pathlib import Path

import pytest

from builder.mkdocs_parts import Order
from builder.mkdocs_plugin import build_site
from builder.publishing.site.disk import zip_site
from builder.reading.course_folder import read_course
from tests.conftest import copy_small_course
from tests.publishing.book.opened import open_book

SETTINGS = """\
site_name: A small course
docs_dir: content
theme: {{name: material}}
plugins: [search, tempoleaf: {{{}}}]
"""
ADDRESS = "https://small.example/"
META = re.compile(r'<meta (?:property|name)="((?:og|twitter):[^"]*)" content="([^"]*)">')
HOLD = "lessons/count/short-hold/index.html"


def build(project: Path, ways: str) -> Path:
    (project / "mkdocs.yml").write_text(SETTINGS.format(ways), encoding="utf-8")
    assert build_site(Order(project / "mkdocs.yml"), project / "site") == ()
    return project / "site"


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Build the small course with its cards."""
    project = copy_small_course(tmp_path_factory.mktemp("shared") / "project")
    course = project / "content/course.yml"
    text = course.read_text(encoding="utf-8")
    renamed = text.replace("title: A small course", "title: 'A small & \"quiet\" course'")
    assert renamed != text
    course.write_text(renamed, encoding="utf-8")
    return build(project, "papers: [a6]")


def read_meta(site: Path, page: str) -> dict[str, str]:
    found = META.findall((site / page).read_text(encoding="utf-8"))
    return {name: unescape(value) for name, value in found}


def test_a_lesson_is_shown_by_its_own_title_and_picture(site: Path) -> None:
    told = read_meta(site, HOLD)
    assert told["og:title"] == "Short hold"
    assert told["og:description"] == "Add a hold of three after each breath."
    assert told["og:url"] == f"{ADDRESS}lessons/count/short-hold/"
    assert told["og:image"] == f"{ADDRESS}previews/lessons/short-hold.png"
    assert told["og:image:alt"] == "Short hold: lying on the back (supine), 3-3-3-3"
    assert (told["og:type"], told["og:locale"]) == ("article", "en_GB")


def test_other_pages_are_shown_by_the_courses_picture(site: Path) -> None:
    for page in ("index.html", "map/index.html", "safety/index.html"):
        told = read_meta(site, page)
        assert told["og:image"] == f"{ADDRESS}previews/course.png"
        assert told["og:image:alt"].startswith('A small & "quiet" course. Five lessons')


def test_every_picture_that_a_page_names_is_there(site: Path) -> None:
    for page in site.rglob("*.html"):
        picture = read_meta(site, page.relative_to(site).as_posix()).get("og:image")
        if picture:
            content = (site / picture.removeprefix(ADDRESS)).read_bytes()
            assert content[:8] == b"\x89PNG\r\n\x1a\n"
            # Width and height: PNG (W3C), section 11.2.2.
            assert (int.from_bytes(content[16:20]), int.from_bytes(content[20:24])) == (1200, 630)


def test_nobody_keeps_pictures_or_book_unasked(site: Path) -> None:
    kept = (site / "service-worker.js").read_text(encoding="utf-8")
    assert "previews/" not in kept
    assert ".epub" not in kept


def test_the_map_leads_to_the_book(site: Path) -> None:
    page = (site / "map/index.html").read_text(encoding="utf-8")
    assert '<a href="../course.epub" type="application/epub+zip">' in page
    book = open_book((site / "course.epub").read_bytes())
    assert "lesson-short-hold.xhtml" in book.chapters
    assert book.files["EPUB/cover.png"][:4] == b"\x89PNG"


def test_the_book_goes_onto_a_disk_and_the_pictures_do_not(site: Path, tmp_path: Path) -> None:
    zip_site(site, tmp_path / "course.zip", "course")
    names = open_book((tmp_path / "course.zip").read_bytes()).files
    assert "course/course.epub" in names
    assert not any("previews" in name or name.endswith(("robots.txt", ".gz")) for name in names)


def test_without_cards_there_is_no_picture_and_no_book(tmp_path: Path) -> None:
    site = build(copy_small_course(tmp_path / "project"), "cards: false")
    told = read_meta(site, HOLD)
    assert told["og:title"] == "Short hold"
    assert "og:image" not in told
    assert not (site / "course.epub").exists()
    assert "course.epub" not in (site / "map/index.html").read_text(encoding="utf-8")


def test_a_course_that_has_no_address_yet_is_not_shared(tmp_path: Path) -> None:
    project = copy_small_course(tmp_path / "project")
    course = project / "content/course.yml"
    lines = course.read_text(encoding="utf-8").split("\n")
    kept = [line for line in lines if not line.startswith("address:")]
    course.write_text("\n".join(kept), encoding="utf-8")
    assert read_course(project).course is not None
    site = build(project, "cards: false")
    assert read_meta(site, HOLD) == {}
    assert not (site / "sitemap.xml").exists()
