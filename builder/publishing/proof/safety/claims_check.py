"""What a proof may not claim: each lesson needs its caution, and a notice for what it asks.

The proof may come from anybody. What calls for a notice is judged by the tool's own table.
"""

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Set

from builder import rules
from builder.course.trait import TRAITS
from builder.findings import Finding, Place
from builder.publishing.pages.links import COACH_CHARTS, chart_file, wall_chart_file
from builder.publishing.proof.read_back import fold_text
from builder.publishing.proof.safety.evidence import (
    Artefact,
    EditionProof,
    Kind,
    LessonProof,
    NoticeClaim,
    Proof,
)
from builder.publishing.proof.safety.file import PROOF_FILE
from builder.sums.paper import PAPERS, WALL_SHEETS_MM

HERE = Place(PROOF_FILE)
AGAIN = "build the site again from its lessons"
_CHARTS = frozenset(
    (
        *(chart_file(name, sheet) for name, sheets in COACH_CHARTS.items() for sheet in sheets),
        *(wall_chart_file(sheet) for sheet in WALL_SHEETS_MM),
    )
)
"""PDFs beside the cards that show no lesson."""
_MOST_PAGES = 100
"""No card has a tenth of them (ours); a forged proof may name a billion."""
_LANGUAGE = r"(?:[a-z]{2,3}(?:-[A-Za-z0-9]+)*/)?"
"""The folder of another language, which a proof may keep silent about (BCP 47)."""
_LESSON_PAGE = re.compile(_LANGUAGE + r"lessons/[^/]+/(?:[^/]+/index|(?!index\.html$)[^/]+)\.html")
_CARD = re.compile(_LANGUAGE + r"cards/.+\.pdf")


def find_false_claims(proof: Proof, names: Iterable[str]) -> Iterator[Finding]:
    """Report what a proof says that can't be, and lessons that it doesn't speak of.

    ``names`` are the files of the site.
    """
    if not proof.editions or not all(edition.lessons for edition in proof.editions):
        yield rules.PROOF_UNSOUND.at(HERE, "it speaks of no lesson", AGAIN)
    folders = Counter(edition.folder for edition in proof.editions)
    for folder in sorted(name for name, count in folders.items() if count > 1):
        fact = f'it has two courses in the folder "{folder}"'
        yield rules.PROOF_UNSOUND.at(HERE, fact, AGAIN)
    for edition in proof.editions:
        yield from _judge_edition(edition)
        sorts = {artefact.sort for _, artefact in edition.list_artefacts()}
        sorts.add((Kind.PAGE, "", False))
        for lesson in edition.lessons:
            yield from _judge_notices(edition, lesson)
            yield from _judge_artefacts(edition, lesson, sorts)
        yield from _judge_sharing(edition)
    yield from _find_unclaimed(proof, names)


def _judge_edition(edition: EditionProof) -> Iterator[Finding]:
    """Report an edition without its caution, doubled names, and traits of which it says less."""
    if not fold_text(edition.caution):
        fact = f"the course in {edition.language} has no caution"
        yield rules.NOTICE_UNCLAIMED.at(HERE, fact, AGAIN)
    for name in _find_doubled(edition):
        yield rules.PROOF_UNSOUND.at(HERE, f'it names "{name}" twice', AGAIN)
    for name, trait in sorted(edition.traits.items()):
        if name in TRAITS and trait.needs_notice != TRAITS[name].needs_notice:
            fact = f'it says of "{name}" that no notice is needed for it'
            yield rules.NOTICE_UNCLAIMED.at(HERE, fact, AGAIN)
    for notice in edition.notices:
        if not fold_text(notice.words):
            fact = f'the notice "{notice.id}" says nothing'
            yield rules.NOTICE_UNCLAIMED.at(HERE, fact, AGAIN)


def _find_doubled(edition: EditionProof) -> list[str]:
    """Return what tells lessons and notices apart, where two have the same."""
    lessons, notices = edition.lessons, edition.notices
    kinds = (
        [each.id for each in lessons],
        [f"{each.title}, version {each.version}" for each in lessons],
        [each.id for each in notices],
    )
    counts = (item for kind in kinds for item in Counter(kind).items())
    return sorted(name for name, count in counts if count > 1)


