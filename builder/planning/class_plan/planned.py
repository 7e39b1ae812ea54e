"""Planned: a class from its order and the records to a plan that explains itself."""

from collections.abc import Iterable
from dataclasses import dataclass

from builder.course.course import Course
from builder.planning.class_plan.changes import Change, find_smallest_change
from builder.planning.class_plan.explain import Reason, explain_plan
from builder.planning.class_plan.guests import Guest, find_guest
from builder.planning.class_plan.options import Options
from builder.planning.class_plan.problem import ClassProblem
from builder.planning.class_plan.refusal import Refusal
from builder.planning.class_plan.replan import replan
from builder.planning.class_plan.score import Fault, Score, score_plan
from builder.planning.class_plan.search import find_plan
from builder.planning.class_plan.wishes import Wish, find_wishes
from builder.records.class_order import ClassOrder
from builder.records.plan import ClassPlan
from builder.records.program import Program


@dataclass(frozen=True)
class PlannedClass:
    """A plan with all that is to be told of it."""

    order: ClassOrder
    guests: dict[str, Guest]
    problem: ClassProblem
    plan: ClassPlan
    score: Score
    bound: int | None = None
    """No plan is worth more points; None where nothing was searched for."""
    reasons: tuple[Reason, ...] = ()
    wishes: tuple[Wish, ...] = ()
    refusals: tuple[Refusal, ...] = ()
    """Why somebody may not do a lesson that a plan edited by hand gives them."""

    @property
    def is_proven(self) -> bool:
        """Tell whether no plan is better."""
        return self.bound is not None and self.score.points >= self.bound


@dataclass(frozen=True)
class ImpossibleClass:
    """A class for which there is no plan."""

    order: ClassOrder
    guests: dict[str, Guest]
    change: Change | None
    """The smallest change that would allow one; None where none of those looked at does."""
    idle: tuple[str, ...]
    """People who may do nothing at all today."""


class Planner:
    """Plans one class; what it needs of everybody is gathered once."""

    def __init__(self, course: Course, program: Program, order: ClassOrder) -> None:
        """Take the people of the order; KeyError for somebody who isn't in the program."""
        self.course, self.order = course, order
        self.guests = {
            person: find_guest(course, program, person, order.day) for person in order.people
        }
        self.options = Options(course, order, tuple(self.guests.values()))
        self.problem = self.options.pose()

    def plan(self) -> PlannedClass | ImpossibleClass:
        """Return the best plan, or why there is none."""
        found = find_plan(self.problem)
        if found is None:
            return self._give_up()
        return self._tell(found.plan, found.score, found.bound)

    def replan(self, before: ClassPlan) -> PlannedClass | None:
        """Return the best plan with the blocks of an earlier one; None where they don't hold."""
        found = replan(self.problem, before)
        return self._tell(found.plan, found.score, found.bound) if found else None

    def check(self, plan: ClassPlan) -> PlannedClass:
        """Weigh a plan that was edited by hand."""
        score = score_plan(self.problem, plan)
        refused = [
            self.options.find_refusal(breach.person_id, breach.lesson_id)
            for breach in score.breaches
            if breach.fault is Fault.NOT_ALLOWED and breach.person_id in self.guests
        ]
        refusals = tuple(refusal for refusal in refused if refusal)
        return PlannedClass(self.order, self.guests, self.problem, plan, score, refusals=refusals)

    def _tell(self, plan: ClassPlan, score: Score, bound: int) -> PlannedClass:
        refusals = self.options.list_refusals()
        reasons = explain_plan(self.problem, plan, refusals, self.options.suppose)
        wishes = find_wishes(self.problem, plan, self._list_strands())
        return PlannedClass(
            self.order, self.guests, self.problem, plan, score, bound, reasons, wishes
        )

    def _list_strands(self) -> Iterable[str]:
        asked = self.options.strands
        return (strand for strand in self.course.vocabulary.strands if strand in asked)

    def _give_up(self) -> ImpossibleClass:
        idle = tuple(who for who in self.problem.people if not self.problem.versions[who])
        change = find_smallest_change(self.problem)
        return ImpossibleClass(self.order, self.guests, change, idle)
