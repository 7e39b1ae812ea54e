"""Texts point only to what is there, and load nothing from elsewhere."""

import pytest

from builder.reading.course_folder import read_course
from builder.reading.references import find_foreign_parts, find_wrong_references

LESSONS = ("belly-breath", "box")


def wrong(text: str) -> list[str]:
    return [str(finding) for finding in find_wrong_references(text, "a.md", LESSONS)]


def foreign(text: str) -> list[str]:
    return [str(finding) for finding in find_foreign_parts(text, "a.md")]


@pytest.mark.parametrize(
    ("name", "cure"),
    [
        ("nowhere", "write the id of a lesson of this course"),
        ("<b>", "write the id of a lesson of this course"),
        ("../../x", "write the id of a lesson of this course"),
        ("", "write the id of a lesson of this course"),
        ("bely-breath", 'write "belly-breath" if that is meant'),
        ("Box", 'write "box" if that is meant'),
        ("box|the box", "write the id of a lesson of this course"),
    ],
)
def test_a_name_of_no_lesson_is_told_where_it_stands(name: str, cure: str) -> None:
    assert wrong(f"one\ntwo [[box]] [[{name}]]\n") == [
        f'a.md:2:13: L101 broken-link: "[[{name}]]" names no lesson; {cure}.'
    ]


@pytest.mark.parametrize(
    "address",
    [
        "javascript:alert(1)",
        "JavaScript:alert",
        "javascript&#58;alert",
        "javascript&colon;alert",
        "data:text/html,x",
        "file:///etc/passwd",
        "vbscript:x",
    ],
)
@pytest.mark.parametrize("form", ["[x]({})", "[x]( <{}> )", "[x](\n{} 'a title')", "[x]: {}"])
def test_a_link_that_runs_or_opens_something_is_told(address: str, form: str) -> None:
    (finding,) = wrong(form.format(address))
    assert finding.startswith("a.md:1:")
    assert "L101 broken-link" in finding
    assert finding.endswith("link to a page of the course, or to an address with https.")


@pytest.mark.parametrize(
    "text",
    [
        "[x](safety.md)", "[x](safety.md 'a title')", "[x](https://a.example/ \"b\")",
        "[x](mailto:a@b.example)", "[x](tel:112)", "[x](#top)", "`[[code]]`",
        "```\n[[code]] [x](javascript:y)\n```", "[[ box ]]",
    ],
)  # fmt: skip
def test_sound_links_and_code_are_left_alone(text: str) -> None:
    assert wrong(text) == []


@pytest.mark.parametrize(
    "html",
    ["<script>", "<img src=//a.example>", "</div>", "<!-- note -->", "<script\nsrc=x", "<?php"],
)
def test_html_is_told_with_its_place(html: str) -> None:
    assert foreign(f"one\ntwo {html}") == [
        "a.md:2:5: H112 body-malformed: HTML stands here, which a page could run or fetch; "
        'use plain Markdown, and "less than" in words.'
    ]


@pytest.mark.parametrize(
    "picture",
    ["![x](http://a.example/p.png)", "![](//a.example/p.png)", "![x](data:image/png,)",
     "![x][p]", "![p]", "![a [b] c](http://a.example/p.png)", "![a\nb](//a.example)", "![x](\nhttps://a.example/p.png)"],
)  # fmt: skip
def test_a_picture_from_elsewhere_is_told(picture: str) -> None:
    assert foreign(picture) == [
        "a.md:1:1: H112 body-malformed: this picture would be fetched from somewhere else; "
        "put it into the content folder and name it in round brackets."
    ]


@pytest.mark.parametrize(
    "text",
    ["2 < 3", "a <- b", "<https://a.example/>", "<a@b.example>", "`<b>`", "```\n<b>\n```",
     "![x](pictures/mat.png)", "![x](../mat.png 'a title')"],
)  # fmt: skip
def test_plain_markdown_is_left_alone(text: str) -> None:
    assert foreign(text) == []


def test_lessons_notices_and_pages_are_all_looked_through(write_course) -> None:
    root = write_course({"content/about.md": "# About\n\n[[nowhere]] <b>\n"})
    for path, old, new in (
        ("content/lessons/breath/wide-ribs.md", "summary: Widen", "summary: Widen [[nowhere]]"),
        ("content/notices/holding.md", 'short: "', 'short: "[x](javascript:y) '),
    ):
        text = (root / path).read_text(encoding="utf-8")
        assert old in text
        (root / path).write_text(text.replace(old, new, 1), encoding="utf-8")
    found = [str(finding).partition(": ")[0::2] for finding in read_course(root).findings]
    assert [(place, text.split(":")[0]) for place, text in found] == [
        ("content/about.md:3:1", "L101 broken-link"),
        ("content/about.md:3:13", "H112 body-malformed"),
        ("content/lessons/breath/wide-ribs.md:5:16", "L101 broken-link"),
        ("content/notices/holding.md:6:11", "L101 broken-link"),
    ]
