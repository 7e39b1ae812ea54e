"""Which sheets of a page are followed, and which are the tool's own."""

import pytest
from selectolax.lexbor import LexborHTMLParser

from builder.publishing.proof.safety.styles.loading import (
    load_sheets,
    open_sheet,
    resolve_address,
)
from builder.publishing.proof.safety.styles.selectors import Selector
from builder.resources import find_templates


def test_our_own_sheet_is_known_by_its_bytes() -> None:
    content = (find_templates() / "assets" / "site.css").read_bytes()
    assert open_sheet(content)[1]
    assert not open_sheet(content + b" ")[1]


@pytest.mark.parametrize(
    ("address", "path"),
    [
        ("own.css", "lessons/own.css"),
        ("../assets/own%20a.css?1#a", "assets/own a.css"),
        ("../../own.css", None),
        ("/own.css", None),
        ("//studio.test/own.css", None),
        ("https://studio.test/own.css", None),
        ("data:text/css,a{}", None),
        ("own.txt", None),
        ("..\\own.css", None),
    ],
)
def test_only_sheets_of_the_site_are_followed(address: str, path: str | None) -> None:
    assert resolve_address("lessons", address) == path


def test_an_imported_sheet_comes_before_its_importer() -> None:
    files = {"a.css": b"@import 'b.css' print; p { color: red }", "b.css": b"p { color: blue }"}
    tree = LexborHTMLParser("<!doctype html><link rel=stylesheet href=a.css>")
    laid = load_sheets(files.__getitem__, "index.html", tree)
    assert [each.sheet.rules[0].declarations[0].value for each in laid] == ["blue", "red"]
    assert [len(each.conditions) for each in laid] == [1, 0]


@pytest.mark.parametrize(
    ("text", "key"),
    [
        (".md-typeset li [x]", ""),
        ("ul > li.tl-notice:last-child", ".tl-notice"),
        ("ul>*", ">ul"),
        ("a:not(.b)", "a"),
        ("#one.two", "#one"),
        ("p :is(a, .b)", ""),
    ],
)
def test_what_a_selector_needs_is_read_from_its_end(text: str, key: str) -> None:
    assert Selector(text).key == key
