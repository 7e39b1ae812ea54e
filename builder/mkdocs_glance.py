"""A preview that shows an edited lesson at once. Part of the plugin's shell.

A whole build of a thousand lessons takes seconds, even where all but one page are kept. The page
of a lesson that alone was edited is made from what the last build left behind, and written over
the old one. When nothing was edited for a while everything else follows: map, search, neighbours,
findings.
"""

import os
from collections.abc import Callable, Mapping
from contextlib import suppress
from dataclasses import replace
from pathlib import Path
from threading import Timer

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.livereload import LiveReloadServer
from mkdocs.utils import write_file

from builder.mkdocs_pages import PageShelf
from builder.mkdocs_written import Desk
from builder.publishing.pages.asides import lay_aside
from builder.publishing.pages.drawn_figure import FigureOrder, draw_figure
from builder.publishing.pages.excerpt import Excerpt, Excerpts
from builder.publishing.pages.lesson import make_lesson_page
from builder.publishing.pages.links import lesson_page
from builder.publishing.pages.preview import add_findings
from builder.publishing.site.edition import Edition
from builder.reading.one_lesson import read_lesson_again

_QUIET_SECONDS = 2.0
"""So long after the last edit the whole site is built."""
_BELL = Path(".cache", "preview", "bell")
FindLeft = Callable[[], tuple[Edition | None, PageShelf | None]]
"""Finds what the last build has left behind."""
States = Mapping[str, tuple[int, int]]
"""Path to the time of the last change in nanoseconds and the size in bytes."""


class Glance:
    """Builds a preview after each change: one page where that will do for now, else everything."""

    def __init__(self, config: MkDocsConfig, find_left: FindLeft) -> None:
        self._project = Path(config.config_file_path).parent
        self._content = Path(config.docs_dir)
        self._find_left = find_left
        self._seen = _list_states(self._content)
        self._edition: Edition | None = None
        """The last build's, with the lessons in it that were edited since."""
        self._later: Timer | None = None
        self._bell = self._project / _BELL
        self._is_heard = False
        """Whether the server would see the bell."""

    def attach(self, server: LiveReloadServer, build: Callable[[], None]) -> None:
        """Stand between a server that sees changes and the build of the whole site."""
        with suppress(OSError):  # without a bell everything is built at once
            self._bell.parent.mkdir(parents=True, exist_ok=True)
            server.watch(str(self._bell.parent))
            self._is_heard = True
        server.builder = lambda: self.build(build)

    def build(self, build: Callable[[], None]) -> None:
        """Show what has changed since the last time, by the build of everything if need be."""
        before, self._seen = self._seen, _list_states(self._content)
        paths = before.keys() | self._seen.keys()
        changed = [path for path in paths if before.get(path) != self._seen.get(path)]
        if self._later:
            self._later.cancel()
        if len(changed) == 1 and self._can_ring() and self._show(changed[0]):
            self._later = Timer(_QUIET_SECONDS, self._ring)
            self._later.daemon = True
            self._later.start()
            return
        self._edition = None
        build()

    def _show(self, path: str) -> bool:
        """Write the page of a lesson; False where the file is no lesson's or isn't in order."""
        left, shelf = self._find_left()
        edition = self._edition or left
        if not (edition and edition.site and shelf and shelf.desk):
            return False
        course, name = edition.site.course, f"{edition.content}/{path}"
        lesson = next((each for each in course.lessons if each.path == name), None)
        again = lesson and read_lesson_again(self._project, course, lesson)
        if not again:
            return False
        changed = (again if each is lesson else each for each in course.lessons)
        site = replace(edition.site, course=replace(course, lessons=tuple(changed)))
        self._edition = replace(edition, site=site)
        excerpt, _ = Excerpts(site).cut(again)
        return _write(self._edition, excerpt, shelf, shelf.desk)

    def _can_ring(self) -> bool:
        """Tell whether the bell will be heard; a folder that was removed is watched no more."""
        self._is_heard = self._is_heard and self._bell.parent.is_dir()
        return self._is_heard

    def _ring(self) -> None:
        """Have the server see a change of no page, so that it builds once more."""
        with suppress(OSError):  # the cache has just been removed; the next change builds it all
            self._bell.write_bytes(os.urandom(8))


def _write(edition: Edition, excerpt: Excerpt, shelf: PageShelf, desk: Desk) -> bool:
    """Write the page of a lesson over the one that the last build made."""
    name, figure = lesson_page(excerpt.lesson), excerpt.lesson.figure
    file = desk.files.get_file_from_path(name)
    if not (file and file.page):
        return False
    drawn = draw_figure(FigureOrder(figure, excerpt.settings.language)) if figure else None
    made = {name: make_lesson_page(excerpt, drawn)}
    course = edition.site.course if edition.site else None
    shown = add_findings(made, edition.shown, course, edition.content)
    file.content_string, laid_aside = lay_aside(str(shown[name]))
    write_file(shelf.make_again(file.page, laid_aside, desk).encode(), file.abs_dest_path)
    return True


def _list_states(folder: Path) -> States:
    """Return the state of every file of a folder, by its path in it."""
    states: dict[str, tuple[int, int]] = {}
    for above, _, names in os.walk(folder):
        for name in names:
            path = Path(above, name)
            try:
                state = path.stat()
            except OSError:  # an editor has taken it away again
                continue
            states[path.relative_to(folder).as_posix()] = (state.st_mtime_ns, state.st_size)
    return states
