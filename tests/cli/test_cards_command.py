"""`tempoleaf cards` as people run it."""

import os
import shutil
import time
from pathlib import Path

from tests.conftest import SMALL_COURSE, WriteCourse
from tests.local_cluster import start_cluster
from tests.running import Done, run_tool


def run(*words: str, project: Path) -> Done:
    return run_tool("cards", *words, "--project", project)


def list_files(folder: Path) -> list[str]:
    return sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*.pdf"))


def test_client_and_coach_cards_go_into_folders_of_their_own(write_course: WriteCourse) -> None:
    root = write_course()
    client = run("short-hold", project=root)
    coach = run("short-hold", "--coach", "--paper", "a5", project=root)
    assert (client.returncode, coach.returncode) == (0, 0), client.stderr + coach.stderr
    assert client.stdout.startswith(f"1 PDFs stand in {root / 'cards'}, made in ")
    assert list_files(root / "cards") == ["short-hold.pdf"]
    assert list_files(root / "coach") == ["cards/a5/short-hold.pdf"]


def test_cards_that_are_not_asked_for_stay(write_course: WriteCourse) -> None:
    root = write_course()
    run("short-hold", project=root)
    run("long-out", project=root)
    assert list_files(root / "cards") == ["long-out.pdf", "short-hold.pdf"]


def test_a_course_with_an_error_gets_no_card_and_keeps_its_old_ones(
    write_course: WriteCourse,
) -> None:
    root = write_course()
    run("short-hold", project=root)
    lesson = root / "content/lessons/count/short-hold.md"
    lesson.write_text(lesson.read_text().replace("3-3-3-3", "3:3:3:3"))
    done = run("short-hold", project=root)
    assert done.returncode == 1
    assert "H107 tempo-malformed" in done.stdout
    assert list_files(root / "cards") == ["short-hold.pdf"]


def test_a_card_that_is_too_long_stops_the_run(write_course: WriteCourse) -> None:
    path = "content/lessons/count/short-hold.md"
    text = (SMALL_COURSE / path).read_text(encoding="utf-8")
    steps = "".join(f"{n}. Breathe in for three, hold for three, and rest.\n" for n in range(3, 70))
    root = write_course({path: text.replace("\n## If it", f"{steps}\n## If it")})
    done = run("short-hold", project=root)
    assert done.returncode == 1
    assert "C101 card-overflow: the A6 card is " in done.stdout
    assert not (root / "cards").exists()


def test_names_that_nothing_has_are_answered_with_the_nearest(write_course: WriteCourse) -> None:
    root = write_course()
    lesson = run("short-hol", project=root)
    paper = run("--paper", "a66", project=root)
    assert (lesson.returncode, paper.returncode) == (2, 2)
    assert 'write "short-hold" if that is meant' in lesson.stderr
    assert 'there is no paper "a66"; write "a6" if that is meant' in paper.stderr


def test_a_folder_with_other_things_in_it_is_left_alone(write_course: WriteCourse) -> None:
    root = write_course({"cards/letter.txt": "dear"})
    done = run("short-hold", project=root)
    assert done.returncode == 2
    assert "holds files that tempoleaf did not make" in done.stderr
    assert (root / "cards/letter.txt").read_text() == "dear"


def test_a_cluster_prints_the_same_cards(write_course: WriteCourse) -> None:
    root = write_course()
    run("short-hold", "--out", str(root / "here"), project=root)
    shutil.rmtree(root / ".cache")
    with start_cluster(1) as address:
        words = ("short-hold", "--quiet", "--cluster", address, "--out", str(root / "there"))
        done = run(*words, project=root)
    assert (done.returncode, done.stderr) == (0, "")
    made = "cards/short-hold.pdf"
    assert (root / "here" / made).read_bytes() == (root / "there" / made).read_bytes()


def test_what_the_cache_has_had_for_longest_goes_when_it_is_full(write_course: WriteCourse) -> None:
    root = write_course()
    old = root / ".cache" / "cards" / "00" / "1234"
    old.parent.mkdir(parents=True)
    with old.open("wb") as file:
        file.truncate(1_100_000_000)  # without a byte on the disk
    two_days_ago = time.time() - 2 * 24 * 60 * 60
    os.utime(old, (two_days_ago, two_days_ago))
    assert run("short-hold", project=root).returncode == 0
    assert not old.exists()
    kept = {path: path.stat().st_ino for path in (root / ".cache/cards").rglob("*")}
    assert run("short-hold", project=root).returncode == 0
    assert {path: path.stat().st_ino for path in kept} == kept
