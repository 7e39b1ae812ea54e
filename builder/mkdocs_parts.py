"""The sites of a course's other languages, built beside the host's own. Part of the plugin's shell.

A host keeps its plugins from one build to the next, so each language gets a process of its own,
and works while the host goes on.
"""

import shutil
from collections.abc import Callable, Sequence
from concurrent.futures import Future
from contextlib import ExitStack
from dataclasses import dataclass, replace
from pathlib import Path

from builder.findings import Finding
from builder.work.left import make_scratch
from builder.work.pool import open_pool

_WORKERS = 2
_NO_LIMIT = 0
"""A whole site takes as long as its course is; its cards have limits of their own."""
Found = tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class Order:
    """How a site is to be built."""

    settings: Path
    is_strict: bool = False
    is_for_disk: bool = False
    has_cards: bool | None = None
    """None where the settings say it."""
    is_preview: bool = False
    language: str = ""
    """Empty for the course's own."""
    cluster: str = ""
    """Where cards are printed; empty for this machine."""
    spare: Path | None = None
    """An older site that pages may be taken from, for a folder of ``replace_folder``."""

    def settle(
        self, settings: Path, *, is_strict: bool, has_cards: bool, is_preview: bool
    ) -> "Order":
        """Return what was asked for, with what the host says of it."""
        return replace(
            self,
            settings=settings,
            is_strict=is_strict,
            has_cards=has_cards,
            is_preview=is_preview,
        )


Build = Callable[[Order, Path], Found]
"""Builds a site into a folder and returns what stopped it; works in another process."""


class Parts:
    """Sites on their way; ``close`` ends what is left of them."""

    def __init__(self, whole: Order, languages: Sequence[str], build: Build) -> None:
        self._open = ExitStack()
        self._jobs: dict[str, Future[Found]] = {}
        self._folder = Path()
        if languages:
            name = self._open.enter_context(make_scratch())
            pool = self._open.enter_context(open_pool(_WORKERS, seconds=_NO_LIMIT))
            self._folder = Path(name)
            self._jobs = {
                tag: pool.submit(
                    build, replace(whole, language=tag, spare=None), self._folder / tag
                )
                for tag in languages
            }

    def collect(self, site: Path) -> Found:
        """Wait for every site and put it into its folder; return what stopped any.

        Raises BuilderError where the host refuses one.
        """
        found: Found = ()
        for language, job in self._jobs.items():
            found += job.result()
            if (self._folder / language).is_dir():
                shutil.rmtree(site / language, ignore_errors=True)
                shutil.move(self._folder / language, site / language)
        self.close()
        return found

    def close(self) -> None:
        """Take away what isn't needed any more."""
        self._jobs = {}
        self._open.close()
