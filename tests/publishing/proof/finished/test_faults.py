"""A finished site is judged by its folder alone."""

from pathlib import Path

import pytest

from builder.errors import BuilderError
from builder.findings import Place
from builder.publishing.proof.finished.faults import count_followed, gather
from builder.publishing.proof.finished.site import read_finished_site
from builder.reading.addresses import Declared
from tests.publishing.proof.finished.conftest import ADDRESS, CARD, Find, look

COURSE = Place("content/course.yml", 6, 10)


def test_a_sound_site_with_another_in_its_folder_has_no_faults(site: Path) -> None:
    assert look(site) == ()
    assert count_followed(read_finished_site(site)) == "6 pages, 2 PDFs, 1 book"


def test_a_folder_without_a_home_page_is_no_site(tmp_path: Path) -> None:
    with pytest.raises(BuilderError, match="no finished site"):
        read_finished_site(tmp_path)


@pytest.mark.parametrize("address", [ADDRESS, ADDRESS.rstrip("/")])
def test_sources_that_give_the_same_address_agree(site: Path, address: str) -> None:
    assert look(site, Declared(((COURSE, address),))) == ()


def test_sources_with_another_address_are_named(site: Path) -> None:
    (found,) = look(site, Declared(((COURSE, "https://new.example/"),)))
    assert str(found) == (
        'content/course.yml:6:10: L104 wrong-address: "https://new.example/" is set, and the '
        f'finished pages stand at "{ADDRESS}"; set one address, and build again.'
    )


def test_a_site_without_an_address_is_told_when_one_is_set(site: Path) -> None:
    home = site / "index.html"
    home.write_text(home.read_text("utf-8").replace("canonical", "x"), "utf-8")
    found = look(site, Declared(((COURSE, ADDRESS),)))
    assert "L104" in {finding.rule.id for finding in found if finding.place == COURSE}


def test_a_site_that_moved_as_a_whole_tells_of_cards_that_did_not(site: Path) -> None:
    for path in (*site.rglob("*.html"), *site.rglob("*.xml")):
        text = path.read_text("utf-8").replace("studio.example", "new.example")
        path.write_text(text, "utf-8")
    found = [(each.rule.id, each.place.path) for each in look(site)]
    assert ("L104", CARD) in found
    assert ("L104", "es/cards/uno.pdf") in found


def test_places_that_grew_together_are_each_told_once(find: Find) -> None:
    page = '<html><body><a href="gone/">a</a><a href="gone/">b</a></body></html>'
    assert find({"more/index.html": page}) == [("L101", "more/index.html")]


def test_a_page_that_every_menu_names_is_missed_once(site: Path) -> None:
    for number in range(5):
        text = '<a href="gone/">a</a><a href="gone/#x">b</a><a href="es/#x">c</a>'
        (site / f"more-{number}.html").write_text(text, "utf-8")
    found = gather(look(site))
    assert [(finding.rule.id, finding.place.path) for finding in found] == [
        ("L101", "more-0.html"),
        ("L102", "more-0.html"),
    ]
    assert found[0].details == (
        "target: gone/index.html",
        "also in 4 other files: more-1.html, more-2.html, more-3.html, …",
    )


def test_faults_of_their_own_stay_apart(site: Path) -> None:
    for name in ("one.pdf", "two.pdf"):
        (site / name).write_bytes(b"none")
    assert [finding.place.path for finding in gather(look(site))] == ["one.pdf", "two.pdf"]
