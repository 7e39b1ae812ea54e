"""The words in which the needs of a machine are told: for people, and for programs."""

import dataclasses
import json
from collections.abc import Sequence

from builder.machine.needs import Need, all_ready


def as_text(needs: Sequence[Need]) -> str:
    """Write a line for each need, and one more for its cure."""
    lines = []
    for need in needs:
        lines.append(f"{need.state:<8} {need.name:<10} {need.fact}")
        if need.cure:
            lines.append(f"{'':<19} cure: {need.cure}")
    lines.append("All that a build needs is here." if all_ready(needs) else "Something is missing.")
    return "\n".join(lines)


def as_json(needs: Sequence[Need]) -> str:
    """Write the needs as one JSON object."""
    listed = [dataclasses.asdict(need) for need in needs]
    return json.dumps({"ready": all_ready(needs), "needs": listed}, indent=2)
