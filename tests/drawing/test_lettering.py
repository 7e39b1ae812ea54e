"""Lettering: widths as the shipped font has them, lines that fit."""

from pathlib import Path

import pytest
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st

from builder.drawing.lettering import measure_text, wrap_text
from builder.resources import find_templates

FONTS = find_templates() / "fonts"
FACES = ("Regular", "Semibold", "Bold", "It")
LATIN = [chr(code) for code in (*range(0x20, 0x7F), *range(0xC0, 0x180))]
SIGNS = "→←↑↓✓✗☐☑•–—’‘“”…×°½¼¾′″≤≥≈−·▲▶●○■□"


def read_widths(path: Path) -> dict[str, int]:
    with TTFont(path) as font:
        names, metrics = font.getBestCmap(), font["hmtx"]
        assert font["head"].unitsPerEm == 1000
        return {chr(code): metrics[name][0] for code, name in names.items()}


@pytest.mark.parametrize("sign", [*" aZ9.,-–—’“…×→▲✓½ßæŒøđłı", "é", "ō", "Ś"])
def test_widths_are_those_of_the_semibold_face(sign: str) -> None:
    widths = read_widths(FONTS / "SourceSans3-Semibold.ttf")
    assert measure_text(sign, 1000) == widths[sign]


def test_latin_letters_are_measured_within_a_tenth() -> None:
    widths = read_widths(FONTS / "SourceSans3-Semibold.ttf")
    rare = "ĲĳĿŀŉĸŊŋŦŧſ"
    wrong = [
        sign
        for sign in LATIN
        if sign not in rare and abs(measure_text(sign, 1000) - widths[sign]) > widths[sign] / 10
    ]
    assert wrong == []


def test_regular_words_are_no_wider_than_measured() -> None:
    widths = read_widths(FONTS / "SourceSans3-Regular.ttf")
    for words in ("half-kneeling rotation", "Ball squeeze", "level 12", "all-round breath"):
        assert sum(widths[sign] for sign in words) <= measure_text(words, 1000)


@pytest.mark.parametrize("face", FACES)
def test_every_face_has_the_letters_and_signs_that_pages_use(face: str) -> None:
    for ending in ("ttf", "woff2"):
        missing = set(LATIN + list(SIGNS)) - set(
            read_widths(FONTS / f"SourceSans3-{face}.{ending}")
        )
        assert not missing


def test_the_font_has_its_licence_beside_it() -> None:
    assert "SIL OPEN FONT LICENSE Version 1.1" in (FONTS / "LICENSE.md").read_text("utf-8")


@given(st.text(st.characters(categories=("L", "N", "P", "Zs"))), st.floats(2, 60))
def test_lines_fit_and_lose_nothing(text: str, width: float) -> None:
    lines = wrap_text(text, width, size=1)
    assert all(measure_text(line, 1) <= width or len(line) == 1 for line in lines)
    assert "".join("".join(lines).split()) == "".join(text.split())


@pytest.mark.parametrize(
    ("text", "lines"),
    [
        ("Belly breath", ("Belly breath",)),
        ("Side-lying rotation pulse", ("Side-lying", "rotation pulse")),
        ("Half-kneeling hip", ("Half-kneeling", "hip")),
        ("Zwerchfellatmungsübung", ("Zwerchfellatmu", "ngsübung")),
        ("", ("",)),
    ],
)
def test_lines_break_at_spaces_and_hyphens_first(text: str, lines: tuple[str, ...]) -> None:
    assert wrap_text(text, width=20, size=2.9) == lines
