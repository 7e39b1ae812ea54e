"""The demand of every lesson in one table, with what rises over the lessons before."""

import json
from collections.abc import Iterator, Mapping
from dataclasses import asdict, dataclass

from builder.course.course import Course
from builder.course.demand import AXES, Demand, hardest

_LEGEND = (
    "0 asks least. + one more than the lessons it builds on, ! a jump of two or more. "
    "At most two may rise at once."
)


@dataclass(frozen=True, slots=True)
class DemandRow:
    """One lesson: what it asks, and by how much that rises."""

    lesson_id: str
    strand_id: str
    level: int
    demand: Demand
    rises: Mapping[str, int]
    """Axis to ranks, against the hardest of what the lesson builds on; empty for first lessons."""


def list_demands(course: Course) -> tuple[DemandRow, ...]:
    """Return one row a lesson, in the order of the course."""
    return tuple(_rows(course))


def write_demand_table(course: Course) -> str:
    """Write the table for people, strand by strand."""
    rows = list_demands(course)
    width = max((len(row.lesson_id) for row in rows), default=0) + 2
    lines = [f"{'level':<7}{'lesson':<{width}}{'  '.join(AXES)}"]
    strand_id = ""
    for row in rows:
        if row.strand_id != strand_id:
            strand_id = row.strand_id
            lines += ["", course.vocabulary.strands[strand_id].title]
        lines.append(_line(row, width))
    return "\n".join([*lines, "", _LEGEND])


def write_demand_json(course: Course) -> str:
    """Write the table for programs."""
    rows = [
        {
            "lesson": row.lesson_id,
            "strand": row.strand_id,
            "level": row.level,
            "demand": asdict(row.demand),
            "rises": dict(row.rises),
        }
        for row in list_demands(course)
    ]
    return json.dumps({"axes": list(AXES), "lessons": rows}, ensure_ascii=False, indent=2)


def _rows(course: Course) -> Iterator[DemandRow]:
    for lesson in course.lessons:
        demand = course.demands[lesson.id]
        before = [course.demands[name] for name in course.graph[lesson.id]]
        rises = demand.risen_over(hardest(before)) if before else {}
        yield DemandRow(lesson.id, lesson.strand.id, lesson.level, demand, rises)


def _line(row: DemandRow, width: int) -> str:
    cells = [
        f"{f'{rank}{_mark(row.rises.get(axis, 0))}':>{len(axis)}}"
        for axis, rank in zip(AXES, row.demand.ranks, strict=True)
    ]
    return f"{row.level:<7}{row.lesson_id:<{width}}{'  '.join(cells)}".rstrip()


def _mark(ranks: int) -> str:
    if ranks > 1:
        return "!"
    return "+" if ranks else " "
