"""Courses for the benchmarks: the same each time, sound, and no lesson like another."""

import json
import re
from pathlib import Path

import pytest
import yaml

from tests.bench.courses import change_words, list_ids, list_lessons, write_course
from tests.running import run_tool

FEWER, MORE = 50, 130
"""Below and above the demo's own number of lessons."""
HEAD_IS_FREE = ("prone", "all-fours", "supine", "side-lying")


@pytest.fixture(scope="module")
def courses(tmp_path_factory: pytest.TempPathFactory) -> dict[int, Path]:
    folder = tmp_path_factory.mktemp("courses")
    for lessons in (FEWER, MORE):
        write_course(folder / str(lessons), lessons)
    return {lessons: folder / str(lessons) for lessons in (FEWER, MORE)}


def read_all(folder: Path) -> dict[str, bytes]:
    files = (path for path in folder.rglob("*") if path.is_file())
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in files}


def read_headers(course: Path) -> list[dict[str, object]]:
    texts = [
        (course / "content" / path).read_text(encoding="utf-8") for path in list_lessons(course)
    ]
    return [yaml.load(text.split("---\n")[1], yaml.BaseLoader) for text in texts]  # noqa: S506


@pytest.mark.parametrize("lessons", [1, FEWER, MORE])
def test_a_course_has_as_many_lessons_as_were_asked_for(tmp_path: Path, lessons: int) -> None:
    write_course(tmp_path / "course", lessons)
    assert len(set(list_ids(tmp_path / "course"))) == lessons


@pytest.mark.parametrize("lessons", [FEWER, MORE])
def test_a_course_is_the_same_each_time(
    tmp_path: Path, courses: dict[int, Path], lessons: int
) -> None:
    write_course(tmp_path / "again", lessons)
    assert read_all(tmp_path / "again") == read_all(courses[lessons])


@pytest.mark.parametrize("lessons", [FEWER, MORE])
def test_nothing_is_found_in_a_course(courses: dict[int, Path], lessons: int) -> None:
    done = run_tool("check", "--strict", courses[lessons])
    assert done.returncode == 0
    assert "R101" not in done.stdout
    assert f"{lessons} lessons" in done.stdout


def test_no_page_of_a_small_course_leads_to_a_placement_that_is_not_there(
    courses: dict[int, Path],
) -> None:
    content = courses[FEWER] / "content"
    assert not (content / "placement.yml").exists()
    assert [page.name for page in content.glob("*.md") if "start-here.md" in page.read_text()] == []


def test_no_two_lessons_share_a_title_or_a_body(courses: dict[int, Path]) -> None:
    course = courses[MORE]
    titles = [header["title"] for header in read_headers(course)]
    bodies = [
        (course / "content" / path).read_text(encoding="utf-8").split("---\n", 2)[2]
        for path in list_lessons(course)
    ]
    assert len(set(titles)) == MORE
    assert len(set(bodies)) == MORE


def test_no_two_copies_of_a_lesson_share_a_figure_where_the_head_is_free(
    courses: dict[int, Path],
) -> None:
    drawn = [
        (re.sub(r"-\d$", "", name), json.dumps(header.get("figure"), sort_keys=True))
        for name, header in zip(list_ids(courses[MORE]), read_headers(courses[MORE]), strict=True)
        if header["position"] in HEAD_IS_FREE
    ]
    assert len(drawn) > len({name for name, _ in drawn}) > 20
    assert len(set(drawn)) == len(drawn)


def test_changing_words_changes_one_line_of_one_file(tmp_path: Path) -> None:
    write_course(tmp_path / "course", 3)
    before, path = read_all(tmp_path / "course"), list_lessons(tmp_path / "course")[1]
    change_words(tmp_path / "course", path, "Quietly")
    after = read_all(tmp_path / "course")
    changed = [name for name in before if before[name] != after[name]]
    assert changed == [f"content/{path}"]
    lines = zip(before[changed[0]].splitlines(), after[changed[0]].splitlines(), strict=True)
    assert next(new for old, new in lines if new != old).endswith(b" Quietly.")