def _judge_notices(edition: EditionProof, lesson: LessonProof) -> Iterator[Finding]:
    """Report traits without a notice, and notices that a lesson should carry and doesn't."""
    notices = {notice.id: notice for notice in edition.notices}
    carried = [notices[name] for name in lesson.notices if name in notices]
    for name in sorted(set(lesson.notices) - notices.keys()):
        fact = f'"{lesson.id}" names the notice "{name}", of which nothing is told'
        yield rules.NOTICE_UNCLAIMED.at(HERE, fact, AGAIN)
    covered = {trait for notice in carried for trait in notice.traits}
    for trait in lesson.traits:
        if trait not in covered and _needs_notice(edition, trait):
            fact = f'"{lesson.id}" has the trait "{trait}" and no notice of it'
            yield rules.NOTICE_UNCLAIMED.at(HERE, fact, AGAIN)
    for notice in _find_left_out(edition, lesson):
        fact = f'"{lesson.id}" calls for the notice "{notice.id}" and doesn\'t carry it'
        yield rules.NOTICE_UNCLAIMED.at(HERE, fact, AGAIN)


def _needs_notice(edition: EditionProof, trait: str) -> bool:
    """Tell whether a trait needs a notice; one that nobody knows does."""
    if trait in TRAITS:
        return TRAITS[trait].needs_notice
    own = edition.traits.get(trait)
    return own is None or own.needs_notice


def _find_left_out(edition: EditionProof, lesson: LessonProof) -> Iterator[NoticeClaim]:
    """Yield notices that a lesson calls for, doesn't carry and gives no reason to leave out."""
    traits = frozenset(lesson.traits)
    excused = {each.notice for each in lesson.waived if fold_text(each.reason)}
    for notice in edition.notices:
        is_excused = notice.id in excused and not notice.everywhere
        if notice.concerns(traits) and notice.id not in lesson.notices and not is_excused:
            yield notice


def _judge_artefacts(
    edition: EditionProof, lesson: LessonProof, every: Set[tuple[str, str, bool]]
) -> Iterator[Finding]:
    """Report lessons that aren't shown where the others are: in ``every`` sort of artefact."""
    if not fold_text(lesson.title) or not fold_text(lesson.version):
        yield rules.PROOF_UNSOUND.at(HERE, f'"{lesson.id}" has no title or no version', AGAIN)
    sorts = Counter(artefact.sort for artefact in lesson.artefacts)
    for kind, paper, is_whole in sorted(every | sorts.keys()):
        if sorts[kind, paper, is_whole] != 1:
            what = f"{kind} on {paper}" if paper else kind
            fact = f'it names {sorts[kind, paper, is_whole]} of "{lesson.id}", {what}, and not one'
            yield rules.ARTEFACT_UNCLAIMED.at(HERE, fact, AGAIN)
    for artefact in lesson.artefacts:
        is_paper = artefact.kind in (Kind.CARD, Kind.PACK)
        if (artefact.paper in PAPERS) != is_paper or not artefact.file.startswith(edition.folder):
            fact = f'"{artefact.file}" can\'t be the {artefact.kind} of "{lesson.id}"'
            yield rules.PROOF_UNSOUND.at(HERE, fact, AGAIN)


def _judge_sharing(edition: EditionProof) -> Iterator[Finding]:
    """Report files that are said to show two lessons at once: only packs and books hold several."""
    shown: dict[tuple[str, str, int], str] = {}
    for lesson, artefact in edition.list_artefacts():
        if (artefact.pages is not None) != (artefact.kind is Kind.PACK):
            fact = f'it doesn\'t say which pages of "{artefact.file}" show "{lesson.id}"'
            yield rules.PROOF_UNSOUND.at(HERE, fact, AGAIN)
            continue
        for page in _list_pages(artefact):
            first = shown.setdefault((artefact.file, artefact.chapter, page), lesson.id)
            if first != lesson.id:
                where = f'page {page} of "{artefact.file}"' if page else f'"{artefact.file}"'
                fact = f'{where} is said to show both "{first}" and "{lesson.id}"'
                yield rules.PROOF_UNSOUND.at(HERE, fact, AGAIN)
                break


def _list_pages(artefact: Artefact) -> Iterable[int]:
    """Return the pages of a pack that show a lesson, or 0 for a file that shows nothing else."""
    pages = artefact.pages
    return range(pages.first, min(pages.last, pages.first + _MOST_PAGES) + 1) if pages else (0,)


def _find_unclaimed(proof: Proof, names: Iterable[str]) -> Iterator[Finding]:
    """Report pages of lessons and cards of which nothing is told."""
    claimed = {each.file for edition in proof.editions for _, each in edition.list_artefacts()}
    folder = re.compile(_LANGUAGE)
    for name in sorted(set(names) - claimed):
        shows = _LESSON_PAGE.fullmatch(name) or _CARD.fullmatch(name)
        if shows and folder.sub("", name, count=1) not in _CHARTS:
            fact = "it shows a lesson, and the proof doesn't speak of it"
            yield rules.ARTEFACT_UNCLAIMED.at(Place(name), fact, AGAIN)
