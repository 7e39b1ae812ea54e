"""How much is worked out anew: what changed, and what hangs on it."""

from pathlib import Path

import pytest

from builder.checked.result import check_project
from builder.checks.kept_findings import FindingsShelf
from builder.checks.run import check_course
from builder.reading.course_folder import read_course
from builder.work.kept import FOLDER, open_kept
from tests.conftest import copy_small_course
from tests.spanish import change, speak_spanish

COUNT = "content/lessons/count/plain-count.md"
RIBS = "content/lessons/breath/wide-ribs.md"
LESSONS = 5


@pytest.fixture
def project(tmp_path: Path) -> Path:
    return copy_small_course(tmp_path)


def count_work(project: Path) -> tuple[int, int]:
    """Read and check; return how many lessons were read, and in how many was looked."""
    lessons, findings = open_kept(project, "lessons"), open_kept(project, "findings")
    reading = read_course(project, kept=lessons)
    check_course(reading.course, FindingsShelf(findings, reading.lesson_keys))
    return lessons.added, findings.added


def test_the_first_run_reads_all_and_the_second_none(project):
    assert count_work(project) == (LESSONS, LESSONS)
    assert count_work(project) == (0, 0)


def test_one_lesson_that_changed_is_one_lesson_read_and_checked(project):
    count_work(project)
    change(project / COUNT, "Wait for one.", "Wait for one count.")
    assert count_work(project) == (1, 1)


def test_a_title_is_part_of_the_lessons_whose_texts_name_it(project):
    count_work(project)
    change(project / RIBS, "title: Wide ribs", "title: Wider ribs")
    texts = [path.read_text("utf-8") for path in (project / "content/lessons").rglob("*.md")]
    assert count_work(project) == (1, 1 + sum("[[wide-ribs]]" in text for text in texts))


def test_a_notice_is_no_part_of_a_lesson_and_a_course_file_is_of_all(project):
    count_work(project)
    change(project / "content/notices/floor.md", "Use a chair", "Use a firm chair")
    assert count_work(project) == (0, 0)
    change(project / "content/course.yml", "rank: 1}", "rank: 2}")
    assert count_work(project) == (LESSONS, LESSONS)


def test_going_back_to_what_was_finds_it_kept(project):
    count_work(project)
    change(project / COUNT, "Wait for one.", "Wait for one count.")
    count_work(project)
    change(project / COUNT, "Wait for one count.", "Wait for one.")
    assert count_work(project) == (0, 0)


def test_lessons_in_another_language_are_kept_beside_their_originals(tmp_path):
    project = speak_spanish(copy_small_course(tmp_path))
    assert count_work(project) == (LESSONS, LESSONS + 2)
    assert count_work(project) == (0, 0)
    change(project / "content/lessons/breath/wide-ribs.es.md", "title: ", "title: Las ")
    assert count_work(project)[0] == 0
    assert count_work(project) == (0, 0)


def test_a_lesson_with_a_fault_is_read_anew_each_time(project):
    change(project / COUNT, "tempo: 4-1-4-1", "tempo: 4-1-4")
    count_work(project)
    first = read_course(project).findings
    assert first
    assert read_course(project, kept=open_kept(project, "lessons")).findings == first


@pytest.mark.parametrize("much", ["a file", "half of each", "all"])
def test_the_cache_may_be_lost_or_cut_short_at_any_time(project, much):
    change(project / COUNT, "Count in a low voice.", "This cures asthma.")
    before = check_project(project)
    files = sorted(path for path in (project / FOLDER).rglob("*") if path.is_file())
    for file in files[:1] if much == "a file" else files:
        if much == "half of each":
            file.write_bytes(file.read_bytes()[: file.stat().st_size // 2])
        else:
            file.unlink()
    assert check_project(project) == before
    assert len(before.findings) == 1
