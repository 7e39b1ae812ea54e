"""Pages whose Markdown the host has turned into HTML before. Part of the plugin's shell."""

import json
import logging
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from functools import partial
from typing import Any

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.pages import Page
from mkdocs.structure.toc import AnchorLink, get_toc

from builder.publishing.site.pieces import Told, pack, unpack
from builder.work.digest import digest
from builder.work.store import ContentStore

_HOST = logging.getLogger("mkdocs")
Asked = dict[str, list[object] | None]
"""By the path that a page's link asked for: what the host found there."""


class WordShelf:
    """Keeps what the host made of each page's Markdown, with what its links had led to."""

    def __init__(self, store: ContentStore, setup: str | None) -> None:
        self._store = store
        self._setup = setup if _HOST.isEnabledFor(logging.WARNING) else None
        self.keys: dict[str, str] = {}
        """By page: what its words were made of; a page that the host complained of has none."""
        self.kept = 0

    def hand_out(self, page: Page, files: Files) -> None:
        """Give a page its words where they are kept; else watch the host make them."""
        if self._setup is None or _HOST.getEffectiveLevel() <= logging.DEBUG:
            return
        file, source = page.file, page.file.content_string
        hidden = str(is_hidden(file))
        key = digest("words", self._setup, file.src_uri, file.url, hidden, source)
        piece = self._store.get(key)
        told, html = unpack(piece) if piece else ({}, "")
        if told and _agree(told["asked"], files):
            _fill(page, told, html, files)
            self._note(page, key, told["asked"])
            self.kept += 1
        else:
            vars(page)["render"] = partial(self._watch, page, key)

    def _watch(self, page: Page, key: str, config: MkDocsConfig, files: Files) -> None:
        asked: Asked = {}
        source = page.file.content_string
        with _listen() as heard:
            Page.render(page, config, _Watched(files, asked))
        if heard or not source.endswith(page.markdown or ""):
            return
        piece = pack(_tell(page, asked), page.content or "")
        if piece:
            self._store.put(key, piece)
            self._note(page, key, asked)

    def _note(self, page: Page, key: str, asked: object) -> None:
        self.keys[page.file.src_uri] = digest(key, json.dumps(asked))


def is_hidden(file: File) -> bool:
    """Tell whether the host makes a file for the preview alone, with a mark on it."""
    return file.inclusion in (InclusionLevel.EXCLUDED, InclusionLevel.DRAFT)


class _Watched(Files):
    """The host's files, as links ask for them; notes what was asked and what was there."""

    def __init__(self, files: Files, asked: Asked) -> None:
        self._all = files
        self._asked = asked

    def get_file_from_path(self, path: str) -> File | None:
        """Return the file that a link leads to."""
        file = self._all.get_file_from_path(path)
        self._asked[path] = _describe(file)
        return file


def _describe(file: File | None) -> list[object] | None:
    return [file.src_uri, file.url, is_hidden(file)] if file else None


def _agree(asked: Any, files: Files) -> bool:
    """Tell whether every link of a page leads where it led before."""
    return all(_describe(files.get_file_from_path(path)) == was for path, was in asked.items())


def _tell(page: Page, asked: Asked) -> Told:
    links = page.links_to_anchors or {}
    return {
        "asked": asked,
        "length": len(page.markdown or ""),
        "meta": page.meta,
        "title": page._title_from_render,  # the host tells it nowhere else
        "toc": [_tell_heading(heading) for heading in page.toc],
        "ids": sorted(page.present_anchor_ids or ()),
        "links": [[file.src_uri, anchors] for file, anchors in links.items()],
    }


def _tell_heading(heading: AnchorLink) -> dict[str, object]:
    children = [_tell_heading(child) for child in heading.children]
    return {
        "name": heading.title,
        "id": heading.id,
        "level": heading.level,
        "children": children,
    }


def _fill(page: Page, told: Mapping[str, Any], html: str, files: Files) -> None:
    """Give a page everything that the host would have found out."""
    source = page.file.content_string
    page.markdown = source[len(source) - told["length"] :]
    page.meta = told["meta"]
    page.content = html
    page.toc = get_toc(told["toc"])
    page._title_from_render = told["title"]  # as above
    page.present_anchor_ids = set(told["ids"])
    linked = ((files.get_file_from_path(path), anchors) for path, anchors in told["links"])
    page.links_to_anchors = {file: anchors for file, anchors in linked if file}
    vars(page).update(read_source=_leave, render=_leave)


def _leave(*_: object) -> None:
    """Stand in for what the host need not do."""


@contextmanager
def _listen() -> Iterator[list[logging.LogRecord]]:
    """Collect what anybody says meanwhile: it is said again only if the page is made again."""
    heard: list[logging.LogRecord] = []
    handler = _Ear(heard)
    loggers = (logging.getLogger(), _HOST)
    for logger in loggers:
        logger.addHandler(handler)
    try:
        yield heard
    finally:
        for logger in loggers:
            logger.removeHandler(handler)


class _Ear(logging.Handler):
    def __init__(self, heard: list[logging.LogRecord]) -> None:
        super().__init__(logging.INFO)
        self._heard = heard

    def emit(self, record: logging.LogRecord) -> None:
        self._heard.append(record)
