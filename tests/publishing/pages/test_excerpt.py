"""Excerpts: a lesson's page shows nothing of its course that isn't in them, nor in their keys."""

from collections.abc import Iterator
from dataclasses import dataclass, fields, replace
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from builder.course.audience import Audience
from builder.course.course import Course
from builder.course.dose import TimedDose
from builder.course.lesson import Lesson, Passage, Range, Waiver, Words
from builder.course.notice import Review
from builder.course.release import Ledger, Release
from builder.publishing.pages.excerpt import Excerpt, Excerpts
from builder.publishing.pages.lesson import make_lesson_page
from builder.publishing.pages.links import Site
from builder.reading.course_folder import read_course
from tests.conftest import SMALL_COURSE

COURSES = (SMALL_COURSE, Path(__file__).parents[3])
"""The small course, and the one that the tool is shipped with."""
REVIEW = Review("Somebody Else", date(2020, 1, 1))
OTHER_WORDS = Words((Passage("x", 1),), (), (), (), None, ("y",), ("z",) * 9, ("w",))
RELEASES = tuple(
    Release(name, Audience.CLIENT, "ABCDE", date(2026, 1, 1), "why")
    for name in ("short-hold", "plain-count")
)
NO_PART_OF_A_PAGE = {"path", "positions", "notices", "languages"}
"""Settings that only say where something was written, and what there must be."""


@dataclass(frozen=True)
class Whole:
    """Stands for an excerpt that leaves nothing out."""

    site: Site
    lesson: Lesson

    def make_site(self) -> Site:
        return self.site


def read(root: Path) -> Course:
    course = read_course(root).course
    assert course is not None
    return course


def cut(course: Course, name: str, **site: Any) -> tuple[Excerpt, str]:
    return Excerpts(Site(course, **site)).cut(course.by_id[name])


def with_lesson(course: Course, name: str, **changes: Any) -> Course:
    lessons = (replace(each, **changes) if each.id == name else each for each in course.lessons)
    return replace(course, lessons=tuple(lessons))


def scramble(lesson: Lesson, kept: str) -> Lesson:
    """Change all of a lesson that a page of another one doesn't tell."""
    return replace(
        lesson,
        summary="Something else.",
        level=lesson.level + 1,
        drill=replace(lesson.drill, dose=TimedDose(59), range=Range.FULL, tempo=None),
        words=OTHER_WORDS,
        builds_on=tuple(name for name in lesson.builds_on if name == kept),
        easier=(),
        harder=(),
        measures=(),
        ladder=(3.0,),
        waivers=(Waiver("none", "why", REVIEW),),
        allowed={"W101": "why"},
        reviewed=REVIEW,
        figure=None,
        path="elsewhere.md",
        positions={},
        was=("a-former-one",),
    )


@pytest.mark.parametrize("root", COURSES, ids=["small", "own"])
def test_a_page_says_the_same_from_an_excerpt_as_from_the_whole_course(root: Path) -> None:
    for course in (whole := read(root), *whole.translations.values()):
        site = Site(course, papers=(("a6", "A6"),))
        excerpts = Excerpts(site)
        for lesson in course.lessons:
            from_whole: Any = Whole(site, lesson)
            excerpt, _ = excerpts.cut(lesson)
            assert make_lesson_page(excerpt, None) == make_lesson_page(from_whole, None)


@pytest.mark.parametrize("root", COURSES, ids=["small", "own"])
def test_what_no_page_tells_of_other_lessons_changes_neither_page_nor_key(root: Path) -> None:
    course = read(root)
    for lesson in course.lessons:
        others = (
            each if each.id == lesson.id else scramble(each, lesson.id) for each in course.lessons
        )
        scrambled = replace(course, lessons=tuple(others))
        from_scrambled: Any = Whole(Site(scrambled), lesson)
        excerpt, key = cut(course, lesson.id)
        assert cut(scrambled, lesson.id) == (excerpt, key)
        assert make_lesson_page(from_scrambled, None) == make_lesson_page(excerpt, None)


