"""Links in HTML, turned for hosts that take them as seen from a page's source."""

import pytest

from builder.publishing.site.plain_links import link_from_source


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ('<a href="../">up</a>', '<a href="./">up</a>'),
        ('<a class="x" href="../../map/#a">map</a>', '<a class="x" href="../map/#a">map</a>'),
        ("<a href='../../map/'>map</a>", "<a href='../map/'>map</a>"),
        ('<img src="../../a.png">', '<img src="../a.png">'),
        ('<a href="inner/">in</a>', '<a href="hold/inner/">in</a>'),
    ],
)
def test_a_relative_link_of_a_page_loses_one_step_up(before, after):
    assert link_from_source("lessons/hold.md", f"Text.\n\n{before}\n") == f"Text.\n\n{after}\n"
    assert link_from_source("lessons/index.md", before) == before


@pytest.mark.parametrize(
    "text",
    [
        '<a href="#end">end</a>',
        '<a href="https://small.example/">out</a>',
        '<a href="/root/">root</a>',
        '<a href="mailto:a@small.example">write</a>',
        "[map](../map.md)",
        '```html\n<a href="../../map/">map</a>\n```',
        '<p data-aim="../../map/">its script reads it from the address</p>',
    ],
)
def test_every_other_link_stays(text):
    assert link_from_source("lessons/hold.md", text) == text
