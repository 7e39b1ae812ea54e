"""What the doctor makes of a machine."""

import json
from datetime import date
from pathlib import Path

import pytest

from builder.machine.examination import as_json, as_text
from builder.machine.needs import (
    Need,
    Places,
    State,
    all_ready,
    browser_need,
    cache_need,
    examine,
    font_needs,
    is_font,
    package_needs,
    pango_need,
    python_need,
    subsetter_need,
    theme_need,
)

ROOT = Path(__file__).parent.parent.parent
NEEDS = ("python", "packages", "pango", "subsetter", "fonts", "cache", "chromium", "theme")


def test_a_machine_that_runs_the_tests_lacks_nothing(tmp_path: Path) -> None:
    places = Places(ROOT / "requirements.lock", ROOT / "site_templates" / "fonts", tmp_path)
    needs = examine(places, date(2026, 11, 25))
    assert {need.name for need in needs} == set(NEEDS)
    assert [need for need in needs if need.state is State.MISSING] == []


def test_python_3_10_is_missing_3_11() -> None:
    assert python_need((3, 10, 13)).state is State.MISSING
    assert python_need((3, 11, 0)).state is State.READY


# Source: WeasyPrint 70, First Steps, Installation: "Pango >= 1.44.0".
@pytest.mark.parametrize(
    ("version", "state"),
    [
        (None, State.MISSING),
        ((1, 43, 9), State.MISSING),
        ((1, 44, 0), State.READY),
        ((1, 50, 12), State.READY),
    ],
)
def test_pango_from_1_44_will_do(version: tuple[int, int, int] | None, state: State) -> None:
    need = pango_need(version)
    assert need.state is state
    assert bool(need.cure) is (state is State.MISSING)


def test_the_subsetter_is_needed() -> None:
    assert subsetter_need(present=True).state is State.READY
    assert subsetter_need(present=False).state is State.MISSING


def test_a_browser_is_only_advised() -> None:
    need = browser_need(None)
    assert need.state is State.ADVICE
    assert need.cure
    assert browser_need("/usr/bin/chromium").state is State.READY


def test_another_version_than_the_locked_one_is_told_with_both(tmp_path: Path) -> None:
    lock = tmp_path / "requirements.lock"
    lock.write_text("pytest==0.1 \\\n    --hash=sha256:00\nno-such-thing==2\n", encoding="utf-8")
    wrong, absent = package_needs(lock)
    assert wrong.fact.startswith("pytest==0.1 is wanted, ")
    assert wrong.fact.endswith(" is installed")
    assert absent.fact == "no-such-thing==2 is wanted, not installed"
    assert {wrong.state, absent.state} == {State.MISSING}
    assert all("start.py" in need.cure for need in (wrong, absent))


# Sources: WOFF File Format 2.0 (W3C), 4.1: the signature is 0x774F4632;
# ISO/IEC 14496-22 (OpenType): 0x00010000 for TrueType outlines, 0x4F54544F for CFF.
@pytest.mark.parametrize("start", ["774F4632", "00010000", "4F54544F"])
def test_a_font_is_known_by_its_first_bytes(tmp_path: Path, start: str) -> None:
    font = tmp_path / "letters.woff2"
    font.write_bytes(bytes.fromhex(start) + b"rest")
    assert is_font(font)
    assert [need.state for need in font_needs(tmp_path)] == [State.READY]


@pytest.mark.parametrize("content", [b"", b"<html>", b"wOF"])
def test_a_file_that_is_no_font_is_named(tmp_path: Path, content: bytes) -> None:
    (tmp_path / "letters.woff2").write_bytes(content)
    (need,) = font_needs(tmp_path)
    assert need.state is State.MISSING
    assert "letters.woff2" in need.fact


def test_a_folder_without_fonts_is_told(tmp_path: Path) -> None:
    (need,) = font_needs(tmp_path / "absent")
    assert need.state is State.MISSING
    assert "no font" in need.fact


def test_trying_the_cache_leaves_nothing_behind(tmp_path: Path) -> None:
    assert cache_need(tmp_path / "deep" / ".cache").state is State.READY
    assert list(tmp_path.iterdir()) == []


def test_a_cache_that_cannot_be_made_is_told_with_the_reason(tmp_path: Path) -> None:
    file = tmp_path / "file"
    file.write_text("in the way", encoding="utf-8")
    need = cache_need(file / ".cache")
    assert need.state is State.MISSING
    assert "not a directory" in need.fact
    assert str(file) in need.cure


def test_the_theme_ends_after_its_last_day() -> None:
    last, after = theme_need(date(2027, 5, 5)), theme_need(date(2027, 5, 6))
    assert (last.state, after.state) == (State.READY, State.ADVICE)
    assert "2027-05-05" in last.fact
    assert after.cure


def test_advice_alone_is_no_failure() -> None:
    assert all_ready((Need("a", State.READY, "here"), Need("b", State.ADVICE, "not here")))
    assert not all_ready((Need("a", State.READY, "here"), Need("b", State.MISSING, "not here")))


def test_text_and_json_tell_the_same() -> None:
    needs = (Need("pango", State.MISSING, "not there", "get it"), Need("cache", State.READY, "ok"))
    text, told = as_text(needs), json.loads(as_json(needs))
    assert told["ready"] is False
    for need in told["needs"]:
        assert need["name"] in text
        assert need["fact"] in text
        assert need["cure"] in text
    assert "cure: get it" in text
    assert text.endswith("Something is missing.")
