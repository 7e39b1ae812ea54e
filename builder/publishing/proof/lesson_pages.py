"""Proof that pages say all that their lessons and notices say."""

from collections.abc import Iterable, Iterator, Mapping

from markdown import markdown

from builder import rules
from builder.course.course import Course
from builder.course.lesson import Lesson
from builder.course.notice import Notice
from builder.findings import Finding
from builder.publishing.cards.words import NOTICE, list_lesson_words
from builder.publishing.pages.lesson_names import link_lesson_names
from builder.publishing.pages.links import MAP, SAFETY, Site, lesson_page, strand_page
from builder.publishing.proof.read_back import fold_text
from builder.publishing.proof.sources import Sources
from builder.publishing.views.inline import no_link, render_inline, strip_tags
from builder.publishing.views.lesson_in_words import view_lesson

_CAUTION = "caution"
_HOST_EXTENSIONS = ("tables", "fenced_code")
"""What hosts add to plain Markdown as they come."""
_REBUILD = "build again; if it stays away, a template or another plugin takes it out"


def list_lost_words(course: Course, lesson: Lesson, letters: str) -> list[tuple[str, str]]:
    """Return name and words of what a page lacks of its lesson, from the page's letters."""
    view = view_lesson(course, lesson, no_link)
    wanted = {**list_lesson_words(view), "tempo": view.tempo_text, "position": view.position}
    return [(name, wanted[name]) for name in _find_missing(letters, wanted)]


def tell_lost_words(
    lesson: Lesson, lost: Iterable[tuple[str, str]], kind: str = "page"
) -> Iterator[Finding]:
    """Report what a page or chapter lacks, at its lesson."""
    for name, words in lost:
        is_notice = name.startswith(NOTICE) or name == _CAUTION
        rule = rules.NOTICE_MISSING if is_notice else rules.TEXT_LOST
        fact = f'the finished {kind} lacks the {name}: "{words}"'
        yield rule.at(lesson.at("title"), fact, _REBUILD)


def find_lost_caution(sources: Sources, letters: Mapping[str, str]) -> Iterator[Finding]:
    """Report pages without the course's caution: the studio's own, strands and map.

    Lessons' pages are not among them, as `list_lost_words` looks for it there. ``letters`` are
    those of each page by its path.
    """
    site, course = sources.site, sources.site.course
    strands = {site.file(strand_page(name)) for name in course.vocabulary.strands}
    lessons = {site.file(lesson_page(lesson)) for lesson in course.lessons}
    caution = fold_text(course.settings.caution)
    for path in sorted({*sources.own, *strands, site.file(MAP)} & letters.keys() - lessons):
        if caution not in letters[path]:
            fact = f'the finished page "{path}" lacks the course\'s caution'
            yield rules.NOTICE_MISSING.at(course.settings.at("caution"), fact, _REBUILD)


def find_lost_notices(site: Site, letters: str) -> Iterator[Finding]:
    """Report notices of which the safety page lacks the title or any of the texts."""
    for notice in site.course.notices:
        wanted = [
            strip_tags(render_inline(words, {}, no_link))
            for words in (notice.title, notice.short, notice.adapt)
        ]
        for words in (*wanted, *_list_lines(site, notice)):
            if fold_text(words) not in letters:
                yield rules.NOTICE_MISSING.at(
                    notice.at("short"),
                    f'the finished safety page lacks "{words}"',
                    "put {notice-list} on it, and build again",
                )


def _list_lines(site: Site, notice: Notice) -> Iterator[str]:
    """Yield the words of a notice's long text, line by line."""
    html = markdown(link_lesson_names(notice.long, site, SAFETY), extensions=_HOST_EXTENSIONS)
    for line in html.split("\n"):
        yield strip_tags(line)


def _find_missing(letters: str, wanted: Mapping[str, str]) -> Iterator[str]:
    """Yield the names of texts that stand on a page less often than they should.

    A cue may be part of a step: a page must then show its words twice.
    """
    folded = {name: fold_text(words) for name, words in wanted.items()}
    for name, words in folded.items():
        needed = sum(other.count(words) for other in folded.values()) if words else 0
        if letters.count(words) < needed:
            yield name
