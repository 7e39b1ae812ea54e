"""A person's tempo ladder, for people and for programs."""

import json
from collections.abc import Iterator
from itertools import pairwise

from builder.course.tempo import format_seconds
from builder.report.sources import list_sources, write_sources
from builder.report.tempo_sums import CAUTION
from builder.sums.ladder import READY_IN_A_ROW, Ladder


def write_ladder(ladder: Ladder) -> str:
    """Write the rungs one a line, what holds the last one back, and the sources."""
    return "\n".join(_lines(ladder))


def write_ladder_json(ladder: Ladder) -> str:
    """Write the ladder for programs."""
    return json.dumps(
        {
            "target": str(ladder.target),
            "effort_met": ladder.effort_met,
            "bodies": [str(body) for body in ladder.bodies],
            "reaches_target": ladder.reaches_target,
            "rungs": [
                {"tempo": str(rung), "cycle_seconds": rung.cycle_seconds} for rung in ladder.rungs
            ],
            "ready_in_a_row": READY_IN_A_ROW,
            "held_back_by": [rule.title for rule in ladder.held_back_by],
            "caution": CAUTION,
            "sources": list_sources(ladder.citations),
        },
        ensure_ascii=False,
        indent=2,
    )


def _lines(ladder: Ladder) -> Iterator[str]:
    width = max(len(str(rung)) for rung in ladder.rungs)
    bodies = ", ".join(map(str, ladder.bodies))
    yield f"Ladder to {ladder.target} at {ladder.effort_met:g} MET, for {bodies}"
    yield ""
    steps = pairwise(rung.cycle_seconds for rung in ladder.rungs)
    growths = ["", *(f"{later / earlier - 1:+.0%}" for earlier, later in steps)]
    for number, (rung, growth) in enumerate(zip(ladder.rungs, growths, strict=True), start=1):
        seconds = format_seconds(rung.cycle_seconds)
        yield f"{number:>3}  {rung!s:<{width}}  {seconds:>5} s  {growth}".rstrip()
    yield ""
    yield f"Go on when a rung was ready {READY_IN_A_ROW} times in a row. Go back whenever you like."
    for rule in ladder.held_back_by:
        yield f"It ends before the target, by a rule of ours: {rule.title}."
    yield ""
    yield CAUTION
    yield ""
    yield from write_sources(ladder.citations)
