"""Changes: the smallest one that would make possible what isn't."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field, replace

from builder.planning.class_plan.problem import ClassProblem
from builder.planning.class_plan.programme import Slack, write_slack_programme
from builder.planning.solver import Answer, Ending, solve

_HALF = 0.5
_MINUTE = 60
_MOST_SECONDS = 5.0
"""A hint is worth no longer wait."""


@dataclass(frozen=True, slots=True)
class Change:
    """What a class would need beyond what it has; nothing at all where it could be done as is."""

    minutes: int = 0
    """How much longer the class would be."""
    coaches: int = 0
    """How many more coaches."""
    news: int = 0
    """How many more new lessons for each person."""
    props: Mapping[str, int] = field(default_factory=dict)
    """How many more of a prop."""
    left_out: tuple[str, ...] = ()
    """Ids of the people who couldn't join."""
    is_smallest: bool = True
    """False where the search for a smaller one took too long."""

    @property
    def is_none(self) -> bool:
        """Tell whether nothing has to change."""
        return not (self.minutes or self.coaches or self.news or self.props or self.left_out)


def find_smallest_change(
    problem: ClassProblem, must: Collection[tuple[str, str]] = ()
) -> Change | None:
    """Return the smallest change under which there is a plan, and people work on what they must.

    ``must`` has pairs of a person and a strand in which they have work; nobody is left out for
    that. What counts as small is written in `builder.planning.class_plan.worth`. None where no
    such change helps.
    """
    written = write_slack_programme(problem, must)
    answer = solve(written.rows, _MOST_SECONDS)
    if answer.ending is Ending.IMPOSSIBLE or written.slack is None:
        return None
    return _read_change(written.slack, answer)


def _read_change(slack: Slack, answer: Answer) -> Change:
    def count(variable: int) -> int:
        return round(answer.values[variable])

    return Change(
        minutes=count(slack.minutes),
        coaches=count(slack.coaches),
        news=count(slack.news),
        props={prop: count(more) for prop, more in slack.props.items() if count(more)},
        left_out=tuple(who for who, out in slack.left_out.items() if answer.values[out] > _HALF),
        is_smallest=answer.ending is Ending.PROVEN,
    )


def apply_change(problem: ClassProblem, change: Change) -> ClassProblem:
    """Return the problem as it would be after a change."""
    people = tuple(person for person in problem.people if person not in change.left_out)
    return replace(
        problem,
        people=people,
        versions={person: problem.versions[person] for person in people},
        seconds=problem.seconds + _MINUTE * change.minutes,
        close_looks=problem.close_looks + change.coaches,
        most_new=problem.most_new + change.news,
        props={prop: count + change.props.get(prop, 0) for prop, count in problem.props.items()},
    )
