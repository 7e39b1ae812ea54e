"""The class screen's own data: taps, stopwatches, rows, and where the class stands at a time."""

import csv
import json
from io import StringIO
from typing import Any

import pytest

from builder.records.columns import EXPORT, KEPT_ASIDE, list_names
from tests.browser_scripts.node import run_script

OWN = "../class_screen/"
SCRIPTS = (
    *("words.js", "schedule.js", "session.js", "hold.js"),
    *(f"{OWN}class_run.js", f"{OWN}class_state.js", f"{OWN}class_fit.js", f"{OWN}class_rows.js"),
)
COUNTED = {"tempo": [4, 1, 4, 1], "sets": 2, "breaths": 3, "rest": 30, "sides": "together"}
BLOCKS = [
    {"drill": COUNTED | {"minutes": 0}, "rest": 60},
    {"drill": COUNTED | {"tempo": [], "breaths": 0, "minutes": 2}, "rest": 0},
]
SCREEN = {
    "day": "2026-11-24",
    "people": ["C5", "C6"],
    "plan": "new",
    "names": {"C5": "f", "C6": "n"},
    "turns": ["1/C5/even-count", "1/C5/comfortable-hold", "2/C5/even-count"],
    "others": [{"person": "C7", "name": "Yūto", "blocks": [["even-count"]]}],
    "blocks": BLOCKS,
}
T0 = 1_800_000_000_000
BLOCK_MS = 2 * 30_000 + 30_000
TAP = 't.tapOutcome(s, "1/C5/even-count", "ready", {breaths: "12", rest: "30", mark: "m1"});'


def follow(code: str, kept: object = None) -> Any:
    """Return what the code makes of a state."""
    start = (
        "const t = globalThis.tempoleaf; const s = t.cleanClass(given.kept);"
        "const { screen } = given; const { blocks } = screen;"
        "const rows = () => t.listRows(s, screen).map((row) => row.cells);"
        "const compare = () => t.compareRows(s, t.listRows(s, screen));"
        "const pressAt = (key, now) => t.pressWatch(s, key, { unit: 's', day: screen.day, now });"
    )
    return run_script(SCRIPTS, f"{start} {code}", {"kept": kept, "screen": SCREEN})


def test_a_tap_notes_an_outcome_with_what_the_plan_gives() -> None:
    assert follow(f"{TAP} return rows();") == [
        ["attendance", "m1", "2026-11-24", "C5", "even-count", "ready", "12", "30", *[""] * 5]
    ]


def test_the_same_tap_takes_it_back_and_a_later_one_keeps_the_mark() -> None:
    again = TAP.replace("ready", "again").replace('"m1"', '"m2"').replace('"12"', '"9"')
    gone, back = follow(f"{TAP}{TAP} const gone = rows(); {again} return [gone, rows()];")
    assert gone == []
    assert back[0][1:8] == ["m1", "2026-11-24", "C5", "even-count", "again", "12", "30"]


def test_who_leaves_keeps_the_rows_of_what_they_did() -> None:
    """Somebody who goes home after a block has done that block."""
    code = f'{TAP} s.out = ["C5"]; const out = rows(); s.out = []; return [out, rows()];'
    out, back = follow(code)
    assert len(out) == 1
    assert out == back


def test_who_came_as_well_gives_rows_of_the_chosen_lesson_alone() -> None:
    tap = TAP.replace("C5", "C7")
    code = (
        f'{tap} const before = rows().length; s.added = ["C7"]; s.chosen["1/C7"] = "even-count";'
        "const chosen = rows().length; s.added = []; const left = rows().length;"
        's.chosen["1/C7"] = ""; return [before, chosen, left, rows().length];'
    )
    assert follow(code) == [0, 1, 1, 0]


def test_rows_of_an_earlier_plan_of_the_class_are_not_lost() -> None:
    turns = {"9/C9/gone": {"outcome": "again", "breaths": "", "rest": "", "entry": "old"}}
    code = "const all = rows().length; s.leavesEarlier = true; return [all, rows().length];"
    assert follow(code, {"version": 1, "turns": turns}) == [1, 0]