def list_changes(lesson: Lesson) -> Iterator[dict[str, object]]:
    """Yield a change of every field of a lesson that its page depends on."""
    scrambled = scramble(replace(lesson, builds_on=(), drill=lesson.drill), "")
    left_out = {"allowed", "path", "positions", "id", "strand"}
    for each in fields(Lesson):
        value = getattr(scrambled, each.name)
        if each.name not in left_out and value != getattr(lesson, each.name):
            yield {each.name: value}
    yield {"title": "Another title"}
    yield {"strand": replace(lesson.strand, title="Another strand")}
    yield {"drill": replace(lesson.drill, position=replace(lesson.drill.position, title="head"))}


def test_every_change_of_a_lesson_changes_the_key_of_its_page() -> None:
    course = read(SMALL_COURSE)
    _, key = cut(course, "short-hold")
    for change in list_changes(course.by_id["short-hold"]):
        assert cut(with_lesson(course, "short-hold", **change), "short-hold")[1] != key, change


def test_every_setting_that_a_page_may_show_changes_its_key() -> None:
    course = read(SMALL_COURSE)
    _, key = cut(course, "short-hold")
    settings = course.settings
    for each in fields(settings):
        if each.name in NO_PART_OF_A_PAGE:
            continue
        old: Any = getattr(settings, each.name)
        other: object = f"{old}-x" if isinstance(old, str) else None
        changed = replace(course, settings=replace(settings, **{each.name: other or ("x",)}))
        assert cut(changed, "short-hold")[1] != key, each.name


@pytest.mark.parametrize(
    "change",
    [
        {"glossary": {"hold": "Not breathing."}},
        {"notices": ()},
        {"ledger": Ledger(RELEASES[:1])},
    ],
    ids=["glossary", "notices", "ledger"],
)
def test_what_a_page_takes_from_the_course_changes_its_key(change: dict[str, Any]) -> None:
    course = read(SMALL_COURSE)
    assert cut(replace(course, **change), "short-hold")[1] != cut(course, "short-hold")[1]


def test_each_word_of_each_notice_changes_the_key_of_those_who_carry_it() -> None:
    course = read(SMALL_COURSE)
    for notice in course.notices:
        for change in ({"title": "x"}, {"short": "x"}, {"adapt": "x"}, {"everywhere": True}):
            others = tuple(
                replace(each, **change) if each == notice else each for each in course.notices
            )
            changed = replace(course, notices=others)
            for lesson in course.lessons:
                carries = notice in course.notices_for(lesson) or "everywhere" in change
                is_same = cut(changed, lesson.id)[1] == cut(course, lesson.id)[1]
                assert is_same != carries or (notice.everywhere and "everywhere" in change)


def test_a_site_s_papers_and_the_form_of_its_addresses_change_the_key() -> None:
    course = read(SMALL_COURSE)
    keys = {
        cut(course, "short-hold", **how)[1]
        for how in ({}, {"papers": (("a6", "A6"),)}, {"directory_urls": False})
    }
    assert len(keys) == 3


def test_the_release_of_another_lesson_changes_nothing() -> None:
    course = read(SMALL_COURSE)
    alone = replace(course, ledger=Ledger(RELEASES[:1]))
    beside = replace(course, ledger=Ledger(RELEASES))
    assert cut(alone, "short-hold") == cut(beside, "short-hold")


def test_the_title_of_a_lesson_changes_those_pages_only_that_name_it() -> None:
    course = read(SMALL_COURSE)
    renamed = with_lesson(course, "plain-count", title="Counting to four")
    changed = {
        lesson.id
        for lesson in course.lessons
        if cut(renamed, lesson.id)[1] != cut(course, lesson.id)[1]
    }
    showing = {
        lesson.id
        for lesson in course.lessons
        if "Counting to four" in make_lesson_page(cut(renamed, lesson.id)[0], None)
    }
    assert changed == showing
    assert "plain-count" in showing
    assert len(showing) < len(course.lessons)


def test_a_lesson_named_in_a_text_alone_is_in_the_excerpt() -> None:
    course = read(SMALL_COURSE)
    text = Passage("As in [[\nwide-ribs ]].", 1)
    words = replace(course.by_id["short-hold"].words, steps=(text,))
    excerpt, _ = cut(with_lesson(course, "short-hold", words=words), "short-hold")
    assert "wide-ribs" in {other.id for other in (*excerpt.before, *excerpt.after)}
    assert course.by_id["wide-ribs"].title in make_lesson_page(excerpt, None)
