"""Names of files become ids and addresses, so that no two of them meet."""

from pathlib import Path

import pytest

from builder.reading.course_folder import read_course
from builder.reading.file_names import find_id_fault, find_page_fault


def findings_of(root: Path) -> list[str]:
    return [str(finding) for finding in read_course(root).findings]


@pytest.mark.parametrize(
    ("name", "fact"),
    [
        ("index", '"index" is kept for the first page of a folder; rename the file.'),
        ("readme", '"readme" is kept for the first page of a folder; rename the file.'),
        ("nul", '"nul" can\'t be a file name on every computer; rename the file.'),
        ("a--b", 'the file name "a--b" is no id; '
         "use small letters, digits and single hyphens, 64 at most."),
        ("a" * 65, f'the file name "{"a" * 65}" is no id; '
         "use small letters, digits and single hyphens, 64 at most."),
    ],
)  # fmt: skip
def test_a_name_that_cannot_be_an_id_is_refused(name: str, fact: str) -> None:
    path = f"content/lessons/breath/{name}.md"
    assert str(find_id_fault(path)) == f"{path}:1:1: H108 id-malformed: {fact}"


def test_a_plain_name_is_an_id() -> None:
    assert find_id_fault(f"content/notices/{'a' * 64}.md") is None


@pytest.mark.parametrize("within", ["map.md", "README.md", "authors/O102.md", "Authors.md"])
def test_a_page_never_takes_the_place_of_one_that_the_tool_makes(within: str) -> None:
    fault = find_page_fault(f"content/{within}", within)
    assert fault is not None
    assert fault.rule.id == "H109"


@pytest.mark.parametrize("within", ["a:b.md", "a?b.md", "a\nb.md", "x/<b>.md", "a\udcffb.md"])
def test_a_page_s_name_can_stand_in_an_address(within: str) -> None:
    fault = find_page_fault(f"content/{within}", within)
    assert fault is not None
    assert fault.rule.id == "H108"


@pytest.mark.parametrize("within", ["index.md", "about us.md", "übungen.md", "studio/prices.md"])
def test_ordinary_names_of_pages_are_left_alone(within: str) -> None:
    assert find_page_fault(f"content/{within}", within) is None


def test_pages_are_read_in_folders_too(write_course) -> None:
    reading = read_course(write_course({"content/studio/prices.md": "# Prices\n"}))
    assert not reading.findings
    assert [page.path for page in reading.pages] == ["glossary.md", "index.md", "studio/prices.md"]


def test_a_lesson_lies_right_in_its_strand_s_folder(write_course) -> None:
    root = write_course()
    old = root / "content/lessons/breath/wide-ribs.md"
    deep = root / "content/lessons/old/breath"
    deep.mkdir(parents=True)
    old.rename(deep / "wide-ribs.md")
    assert findings_of(root) == [
        "content/lessons/old/breath/wide-ribs.md:3:9: H115 file-misplaced: "
        'the strand is "breath", the folder "old/breath"; move the file or change the strand.'
    ]


def test_no_strand_takes_the_name_of_the_whole_course(write_course) -> None:
    root = write_course()
    course = root / "content/course.yml"
    text = course.read_text(encoding="utf-8").replace("{id: count,", "{id: whole-course,")
    course.write_text(text, encoding="utf-8")
    assert (
        'content/course.yml:10:10: H108 id-malformed: "whole-course" is kept for the pack of all '
        "strands; give it another id."
    ) in findings_of(root)
