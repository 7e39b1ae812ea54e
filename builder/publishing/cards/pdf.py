"""HTML to pages and PDF by the PDF engine. Import it only when needed."""

import re
import tempfile
import warnings
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager, redirect_stdout, suppress
from dataclasses import dataclass
from functools import cache
from io import BytesIO, StringIO
from pathlib import Path

from builder.errors import BuilderError, FetchRefusedError
from builder.input_limits import PRINTED_PAGES
from builder.publishing.cards.archive import ARCHIVAL, name_both_standards
from builder.publishing.cards.drawings import set_drawings_aside
from builder.publishing.cards.ink import NO_INK, Ink, take_ink
from builder.publishing.cards.tags import mend_tags
from builder.publishing.proof.structure.source import Source, join_sources, read_source
from builder.resources import find_fonts
from builder.rules.excess import word_excess
from builder.sums.paper import pixels_to_mm
from builder.work.left import make_scratch

try:
    with redirect_stdout(StringIO()):  # the engine's own words name no cure of ours
        from weasyprint import CSS, HTML  # type: ignore[import-untyped]
        from weasyprint.document import Document  # type: ignore[import-untyped]
        from weasyprint.text.fonts import FontConfiguration  # type: ignore[import-untyped]
        from weasyprint.urls import (  # type: ignore[import-untyped]
            FatalURLFetchingError,
            URLFetcher,
            URLFetcherResponse,
        )
except OSError as missing:
    raise BuilderError(
        "nothing can be printed: a system library of the PDF engine is missing",
        "see which one with: tempoleaf doctor",
    ) from missing

SCHEME = "course"
"""Addresses of the tool's own font files begin with this; no other address is ever opened."""
_DRAWINGS = f"{SCHEME}:/drawings/"
_FONT_TYPE = "font/ttf"
_DRAWING_TYPE = "image/svg+xml"
_VARIANT = "pdf/ua-1"
_LONGEST_SHOWN = 200
_MARGIN_BOX = re.compile(r"@(top|bottom|left|right)-")


@dataclass(frozen=True, slots=True)
class Mark:
    """Where an element with an id begins: page from 0, millimetres from the page's top."""

    page: int
    top_mm: float


@dataclass(frozen=True, slots=True)
class Layout:
    """Pages that are laid out and can be written."""

    document: Document
    pages: tuple[str, ...]
    """The HTML that they were laid out from."""
    has_margins: bool
    """Whether something is repeated at the head or foot of each page."""

    @property
    def source(self) -> Source:
        """Return the words that the pages must say, in order."""
        return join_sources(tuple(map(read_source, self.pages)))

    @property
    def page_count(self) -> int:
        """Return the number of pages."""
        return len(self.document.pages)

    @property
    def marks(self) -> dict[str, Mark]:
        """Return where each element with an id begins."""
        return {
            name: Mark(number, pixels_to_mm(target[1]))
            for number, page in enumerate(self.document.pages)
            for name, target in page.anchors.items()
        }

    def write(self, *, is_archival: bool = False) -> bytes:
        """Return the pages as a tagged PDF, the same bytes for the same pages."""
        content = (
            name_both_standards(self._write(ARCHIVAL)) if is_archival else self._write(_VARIANT)
        )
        source = self.source if self.has_margins or _names_languages(self.pages) else None
        return mend_tags(content, source) if source else content

    def write_untagged(self) -> bytes:
        """Return the pages as a PDF without tags, to lay over tagged ones."""
        return self._write(None)

    def _write(self, variant: str | None) -> bytes:
        target = BytesIO()
        with _told_what_is_refused(self.document.url_fetcher), warnings.catch_warnings():
            # The engine leaves the file of its colour profile to be closed when it is forgotten.
            warnings.simplefilter("ignore", ResourceWarning)
            self.document.write_pdf(target, pdf_variant=variant)
        return target.getvalue()


