"""Inline Markdown: what it becomes, and what an author can't slip in."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.publishing.views.inline import InlineRenderer, no_link, render_inline, strip_tags

TITLES = {"belly-breath": "Belly <b>reath"}


def render(text: str) -> str:
    return render_inline(text, TITLES, lambda name: f"/lessons/{name}/")


def test_a_lesson_name_becomes_a_link_with_its_title() -> None:
    assert render("Do [[belly-breath]].") == (
        'Do <a href="/lessons/belly-breath/">Belly &lt;b&gt;reath</a>.'
    )


def test_on_paper_a_lesson_name_is_its_title() -> None:
    html = InlineRenderer(TITLES, no_link).render("Do [[belly-breath]] again.")
    assert "href" not in html
    assert strip_tags(html) == "Do Belly <b>reath again."


def test_a_name_of_no_lesson_stays_readable() -> None:
    assert strip_tags(render("Do [[bely-breath]].")) == "Do bely-breath."


def test_strong_and_emphasis_come_out_as_elements() -> None:
    assert render("**Slow** and *soft*") == "<strong>Slow</strong> and <em>soft</em>"


def test_a_text_that_looks_like_a_list_stays_a_line() -> None:
    assert render("1. Breathe in") == "1. Breathe in"


@pytest.mark.parametrize(
    "text",
    [
        "<script>alert(1)</script>",
        '<img src=x onerror="alert(1)">',
        "[x](javascript:alert(1))",
        "[x](&#106;avascript:alert(1))",
        "[x](java\tscript:alert(1))",
        "[x](data:text/html,<b>)",
        "<javascript:alert(1)>",
        "![x](https://elsewhere.example/a.png)",
    ],
)
def test_no_markup_or_unsafe_address_of_an_author_comes_through(text: str) -> None:
    html = render(text)
    for element in ("<script", "<img", 'href="javascript', 'href="data', 'href="java', "href='"):
        assert element not in html.lower()


def test_web_addresses_are_kept() -> None:
    assert 'href="https://a.example/?b=1&amp;c=2"' in render("[a](https://a.example/?b=1&c=2)")


signs = st.sampled_from("aß中9_*`[]()<>&!\\\"'’ .,:;?-–#\n\t1")


@given(st.text(signs, max_size=12))
def test_a_plain_text_takes_a_short_way_to_the_same_words(text: str) -> None:
    renderer = InlineRenderer({}, no_link)
    short = renderer.render(text)
    assert short == renderer.render_by_markdown(text)
