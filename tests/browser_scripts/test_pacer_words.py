"""What the pacer says: sides when they change, rests by their side, numbers as a coach counts."""

from typing import Any

import pytest

from tests.browser_scripts.node import run_script

SCRIPTS = ("words.js", "schedule.js", "session.js", "pacer_words.js")
SAY = {
    "in": "In",
    "hold": "Hold",
    "out": "Out",
    "pause": "Pause",
    "lead": "Ready",
    "rest": "Rest",
    "end": "Done",
    "own": "Free",
    "set": "Set {number} of {count}",
    "breath": "breath {number} of {count}",
    "with_where": "{word}. {where}",
    "with_side": "{word}, {side}",
    "side1": "first side",
    "side2": "second side",
    "paused": "Paused",
    "next_side1": "First again",
    "next_side2": "Change",
}
EACH = {"tempo": [4, 1, 4, 1], "sets": 1, "breaths": 2, "rest": 90, "sides": "each", "minutes": 0}


def listen(drill: dict[str, Any], code: str, say: dict[str, str] = SAY) -> Any:
    """Return what the code makes of a session that begins at 0 and the words for it."""
    start = (
        "const t = globalThis.tempoleaf; const s = t.makeSession(given.drill);"
        "const w = t.makeWords(given.say, given.drill.sides); s.start(-5000);"
        "const tell = (now) => [w.wordFor(s, s.at(now)), w.numberFor(s, s.at(now)),"
        "  w.spokenWords(s, s.at(now))];"
    )
    return run_script(SCRIPTS, f"{start} {code}", {"drill": drill, "say": say})


def test_a_drill_on_each_side_tells_the_side_with_the_set_and_in_the_rest() -> None:
    assert listen(EACH, "return [-3000, 0, 3999, 4000, 10000, 20000, 110000].map(tell);") == [
        ["Ready", "3", "Ready. Set 1 of 2 · first side"],
        ["In", "1", "In, first side"],
        ["In", "4", "In, first side"],
        ["Pause", "1", "Pause"],
        ["In", "1", "In"],
        ["Change", "1:30", "Change. Set 2 of 2 · second side"],
        ["In", "1", "In, second side"],
    ]


def test_one_more_set_goes_back_to_the_first_side() -> None:
    code = "s.again(200000); return [w.isRest(s, s.at(200000)), ...tell(200000)];"
    assert listen(EACH, code) == [
        *(True, "First again", "1:30", "First again. Set 1 of 2 · first side"),
    ]


def test_sides_that_take_turns_are_told_with_every_breath() -> None:
    drill = EACH | {"sides": "alternate"}
    assert listen(drill, "return [0, 10000].map((now) => tell(now)[2]);") == [
        *("In, first side", "In, second side"),
    ]


@pytest.mark.parametrize("minutes", [0, 5])
def test_at_ones_own_pace_a_number_is_shown_only_where_minutes_count(minutes: int) -> None:
    drill = EACH | {"tempo": [], "sides": "together", "minutes": minutes}
    word, number, _ = listen(drill, "return tell(1000);")
    assert (word, number) == ("Free", "4:59" if minutes else "")


def test_a_pause_says_so() -> None:
    assert listen(EACH, "s.pause(2000); return tell(9000).slice(0, 2);") == ["Paused", ""]


def test_a_language_may_order_its_words_otherwise() -> None:
    say = SAY | {"breath": "von {count} Atemzügen: {number}", "with_side": "{side}: {word}"}
    code = "return [w.whereWords(s, s.at(0)), w.spokenWords(s, s.at(0))];"
    assert listen(EACH, code, say) == [
        *("Set 1 of 2 · von 2 Atemzügen: 1 · first side", "first side: In"),
    ]
