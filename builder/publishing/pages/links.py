"""Where pages of the site stand, and how one of them links to another."""

import posixpath
from dataclasses import dataclass

from builder.course.course import Course
from builder.course.lesson import Lesson
from builder.language import Language, language_of
from builder.publishing.cards.pack_plan import WHOLE_COURSE

HOME = "index.md"
MAP = "map.md"
PRACTICE = "my-practice.md"
START = "start-here.md"
GLOSSARY = "glossary.md"
PROPS = "props.md"
SAFETY = "safety.md"
COACHES = "coaches.md"
SUMS = "sums.md"
SOURCES = "sources.md"
AUTHORS = "authors/index.md"
LICENCES = "authors/licences.md"
PROOF = "proof.md"
"""No Markdown: the page is written when all others are finished."""
CARDS = "cards"
TRACKS = "tracks"
COACH_CHARTS = {"air": ("a4",), "demand": ("a3",)}
"""The charts for coaches by name, with the sheets on which their letters can be read."""
BOOK = "course.epub"
COURSE_POSTER = "previews/course.png"
COURSE_PACK = f"{CARDS}/packs/{WHOLE_COURSE}.pdf"


@dataclass(frozen=True, slots=True)
class Site:
    """A course about to become pages."""

    course: Course
    directory_urls: bool = True
    """True where a host serves ``map.md`` as ``map/``, False where as ``map.html``."""
    papers: tuple[tuple[str, str], ...] = ()
    """Name and title of each paper that cards are made in; none where no cards are made."""
    has_proof: bool = False
    """Whether the finished site gets a page with its proof of safety."""

    @property
    def is_translation(self) -> bool:
        """Tell whether this is a part of another site, in a folder of its own."""
        return self.course.settings.is_translation

    @property
    def whole(self) -> str:
        """Return the way from the root of this site to that of the whole, for all languages."""
        return "../" if self.is_translation else ""

    @property
    def language(self) -> Language:
        """Return the language that the tool speaks on this site."""
        return language_of(self.course.settings.language)

    def link(self, page: str, target: str, anchor: str = "") -> str:
        """Return the address of a page or file as one page writes it, both from the root."""
        address = posixpath.relpath(
            self.address(target) or ".", posixpath.dirname(self.address(page)) or "."
        )
        if self.address(target).endswith("/") or not self.address(target):
            address += "/"
        return f"{address}#{anchor}" if anchor else address

    def address(self, path: str) -> str:
        """Return where a source path is served, from the site's root."""
        if not path.endswith(".md"):
            return path
        stem = path.removesuffix(".md")
        folder, name = posixpath.split(stem)
        if name == "index":
            within = f"{folder}/" if folder else ""
            return within if self.directory_urls else f"{within}index.html"
        return f"{stem}/" if self.directory_urls else f"{stem}.html"

    def file(self, path: str) -> str:
        """Return the file that a source path becomes, from the site's folder."""
        address = self.address(path)
        return f"{address}index.html" if address.endswith("/") or not address else address

    def link_lesson(self, page: str, lesson_id: str) -> str | None:
        """Return the address of a lesson's page, or nothing where there is no such lesson."""
        lesson = self.course.by_id.get(lesson_id)
        return None if lesson is None else self.link(page, lesson_page(lesson))


def lesson_page(lesson: Lesson) -> str:
    """Return the path of a lesson's page among the sources of the site."""
    return f"lessons/{lesson.strand.id}/{lesson.id}.md"


def strand_page(strand_id: str) -> str:
    """Return the path of a strand's page."""
    return f"lessons/{strand_id}/index.md"


def rule_page(rule_id: str) -> str:
    """Return the path of a rule's page."""
    return f"authors/{rule_id}.md"


def card_file(lesson_id: str, paper: str = "") -> str:
    """Return the path of a lesson's card, in the course's own paper where none is named."""
    return f"{CARDS}/{paper}/{lesson_id}.pdf" if paper else f"{CARDS}/{lesson_id}.pdf"


def poster_file(lesson: Lesson) -> str:
    """Return the path of the picture that stands for a lesson where its page is shared."""
    return f"previews/lessons/{lesson.id}.png"


def pack_file(strand_id: str) -> str:
    """Return the path of a strand's pack of cards."""
    return f"{CARDS}/packs/{strand_id}.pdf"


def wall_chart_file(sheet: str) -> str:
    """Return the path of the course map on a sheet of paper."""
    return f"{CARDS}/wall-chart-{sheet}.pdf"


def chart_file(name: str, sheet: str) -> str:
    """Return the path of a coach's chart on a sheet of paper."""
    return f"{CARDS}/{name}-chart-{sheet}.pdf"


def track_file(site: Site, name: str, ending: str) -> str:
    """Return the path of a practice track in one of its forms; all languages share them."""
    return f"{site.whole}{TRACKS}/{name}.{ending}"


def relative_source(page: str, target: str) -> str:
    """Return a source path as Markdown on another page writes it."""
    return posixpath.relpath(target, posixpath.dirname(page) or ".")
