"""Links and lists of finished EPUBs."""

import io
import zipfile

import pytest

from tests.publishing.proof.finished.conftest import ADDRESS, BOOK, Find, write_book

ONE = f"{BOOK}/EPUB/one.xhtml"
PACKAGE = f"{BOOK}/EPUB/book.opf"


def write_one(body: str) -> dict[str, str | None]:
    return {"EPUB/one.xhtml": f'<html><body><p id="end">{body}</p></body></html>'}


@pytest.mark.parametrize(
    ("body", "rule"),
    [
        ('<a href="gone.xhtml">x</a>', "L101"),
        ('<a href="nav.xhtml#gone">x</a>', "L102"),
        ('<img src="gone.png"/>', "L101"),
        ('<svg><image xlink:href="gone.png"/></svg>', "L101"),
        (f'<a href="{ADDRESS}gone/">x</a>', "L101"),
        ('<a href="http://studio.example/course/">x</a>', "L104"),
        ('<img src="https://elsewhere.example/x.png"/>', "L101"),
    ],
)
def test_a_dead_link_of_a_book_is_found(find: Find, body: str, rule: str) -> None:
    assert find({BOOK: write_book(write_one(body))}) == [(rule, ONE)]


def test_a_part_that_went_is_missed_by_list_and_contents(find: Find) -> None:
    assert find({BOOK: write_book({"EPUB/one.xhtml": None})}) == [
        ("L101", PACKAGE),
        ("L101", f"{BOOK}/EPUB/nav.xhtml"),
    ]


def test_a_part_that_no_list_names_is_found(find: Find) -> None:
    assert find({BOOK: write_book({"EPUB/two.xhtml": "<p>x</p>"})}) == [("L105", PACKAGE)]


@pytest.mark.parametrize(
    ("old", "new", "rule"),
    [
        ('idref="one"', 'idref="two"', "L101"),
        ('<itemref idref="one"/>', "", "L106"),
        ('properties="nav"', "", "L106"),
    ],
)
def test_a_package_without_order_or_contents_is_found(
    find: Find, old: str, new: str, rule: str
) -> None:
    with zipfile.ZipFile(io.BytesIO(write_book())) as file:
        package = file.read("EPUB/book.opf").decode()
    assert old in package
    changed = package.replace(old, new)
    assert find({BOOK: write_book({"EPUB/book.opf": changed})}) == [(rule, PACKAGE)]


def test_a_container_that_names_no_package_is_found(find: Find) -> None:
    assert find({BOOK: write_book({"META-INF/container.xml": "<container/>"})}) == [("L106", BOOK)]
    broken = '<container><rootfile full-path="gone.opf"/></container>'
    assert find({BOOK: write_book({"META-INF/container.xml": broken})}) == [("L101", BOOK)]


def test_a_style_of_a_book_loads_only_what_is_there(find: Find) -> None:
    change = {"EPUB/book.css": "p { background: url(gone.png) }"}
    assert find({BOOK: write_book(change)}) == [("L101", f"{BOOK}/EPUB/book.css")]


def test_the_type_has_to_come_first(find: Find) -> None:
    target = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(write_book())) as old, zipfile.ZipFile(target, "w") as new:
        for name in reversed(old.namelist()):
            new.writestr(name, old.read(name))
    assert find({BOOK: target.getvalue()}) == [("L106", BOOK)]


def test_a_book_that_is_no_zip_is_found(find: Find) -> None:
    assert find({BOOK: b"PK\x03\x04 and no more"}) == [("L106", BOOK)]


def test_a_book_of_which_a_part_is_damaged_is_found(find: Find) -> None:
    damaged = write_book().replace(b"margin: 0", b"margin: 1")
    assert find({BOOK: damaged}) == [("L106", BOOK)]


def test_a_zip_that_would_fill_the_disk_is_not_opened(find: Find) -> None:
    target = io.BytesIO()
    with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as file:
        for number in range(3):
            file.writestr(f"{number}.xhtml", bytes(70_000_000))
    assert len(target.getvalue()) < 1_000_000
    assert find({BOOK: target.getvalue()}) == [("L106", BOOK)]
