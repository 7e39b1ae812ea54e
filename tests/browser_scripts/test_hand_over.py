"""My practice as addresses for another phone: nothing lost, nothing twice, nothing odd."""

from datetime import date, timedelta
from typing import Any, cast

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.browser_scripts.node import run_script

SCRIPTS = ("practice_data.js", "hand_over.js")
PAGE = "https://studio.example/course/my-practice/"
MOST, MOST_ALONE = 500, 850
HAND_OVER = f"""
const t = globalThis.tempoleaf;
const data = t.clean(given);
const made = t.listHandOvers(data, "{PAGE}", true);
const twice = [...made.addresses, ...made.addresses].reverse();
const read = (address) => t.readHandOver(new URL(address).hash).data;
const back = twice.reduce((all, one) => t.merge(all, read(one)), t.clean({{}}));
return {{ ...made, sent: data, back }};
"""


def hand_over(data: object) -> dict[str, Any]:
    return cast(dict[str, Any], run_script(SCRIPTS, HAND_OVER, data))


def in_order(log: list[dict[str, str]]) -> list[list[str]]:
    return sorted([row["lesson"], row["on"], row["outcome"]] for row in log)


def practised(days: int) -> list[dict[str, str]]:
    first = date(2026, 1, 1)
    return [
        {"lesson": lesson, "on": str(first + timedelta(days)), "outcome": outcome}
        for days in range(days)
        for lesson, outcome in (("hand-on-belly", "ready"), ("short-box", "again"))
    ]


lessons = st.from_regex(r"[a-z][a-z0-9]{0,8}(-[a-z0-9]{1,6}){0,2}", fullmatch=True)
rows = st.builds(
    lambda lesson, on, outcome: {"lesson": lesson, "on": on.isoformat(), "outcome": outcome},
    lessons,
    st.dates(),
    st.sampled_from(["ready", "again", "easier"]),
)
practices = st.fixed_dictionaries(
    {
        "log": st.lists(rows, max_size=60),
        "ticks": st.dictionaries(
            lessons, st.lists(st.sampled_from("01234"), unique=True, min_size=1), max_size=5
        ),
        "notes": st.dictionaries(lessons, st.text(min_size=1, max_size=30), max_size=5),
    }
)


@settings(max_examples=60, deadline=None)
@given(data=practices)
def test_all_of_it_arrives_once_in_any_order(data: dict[str, Any]) -> None:
    found = hand_over(data)
    assert found["left"] == []
    assert in_order(found["back"]["log"]) == in_order(found["sent"]["log"])
    assert found["back"]["ticks"] == found["sent"]["ticks"]
    assert found["back"]["notes"] == found["sent"]["notes"]
    lengths = [len(address) for address in found["addresses"]]
    assert all(length <= MOST for length in lengths)


def test_a_year_of_practice_fits_a_handful_of_codes() -> None:
    found = hand_over({"log": practised(365)})
    assert len(found["addresses"]) <= 5
    assert len(found["back"]["log"]) == 730


def test_the_same_practice_twice_on_a_day_is_two_practices() -> None:
    log = practised(200) * 2
    assert in_order(hand_over({"log": log})["back"]["log"]) == in_order(log)


def test_a_note_that_is_too_long_is_named_and_the_rest_goes() -> None:
    found = hand_over({"notes": {"short-box": "long " * 300, "hand-on-belly": "Calm."}})
    assert found["left"] == ["short-box"]
    assert found["back"]["notes"] == {"hand-on-belly": "Calm."}


def test_a_note_in_another_script_goes_alone() -> None:
    note = "Слева тише, чем справа. Вечером легче дышать, чем утром. " * 2
    found = hand_over({"log": practised(30), "notes": {"short-box": note.strip()}})
    assert found["back"]["notes"] == {"short-box": note.strip()}
    assert MOST < len(found["addresses"][-1]) <= MOST_ALONE


def test_notes_stay_here_unless_they_are_wanted() -> None:
    code = f'return globalThis.tempoleaf.listHandOvers(given, "{PAGE}", false).addresses;'
    given_ = {"version": 1, "log": practised(1), "ticks": {}, "options": {}}
    (address,) = cast(
        list[str], run_script(SCRIPTS, code, {**given_, "notes": {"short-box": "My secret"}})
    )
    assert "secret" not in address


def test_odd_addresses_give_nothing_or_sound_data() -> None:
    odd = [
        "",
        "#practise",
        "#take=1",
        "#take=x.y",
        "#take=1.1&log.a=" + "zzzzzzR" * 3,
        "#take=1.1&log.__proto__=1R&ticks.constructor=0&note.<b>=x&log.Box=1R",
        "#take=1.1&log.box=%F0%28&sound=on",
        "#take=1.1&" + "x" * 900,
    ]
    code = "return given.map((text) => globalThis.tempoleaf.readHandOver(text));"
    *nothing, late, names, junk, huge = cast(list[Any], run_script(SCRIPTS, code, odd))
    assert nothing == [None] * 4
    assert {row["on"] for row in late["data"]["log"]} == {"9999-12-31"}  # and add() leaves it out
    assert names["data"] == {
        "version": 1,
        "ticks": {"constructor": ["0"]},
        "log": [],
        "notes": {},
        "options": {},
    }
    assert junk["data"]["log"] == []
    assert huge is None
