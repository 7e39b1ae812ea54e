import os
import pty
import select
import signal
import subprocess
import sys
import time
from collections.abc import Sequence
from html import unescape
from pathlib import Path

import pypdf
import pytest

from builder.cli.new_questions import ask_wishes
from builder.reading.course_folder import read_course
from builder.starting.new_course import read_starter
from builder.starting.wishes import Wishes
from tests.running import Done, run_tool

COMMAND = (sys.executable, "-c", "from builder.cli.app import main; main()")


def run(*arguments: str | Path, word: str = "new") -> Done:
    return run_tool(word, *arguments)


def answer(answers: Sequence[str], said: list[str]) -> Wishes:
    waiting = list(answers)
    wishes = ask_wishes(
        Wishes(""), read_starter(), lambda _, usual: waiting.pop(0) or usual, said.append
    )
    assert waiting == []
    return wishes


def test_a_course_is_made_without_a_question_where_nobody_can_answer(tmp_path: Path) -> None:
    done = run(tmp_path / "harbour-voices")
    assert done.returncode == 0
    assert done.stderr == ""
    assert 'called "Harbour voices", after the folder' in done.stdout
    course = read_course(tmp_path / "harbour-voices").course
    assert course
    assert course.settings.studio.name == "Harbour voices"


def test_options_are_wishes(tmp_path: Path) -> None:
    options = ("--name", "Nook", "--strands", "Tempo, first-checks", "--accent", "plum")
    more = ("--paper", "a6", "--contact", "hi", "--address", "https://a.example")
    done = run(tmp_path / "c", *options, *more, "--language", "en-GB")
    assert done.returncode == 0
    assert '"Where the breath goes" came along, because "' in done.stdout
    assert "after the folder" not in done.stdout
    course = read_course(tmp_path / "c").course
    assert course
    assert list(course.vocabulary.strands) == ["first-checks", "breath", "tempo"]
    settings = course.settings
    assert (settings.paper, settings.colours.accent) == ("a6", "#6d3a6e")
    assert (settings.address, settings.studio.contact) == ("https://a.example/", "hi")


def test_a_new_course_builds_at_once_in_its_studio_s_own_name(tmp_path: Path) -> None:
    name = 'Anna\'s "Quiet" Room: <b>Breath</b> & #1'
    run(tmp_path / "c", "--name", name, "--accent", "brick", "--strands", "first-checks")
    done = run(tmp_path / "c", "--strict", word="build")
    assert done.returncode == 0, done.stdout + done.stderr
    site = tmp_path / "c" / "site"
    page = (site / "lessons" / "first-checks" / "ready-to-start" / "index.html").read_text("utf-8")
    assert name in unescape(page)
    assert "<b>Breath" not in page
    assert "#8c3b2e" in (site / "assets" / "tempoleaf" / "colours.css").read_text("utf-8")
    (card,) = pypdf.PdfReader(site / "cards" / "ready-to-start.pdf").pages
    assert "".join(name.split()) in "".join(card.extract_text().split())
    assert "Saltmarsh" not in page


def test_a_folder_with_files_is_refused(tmp_path: Path) -> None:
    (tmp_path / "mine.txt").write_text("mine")
    done = run(tmp_path)
    assert (done.returncode, done.stdout) == (2, "")
    assert "nothing is ever written over" in done.stderr
    assert [path.name for path in tmp_path.iterdir()] == ["mine.txt"]


def test_a_bad_wish_is_refused_with_its_cure(tmp_path: Path) -> None:
    done = run(tmp_path / "c", "--strands", "breth")
    assert done.returncode == 2
    assert 'no strand is called "breth"; write "breath"' in done.stderr
    assert list(tmp_path.iterdir()) == []


def test_enter_alone_takes_what_is_usual() -> None:
    starter = read_starter()
    wishes = answer(["Nook", "", "", ""], [])
    assert wishes == Wishes(
        "Nook",
        accent="#1f5e5b",
        paper=starter.settings.paper,
        strands=tuple(starter.vocabulary.strands),
    )


def test_an_answer_that_can_not_be_read_is_asked_for_again() -> None:
    said: list[str] = []
    wishes = answer(
        ["!", "Nook", "11,1", "1, tempo", "yellow", "#ffff00", "blue", "A7", "A4"], said
    )
    assert wishes == Wishes("Nook", accent="#23568c", paper="a4", strands=("first-checks", "tempo"))
    told = "\n".join(said)
    for part in ("no letter or digit", '"11"', '"yellow" is no colour', "too pale", '"A7"'):
        assert part in told


def test_what_an_option_gave_is_not_asked_for() -> None:
    given = Wishes("Nook", accent="plum", paper="a4", strands=("tempo",))
    assert ask_wishes(given, read_starter(), lambda *_: "never", print) == given


def test_somebody_at_a_terminal_is_asked(tmp_path: Path) -> None:
    ours, theirs = pty.openpty()
    process = subprocess.Popen(
        (*COMMAND, "new", str(tmp_path / "c")), stdin=theirs, stdout=theirs, stderr=theirs
    )
    os.close(theirs)
    os.write(ours, b"Nook\n1\nplum\na6\n")
    shown = read_all(ours)
    assert process.wait() == 0
    assert "What is your studio called?" in shown
    course = read_course(tmp_path / "c").course
    assert course
    assert (course.settings.studio.name, course.settings.paper) == ("Nook", "a6")


@pytest.mark.parametrize("kind", [signal.SIGINT, signal.SIGTERM])
def test_an_interrupted_question_leaves_nothing_behind(
    tmp_path: Path, kind: signal.Signals
) -> None:
    ours, theirs = pty.openpty()
    before = signal.signal(signal.SIGINT, signal.SIG_DFL)  # a job in the background ignores it
    process = subprocess.Popen(
        (*COMMAND, "new", str(tmp_path / "c")), stdin=theirs, stdout=theirs, stderr=theirs
    )
    signal.signal(signal.SIGINT, before)
    os.close(theirs)
    seen = b""
    until = time.monotonic() + 60
    while b"called?" not in seen and time.monotonic() < until:
        if select.select([ours], [], [], 1)[0]:
            seen += os.read(ours, 4096)
    while process.poll() is None and time.monotonic() < until:
        process.send_signal(kind)  # again and again: one may come just before the wait for words
        time.sleep(0.2)
    read_all(ours)
    assert process.wait(60) != 0
    assert list(tmp_path.iterdir()) == []


def read_all(end: int) -> str:
    """Read what a terminal shows until its program ends."""
    shown = b""
    while True:
        try:
            piece = os.read(end, 4096)
        except OSError:
            break
        if not piece:
            break
        shown += piece
    os.close(end)
    return shown.decode("utf-8", "replace")
