"""Practice: what a device keeps is read back, and nothing else gets in."""

from typing import Any

import pytest

from tests.browser_scripts.node import run_script

STORAGE = """
const kept = { ...given.kept };
const storage = {
  getItem: (key) => (key in kept ? kept[key] : null),
  setItem(key, text) { if (given.full) { throw new Error("full"); } kept[key] = text; },
  removeItem: (key) => { delete kept[key]; },
};
const practice = globalThis.tempoleaf.makePractice(given.none ? null : storage, "/course/");
"""
KEY = "tempoleaf.practice.1:/course/"
EMPTY = {"version": 1, "ticks": {}, "log": [], "notes": {}, "options": {}}


def use(code: str, **given: Any) -> Any:
    return run_script(("practice_data.js", "practice.js"), STORAGE + code, {"kept": {}, **given})


def test_what_was_done_is_kept_under_one_key() -> None:
    code = """
    const done = practice.record("box", "ready", new Date(2026, 10, 5, 23, 59));
    return [done, Object.keys(kept), practice.read().log];
    """
    done, keys, log = use(code)
    assert (done, keys) == (True, [KEY])
    assert log == [{"lesson": "box", "on": "2026-11-05", "outcome": "ready"}]


def test_ticks_of_the_first_version_are_taken_over() -> None:
    old = {"tempoleaf.ticks.1:/course/": '{"box": ["0"]}'}
    code = """
    const before = practice.read().ticks;
    practice.change((data) => { data.options.sound = false; });
    return [before, practice.read().ticks, Object.keys(kept)];
    """
    assert use(code, kept=old) == [{"box": ["0"]}, {"box": ["0"]}, [KEY]]


@pytest.mark.parametrize(
    "text", ["", "{", "null", "[]", '"text"', '{"log": 3, "ticks": [], "notes": {"a": 1}}']
)
def test_what_is_not_ours_is_no_harm(text: str) -> None:
    assert use("return practice.read();", kept={KEY: text}) == EMPTY


def test_rows_that_are_no_rows_are_left_out() -> None:
    rows = '{"log": [{"lesson": "a", "on": "2026-11-05", "outcome": "ready", "name": "x"}, '
    rows += '{"lesson": "a", "on": "today", "outcome": "ready"}, {"lesson": "a"}, null, 3]}'
    assert use("return practice.read().log;", kept={KEY: rows}) == [
        {"lesson": "a", "on": "2026-11-05", "outcome": "ready"}
    ]


@pytest.mark.parametrize("trouble", [{"full": True}, {"none": True}])
def test_without_storage_things_last_until_the_page_is_left(trouble: dict[str, bool]) -> None:
    code = """
    const done = practice.record("box", "again", new Date(2026, 10, 5));
    return [done, practice.read().log.length];
    """
    assert use(code, **trouble) == [False, 1]


def work(code: str, **given: Any) -> Any:
    return run_script(
        ("practice_data.js", "practice.js"), f"const t = globalThis.tempoleaf; {code}", given
    )


def _log(*outcomes: str) -> dict[str, Any]:
    rows = [{"lesson": "box", "on": "2026-11-05", "outcome": outcome} for outcome in outcomes]
    return EMPTY | {"log": rows}


@pytest.mark.parametrize(
    ("data", "ready"),
    [
        (EMPTY, False),
        (_log("ready"), False),
        (_log("ready", "ready"), True),
        (_log("ready", "ready", "again"), False),
        (_log("easier", "ready", "ready"), True),
        (EMPTY | {"ticks": {"box": ["0", "1"]}}, True),
        (EMPTY | {"ticks": {"box": ["0", "0"]}}, False),
    ],
)
def test_ready_is_all_ticks_or_ready_twice_in_a_row(data: dict[str, Any], *, ready: bool) -> None:
    assert work('return t.isReady(given.data, "box", 2);', data=data) is ready


def test_what_may_come_next_has_all_before_it_ready() -> None:
    lessons = [
        {"id": "one", "before": [], "boxes": 1},
        {"id": "two", "before": ["one"], "boxes": 1},
        {"id": "three", "before": ["one", "two"], "boxes": 1},
        {"id": "other", "before": [], "boxes": 1},
    ]
    code = "return t.listNext(given.data, given.lessons);"
    assert work(code, data=EMPTY | {"ticks": {"one": ["0"]}}, lessons=lessons) == ["two"]
    both = EMPTY | {"ticks": {"one": ["0"], "two": ["0"]}}
    assert work(code, data=both, lessons=lessons) == ["three"]
    assert work(code, data=EMPTY, lessons=lessons) == []


def test_former_names_are_followed_and_nothing_is_lost() -> None:
    data = {
        **_log("ready"),
        "ticks": {"box": ["0"], "even": ["1"]},
        "notes": {"box": "slow", "square": "kept"},
    }
    renamed = work("return t.rename(given.data, {box: 'square'});", data=data)
    assert renamed["ticks"] == {"even": ["1"], "square": ["0"]}
    assert renamed["notes"] == {"square": "kept\nslow"}
    assert renamed["log"][0]["lesson"] == "square"