class Press:
    """Lays HTML out; holds the fonts and styles that all cards of a run share."""

    def __init__(self, fonts: Path) -> None:
        self._fetcher = _OwnFiles(fonts)
        self._fonts = FontConfiguration()
        self._styles: dict[str, CSS] = {}

    def lay_out_apart(self, html: str, style: str) -> Layout:
        """Lay HTML out whose drawings become pictures, as the style sheet must know."""
        page, drawings = set_drawings_aside(html, _DRAWINGS)
        pictures: dict[str, Ink] = {}
        for address, svg in drawings.items():
            self._fetcher.drawings[address], inks = take_ink(svg, address)
            pictures |= inks
        return self.lay_out(page, style, pictures)

    def lay_out(self, html: str, style: str, pictures: Mapping[str, Ink] = NO_INK) -> Layout:
        """Lay a page's HTML out under a style sheet, with pictures that are ready."""
        with _told_what_is_refused(self._fetcher):
            document = HTML(string=html, url_fetcher=self._fetcher, base_url=f"{SCHEME}:/")
            laid_out = document.render(
                stylesheets=[self._style(style)], font_config=self._fonts, cache=dict(pictures)
            )
        layout = Layout(laid_out, (html,), _MARGIN_BOX.search(style) is not None)
        if layout.page_count > PRINTED_PAGES.most:
            fact = word_excess("a print", PRINTED_PAGES, layout.page_count)
            raise BuilderError(fact, "shorten what is longest, or print fewer at once")
        return layout

    def _style(self, style: str) -> CSS:
        if style not in self._styles:
            before, tempfile.tempdir = tempfile.tempdir, _open_scratch().name
            try:
                self._styles[style] = CSS(
                    string=style, font_config=self._fonts, url_fetcher=self._fetcher
                )
            finally:
                tempfile.tempdir = before
        return self._styles[style]


def join_layouts(layouts: Sequence[Layout]) -> Layout:
    """Put pages into one document with the first one's title, without laying them out again."""
    pages = [page for layout in layouts for page in layout.document.pages]
    sources = tuple(html for layout in layouts for html in layout.pages)
    has_margins = any(layout.has_margins for layout in layouts)
    return Layout(layouts[0].document.copy(pages), sources, has_margins)


def _names_languages(pages: Sequence[str]) -> bool:
    """Tell whether a page may have words of another language than its own."""
    return any(page.count(" lang=") > 1 for page in pages)


@cache
def _open_scratch() -> tempfile.TemporaryDirectory[str]:
    """Return where the engine lays fonts down; it would leave them if this run were killed."""
    return make_scratch()


@cache
def open_press() -> Press:
    """Return this process's press: fonts are loaded once."""
    return Press(find_fonts())


class _OwnFiles(URLFetcher):  # type: ignore[misc]  # the engine has no types
    """Opens the tool's own fonts and drawings and nothing else."""

    def __init__(self, fonts: Path) -> None:
        super().__init__(allow_redirects=False, fail_on_errors=True)
        self._fonts = {path.name: path for path in fonts.glob("*.ttf")}
        self.drawings: dict[str, bytes] = {}
        """Those of the page that is being laid out, by their address."""
        self.refused: list[str] = []
        """What was asked for and not opened; the engine goes on where a drawing asked."""

    def fetch(self, url: str, headers: dict[str, str] | None = None) -> URLFetcherResponse:
        """Return a font file or a drawing; raise where the address is anything else."""
        del headers
        if url in self.drawings:
            return URLFetcherResponse(url, self.drawings[url], {"Content-Type": _DRAWING_TYPE})
        path = self._fonts.get(url.removeprefix(f"{SCHEME}:/fonts/"))
        if path is None:
            self.refused.append(url[:_LONGEST_SHOWN])
            raise FatalURLFetchingError(url)
        return URLFetcherResponse(url, path.read_bytes(), {"Content-Type": _FONT_TYPE})


@contextmanager
def _told_what_is_refused(fetcher: _OwnFiles) -> Iterator[None]:
    """Tell as an error of ours what the engine was not let open; its own would end a process."""
    fetcher.refused.clear()
    with suppress(FatalURLFetchingError):
        yield
    if fetcher.refused:
        raise FetchRefusedError(
            f'a page to be printed asks for "{fetcher.refused[0]}", which is none of the '
            "tool's own files",
            "take the text that names it away",
        )
