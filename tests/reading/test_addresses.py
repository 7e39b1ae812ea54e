"""The addresses that a project's own files give."""

from pathlib import Path

import pytest

from builder.reading.addresses import Declared, read_declared
from tests.conftest import WriteCourse


def list_found(project: Path) -> list[tuple[str, str]]:
    return [(str(place), address) for place, address in read_declared(project).addresses]


def test_a_folder_without_sources_declares_nothing(tmp_path: Path) -> None:
    assert read_declared(tmp_path) == Declared()


def test_both_files_are_read_with_the_line_of_each(write_course: WriteCourse) -> None:
    settings = "site_name: x\nextra: !ENV [A]\nsite_url: 'https://a.example/b/' # here\n"
    assert list_found(write_course({"mkdocs.yml": settings})) == [
        ("content/course.yml:5:10", "https://small.example/"),
        ("mkdocs.yml:3:1", "https://a.example/b/"),
    ]


@pytest.mark.parametrize("text", ["title: [", "title: x", "address: ''", "address: [a]", ""])
def test_a_course_file_without_an_address_declares_none(
    write_course: WriteCourse, text: str
) -> None:
    assert list_found(write_course({"content/course.yml": text})) == []
