"""The lists that a finished site keeps of its own files."""

import gzip
from pathlib import Path

import pytest

from tests.publishing.proof.finished.conftest import ADDRESS, Find, look, write_sitemap


def test_a_page_that_changed_after_the_list_was_made_is_found(find: Find) -> None:
    changed = "<html><body>other words</body></html>"
    assert find({"es/uno/index.html": changed}, listed=False) == [("L105", "es/service-worker.js")]


def test_sounds_that_sites_share_are_looked_for_where_they_are(find: Find) -> None:
    assert find({"tracks/soft.flac": b"other"}, listed=False) == [
        ("L105", "es/service-worker.js"),
        ("L105", "service-worker.js"),
    ]


def test_a_file_that_the_worker_keeps_must_be_there(find: Find) -> None:
    assert ("L105", "service-worker.js") in find({"font.woff2": None}, listed=False)


def test_a_worker_whose_list_was_never_filled_is_found(find: Find) -> None:
    text = 'const edition = { code: "", pages: {}, kept: {} };'
    assert find({"service-worker.js": text}, listed=False) == [("L106", "service-worker.js")]


@pytest.mark.parametrize("path", ["sitemap.xml", "es/sitemap.xml"])
def test_a_sitemap_lists_only_what_is_there(find: Find, path: str) -> None:
    found = find({"sitemap.xml.gz": None, path: write_sitemap("", "gone/")})
    assert found == [("L101", path)]


def test_a_sitemap_of_another_address_is_found(site: Path) -> None:
    (site / "sitemap.xml.gz").unlink()
    text = write_sitemap("").replace(ADDRESS, "https://old.example/")
    (site / "sitemap.xml").write_text(text, "utf-8")
    assert [each.rule.id for each in look(site)] == ["L104"]


@pytest.mark.parametrize(
    "content",
    [gzip.compress(b"<urlset/>", mtime=0), b"none", b"\x1f\x8b\x08"],
    ids=["another list", "no zip", "cut short"],
)
def test_a_packed_sitemap_says_the_same(find: Find, content: bytes) -> None:
    assert find({"sitemap.xml.gz": content}) == [("L105", "sitemap.xml.gz")]


def test_search_finds_only_what_is_there(find: Find) -> None:
    index = '{"docs": [{"location": "gone/"}, {"location": "#gone"}]}'
    path = "search/search_index.json"
    assert find({path: index}) == [("L101", path), ("L102", path)]
    assert find({path: "[]"}) == [("L106", path)]


def test_headers_are_for_paths_that_are_there(site: Path) -> None:
    text = "/*\n  X: y\n# words\n/course/cards/*\n/course/gone.html\nnowhere\n"
    (site / "_headers").write_text(text, "utf-8")
    found = [(each.rule.id, each.place.path, each.place.line) for each in look(site)]
    assert found == [("L101", "_headers", 5), ("L106", "_headers", 6)]


def test_a_manifest_names_a_start_and_pictures_that_are_there(find: Find) -> None:
    path = "site.webmanifest"
    assert find({path: '{"start_url": "gone/", "icons": [{"src": "gone.png"}]}'}) == [
        ("L101", path),
        ("L101", path),
    ]
    assert find({path: "[]"}) == [("L106", path)]
