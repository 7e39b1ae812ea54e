"""The ledger of releases as text: what `tempoleaf release` adds to it."""

import json
from collections.abc import Iterable

from builder.course.release import Release

HEAD = """\
# Kept by `tempoleaf release`: one line for each version of a card, oldest first. Pages tell whoever
# scans an old card what changed since. Never change or take out a line.
releases:
"""


def write_releases(releases: Iterable[Release]) -> str:
    """Return one line for each release."""
    return "".join(
        f'  - {{lesson: {each.lesson}, card: {each.audience}, code: "{each.code}", '
        f"on: {each.on.isoformat()}, why: {json.dumps(each.why, ensure_ascii=False)}}}\n"
        for each in releases
    )
