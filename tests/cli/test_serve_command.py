"""`tempoleaf serve`: a preview that only this machine sees and that goes on over faults."""

import os
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from urllib.error import URLError
from urllib.request import ProxyHandler, build_opener

import pytest

from builder.cli.serve_command import find_settings, refuse_taken
from builder.errors import BuilderError
from tests.conftest import WriteCourse
from tests.running import run_tool

SETTINGS = """\
site_name: A small course
docs_dir: content
theme: {name: material}
plugins: [search, tempoleaf]
"""
HOLD = "content/lessons/count/short-hold.md"
_PATIENCE_SECONDS = 90
"""How long a busy machine may take to show a page; nothing is measured."""


def read_page(address: str) -> str:
    try:
        with build_opener(ProxyHandler({})).open(address, timeout=5) as answer:
            return str(answer.read().decode())
    except (URLError, OSError):
        return ""


def wait_for(address: str, is_there: Callable[[str], bool]) -> str:
    end = time.monotonic() + _PATIENCE_SECONDS
    page = ""
    while not is_there(page) and time.monotonic() < end:
        time.sleep(0.2)
        page = read_page(address)
    return page


def test_a_preview_shows_faults_while_they_last_and_a_build_beside_it_is_whole(
    write_course: WriteCourse,
) -> None:
    project = write_course({"mkdocs.yml": SETTINGS})
    with socket.socket() as trial:
        trial.bind(("127.0.0.1", 0))
        port = trial.getsockname()[1]
    command = "from builder.cli.app import main; main()"
    server = subprocess.Popen(
        [sys.executable, "-c", command, "serve", "--port", str(port)],
        cwd=project,
        env={**os.environ, "NO_MKDOCS_2_WARNING": "1"},
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    address = f"http://127.0.0.1:{port}/lessons/count/short-hold/"
    sound = (project / HOLD).read_text(encoding="utf-8")
    try:
        first = wait_for(address, lambda page: "Short hold" in page)
        assert "tl-findings" not in first
        faulty = sound.replace("tempo: 3-3-3-3", "tempo: 3-3")
        (project / HOLD).write_text(faulty, encoding="utf-8")
        assert "H107 tempo-malformed" in wait_for(address, lambda page: "H107" in page)
        (project / HOLD).write_text(sound, encoding="utf-8")
        mended = wait_for(address, lambda page: "Short hold" in page and "H107" not in page)
        assert "tl-steps" in mended
        softly = sound.replace("Breathe in for three", "Breathe in softly for three")
        (project / HOLD).write_text(softly, encoding="utf-8")
        built = run_tool("build", "--quiet", folder=project)  # beside the preview's own build
        assert (built.returncode, built.stderr) == (0, "")
        assert run_tool("prove", "site", folder=project).returncode == 0
        assert "in softly" in wait_for(address, lambda page: "in softly" in page)
        assert server.poll() is None
    finally:
        server.send_signal(signal.SIGTERM)
        server.wait(timeout=_PATIENCE_SECONDS)


def test_a_taken_port_is_refused_with_its_cure() -> None:
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        port = other.getsockname()[1]
        with pytest.raises(BuilderError, match=f"port {port} is taken; .*--port"):
            refuse_taken(port)


def test_a_folder_without_settings_is_refused(tmp_path: Path) -> None:
    with pytest.raises(BuilderError, match=r'mkdocs.yml" is missing'):
        find_settings(tmp_path)


def test_a_preview_without_a_course_says_so_before_it_starts(tmp_path: Path) -> None:
    (tmp_path / "mkdocs.yml").write_text(SETTINGS, encoding="utf-8")
    command = (sys.executable, "-c", "from builder.cli.app import main; main()", "serve")
    done = subprocess.run((*command, str(tmp_path)), capture_output=True, text=True, check=False)
    assert done.returncode == 2
    assert done.stdout == ""
    assert "there is no course here" in done.stderr
