"""Texts of a course that are too large, too deep or too many: told quickly, and not read on."""

import re
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.conftest import WriteCourse
from tests.running import run_tool

LESSON = "content/lessons/count/long-out.md"
PAGE = "content/about.md"
Change = Callable[[str], str]


def in_header(words: str) -> Change:
    return lambda text: text.replace("---\n", f"---\n{words}\n", 1)


def in_body(words: str) -> Change:
    return lambda text: text + words


def in_steps(words: str) -> Change:
    return lambda text: text.replace("## Steps\n", f"## Steps\n{words}")


LESSONS: dict[str, tuple[Change, str]] = {
    "bytes": (in_body("\n" + "a b\n" * 70_000), "1:1: X101"),
    "a line": (in_body("\n## Coach notes\n" + "a" * 12_001), r"\d+:1: X101"),
    "a passage": (in_steps(f"1. {'ab ' * 1700}\n"), r"\d+:1: X101"),
    "the body": (in_body("\n" + "a b\n" * 13_000), r"\d+:1: X101"),
    "passages": (in_steps("1. Breathe in.\n" * 401), r"\d+:1: X103"),
    "a header": (in_header("# " + "a" * 66_000), r"\d+:1: X101"),
    "a header of lines": (in_header("k: some words\n" * 6000), "1:1: X101"),
    "brackets": (in_header("x: " + "[" * 3000), r"2:\d+: X102"),
    "closed brackets": (in_header("x: " + "[" * 40 + "]" * 40), "2:35: X102"),
    "mappings": (in_header("x: " + "{a: " * 2000), r"2:\d+: X102"),
    "names": (
        lambda text: re.sub("builds_on:.*", f"builds_on: [{'nobody, ' * 300}nobody]", text),
        r"\d+:\d+: X103",
    ),
    "wrong links": (in_body("\n## If it is hard\n" + "[[nobody]]\n\n" * 390), r"\d+:1: X103"),
    "open HTML": (in_body("\n## If it is hard\n" + "<a" * 5900 + "\n"), r"\d+:1: H112"),
    "spaces in a heading": (in_body("\n# a" + " " * 11_000 + "x\n"), r"\d+:1: H112"),
    "marks after a heading": (in_body("\n# " + "#" * 11_000 + "x\n"), r"\d+:1: H112"),
    "a tempo": (
        lambda text: re.sub("tempo:.*", f'tempo: "{"9" * 9000}-1-4-1"', text),
        r"\d+:\d+: H107",
    ),
    "a dose": (lambda text: re.sub("dose:.*", f"dose: {{sets: 1{'0' * 9000}}}", text), r"\d+:\d+:"),
}
PAGES = {
    "open brackets": ("[" * 3000, "3:1: X102"),
    "brackets over lines": ("[a\n" * 3000, r"\d+:1: X102"),
    "links in a paragraph": ("[a][b]\n" * 900, r"\d+:1: X103"),
    "links on a page": ("[a][b] `c`\n\n" * 1500, r"\d+:1: X103"),
    "back-ticks": ("``a`" * 600, "3:1: X103"),
    "quotations": (">" * 5000 + " a", "3:1: X102"),
    "quotations apart": ("> " * 40 + "a", "3:1: X102"),
    "a list": ("\n".join("    " * level + "- a" for level in range(300)), r"\d+:1: X102"),
    "lists in a line": ("- 1. " * 40 + "a", "3:1: X102"),
    "headings": ("## a\n\n" * 1001, r"\d+:1: X103"),
    "one line": ("*a_" * 5000, "3:1: X101"),
    "bytes": ("a\n\n" * 90_000, "1:1: X101"),
}


@pytest.mark.parametrize(("change", "told"), LESSONS.values(), ids=LESSONS)
def test_a_lesson_beyond_a_limit_is_told_at_its_line(
    write_course: WriteCourse, change: Change, told: str
) -> None:
    root = write_course()
    text = (root / LESSON).read_text(encoding="utf-8")
    assert change(text) != text
    (root / LESSON).write_text(change(text), encoding="utf-8")
    assert re.search(f"^{LESSON}:{told}", check(root), re.MULTILINE)


@pytest.mark.parametrize(("body", "told"), PAGES.values(), ids=PAGES)
def test_a_page_that_would_keep_the_host_busy_is_told_at_its_line(
    write_course: WriteCourse, body: str, told: str
) -> None:
    root = write_course({PAGE: f"# About\n\n{body}\n"})
    assert re.search(f"^{PAGE}:{told}", check(root), re.MULTILINE)


@pytest.mark.parametrize(
    "body",
    [
        "- " * 40,
        "* * * * * * * * * * * * * * * * * * * * * *",
        "```text\n" + " " * 200 + "far in\n```",
        "- one\n    - two\n        - three\n            - four",
        "| a | b |\n|---|---|\n" + "| [one](index.md) | `two` |\n" * 150,
    ],
    ids=["a rule", "a rule of stars", "code", "a list", "a table"],
)
def test_what_studios_write_stays_within_the_limits(write_course: WriteCourse, body: str) -> None:
    root = write_course({PAGE: f"# About\n\n{body}\n"})
    assert " X1" not in check(root)


def test_a_course_file_of_unknown_keys_comes_to_an_end(write_course: WriteCourse) -> None:
    root = write_course()
    with (root / "content/course.yml").open("a") as file:
        file.writelines(f"k{number}: 1\n" for number in range(10_000))
    assert check(root).count("H104 key-unknown") == 10_000


def test_so_does_one_of_more_values_than_any_course_has(write_course: WriteCourse) -> None:
    root = write_course()
    with (root / "content/course.yml").open("a") as file:
        file.write("traits: [" + " a,\n" * 61_000 + "a]\n")
    assert re.search(r"^content/course.yml:\d+:\d+: X103 ", check(root))


def check(root: Path) -> str:
    done = run_tool("check", root)
    assert (done.returncode, done.stderr) in ((0, ""), (1, ""))
    return done.stdout
