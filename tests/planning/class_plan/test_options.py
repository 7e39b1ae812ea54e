"""Options: what somebody may do today, and on what ground not."""

import pytest

from builder.course.trait import is_loaded
from builder.planning.class_plan import worth
from builder.planning.class_plan.options import Options
from builder.planning.class_plan.planned import PlannedClass
from builder.planning.class_plan.refusal import Ground
from builder.records.person import Person
from tests.planning.class_plan.starter_class import (
    did,
    did_all,
    make_guest,
    make_options,
    make_order,
    make_planner,
    make_program,
)
from tests.planning.starter import read_starter


def list_allowed(options: Options) -> dict[str, int]:
    """Return the points of what C1 may do."""
    return {version.lesson_id: version.points for version in options.pose().versions["C1"]}


def test_the_next_lesson_is_a_step_and_what_is_known_little() -> None:
    guest = make_guest([*did_all("C1", "side-rib-breath"), *did("C1", "side-rib-breath", "a")])
    allowed = list_allowed(make_options(guest))
    assert allowed["belly-breath"] == worth.KNOWN
    assert allowed["side-rib-breath"] == worth.PRACTICE
    assert "back-rib-breath" not in allowed


def test_what_is_known_waits_while_something_under_it_is_lost() -> None:
    rows = [*did_all("C1", "strap-hamstring"), *did("C1", "tail-tuck", "ee")]
    guest = make_guest([*rows, *did("C1", "strap-hamstring", "rr", last=8)])
    assert "strap-hamstring" in guest.standing.known
    options = make_options(guest)
    assert "strap-hamstring" not in list_allowed(options)
    refusal = options.find_refusal("C1", "strap-hamstring")
    assert refusal is not None
    assert (refusal.ground, refusal.missing) == (Ground.NOT_READY, ("tail-tuck",))


def test_what_was_done_out_of_order_is_not_repeated() -> None:
    guest = make_guest(did("C1", "all-fours-breath", "rr"))
    options = make_options(guest)
    assert "all-fours-breath" not in list_allowed(options)
    refusal = options.find_refusal("C1", "all-fours-breath")
    assert refusal is not None
    assert refusal.missing == ("sitting-breath",)


def test_after_too_much_the_easier_lesson_is_what_to_work_on() -> None:
    rows = [*did_all("C1", "back-rib-breath"), *did("C1", "back-rib-breath", "ee")]
    options = make_options(make_guest(rows))
    allowed = list_allowed(options)
    assert allowed["side-rib-breath"] == worth.PRACTICE
    assert "back-rib-breath" not in allowed
    refusal = options.find_refusal("C1", "back-rib-breath")
    assert refusal is not None
    assert refusal.ground is Ground.TOO_MUCH


def test_the_day_after_work_is_for_quiet_lessons() -> None:
    rows = [*did_all("C1", "strap-hamstring"), *did("C1", "strap-hamstring", "r", last=1)]
    options = make_options(make_guest(rows))
    allowed = list_allowed(options)
    assert "even-count" in allowed
    assert not any(is_loaded(read_starter().by_id[name].drill) for name in allowed)
    refusal = options.find_refusal("C1", "strap-hamstring")
    assert refusal is not None
    assert refusal.ground is Ground.REST_DAY


def test_two_days_after_work_there_is_work_again() -> None:
    rows = [*did_all("C1", "strap-hamstring"), *did("C1", "strap-hamstring", "r", last=2)]
    assert "strap-hamstring" in list_allowed(make_options(make_guest(rows)))


def test_other_strands_only_warm_up() -> None:
    options = make_options(make_guest(did_all("C1", "ball-hold")), "front-line")
    allowed = list_allowed(options)
    course = read_starter()
    others = [name for name in allowed if course.by_id[name].strand.id != "front-line"]
    assert "belly-breath" in others
    assert {allowed[name] for name in others} == {worth.KNOWN, worth.NOT_DUE}
    assert not any(is_loaded(course.by_id[name].drill) for name in others)
    refusal = options.find_refusal("C1", "strap-hamstring")
    assert refusal is not None
    assert refusal.ground is Ground.NOT_ASKED


def test_what_a_notice_stops_is_no_choice_and_says_which() -> None:
    guest = make_guest(
        did_all("C1", "tail-tuck"), person=Person("C1", "Cy", conditions=("back-pain",))
    )
    options = make_options(guest)
    assert "tail-tuck" not in list_allowed(options)
    refusal = options.find_refusal("C1", "tail-tuck")
    assert refusal is not None
    assert [barrier.notice_id for barrier in refusal.barriers] == ["back-pain"]


def test_who_wants_an_answer_first_may_do_nothing() -> None:
    person = Person("C1", "Cy", conditions=("pregnancy",))
    assert list_allowed(make_options(make_guest(did_all("C1", "tail-tuck"), person=person))) == {}


@pytest.mark.parametrize("lesson", ["belly-breath", "side-rib-breath"])
def test_nothing_is_refused_that_is_allowed(lesson: str) -> None:
    options = make_options(make_guest(did_all("C1", "back-rib-breath")))
    assert options.find_refusal("C1", lesson) is None


def test_only_near_refusals_are_told() -> None:
    options = make_options(make_guest(did_all("C1", "side-rib-breath")))
    told = {refusal.version.lesson_id for refusal in options.list_refusals()}
    assert "back-rib-breath" in told
    assert "all-round-breath" not in told


def test_a_newcomer_among_later_strands_is_given_what_leads_there() -> None:
    program = make_program([Person("C1", "Cy")], [])
    planned = make_planner(program, make_order(["C1"], strands=["stretch"])).plan()
    assert isinstance(planned, PlannedClass)
    done = {turn.lesson_id for block in planned.plan.blocks for turn in block.turns}
    assert done
    assert done <= set(planned.guests["C1"].standing.open)
    strands = {read_starter().by_id[name].strand.id for name in done}
    assert "stretch" not in strands
