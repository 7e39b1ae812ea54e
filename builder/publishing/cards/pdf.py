"""HTML to pages and PDF by the PDF engine. Import it only when needed."""

from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from functools import cache
from io import BytesIO
from pathlib import Path

from weasyprint import CSS, HTML  # type: ignore[import-untyped]
from weasyprint.document import Document  # type: ignore[import-untyped]
from weasyprint.text.fonts import FontConfiguration  # type: ignore[import-untyped]
from weasyprint.urls import (  # type: ignore[import-untyped]
    FatalURLFetchingError,
    URLFetcher,
    URLFetcherResponse,
)

from builder.errors import FetchRefusedError
from builder.publishing.cards.drawings import set_drawings_aside
from builder.publishing.cards.ink import NO_INK, Ink, take_ink
from builder.resources import find_templates
from builder.sums.paper import pixels_to_mm

SCHEME = "course"
"""Addresses of the tool's own font files begin with this; no other address is ever opened."""
_DRAWINGS = f"{SCHEME}:/drawings/"
_FONT_TYPE = "font/ttf"
_DRAWING_TYPE = "image/svg+xml"
_VARIANT = "pdf/ua-1"
_LONGEST_SHOWN = 200


@dataclass(frozen=True, slots=True)
class Mark:
    """Where an element with an id begins: page from 0, millimetres from the page's top."""

    page: int
    top_mm: float


@dataclass(frozen=True, slots=True)
class Layout:
    """Pages that are laid out and can be written."""

    document: Document

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

    def write(self) -> bytes:
        """Return the pages as a tagged PDF, the same bytes for the same pages."""
        target = BytesIO()
        with _told_what_is_refused(self.document.url_fetcher):
            self.document.write_pdf(target, pdf_variant=_VARIANT)
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
            return Layout(
                document.render(
                    stylesheets=[self._style(style)], font_config=self._fonts, cache=dict(pictures)
                )
            )

    def _style(self, style: str) -> CSS:
        if style not in self._styles:
            self._styles[style] = CSS(
                string=style, font_config=self._fonts, url_fetcher=self._fetcher
            )
        return self._styles[style]


def join_layouts(layouts: Sequence[Layout]) -> Layout:
    """Put pages into one document with the first one's title, without laying them out again."""
    pages = [page for layout in layouts for page in layout.document.pages]
    return Layout(layouts[0].document.copy(pages))


@cache
def open_press() -> Press:
    """Return this process's press: fonts are loaded once."""
    return Press(find_templates() / "fonts")


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
