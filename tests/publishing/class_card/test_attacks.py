"""Class cards of awkward classes: at no setting is anything lost, cut off or laid upon."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from builder.publishing.class_card.html import make_face
from builder.publishing.class_card.setting import Level
from builder.publishing.views.class_view import ClassView, RecordView
from tests.publishing.class_card.cards import (
    change_turns,
    find_faults,
    find_smallest,
    rename,
)
from tests.publishing.demo_classes import view_demo

SMALL = "2026-11-26-small"
LONG_NAMES = (
    "Kealaikahikiokalaninuiahilapalapa-Nohealaniokamehameha Keawemauhili",
    "Anneliese-Wilhelmine-Charlotte Oberhofer-Zwingenberger zu Lautenbach",
    "\u039a\u03c9\u03bd\u03c3\u03c4\u03b1\u03bd\u03c4\u03b9\u03bd\u03bf\u03c2 "
    "\u03a0\u03b1\u03c0\u03b1\u03b4\u03bf\u03c0\u03bf\u03c5\u03bb\u03bf\u03c2",
    "Maria",
)
MEASURES = tuple(
    RecordView(f"m{number}", f"measure {number}", "cm", has_sides=number % 2 == 0, words=(),
               is_timed=False)
    for number in range(8)
)  # fmt: skip
LONG_TITLE = "Donaudampfschifffahrtsgesellschaftskapitänsatemzug, seitwärts liegend mit Gurt"


def leave_one_person(view: ClassView) -> ClassView:
    """Leave a class one person in one block."""
    block = view.blocks[0]
    own = replace(block, turns=block.turns[:1])
    person = own.turns[0].person_id
    return replace(
        view,
        people=tuple(each for each in view.people if each[0] == person),
        blocks=(own,),
        spare=(),
        drop=(),
        cautions=tuple(each for each in view.cautions if each[0] == person),
    )


def give_cautions(view: ClassView) -> ClassView:
    """Give the first person of a class eight long cautions."""
    eight = tuple(f"caution {number}: " + "breathe easily " * 12 for number in range(8))
    person = view.people[0][0]
    return replace(change_turns(view, cautions=(), caution_words=()), cautions=((person, eight),))


COACHES = ("Theodora Klammerschmitt", "Ile", "K3")
AWKWARD: dict[str, Callable[[ClassView], ClassView]] = {
    "long names": lambda view: rename(view, LONG_NAMES),
    "long titles": lambda view: change_turns(
        view, title=LONG_TITLE, side_text="left first: 3 sets, right 2"
    ),
    "many measures": lambda view: change_turns(view, records=MEASURES),
    "nobody coaches": lambda view: replace(view, coaches=()),
    "three coaches": lambda view: replace(view, coaches=COACHES, note="N " * 120),
    "one person": leave_one_person,
    "eight cautions": give_cautions,
}


@pytest.mark.parametrize("level", [Level.WIDE, Level.CLOSE, Level.TIGHT])
@pytest.mark.parametrize("name", AWKWARD)
def test_nothing_is_lost_or_laid_upon(name: str, level: Level) -> None:
    assert find_faults(AWKWARD[name](view_demo(SMALL)), find_smallest(level), "letter") == ()


@pytest.mark.parametrize("language", ["de", "es"])
def test_longer_languages_lose_nothing(language: str) -> None:
    view = replace(view_demo("2026-11-24-mixed"), language=language)
    assert find_faults(view, find_smallest(Level.TIGHT), "a4") == ()


def test_each_line_for_a_number_says_by_a_letter_what_it_is_for() -> None:
    face = make_face(change_turns(view_demo(SMALL), records=MEASURES), find_smallest(Level.TIGHT))
    assert [letter for letter, _ in face.measures] == list("abcdefgh")
    lines = face.blocks[0].groups[0].lines
    assert [(line.letter, line.has_sides) for line in lines[:2]] == [("a", True), ("b", False)]


def test_one_measure_alone_needs_no_letter() -> None:
    face = make_face(
        change_turns(view_demo(SMALL), records=MEASURES[:1]), find_smallest(Level.WIDE)
    )
    assert face.measures == (("", "measure 0 (cm)"),)


def test_a_card_without_figures_says_so_and_every_other_one_has_them() -> None:
    view = view_demo(SMALL)
    said = {level: make_face(view, find_smallest(level)).without_figures for level in Level}
    assert said.pop(Level.UNDRAWN) == "no room for figures: see the screen"
    assert set(said.values()) == {""}


def test_who_does_a_lesson_in_another_position_stands_apart_with_their_own_figure() -> None:
    view = view_demo("2026-11-24-mixed")
    block = next(each for each in view.blocks if len({t.lesson_id for t in each.turns}) == 1)
    first, *others = block.turns
    moved = replace(first, position="lying on your side", figure=None)
    changed = replace(view, blocks=(replace(block, turns=(moved, *others)),), spare=())
    groups = make_face(changed, find_smallest(Level.TIGHT)).blocks[0].groups
    own = next(each for each in groups if each.people[0].id == first.person_id)
    assert (own.position, own.figure, len(own.people)) == ("lying on your side", None, 1)
    assert {each.title for each in groups} == {first.title}


def test_the_usual_rest_is_the_groups_and_only_another_one_stands_with_a_person() -> None:
    view = view_demo("2026-11-24-mixed")
    for level in (Level.WIDE, Level.TIGHT):
        for block in make_face(view, find_smallest(level)).blocks:
            rests = {turn.person_id: turn.rest_seconds for turn in block.view.turns}
            for group in block.groups:
                for person in group.people:
                    said = person.rest or group.dose
                    assert str(rests[person.id] or "") in said or "min" in said