def fit(kept: dict[str, object], now: int = T0) -> Any:
    """Return what the page makes of a state that it finds, and what it tells."""
    code = f"const told = t.fitClass(s, screen, {now}); return [told, s, rows().length];"
    return follow(code, {"version": 1, "plan": "new", **kept})


def test_another_plan_takes_over_what_was_noted_and_not_the_clock() -> None:
    marks = {"outcome": "ready", "breaths": "", "rest": "", "entry": "m"}
    told, state, rows = fit(
        {
            "plan": "old",
            "began": T0 - 9000,
            "run": {"kind": "block", "block": 1, "from": T0 - 9000, "held": None},
            "shown": 1,
            "chosen": {"2/C7": "even-count"},
            "watches": {"1/C5/comfortable-hold/breath-hold-seconds/": {"from": T0 - 1}},
            "turns": {"1/C5/even-count": marks, "2/C5/gone": marks, "1/C7/even-count": marks},
        }
    )
    assert told["isOther"]
    assert (state["run"]["kind"], state["shown"], state["watches"]) == ("wait", 0, {})
    assert state["chosen"] == {"1/C7": "even-count"}  # what was planned for them, and is done
    assert rows == 3


def test_another_class_of_the_same_name_shows_nothing_of_the_first_ones_people() -> None:
    marks = {"outcome": "ready", "breaths": "", "rest": "", "entry": "m"}
    kept = {"plan": "old", "names": {"C5": "other"}, "turns": {"1/C5/even-count": marks}}
    _, state, rows = fit({**kept, "began": T0, "out": ["C5", "C6"]})
    assert (rows, list(state["turns"]), state["out"]) == (0, ["0-1/C5/even-count"], ["C6"])
    assert state["names"] == {"C5": "f", "C6": "n"}


@pytest.mark.parametrize("held", [None, 3000])
def test_a_clock_that_was_set_back_starts_nothing_by_itself(held: int | None) -> None:
    hour = 3_600_000
    key = "1/C5/comfortable-hold/breath-hold-seconds/"
    told, state, _ = fit(
        {
            "began": T0 + hour,
            "run": {"kind": "block", "block": 1, "from": T0 + hour, "held": held},
            "watches": {key: {"from": None, "restEnds": T0 + hour}},
        }
    )
    assert told["isAhead"] == (held is None)
    assert state["run"]["held"] == (held or 0)
    assert state["began"] == T0
    assert state["watches"][key]["restEnds"] == T0 + 60_000


def test_times_move_with_a_clock_that_is_set() -> None:
    code = (
        f"let run = t.beginBlock(0, {T0}); s.run = run; s.began = {T0};"
        "t.shiftTimes(s, -3600000); return [s.run.from - run.from + 3600000, s.began];"
    )
    assert follow(code)[1] == T0 - 3_600_000


def test_headings_are_those_that_record_takes() -> None:
    text = follow("return t.writeRows([]);")
    wanted = list_names(EXPORT)[len(KEPT_ASIDE) :]
    assert sorted(next(csv.reader(StringIO(text)))) == sorted(wanted)


def test_cells_are_quoted_as_csv() -> None:
    """RFC 4180: a cell with a comma, a quote or a line break stands in quotes, its own doubled."""
    cells = ["a,b", 'say "go"', "one\ntwo", "plain"]
    text = follow(f"return t.writeRows([{{ cells: {json.dumps(cells)} }}]);")
    assert list(csv.reader(StringIO(text, newline="")))[1] == cells


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("12", "12"),
        (" 12,5 ", "12.5"),
        ("\u22123", "-3"),
        ("+4", "4"),
        ("250.5", None),
        ("-101", None),
        ("twelve", None),
        ("1e2", None),
        ("1.2.3", None),
        ("", None),
    ],
)
def test_numbers_are_read_as_people_type_them(typed: str, read: str | None) -> None:
    assert follow(f"return t.readNumber({json.dumps(typed)}, -100, 250);") == read


