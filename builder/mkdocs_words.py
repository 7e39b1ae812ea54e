"""Pages whose Markdown the host has turned into HTML before. Part of the plugin's shell."""

import json
import logging
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from typing import Any

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.pages import Page
from mkdocs.structure.toc import AnchorLink, get_toc

from builder.publishing.site.pieces import Told, pack, unpack
from builder.work.digest import digest
from builder.work.share import share
from builder.work.store import ContentStore

_HOST = logging.getLogger("mkdocs")
Asked = dict[str, list[object] | None]
"""By the path that a page's link asked for: what the host found there."""


class WordShelf:
    """Keeps what the host made of each page's Markdown, with what its links had led to."""

    def __init__(self, store: ContentStore, setup: str | None) -> None:
        self._store = store
        self._setup = setup
        self.keys: dict[str, str] = {}
        """By page: what its words were made of; a page that the host complained of has none."""
        self.kept = 0

    def hand_out(self, config: MkDocsConfig, files: Files) -> None:
        """Give each page its words: as they are kept, else made on all cores.

        What the host has something to say about is left to the host, which is to be heard.
        """
        if not self._can_keep():
            return
        pages = [file.page for file in files.documentation_pages() if file.page]
        missing = [page for page in pages if not self._fill(page, files)]
        self.kept = len(pages) - len(missing)

        def make(page: Page) -> None:
            piece = _make_piece(page, config, files)
            if piece:
                self._store.put(self._describe(page), piece)

        share(make, missing)
        for page in missing:
            self._fill(page, files)

    def _fill(self, page: Page, files: Files) -> bool:
        """Fill a page where its words are kept and every link leads where it led before."""
        key = self._describe(page)
        piece = self._store.get(key)
        told, html = unpack(piece) if piece else ({}, "")
        if not (told and _agree(told["asked"], files)):
            return False
        _fill(page, told, html, files)
        self.keys[page.file.src_uri] = digest(key, json.dumps(told["asked"]))
        return True

    def make_again(self, page: Page, config: MkDocsConfig, files: Files) -> None:
        """Have the host turn a page's words into HTML anew; nothing is kept of it."""
        self.keys.pop(page.file.src_uri, None)
        for name in ("read_source", "render"):
            vars(page).pop(name, None)
        page.read_source(config)
        page.render(config, files)

    def _can_keep(self) -> bool:
        return self._setup is not None and _HOST.getEffectiveLevel() > logging.DEBUG

    def _describe(self, page: Page) -> str:
        file, hidden = page.file, str(is_hidden(page.file))
        return digest(
            "words", str(self._setup), file.src_uri, file.url, hidden, file.content_string
        )


def is_hidden(file: File) -> bool:
    """Tell whether the host makes a file for the preview alone, with a mark on it."""
    return file.inclusion in (InclusionLevel.EXCLUDED, InclusionLevel.DRAFT)


def _make_piece(page: Page, config: MkDocsConfig, files: Files) -> bytes | None:
    """Have the host make a page's words; None where it has something to say about them."""
    asked: Asked = {}
    source = page.file.content_string
    with _listen() as heard:
        page.read_source(config)
        page.render(config, _Watched(files, asked))
    if heard or not source.endswith(page.markdown or ""):
        return None
    return pack(_tell(page, asked), page.content or "")


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
    """Collect what anybody says meanwhile, and let nobody else hear it: it will be said again."""
    heard: list[logging.LogRecord] = []
    loggers = (logging.getLogger(), _HOST)
    before = [(logger, logger.handlers, logger.level) for logger in loggers]
    for logger in loggers:
        logger.handlers = [_Ear(heard)]
        logger.setLevel(logging.INFO)  # a build that is told to be quiet has it to say all the same
    try:
        yield heard
    finally:
        for logger, handlers, level in before:
            logger.handlers = handlers
            logger.setLevel(level)


class _Ear(logging.Handler):
    def __init__(self, heard: list[logging.LogRecord]) -> None:
        super().__init__(logging.INFO)
        self._heard = heard

    def emit(self, record: logging.LogRecord) -> None:
        self._heard.append(record)
