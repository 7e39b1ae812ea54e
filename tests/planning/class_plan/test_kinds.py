"""Kinds of blocks: which a class can be made of, and what they hold."""

from dataclasses import replace

import pytest

from builder.planning.class_plan.kinds import (
    Kind,
    find_most_blocks,
    fits_own_pace,
    list_all_kinds,
    list_kinds,
)
from builder.records.plan import OWN_PACE
from tests.planning.class_plan.test_score import COUNT, NEW, PROBLEM, QUIET, STAND, WORK

CALM = Kind("lying", False, COUNT, 2)
BUSY = Kind("lying", True, COUNT, 3)


@pytest.mark.parametrize(
    ("kind", "held"), [(CALM, {"breathe", "turn"}), (BUSY, {"breathe", "turn", "press"})]
)
def test_work_needs_a_block_of_work_and_quiet_lessons_fit_into_both(
    kind: Kind, held: set[str]
) -> None:
    versions = (QUIET, WORK, NEW, STAND)
    assert {version.lesson_id for version in versions if kind.holds(version)} == held


def test_a_longer_lesson_does_not_fit() -> None:
    assert not replace(BUSY, minutes=2).holds(WORK)


def test_kinds_in_which_somebody_has_nothing_are_left_out() -> None:
    problem = replace(PROBLEM, versions={**PROBLEM.versions, "C2": (STAND,)})
    assert {kind.family for kind in list_kinds(problem)} == {"upright"}
    assert {kind.family for kind in list_all_kinds(problem)} == {"lying", "upright"}


def test_each_kind_has_a_use() -> None:
    assert list_kinds(PROBLEM) == (
        CALM,
        replace(CALM, count=OWN_PACE, minutes=1),
        BUSY,
        Kind("upright", False, COUNT, 2),
    )


def test_rest_and_repetition_bound_the_number_of_blocks() -> None:
    assert (CALM.seconds(PROBLEM), BUSY.seconds(PROBLEM)) == (150, 270)
    assert find_most_blocks(PROBLEM, BUSY) == 3
    assert find_most_blocks(replace(PROBLEM, seconds=400), BUSY) == 1
    assert find_most_blocks(PROBLEM, Kind("upright", False, COUNT, 2)) == 2
    assert find_most_blocks(PROBLEM, replace(BUSY, copy=1)) == 1


def test_who_breathes_at_their_own_pace_fits_beside_a_count() -> None:
    assert fits_own_pace(CALM, NEW)
    assert not fits_own_pace(replace(CALM, count=OWN_PACE), NEW)
    assert not fits_own_pace(CALM, QUIET)
