"""A finished page is read as a browser does: what it points to, and what somebody sees."""

import pytest

from builder.publishing.proof.written_page import Pointer, parse_written_page


def words_of(body: str) -> str:
    return " ".join(parse_written_page("a.html", f"<!doctype html><body>{body}").text.split())


@pytest.mark.parametrize(
    "unseen",
    [
        "<p hidden>no</p>",
        '<p aria-hidden="true">no</p>',
        '<p style="color: red; Display : None">no</p>',
        '<p style="visibility:hidden"><b hidden>no</b> no</p>',
        "<noscript>no</noscript>",
        "<template><p>no</p></template>",
        "<script>'no'</script><style>no {}</style>",
    ],
)
def test_what_nobody_sees_is_no_word_of_a_page(unseen: str) -> None:
    assert words_of(f"<p>Stop</p> {unseen} <p>if dizzy &amp; faint</p>") == "Stop if dizzy & faint"


def test_the_words_of_an_article_are_taken_once_and_the_frame_is_left_out() -> None:
    assert words_of("menu <article>a <article>b</article></article>") == "a b"


def test_pointers_come_in_their_order_with_what_a_page_loads_by_itself() -> None:
    page = parse_written_page(
        "a.html",
        '<base href="/b/"><article><a href="x">1</a><div style="background: url(\'y.png\')">'
        '<img src="z.png" srcset="z2.png 2x"></div></article><style>@import "s.css";</style>',
    )
    assert page.pointers == (
        Pointer("base", "/b/", in_article=False, is_loaded=True),
        Pointer("a", "x", in_article=True, is_loaded=False),
        Pointer("div", "y.png", in_article=True, is_loaded=True),
        Pointer("img", "z.png", in_article=True, is_loaded=True),
        Pointer("img", "z2.png", in_article=True, is_loaded=True),
        Pointer("style", "s.css", in_article=False, is_loaded=True),
    )


def test_what_stands_in_a_template_may_yet_be_shown_and_followed() -> None:
    page = parse_written_page("a.html", '<template><p id="later"><a href="on">on</a></template>')
    assert page.anchors == {"later"}
    assert [pointer.target for pointer in page.pointers] == ["on"]


def test_a_swallowed_caution_is_not_seen() -> None:
    assert words_of("<!-- <p>Stop if dizzy</p> --><textarea><p>a</p></textarea>") == "<p>a</p>"
