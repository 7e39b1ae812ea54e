"""One edition of a course's site: all pages and files, and the order in which they stand."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from builder.course.trust import Trust
from builder.findings import Finding
from builder.publishing.pages.all_pages import make_pages
from builder.publishing.pages.asides import holds_aside
from builder.publishing.pages.excerpt import Excerpts
from builder.publishing.pages.links import AUTHORS, HOME, Site, lesson_page
from builder.publishing.pages.preview import add_findings, make_bare_pages
from builder.publishing.site.nav import Nav, order_navigation
from builder.publishing.site.switch import Switch, make_switch
from builder.reading.course_folder import CourseReading
from builder.reading.translation.names import name_translation
from builder.sums.paper import PAPERS
from builder.work.bundle import open_bundle
from builder.work.store import ContentStore

_CACHE = Path(".cache", "pages")
_RULES = AUTHORS.removesuffix("index.md")


@dataclass(frozen=True, slots=True)
class Edition:
    """What a host gets."""

    site: Site | None
    """None where the course file itself couldn't be read."""
    content: str
    """The content folder, from the project's folder."""
    written: Mapping[str, str]
    """Pages that the studio wrote by hand, each with its file in the content folder."""
    files: Mapping[str, str | bytes]
    """Pages as Markdown, and styles, scripts and fonts, by path."""
    nav: Nav
    switch: Switch | None = None
    """The same pages in other languages; None where there is no site."""
    excerpts: Excerpts | None = None
    """What the pages of lessons were made from; None where there is no site."""
    has_own_asides: bool = True
    """Whether an author's own words hold what is laid aside while a page is made."""
    shown: Sequence[Finding] = ()
    """Findings that stand on the pages of a preview."""
    sources: Mapping[str, str] = field(default_factory=dict)
    """SHA-256 of each text that the course was read from, by its path from the project."""

    @property
    def trust(self) -> Trust:
        """Return how far the course's files are believed; not at all where nobody says it."""
        return self.site.course.settings.trust if self.site else Trust.UNTRUSTED

    def list_safe_pages(self) -> tuple[str, ...]:
        """Return the pages of which parts may be laid aside; those of lessons hold no raw words.

        Pages of rules do: their examples show what no page may hold.
        """
        if not self.has_own_asides:
            pages = (path for path in self.files if path.endswith(".md"))
            return tuple(path for path in pages if not path.startswith(_RULES))
        lessons = self.site.course.lessons if self.site else ()
        return tuple(lesson_page(lesson) for lesson in lessons)

    def with_findings(self, shown: Sequence[Finding]) -> "Edition":
        """Return the edition with a panel of findings on its pages, as previews need."""
        course = self.site.course if self.site else None
        files = add_findings(self.files, shown, course, self.content)
        return replace(self, files=files, shown=shown)


def open_shelf(project: Path) -> ContentStore:
    """Open what a project keeps of its pages between builds."""
    return ContentStore(project / _CACHE)


def make_edition(  # noqa: PLR0913  # what to make, and with what
    reading: CourseReading,
    content: str,
    papers: Sequence[str],
    *,
    directory_urls: bool = True,
    has_proof: bool = False,
    shelf: ContentStore | None = None,
) -> Edition:
    """Make every page that the ``shelf`` hasn't kept from before.

    ``has_proof`` says whether the finished site will be proved, and pages may point to that.
    """
    written = {page.path: page.path for page in reading.pages}
    if reading.course is None:
        return Edition(None, content, written, make_bare_pages(), [{"Preview": HOME}])
    settings = reading.course.settings
    if settings.is_translation:
        written = {path: name_translation(path, settings.language) for path in written}
    fitting = [name for name in papers if settings.papers is None or name in settings.papers]
    wanted = dict.fromkeys((settings.paper, *fitting)) if papers else ()
    titles = tuple((name, PAPERS[name].title) for name in wanted)
    site = Site(reading.course, directory_urls, titles, has_proof)
    names = open_bundle(shelf, "names", settings.language) if shelf else None
    excerpts = Excerpts(site, reading.lesson_keys, names)
    files = make_pages(site, reading.pages, shelf, excerpts)
    if names:
        names.save()
    nav = order_navigation(reading.course, reading.pages, files)
    switch, alike = make_switch(reading, site), any(map(holds_aside, _list_raw_texts(reading)))
    return Edition(site, content, written, files, nav, switch, excerpts, alike)


def _list_raw_texts(reading: CourseReading) -> Iterator[str]:
    """Yield what authors wrote as Markdown, which may hold HTML of theirs."""
    yield from (page.markdown for page in reading.pages)
    yield from (notice.long for notice in reading.course.notices) if reading.course else ()
