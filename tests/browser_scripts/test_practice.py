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
    return run_script(("practice.js",), STORAGE + code, {"kept": {}, **given})


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