def test_a_hold_has_three_trials_with_rests_and_each_is_a_row() -> None:
    code = f"""
    const key = "1/C5/comfortable-hold/breath-hold-seconds/";
    const press = (seconds) => pressAt(key, {T0} + seconds * 1000);
    [0, 14.6, 30, 80, 95, 160, 171, 300].forEach(press);
    return [t.listTrials(s, key), t.readWatch(s, key, {T0} + 400000).kind, rows()];
    """
    trials, kind, rows = follow(code)
    assert trials == [14, 15, 11]  # the press at 30 s falls into the rest
    assert kind == "over"
    assert [row[8:12] for row in rows] == [
        ["breath-hold-seconds", "", value, "s"] for value in ("14", "15", "11")
    ]
    assert len({row[1] for row in rows}) == 3


def test_a_trial_that_is_taken_back_keeps_its_mark() -> None:
    code = f"""
    const key = "1/C5/comfortable-hold/breath-hold-seconds/";
    const press = (seconds) => pressAt(key, {T0} + seconds * 1000);
    [0, 14].forEach(press);
    const first = rows()[0];
    t.takeBackTrial(s, key);
    const none = rows();
    [20, 32].forEach(press);
    return [first, none, rows()[0]];
    """
    first, none, second = follow(code)
    assert none == []
    assert first[1] == second[1]
    assert (first[10], second[10]) == ("14", "12")


def test_a_stopwatch_runs_on_after_a_reload_but_what_nobody_saw_end_is_no_trial() -> None:
    key = "1/C5/comfortable-hold/breath-hold-seconds/"
    kept = {"version": 1, "watches": {key: {"from": T0, "restEnds": 0, "unit": "s"}}}
    code = f"""
    const soon = t.dropLateWatches(s, {T0} + 20000), at = t.readWatch(s, "{key}", {T0} + 20000);
    const late = t.dropLateWatches(s, {T0} + 90000);
    return [soon, at, late, t.listTrials(s, "{key}")];
    """
    assert follow(code, kept) == [False, {"kind": "running", "seconds": 20}, True, []]


def test_a_stopwatch_that_is_watched_ends_after_a_minute() -> None:
    key = "1/C5/comfortable-hold/breath-hold-seconds/"
    kept = {"version": 1, "watches": {key: {"from": T0, "restEnds": 0, "unit": "s"}}}
    code = f't.endWatches(s, "2026-11-24", {T0} + 60000); return rows().map((row) => row[10]);'
    assert follow(code, kept) == ["60"]


def test_marks_differ_and_bear_the_day() -> None:
    marks = follow("return Array.from({ length: 500 }, () => t.makeMark(screen.day));")
    assert len(set(marks)) == 500
    assert all(mark.startswith("2026-11-24-") and len(mark) < 100 for mark in marks)


def test_what_was_saved_is_told_apart_from_what_is_new_or_otherwise_now() -> None:
    code = (
        f"{TAP} const fresh = compare();"
        "t.listRows(s, screen).forEach((row) => { s.saved[row.entry] = row.cells.join(); });"
        "const same = compare();"
        f"{TAP.replace('ready', 'easier')} return [fresh, same, compare()];"
    )
    assert follow(code) == [
        {"fresh": 1, "changed": 0},
        {"fresh": 0, "changed": 0},
        {"fresh": 0, "changed": 1},
    ]


@pytest.mark.parametrize(
    "kept",
    [
        None,
        [],
        "text",
        {"version": 2, "began": 5},
        {"version": 1, "run": {"kind": "block", "block": 0, "from": "soon"}, "turns": [1]},
        {
            "version": 1,
            "turns": {"1/C5/a": {"outcome": "well", "entry": "m"}},
            "readings": {"x": 3},
        },
    ],
)
def test_whatever_is_found_becomes_sound(kept: object) -> None:
    state = follow("return s;", kept)
    assert state["run"]["kind"] == "wait"
    assert (state["began"], state["turns"], state["readings"]) == (None, {}, {})


# Where the class stands


