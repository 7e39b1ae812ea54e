"""The proof of safety as data: what each lesson must say, and where it was seen to say it."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from enum import StrEnum

from builder.publishing.cards.words import CAUTION, NOTICE
from builder.publishing.pages.links import COURSE_PACK
from builder.publishing.proof.safety.sighting import Place

FORM = 1
"""The form of the file; another number is another form."""
TITLE = "title"
"""Names the lesson's title among wanted words."""
VERSION = "version"
"""Names its version among them, which with the title ties what was read to the lesson."""


class Kind(StrEnum):
    """What shows a lesson to people."""

    PAGE = "page"
    CARD = "card"
    PACK = "pack"
    CHAPTER = "chapter"


@dataclass(frozen=True, slots=True)
class Seen:
    """Words that were found, by their name, and where."""

    name: str
    place: Place


@dataclass(frozen=True, slots=True)
class Pages:
    """Pages of a PDF, from 1, the last one included."""

    first: int
    last: int

    def __post_init__(self) -> None:
        """Refuse pages that no file can have."""
        if not 1 <= self.first <= self.last:
            raise ValueError(f"pages {self.first} to {self.last} are none")


@dataclass(frozen=True, slots=True)
class Artefact:
    """A finished file, or a part of one, that shows a lesson."""

    kind: Kind
    file: str
    """From the site's folder."""
    paper: str = ""
    """The id of a card's or pack's paper."""
    chapter: str = ""
    """The name of a chapter's file in the book."""
    pages: Pages | None = None
    """Where a pack holds more than this lesson; None for a whole file."""
    seen: tuple[Seen, ...] = ()

    @property
    def is_whole_pack(self) -> bool:
        """Tell whether it is the pack of the whole course, and not that of a strand."""
        return self.kind is Kind.PACK and self.file.endswith(COURSE_PACK)

    @property
    def sort(self) -> tuple[str, str, bool]:
        """Tell of which sort it is; everything that shows a lesson is of a sort of its own."""
        return (self.kind, self.paper, self.is_whole_pack)


@dataclass(frozen=True, slots=True)
class NoticeClaim:
    """A notice as its readers see it, and what calls for it."""

    id: str
    title: str
    words: str
    """The short form, which stands on everything that shows a lesson."""
    traits: tuple[str, ...]
    everywhere: bool
    source: str
    """The file that it was read from."""

    def concerns(self, traits: frozenset[str]) -> bool:
        """Tell whether a lesson with these traits must carry the notice."""
        return self.everywhere or not traits.isdisjoint(self.traits)


@dataclass(frozen=True, slots=True)
class TraitClaim:
    """What a trait is called, and whether a lesson with it must carry a notice."""

    title: str
    needs_notice: bool


@dataclass(frozen=True, slots=True)
class WaivedNotice:
    """A notice that the course's author left out of a lesson, and why."""

    notice: str
    reason: str


@dataclass(frozen=True, slots=True)
class LessonProof:
    """One lesson: what calls for which notices, and where each was seen."""

    id: str
    title: str
    version: str
    """The code on its page and card."""
    traits: tuple[str, ...]
    notices: tuple[str, ...]
    """Ids of those that it carries."""
    waived: tuple[WaivedNotice, ...]
    sources: tuple[str, ...]
    artefacts: tuple[Artefact, ...]

    def move_to(self, folder: str) -> "LessonProof":
        """Return the same lesson in a folder of a whole site."""
        moved = (replace(each, file=folder + each.file) for each in self.artefacts)
        return replace(self, artefacts=tuple(moved))


@dataclass(frozen=True, slots=True)
class EditionProof:
    """The course in one language."""

    folder: str
    """Where its site lies in the whole one: empty, or a folder with a slash behind it."""
    language: str
    """BCP 47."""
    title: str
    caution: str
    caution_source: str
    traits: Mapping[str, TraitClaim]
    notices: tuple[NoticeClaim, ...]
    lessons: tuple[LessonProof, ...]

    def list_wanted(self, lesson: LessonProof) -> dict[str, str]:
        """Return the words that must be seen on whatever shows a lesson, by name."""
        notices = {notice.id: notice.words for notice in self.notices}
        carried = {f"{NOTICE}{name}": notices.get(name, "") for name in lesson.notices}
        tied = {TITLE: lesson.title, VERSION: lesson.version}
        return {**tied, CAUTION: self.caution, **carried}

    def move_to(self, folder: str) -> "EditionProof":
        """Return the same edition in a folder of a whole site."""
        lessons = tuple(lesson.move_to(folder) for lesson in self.lessons)
        return replace(self, folder=folder, lessons=lessons)

    def list_artefacts(self) -> Iterator[tuple[LessonProof, Artefact]]:
        """Yield everything that shows a lesson, lesson by lesson."""
        for lesson in self.lessons:
            for artefact in lesson.artefacts:
                yield lesson, artefact


@dataclass(frozen=True, slots=True)
class Proof:
    """All that the file says."""

    form: int
    tool: str
    """The version of tempoleaf that wrote it."""
    editions: tuple[EditionProof, ...]
    sources: Mapping[str, str]
    """SHA-256 of each file that the site was made from, by its path from the project's folder."""
    files: Mapping[str, str]
    """SHA-256 of each file of the site but this one, by its path."""
