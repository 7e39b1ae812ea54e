"""What reading a card back finds without the list of parts: every line that says something."""

import shutil
import subprocess
import sys
from pathlib import Path

from tests.conftest import copy_small_course
from tests.parts import TEMPLATES

SHELL = {
    "<!DOCTYPE html>",
    "<head>",
    '<meta charset="utf-8">',
    '<meta name="author" content="{{ card.studio_name }}">',
    "</head>",
    '<div class="flow">',
    '<div class="top">',
    '<div class="names">',
    '<div class="facts">',
    '<div class="beside">',
    '<div class="rows">',
    '<div class="safety">',
    "</div>",
    '<div class="foot small">',
    "</body>",
    "</html>",
}
"""Lines that set nothing but the place of others; ``find_spoilt_part`` alone misses them."""
DESCRIPTION = '<meta name="description" '


def test_the_loss_of_any_line_that_says_something_is_read_back(tmp_path: Path) -> None:
    """Cards with figure and without, with count and without, with room and without."""
    tool, starter = tmp_path / "tool", tmp_path / "starter"
    for name in ("builder", "site_templates", "content"):
        ignored = shutil.ignore_patterns("__pycache__")
        shutil.copytree(TEMPLATES.parent / name, tool / name, ignore=ignored)
    shutil.copytree(TEMPLATES.parent / "content", starter / "content")
    small = copy_small_course(tmp_path / "small")
    lessons = (
        *(starter / name for name in ("ball-on-belly", "rib-sides-check")),
        *(small / name for name in ("hand-on-belly", "plain-count")),
    )
    script = Path(__file__).with_name("lost_lines.py")
    done = subprocess.run(
        [sys.executable, "-B", script, tool, *lessons],
        env={"PYTHONPATH": str(tool)},
        check=False,
        capture_output=True,
        text=True,
    )
    assert done.returncode == 0, done.stderr
    lost = {line for line in done.stdout.splitlines() if not line.startswith(DESCRIPTION)}
    assert lost - SHELL == set()
