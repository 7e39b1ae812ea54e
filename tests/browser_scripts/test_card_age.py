"""What a page says to whoever scans a card: current, old, changed since, or not known."""

from typing import Any

import pytest

from tests.browser_scripts.node import run_script

FIRST = {"code": "11111", "on": "2026-10-02", "why": "First release."}
SECOND = {"code": "22222", "on": "2026-10-09", "why": "A breath less."}
THIRD = {"code": "33333", "on": "2026-11-01", "why": "A new caution."}
NOTES = {"code": "77777", "on": "2026-10-02", "why": "First release."}


@pytest.mark.parametrize(
    ("now", "code", "kind", "changes"),
    [
        ("33333", "33333", "current", []),
        ("33333", "22222", "old", [THIRD]),
        ("33333", "11111", "old", [SECOND, THIRD]),
        ("44444", "33333", "changed", []),
        ("44444", "44444", "current", []),
        ("33333", "55555", "unknown", []),
        ("33333", "77777", "current", []),
        # What was changed back is current again.
        ("11111", "11111", "current", []),
    ],
)
def test_a_card_is_judged_by_its_code(
    now: str, code: str, kind: str, changes: list[dict[str, str]]
) -> None:
    client = {"now": now, "releases": [FIRST, SECOND, THIRD]}
    coach = {"now": "77777", "releases": [NOTES]}
    given: dict[str, Any] = {"versions": [client, coach], "code": code}
    judged = run_script(
        ("card_age.js",),
        "return globalThis.tempoleaf.judgeCard(given.versions, given.code);",
        given,
    )
    assert judged == {"kind": kind, "changes": changes}
