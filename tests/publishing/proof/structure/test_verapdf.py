"""The adapter to veraPDF, with small programs in its place; the real one is in no package index
that this project uses. The shape of its report is from memory (veraPDF 1.24 and later)."""

import json
import sys
from pathlib import Path

import pytest

from builder.course.course import Course
from builder.errors import BuilderError
from builder.publishing.cards.refusals import find_refusals, make_archival
from builder.publishing.proof.structure.verapdf import ask_verapdf, find_verapdf

RULE = {
    "specification": "ISO 14289-1:2014",
    "clause": "7.1",
    "testNumber": 3,
    "status": "failed",
    "failedChecks": 2,
    "description": "Content is neither marked as Artifact nor tagged",
}
SOUND = {"compliant": True, "details": {"ruleSummaries": []}}
BROKEN = {"compliant": False, "details": {"ruleSummaries": [RULE]}}


def write_program(folder: Path, body: str) -> str:
    path = folder / "verapdf"
    path.write_text(f"#!{sys.executable}\nimport json, sys\n{body}\n", encoding="utf-8")
    path.chmod(0o755)
    return str(path)


def write_answer(folder: Path, refused: str, *, is_old: bool = False) -> str:
    """Write a program that refuses the files of a name."""
    results = (BROKEN, SOUND) if is_old else ([BROKEN], [SOUND])
    return write_program(
        folder,
        f"bad, good = json.loads({json.dumps(json.dumps(results))!s})\n"
        'assert sys.argv[1:5:2] == ["--flavour", "--format"]\n'
        f"jobs = [{{'itemDetails': {{'name': path}}, "
        f"'validationResult': bad if {refused!r} in path else good}} for path in sys.argv[5:]]\n"
        "print(json.dumps({'report': {'jobs': jobs}}))",
    )


@pytest.mark.parametrize("is_old", [False, True])
def test_a_refused_file_is_told_with_its_rule(tmp_path: Path, is_old: bool) -> None:
    files = [tmp_path / "a b.pdf", tmp_path / "bad.pdf"]
    command = write_answer(tmp_path, "bad", is_old=is_old)
    (refusal,) = ask_verapdf(command, files, "ua1")
    assert refusal.path == files[1]
    (fault,) = refusal.faults
    said = 'verapdf says "7.1-3 Content is neither marked as Artifact nor tagged", 2 times'
    assert (fault.rule.id, fault.fact) == ("A116", said)


def test_a_file_that_it_leaves_out_counts_as_refused(tmp_path: Path) -> None:
    command = write_program(tmp_path, "print(json.dumps({'report': {'jobs': []}}))")
    (refusal,) = ask_verapdf(command, [tmp_path / "a.pdf"], "ua1")
    assert [fault.fact for fault in refusal.faults] == ["verapdf can't read it"]


@pytest.mark.parametrize(
    "body", ["print('no json')", "print('{}')", "print('[]')", "sys.exit(3)", "print('[' * 99999)"]
)
def test_an_answer_that_is_no_report_is_no_praise(tmp_path: Path, body: str) -> None:
    with pytest.raises(BuilderError, match="no report that can be read"):
        ask_verapdf(write_program(tmp_path, body), [tmp_path / "a.pdf"], "ua1")


def test_one_that_hangs_is_ended(tmp_path: Path) -> None:
    command = write_program(tmp_path, "import time; time.sleep(60)")
    with pytest.raises(BuilderError, match=r"not come to an end after 0\.3 s"):
        ask_verapdf(command, [tmp_path / "a.pdf"], "ua1", seconds=0.3)


def test_a_name_is_never_read_by_a_shell(tmp_path: Path) -> None:
    odd = tmp_path / "a; touch made.pdf"
    assert ask_verapdf(write_answer(tmp_path, "none"), [odd], "ua1") == ()
    assert not (tmp_path / "made.pdf").exists()


def test_without_the_program_it_is_said(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))
    with pytest.raises(BuilderError, match="there is no verapdf"):
        find_verapdf()
    assert write_answer(tmp_path, "") == find_verapdf()


def test_refusals_stand_at_the_lessons_and_archives_are_asked_twice(
    small_course: Course, tmp_path: Path
) -> None:
    cards = tmp_path / "cards"
    (cards / "packs").mkdir(parents=True)
    for name in ("short-hold.pdf", "packs/count.pdf"):
        (cards / name).write_bytes(b"")
    command = write_answer(tmp_path, ".pdf")
    places = [str(each.place) for each in find_refusals(small_course, cards, command)]
    lesson = small_course.by_id["short-hold"]
    assert places == sorted([str(lesson.at("title")), str(small_course.settings.at("title"))])
    asked = write_program(
        tmp_path,
        "jobs = [{'itemDetails': {'name': path}, 'validationResult': "
        "{'compliant': sys.argv[2] == 'ua1'}} for path in sys.argv[5:]]\n"
        "print(json.dumps({'report': {'jobs': jobs}}))",
    )
    assert find_refusals(small_course, cards, asked) == ()
    assert len(find_refusals(make_archival(small_course), cards, asked)) == 2
