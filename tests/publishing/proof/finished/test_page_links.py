"""Links of finished pages and styles."""

from pathlib import Path

import pytest

from tests.publishing.proof.finished.conftest import ADDRESS, LESSON, Find, look, write_page

PAGE = "more/index.html"


@pytest.mark.parametrize(
    ("body", "rule"),
    [
        ('<a href="gone/">x</a>', "L101"),
        ('<img src="gone.png">', "L101"),
        ('<a href="../#gone">x</a>', "L102"),
        (f'<a href="{ADDRESS}gone/">x</a>', "L101"),
        (f'<a href="{ADDRESS}{LESSON}#gone">x</a>', "L102"),
        ('<a href="/elsewhere/">x</a>', "L101"),
        ('<script src="https://elsewhere.example/x.js"></script>', "L101"),
        ('<a href="javascript:x">x</a>', "L101"),
        (f'<meta property="og:image" content="{ADDRESS}gone.png">', "L101"),
        ('<meta property="og:image" content="http://studio.example/course/">', "L104"),
        (f'<script type="application/ld+json">{{"a": ["{ADDRESS}gone/"]}}</script>', "L101"),
        ('<script type="application/ld+json">{</script>', "L106"),
    ],
)
def test_a_page_with_a_fault_is_named(find: Find, body: str, rule: str) -> None:
    assert find({PAGE: write_page(PAGE, body)}) == [(rule, PAGE)]


def test_a_page_that_went_is_missed_by_all_that_name_it(find: Find) -> None:
    found = find({f"{LESSON}index.html": None})
    assert {place for rule, place in found if rule == "L101"} == {
        *("index.html", "sitemap.xml", "search/search_index.json"),
        *("cards/wide-ribs.pdf", "course.epub/EPUB/one.xhtml"),
    }


def test_a_page_of_another_place_says_so(find: Find) -> None:
    assert find({PAGE: write_page("other/index.html", "x")}) == [("L104", PAGE)]


def test_the_error_page_of_a_site_in_another_folder_of_its_host_leads_nowhere(find: Find) -> None:
    assert find({"404.html": '<a href="/">home</a>'}) == [("L101", "404.html")]


def test_capitals_count_on_every_machine(site: Path) -> None:
    (site / PAGE).parent.mkdir()
    (site / PAGE).write_text(write_page(PAGE, '<a href="../Site.css">x</a>'), "utf-8")
    (found,) = look(site)
    assert 'the file is called "site.css"; write it with the same capitals' in str(found)


def test_a_font_that_a_style_asks_for_must_be_there(find: Find) -> None:
    css = "@font-face { src: url('fonts/gone.woff2') } p { background: url(data:image/png;,) }"
    assert find({"more.css": css}) == [("L101", "more.css")]
