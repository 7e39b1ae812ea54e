"""What a course claims of its lessons: their traits, the notices these call for, the files."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from builder.course.audience import Audience
from builder.course.course import Course
from builder.course.lesson import Lesson
from builder.course.notice import Notice
from builder.publishing.book.places import lesson_file
from builder.publishing.cards.pack_plan import Pack, plan_packs
from builder.publishing.pages.links import (
    BOOK,
    GLOSSARY,
    Site,
    card_file,
    lesson_page,
    pack_file,
)
from builder.publishing.proof.safety.evidence import (
    Artefact,
    EditionProof,
    Kind,
    LessonProof,
    NoticeClaim,
    Pages,
    TraitClaim,
    WaivedNotice,
)
from builder.publishing.views.inline import no_link, render_inline, strip_tags
from builder.reading.folder_reader import COURSE_FILE
from builder.reading.translation.names import name_translation, split_language
from builder.sums.paper import PAPERS
from builder.sums.version import find_version


@dataclass(frozen=True, slots=True)
class Written:
    """What is known of a site's sources and of the PDFs that came of them."""

    content: str
    """The content folder, from the project's folder."""
    sources: Mapping[str, str]
    """SHA-256 of each source by its path from the project's folder."""
    page_counts: Mapping[str, int]
    """How many pages each card and pack on the course's own paper has, by its file. Where one is
    missing, nothing will be seen on it."""


def claim_edition(site: Site, written: Written) -> EditionProof:
    """Say of a course in one language what must be seen where; nothing is looked at yet."""
    course = site.course
    settings = course.settings
    artefacts = _list_artefacts(site, written.page_counts)
    return EditionProof(
        folder="",
        language=settings.language,
        title=settings.title,
        caution=settings.caution,
        caution_source=settings.path,
        traits={
            name: TraitClaim(trait.title, trait.needs_notice)
            for name, trait in sorted(course.traits.items())
        },
        notices=tuple(_claim_notice(course, notice) for notice in course.notices),
        lessons=tuple(
            _claim_lesson(course, lesson, written, artefacts[lesson.id])
            for lesson in course.lessons
        ),
    )


def _claim_notice(course: Course, notice: Notice) -> NoticeClaim:
    return NoticeClaim(
        id=notice.id,
        title=notice.title,
        words=strip_tags(render_inline(notice.short, course.titles, no_link)),
        traits=tuple(sorted(notice.traits)),
        everywhere=notice.everywhere,
        source=notice.place.path,
    )


def _claim_lesson(
    course: Course, lesson: Lesson, written: Written, artefacts: tuple[Artefact, ...]
) -> LessonProof:
    notices = course.notices_for(lesson)
    paths = (lesson.path, *(notice.place.path for notice in notices), course.settings.path)
    return LessonProof(
        id=lesson.id,
        title=lesson.title,
        version=find_version(course, lesson, Audience.CLIENT),
        traits=tuple(sorted(course.traits_by_lesson[lesson.id])),
        notices=tuple(notice.id for notice in notices),
        waived=tuple(WaivedNotice(waiver.notice_id, waiver.reason) for waiver in lesson.waivers),
        sources=_list_sources(course, written, paths),
        artefacts=artefacts,
    )


def _list_sources(course: Course, written: Written, paths: tuple[str, ...]) -> tuple[str, ...]:
    """List what a lesson was made from; a translation was made from its original besides."""
    settings = course.settings
    glossary = f"{written.content}/{GLOSSARY}"
    words = name_translation(glossary, settings.language) if settings.is_translation else glossary
    every = (*paths, words, f"{written.content}/{COURSE_FILE}")
    originals = (split_language(path, settings.languages)[0] for path in every)
    return tuple(sorted({*every, *originals} & written.sources.keys()))


def _list_artefacts(site: Site, counts: Mapping[str, int]) -> dict[str, tuple[Artefact, ...]]:
    """List everything that shows a lesson, by the lesson's id."""
    course = site.course
    found: dict[str, list[Artefact]] = {
        lesson.id: [Artefact(Kind.PAGE, site.file(lesson_page(lesson)))]
        for lesson in course.lessons
    }
    if not site.papers:
        return {name: tuple(artefacts) for name, artefacts in found.items()}
    own = course.settings.paper
    for name, artefacts in found.items():
        for paper, _ in site.papers:
            file = card_file(name, "" if paper == own else paper)
            artefacts.append(Artefact(Kind.CARD, file, paper))
        artefacts.append(Artefact(Kind.CHAPTER, BOOK, chapter=lesson_file(name)))
    for pack in plan_packs(course, course.lessons, PAPERS[own]):
        for name, pages in _number_pages(pack, counts):
            file = pack_file(pack.name)
            found[name].append(Artefact(Kind.PACK, file, own, pages=pages))
    return {name: tuple(artefacts) for name, artefacts in found.items()}


def _number_pages(pack: Pack, counts: Mapping[str, int]) -> Iterator[tuple[str, Pages]]:
    """Yield which pages of a pack each lesson has: cards stand behind each other at its end."""
    lessons = pack.list_lessons()
    leaves = [counts.get(card_file(name), 1) for name in lessons]
    page = max(1, counts.get(pack_file(pack.name), 0) - sum(leaves) + 1)
    for name, count in zip(lessons, leaves, strict=True):
        yield name, Pages(page, page + count - 1)
        page += count
