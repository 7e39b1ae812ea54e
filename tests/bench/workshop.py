"""Where a run's courses lie: each is made once, and each round works on a fresh copy."""

import os
import re
import shutil
import sys
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from tests.bench.courses import write_course
from tests.bench.process import BenchError, run_command

ROOT = Path(__file__).parents[2]
_SCRIPTS = Path(sys.executable).parent
TOOL = str(_SCRIPTS / "tempoleaf")
HOST = str(_SCRIPTS / "mkdocs")
ASK = (sys.executable, "-m", "tests.bench.ask_tool")
_NO_CARDS = "cards: false"
_ROOMY = "papers: [a5, a4]"
"""Texts of copies are longer than those of the demo, and too long for the smallest cards."""
_PLUGIN = re.compile(r"(?m)^  - tempoleaf$")
_STOCK_LEAVES_OUT = re.compile(r"(?m)^(?:extra|extra_css|extra_javascript): .*\n")
_OWN_THEME = re.compile(r'"custom_dir": "[^"]*", ')


def describe_environment() -> dict[str, str]:
    """Return what commands find in their environment: this folder's tool, and nothing extra."""
    others = os.environ.get("PYTHONPATH", "")
    paths = os.pathsep.join(path for path in (str(ROOT), others) if path)
    return {**os.environ, "PYTHONPATH": paths, "NO_MKDOCS_2_WARNING": "1"}


@dataclass(frozen=True, slots=True)
class Workshop:
    """A folder for all of a run's courses."""

    folder: Path

    def lay_out(self, target: Path, lessons: int, *, cards: bool = True) -> None:
        """Copy a course to a folder that isn't there yet, without caches or any output."""
        made = self._make_once(f"course-{lessons}", lambda path: write_course(path, lessons))
        shutil.copytree(made, target)
        tell_plugin(target / "mkdocs.yml", _ROOMY if cards else _NO_CARDS)

    def find_plain(self, lessons: int) -> Path:
        """Return a course's finished Markdown with stock settings, made by the tool once."""

        def make(path: Path) -> None:
            self._ask("plain", lessons, path)
            settings = path / "mkdocs.yml"
            settings.write_text(make_stock(settings.read_text(encoding="utf-8")), encoding="utf-8")

        return self._make_once(f"plain-{lessons}", make)

    def find_card_html(self, lessons: int) -> Path:
        """Return a folder with each client card's HTML and their style sheet, made once."""
        return self._make_once(f"html-{lessons}", lambda path: self._ask("cards", lessons, path))

    def _ask(self, word: str, lessons: int, target: Path) -> None:
        course = target.with_name(f"{target.name}.asked")
        self.lay_out(course, lessons)
        run_command((*ASK, word, str(course), str(target)), ROOT, describe_environment())
        shutil.rmtree(course)

    def _make_once(self, name: str, make: Callable[[Path], object]) -> Path:
        path = self.folder / name
        if not path.exists():
            make(path)
        return path


def tell_plugin(settings: Path, wish: str) -> None:
    """Have a site's builds make other cards than those of all papers, or none."""
    text = settings.read_text(encoding="utf-8")
    changed, count = _PLUGIN.subn(f"  - tempoleaf:\n      {wish}", text)
    if count != 1:
        raise BenchError(f'"{settings}" names the plugin in another way; it can\'t be told')
    settings.write_text(changed, encoding="utf-8")


def make_stock(settings: str) -> str:
    """Leave out of plain settings what is ours: theme parts, styles, scripts.

    What stays is Material as it comes, with its search and the same features, a pruned sidebar
    among them, and the same navigation.
    """
    changed = _OWN_THEME.sub("", _STOCK_LEAVES_OUT.sub("", settings))
    if "navigation.prune" not in changed or "custom_dir" in changed or '"tempoleaf"' in changed:
        raise BenchError("the plain settings have changed; stock ones can't be made of them")
    return changed
