"""Session: where a practice stands, whoever keeps the clock."""

from typing import Any

import pytest

from tests.browser_scripts.node import run_script

SCRIPTS = ("schedule.js", "session.js")
EVEN = {
    "tempo": [4, 1, 4, 1],
    "sets": 2,
    "breaths": 3,
    "rest": 30,
    "sides": "together",
    "minutes": 0,
}
OWN_PACE = EVEN | {"tempo": []}
LEAD = 5000


def follow(drill: dict[str, Any], code: str) -> Any:
    """Start a session at 1000 ms and return what the code makes of it."""
    start = "const s = tempoleaf.makeSession(given); s.start(1000);"
    return run_script(SCRIPTS, f"const tempoleaf = globalThis.tempoleaf; {start} {code}", drill)


def test_a_practice_goes_through_lead_in_sets_rest_and_end() -> None:
    times = [1000, 6000, 10_000, 11_000, 15_000, 36_000, 66_000, 96_000]
    places = follow(EVEN, f"return {times}.map((now) => s.at(now));")
    assert [(p["kind"], p["round"], p["breath"], p["step"]) for p in places] == [
        ("lead", 1, 0, ""),
        ("set", 1, 1, "in"),
        ("set", 1, 1, "pause"),
        ("set", 1, 1, "out"),
        ("set", 1, 1, "pause"),
        ("rest", 2, 0, ""),
        ("set", 2, 1, "in"),
        ("end", 2, 0, ""),
    ]
    assert places[0]["left"] == LEAD
    assert places[5]["left"] == 30_000


def test_the_breath_fills_and_empties() -> None:
    fills = follow(EVEN, "return [6000, 8000, 10000, 13000, 15500].map((n) => s.at(n).fill);")
    assert fills == pytest.approx([0, 0.5, 1, 0.5, 0])


def test_a_pause_goes_on_at_the_start_of_the_breath() -> None:
    code = (
        "s.pause(18000); const held = s.at(99000); s.resume(200000); return [held, s.at(200000)];"
    )
    held, after = follow(EVEN, code)
    assert (held["breath"], held["step"]) == (2, "in")
    assert (after["breath"], after["step"], after["left"]) == (2, "in", 4000)


def test_a_pause_in_a_rest_goes_on_in_the_rest() -> None:
    after = follow(EVEN, "s.pause(46000); s.resume(90000); return s.at(90000);")
    assert (after["kind"], after["left"]) == ("rest", 20_000)


def test_another_count_begins_with_the_next_breath() -> None:
    code = """
    s.wish([3, 1, 3, 1]);
    const early = s.take(8000, 250), last = s.at(15900), now = s.take(16100, 250);
    return [early, last, now, s.at(16100), s.at(19000), s.plan.cycleMs];
    """
    early, last, now, first, second, cycle = follow(EVEN, code)
    assert (early, now, cycle) == (False, True, 8000)
    assert (last["breath"], last["step"]) == (1, "pause")
    assert (first["breath"], first["step"], first["left"]) == (2, "in", 2900)
    assert (second["breath"], second["step"]) == (2, "pause")


def test_another_count_at_the_last_breath_begins_after_the_rest() -> None:
    code = """
    s.wish([3, 1, 3, 1]);
    const last = s.take(35900, 250), rest = s.take(40000, 250);
    return [last, rest, s.at(40000), s.at(66000)];
    """
    last, rest, resting, first = follow(EVEN, code)
    assert (last, rest) == (False, True)
    assert (resting["kind"], resting["left"]) == ("rest", 26_000)
    assert (first["round"], first["breath"], first["left"]) == (2, 1, 3000)


def test_at_ones_own_pace_a_set_lasts_until_the_person_ends_it() -> None:
    code = """
    const long = s.at(500000);
    s.skip(500000);
    const rest = s.at(500000), second = s.at(530000), still = s.at(900000);
    s.skip(900000);
    return [long, rest, second, still, s.at(900001)];
    """
    long, rest, second, still, end = follow(OWN_PACE, code)
    assert (long["kind"], long["round"]) == ("set", 1)
    assert (rest["kind"], rest["left"]) == ("rest", 30_000)
    assert (second["kind"], second["round"]) == ("set", 2)
    assert (still["kind"], still["round"]) == ("set", 2)
    assert end["kind"] == "end"


def test_a_rest_can_be_skipped() -> None:
    after = follow(EVEN, "s.skip(40000); return s.at(40000);")
    assert (after["kind"], after["round"], after["breath"]) == ("set", 2, 1)


def test_one_more_set_comes_after_a_rest_and_only_once() -> None:
    code = """
    const first = s.mayGoOn; s.again(100000);
    return [first, s.mayGoOn, s.at(100000), s.at(130000), s.at(160000)];
    """
    first, second, rest, begun, end = follow(EVEN, code)
    assert (first, second) == (True, False)
    assert (rest["kind"], begun["kind"], end["kind"]) == ("lead", "set", "end")


@pytest.mark.parametrize(("sides", "seen"), [("each", [1, 2]), ("alternate", [1, 2])])
def test_sides_are_told(sides: str, seen: list[int]) -> None:
    drill = EVEN | {"sides": sides, "sets": 1, "breaths": 2, "rest": 10}
    times = [6000, 36_000] if sides == "each" else [6000, 16_000]
    assert follow(drill, f"return {times}.map((now) => s.at(now).side);") == seen