def stand(code: str) -> Any:
    """Begin the first block at T0 and return what the code makes of it; at(s) is seconds after."""
    helper = (
        f"let run = t.beginBlock(0, {T0});"
        "const settle = (at) => { run = t.settleRun(run, blocks, at); return run; };"
        f"const at = (seconds) => {T0} + 5000 + seconds * 1000;"
        "const see = (seconds) => { const now = at(seconds);"
        " const { kind, block, left } = t.standRun(settle(now), blocks, now);"
        " return [kind, block, left]; };"
    )
    return follow(f"{helper} {code}")


def test_lead_in_block_rest_and_the_end_of_the_rest_follow_from_the_clock_alone() -> None:
    """Each time is looked at as if the device had slept until then."""
    assert stand("return [-5, 0, 89, 90, 149, 150, 9000].map(see);") == [
        ["block", 0, 5000],
        ["block", 0, BLOCK_MS],
        ["block", 0, 1000],
        ["rest", 0, 60_000],
        ["rest", 0, 1000],
        ["rested", 0, 0],
        ["rested", 0, 0],
    ]


def test_a_reload_changes_nothing() -> None:
    code = (
        "run = t.cleanClass(JSON.parse(JSON.stringify({ version: 1, run }))).run; return see(40);"
    )
    assert stand(code) == ["block", 0, 50_000]


def test_a_pause_lasts_and_goes_on_at_the_start_of_the_breath() -> None:
    code = """
    run = t.pauseRun(run, at(17));
    const held = see(5000);
    run = t.resumeRun(run, blocks, at(5000));
    const place = t.standRun(run, blocks, at(5000)).place;
    return [held, place.breath, place.cycleShare, see(5000)];
    """
    held, breath, share, after = stand(code)
    assert held == ["paused", 0, 73_000]
    assert (breath, share) == (2, 0)
    assert after == ["block", 0, 80_000]


def test_a_block_that_was_ended_too_soon_can_go_on() -> None:
    code = """
    run = t.endBlock(run, at(45));
    const rest = see(50);
    run = t.resumeRun(run, blocks, at(60));
    return [rest, see(60)];
    """
    assert stand(code) == [["rest", 0, 55_000], ["block", 0, 45_000]]


def test_minutes_at_ones_own_pace_run_down() -> None:
    code = f"run = t.beginBlock(1, {T0}); return [see(60), see(120)];"
    assert stand(code) == [["block", 1, 60_000], ["rested", 1, 0]]


# What the device keeps

STORE = """
const t = globalThis.tempoleaf;
const kept = new Map();
const storage = {
  getItem: (name) => kept.get(name) ?? null,
  setItem: (name, text) => { if (given.isFull) throw new Error("full"); kept.set(name, text); },
  removeItem: (name) => kept.delete(name),
};
const store = t.makeClassStore(given.hasNone ? null : storage, "k");
const state = { ...store.read(), began: 5 };
const isKept = store.write(state);
const read = store.read().began;
const other = t.makeClassStore(storage, "k").read().began;
store.erase();
return [isKept, read, other, store.read().began, kept.size];
"""


@pytest.mark.parametrize(
    ("device", "seen"),
    [
        ({}, [True, 5, 5, None, 0]),
        ({"isFull": True}, [False, 5, None, None, 0]),
        ({"hasNone": True}, [False, 5, None, None, 0]),
    ],
    ids=["a sound one", "a full one", "one without storage"],
)
def test_a_device_that_keeps_nothing_is_known_and_the_page_goes_on(
    device: dict[str, bool], seen: list[object]
) -> None:
    scripts = (*SCRIPTS, f"{OWN}class_store.js")
    assert run_script(scripts, STORE, device) == seen


def test_text_that_is_not_ours_is_left_aside() -> None:
    code = (
        "const storage = { getItem: () => '{broken' };"
        "return globalThis.tempoleaf.makeClassStore(storage, 'k').read().turns;"
    )
    assert run_script((*SCRIPTS, f"{OWN}class_store.js"), code, None) == {}
