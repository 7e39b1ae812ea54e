"""A class plan in words: no turn goes without its caution, be the plan sound or not."""

from datetime import timedelta

import pytest

from builder.planning.class_plan.planned import Planner
from builder.records.class_order import ClassOrder
from builder.records.person import Person
from builder.records.plan import OWN_PACE, ClassPlan, PlannedBlock, Turn
from builder.records.program import Program
from builder.report.class_words import PlanView, write_class
from tests.planning.starter import TODAY, make_person, read_starter

PREGNANT = make_person("pregnancy", cleared={"pregnancy": TODAY - timedelta(days=9)})


def write(person: Person, lesson: str) -> list[str]:
    """Return the words of a plan in which one person does one lesson, allowed or not."""
    course, program = read_starter(), Program({person.id: person})
    order = ClassOrder(TODAY, "mixed", 45, (person.id,), ("a coach",), ())
    plan = ClassPlan(
        order.title, (person.id,), (PlannedBlock(OWN_PACE, "lying", (Turn(person.id, lesson),)),)
    )
    planned = Planner(course, program, order).check(plan)
    return write_class(PlanView(course, program.people, planned), ()).split("\n")


@pytest.mark.parametrize(
    ("person", "lesson", "turn", "caution"),
    [
        (make_person(), "back-rib-breath", "see the cautions", "words only, no hands"),
        (
            PREGNANT,
            "belly-breath",
            "sitting instead, see the cautions",
            "even after a yes: Do the same",
        ),
        (PREGNANT, "brace-and-breathe", "sitting instead, see the cautions", "Leak, bulge: stop."),
        (make_person("reflux"), "even-count", "sitting instead, see the cautions", "reflux: Wait"),
        (make_person("unsteady"), "standing-breath", "in another way, see the cautions", "Keep a"),
    ],
)
def test_every_turn_points_to_its_cautions(
    person: Person, lesson: str, turn: str, caution: str
) -> None:
    lines = write(person, lesson)
    assert [line.split("; ")[1] for line in lines if line.startswith("       ")] == [turn]
    assert any(line.startswith("  ") and caution in line for line in lines)


def test_a_turn_without_a_caution_points_to_none() -> None:
    lines = write(make_person(), "belly-breath")
    assert "       ro-1 Ro: Belly breath" in lines
