"""What the page of one lesson is made from, and nothing else of the course.

A page is written from an excerpt alone, so it can't show what the excerpt's key leaves out. Of
other lessons it has an outline: which of them the lesson names or is named by, and their titles.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass, fields, replace
from datetime import date
from functools import cached_property

from builder.course.audience import Audience
from builder.course.course import Course, Settings
from builder.course.lesson import Lesson, Words
from builder.course.notice import Notice
from builder.course.release import Ledger
from builder.course.vocabulary import Vocabulary
from builder.findings import Place
from builder.publishing.cards.run import Shelf
from builder.publishing.pages.links import Site
from builder.work.digest import digest, spell, spell_fields
from builder.work.tool import digest_tool

_SILENT = Words((), (), (), (), None, (), (), ())
_NOWHERE = Place("")
_FIELDS = tuple(field.name for field in fields(Lesson))
_SPACE = r"(?:\s|\\[nrtvf]|\\x[0-9a-f]{2}|\\u[0-9a-f]{4})*"
_NAMED = re.compile(rf"\[\[{_SPACE}([a-z0-9-]+){_SPACE}\]\]")
"""A lesson that a text names by its id, in a text as it is spelled."""


@dataclass(frozen=True, slots=True)
class Other:
    """What the page of one lesson tells of another lesson."""

    id: str
    title: str
    strand_id: str
    builds_on_it: bool
    """Whether it builds directly on the lesson whose page it is."""


@dataclass(frozen=True, slots=True)
class Excerpt:
    """A lesson with all of its course that belongs on its page."""

    settings: Settings
    """Without what only says where it was written, or which notices there must be."""
    glossary: tuple[tuple[str, str], ...]
    papers: tuple[tuple[str, str], ...]
    directory_urls: bool
    lesson: Lesson
    notices: tuple[Notice, ...]
    """Those that the lesson carries."""
    ledger: Ledger | None
    """The releases of its cards; None where the course keeps no ledger."""
    before: tuple[Other, ...]
    """Others that come before it in the order of the course."""
    after: tuple[Other, ...]

    def make_site(self) -> Site:
        """Return a site of one page, with stand-ins of other lessons to link to."""
        before, after = (
            tuple(_stand_in(other, self.lesson) for other in others)
            for others in (self.before, self.after)
        )
        course = Course(
            settings=self.settings,
            vocabulary=Vocabulary(),
            traits={},
            reference_bodies=(),
            lessons=(*before, self.lesson, *after),
            notices=self.notices,
            glossary=dict(self.glossary),
            unreadable=frozenset(),
            ledger=self.ledger,
            day=date.min,
        )
        return Site(course, self.directory_urls, self.papers)


@dataclass(frozen=True, slots=True)
class _CutNotice:
    """A notice as pages of lessons have it."""

    bare: Notice
    key: str
    named: frozenset[str]
    """Ids of the lessons that its texts name."""


class Excerpts:
    """Cuts excerpts out of a site, each once; what they share is spelled once."""

    def __init__(
        self, site: Site, keys: Mapping[str, str] | None = None, shelf: Shelf | None = None
    ) -> None:
        """Take the ``keys`` of lessons by id, where it is known what each was read from.

        On the ``shelf`` lies which lessons the texts of one name.
        """
        self.site = site
        self._keys = keys or {}
        self._shelf = shelf
        self._course = site.course
        self._settings = strip_settings(site.course.settings)
        self._glossary = tuple(site.course.glossary.items())
        self._notices = {id(notice): _cut_notice(notice) for notice in site.course.notices}
        self._turns = {lesson.id: turn for turn, lesson in enumerate(site.course.lessons)}
        self._cut: dict[str, tuple[Excerpt, str]] = {}

    def cut(self, lesson: Lesson) -> tuple[Excerpt, str]:
        """Return the excerpt of a lesson, and the key of the page that is made from it."""
        if lesson.id not in self._cut:
            self._cut[lesson.id] = self._cut_out(lesson)
        return self._cut[lesson.id]

    def _cut_out(self, lesson: Lesson) -> tuple[Excerpt, str]:
        own = replace(lesson, allowed={}, path="", positions={})
        notices = [self._notices[id(notice)] for notice in self._course.notices_for(lesson)]
        said, names = self._tell(own)
        named = names.union(*(notice.named for notice in notices))
        before, after = self._list_others(lesson, named)
        excerpt = Excerpt(
            settings=self._settings,
            glossary=self._glossary,
            papers=self.site.papers,
            directory_urls=self.site.directory_urls,
            lesson=own,
            notices=tuple(notice.bare for notice in notices),
            ledger=self._find_ledger(lesson),
            before=before,
            after=after,
        )
        told = (spell(part) for part in (excerpt.ledger, before, after))
        return excerpt, digest("page", self._shared, said, *told, *(each.key for each in notices))

    def _tell(self, lesson: Lesson) -> tuple[str, frozenset[str]]:
        """Return what stands for all of a lesson in a key, and the ids that its texts name."""
        key = self._keys.get(lesson.id)
        named = digest("named", digest_tool(), key) if key else ""
        piece = self._shelf.get(named) if self._shelf and key else None
        if key and piece is not None:
            return key, frozenset(piece.decode().split())
        text = spell_fields(lesson, _FIELDS)
        names = frozenset(_NAMED.findall(text))
        if self._shelf and key:
            self._shelf.put(named, " ".join(sorted(names)).encode())
        return key or text, names

    @cached_property
    def _shared(self) -> str:
        """Return a digest of what the pages of all lessons have in common."""
        site = self.site
        parts = (self._settings, self._glossary, site.papers, site.directory_urls)
        return digest(digest_tool(), *map(spell, parts))

    def _find_ledger(self, lesson: Lesson) -> Ledger | None:
        ledger = self._course.ledger
        if ledger is None:
            return None
        cards = (ledger.by_card.get((lesson.id, audience), ()) for audience in Audience)
        return Ledger(tuple(release for releases in cards for release in releases))

    def _list_others(
        self, lesson: Lesson, named: frozenset[str]
    ) -> tuple[tuple[Other, ...], tuple[Other, ...]]:
        """Return what its page tells of lessons that come before a lesson, and of those after."""
        course, own = self._course, self._turns[lesson.id]
        builders = {other.id for other in course.builds_into(lesson.id)}
        ways = {*lesson.builds_on, *lesson.easier, *lesson.harder}
        names = (builders | named | ways) & self._turns.keys() - {lesson.id}
        turns = sorted(self._turns[name] for name in names)
        others = [
            (turn, Other(other.id, other.title, other.strand.id, other.id in builders))
            for turn in turns
            for other in (course.lessons[turn],)
        ]
        return (
            tuple(other for turn, other in others if turn < own),
            tuple(other for turn, other in others if turn > own),
        )


def _cut_notice(notice: Notice) -> _CutNotice:
    """Leave out of a notice what the safety page alone shows."""
    bare = replace(strip_notice(notice), long="")
    text = spell(bare)
    return _CutNotice(bare, digest(text), frozenset(_NAMED.findall(text)))


def strip_settings(settings: Settings) -> Settings:
    """Leave out of the settings what no page shows."""
    return replace(settings, path="", positions={}, notices=None, languages={})


def strip_notice(notice: Notice) -> Notice:
    """Leave out where a notice is written."""
    return replace(notice, place=_NOWHERE, positions={}, long_line=1)


def _stand_in(other: Other, lesson: Lesson) -> Lesson:
    """Return a lesson that has nothing of its own but an outline."""
    return replace(
        lesson,
        id=other.id,
        title=other.title,
        summary="",
        strand=replace(lesson.strand, id=other.strand_id, title="", summary=""),
        words=_SILENT,
        builds_on=(lesson.id,) if other.builds_on_it else (),
        easier=(),
        harder=(),
        measures=(),
        ladder=(),
        waivers=(),
        reviewed=None,
        figure=None,
        was=(),
    )