def test_what_stood_under_two_former_names_is_joined() -> None:
    data = EMPTY | {"ticks": {"a": ["0"], "b": ["1"]}, "notes": {"a": "one", "b": "two"}}
    renamed = work("return t.rename(given.data, {a: 'box', b: 'box'});", data=data)
    assert renamed["ticks"] == {"box": ["0", "1"]}
    assert renamed["notes"] == {"box": "one\ntwo"}


@pytest.mark.parametrize(
    ("own", "other", "joined"),
    [
        ("Calm.", "Calm. Longer out helps.", "Calm. Longer out helps."),
        ("Calm. Longer out helps.", "Calm.", "Calm. Longer out helps."),
        ("Left is shy.\n\nSlowly.", "Slowly.\nNew", "Left is shy.\n\nSlowly.\nNew"),
        ("", "New", "New"),
        ("Mine", "", "Mine"),
    ],
)
def test_a_note_that_was_written_on_stands_once(own: str, other: str, joined: str) -> None:
    assert work("return t.joinNotes(given.own, given.other);", own=own, other=other) == joined


def test_rows_of_another_never_push_out_ones_own() -> None:
    mine = EMPTY | {"log": [{"lesson": "mine", "on": "2026-01-01", "outcome": "ready"}] * 20}
    row = {"lesson": "theirs", "on": "2026-02-01", "outcome": "ready"}
    joined = work(
        "return t.merge(given.mine, given.other);", mine=mine, other={**EMPTY, "log": [row] * 6000}
    )
    lessons = [each["lesson"] for each in joined["log"]]
    assert (lessons.count("mine"), len(lessons)) == (20, 5000)


def test_of_two_answers_of_a_day_from_two_devices_the_more_careful_counts_last() -> None:
    code = "return t.isReady(t.merge(given.mine, given.other), 'box', 2);"
    assert work(code, mine=_log("easier"), other=_log("ready", "ready", "easier")) is False


def test_ticks_of_signs_that_are_gone_make_nobody_ready() -> None:
    code = "return t.isReady(t.clean(given.data), 'box', 2);"
    assert work(code, data=EMPTY | {"ticks": {"box": ["1", "2"]}}) is False
    assert work(code, data=EMPTY | {"ticks": {"box": ["", "zz"]}}) is False


def test_days_to_come_are_not_taken() -> None:
    row = {"lesson": "box", "on": "9999-12-31", "outcome": "ready"}
    code = "practice.add({version: 1, log: [given.row]}); return practice.read().log;"
    assert use(code, row=row) == []


def test_two_devices_are_put_together_and_the_same_file_adds_nothing_twice() -> None:
    mine = _log("ready", "ready") | {"ticks": {"box": ["0"]}, "notes": {"box": "mine"}}
    other = _log("ready", "again") | {"ticks": {"box": ["1"]}, "notes": {"box": "theirs"}}
    code = "const once = t.merge(given.a, given.b); return [once, t.merge(once, given.b)];"
    once, twice = work(code, a=mine, b=other)
    assert once == twice
    assert [row["outcome"] for row in once["log"]] == ["ready", "ready", "again"]
    assert once["ticks"] == {"box": ["0", "1"]}
    assert once["notes"] == {"box": "mine\ntheirs"}


@pytest.mark.parametrize("name", ["__proto__", "constructor", "toString", "hasOwnProperty"])
def test_names_that_objects_have_anyway_do_no_harm(name: str) -> None:
    odd = '{"ticks": {"NAME": ["0"]}, "notes": {"NAME": "x"}, "version": 1, "log": '
    odd += '[{"lesson": "NAME", "on": "2026-11-05", "outcome": "ready"}]}'
    code = """
    const joined = t.merge(t.clean({}), t.clean(JSON.parse(given.text)));
    t.rename(joined, {box: "square"});
    return [joined, t.isReady(joined, given.name, 0), t.listNext(joined, [])];
    """
    joined, ready, following = work(code, text=odd.replace("NAME", name), name=name)
    assert (ready, following) == (False, [])
    assert set(joined["ticks"]) <= {"constructor"}  # the only one that could be a lesson's id


@pytest.mark.parametrize("on", [["2026-11-20"], "9999-99-99", "2026-02-30", 20261120, None])
def test_a_day_that_is_none_is_left_out(on: object) -> None:
    code = "return globalThis.tempoleaf.clean({log: [given.row]}).log;"
    assert work(code, row={"lesson": "box", "on": on, "outcome": "ready"}) == []


def test_what_was_erased_elsewhere_does_not_come_back() -> None:
    code = """
    practice.record("box", "ready", new Date(2026, 10, 5));
    for (const name of Object.keys(kept)) { delete kept[name]; }
    practice.change((data) => { data.options.sound = false; });
    return practice.read();
    """
    assert use(code) == EMPTY | {"options": {"sound": False}}


def test_answers_last_in_the_page_when_a_device_with_older_data_is_full() -> None:
    code = """
    practice.record("box", "ready", new Date(2026, 10, 5));
    practice.record("box", "again", new Date(2026, 10, 6));
    return practice.read().log.map((row) => row.outcome);
    """
    old = {KEY: '{"version": 1, "log": []}'}
    assert use(code, kept=old, full=True) == ["ready", "again"]


def test_erasing_leaves_nothing() -> None:
    code = """
    practice.record("box", "ready", new Date(2026, 10, 5));
    practice.erase();
    return [practice.read(), kept];
    """
    assert use(code) == [EMPTY, {}]
