"""The proof of a site that was just written: everything that shows a lesson is read back."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import pypdfium2  # type: ignore[import-untyped]

from builder.course.course import Course
from builder.findings import Finding, Place, sort_findings
from builder.publishing.cards.pack_plan import WHOLE_COURSE
from builder.publishing.cards.words import CAUTION, NOTICE
from builder.publishing.pages.links import Site, card_file, pack_file
from builder.publishing.proof.safety.claims import Written, claim_edition
from builder.publishing.proof.safety.evidence import (
    Artefact,
    EditionProof,
    LessonProof,
    Seen,
)
from builder.publishing.proof.safety.fonts import find_strange_fonts, list_pdfs
from builder.publishing.proof.safety.look import Sightings, look_at_all
from builder.publishing.proof.safety.source import Source, list_shapers
from builder.publishing.proof.safety.unseen import find_unseen, list_looks
from builder.work.folder_files import FolderFiles
from builder.work.kept import Kept

_REBUILD = "build again; if it stays, a style, a template or another plugin takes it from sight"


@dataclass(frozen=True, slots=True)
class SafetyReading:
    """What a site showed of its lessons' notices, and what it lacks."""

    edition: EditionProof
    sources: Mapping[str, str]
    faults: tuple[Finding, ...]


def read_safety(
    site: Site, files: FolderFiles, content: str, sources: Mapping[str, str], kept: Kept
) -> SafetyReading:
    """Look for every notice of every lesson on every finished file that shows the lesson.

    ``sources`` has the SHA-256 of each file of the project that the site was made from.
    """
    counts = _count_pages(site, files)
    edition = claim_edition(site, Written(content, sources, counts))
    source = Source(files.read, list_shapers(files.list_names()))
    seen = look_at_all(source, list_looks(edition), kept)
    course = site.course

    def locate(lesson: LessonProof, _artefact: Artefact, name: str) -> Place:
        return _locate(course, lesson.id, name)

    unseen = find_unseen(edition, seen, locate, _REBUILD)
    strange = tuple(find_strange_fonts(files.read, list_pdfs(edition), kept))
    kept.save()
    faults = sort_findings((*unseen, *strange))
    return SafetyReading(_add_seen(edition, seen), sources, faults)


def _locate(course: Course, lesson_id: str, name: str) -> Place:
    """Return the line that says what wasn't seen."""
    if name == CAUTION:
        return course.settings.at("caution")
    notices = {f"{NOTICE}{notice.id}": notice for notice in course.notices}
    return notices[name].at("short") if name in notices else course.by_id[lesson_id].at("title")


def _add_seen(edition: EditionProof, seen: Sequence[Sightings]) -> EditionProof:
    """Note where each name was found."""
    in_turn = iter(seen)

    def note(artefact: Artefact) -> Artefact:
        places = ((one.name, one.place) for one in next(in_turn).values() if one.lack is None)
        return replace(artefact, seen=tuple(Seen(name, place) for name, place in places if place))

    lessons = (
        replace(lesson, artefacts=tuple(map(note, lesson.artefacts))) for lesson in edition.lessons
    )
    return replace(edition, lessons=tuple(lessons))


def _count_pages(site: Site, files: FolderFiles) -> dict[str, int]:
    """Count the pages of packs and of the cards in them; what isn't there has no number."""
    if not site.papers:
        return {}
    course = site.course
    cards = (card_file(lesson.id) for lesson in course.lessons)
    packs = (pack_file(name) for name in (*course.vocabulary.strands, WHOLE_COURSE))
    counts = ((file, count_pages(files, file)) for file in (*cards, *packs))
    return {file: count for file, count in counts if count}


def count_pages(files: FolderFiles, file: str) -> int:
    """Count the pages of a PDF; none where it can't be read."""
    try:
        document = pypdfium2.PdfDocument(files.read(file))
    except (OSError, pypdfium2.PdfiumError):
        return 0
    with document:
        return len(document)
