"""QR codes: one path, and the modules that ISO/IEC 18004 asks for."""

import re

from builder.publishing.cards.qr import draw_qr

ADDRESS = "https://small.example/lessons/count/short-hold/"


def read_modules(svg: str) -> set[tuple[int, int]]:
    """Return the dark modules of a path of level strokes, as column and row."""
    (path,) = re.findall(r' d="([^"]+)"', svg)
    dark, x, y = set(), 0.0, 0.0
    for command, numbers in re.findall(r"([MmHh])([^MmHh]*)", path):
        values = [float(number) for number in re.findall(r"-?[\d.]+", numbers)]
        if command == "M":
            x, y = values
        elif command == "m":
            x, y = x + values[0], y + values[1]
        else:
            dark |= {(round(x) + step, int(y)) for step in range(round(values[0]))}
            x += values[0]
    return dark


def test_a_code_is_one_path_with_its_address_in_words() -> None:
    svg = draw_qr(ADDRESS, "QR code of <small>")
    assert svg.count("<path") == 1
    assert "<title>QR code of &lt;small&gt;</title>" in svg
    assert "<rect" not in svg


def test_a_code_has_the_finder_patterns_of_the_standard() -> None:
    # ISO/IEC 18004, finder pattern: 7 x 7 modules, dark edge, light ring, dark 3 x 3 core,
    # in three corners; 47 bytes at level M take version 4, which is 33 modules wide.
    dark = read_modules(draw_qr(ADDRESS, "code"))
    size = 33
    assert max(x for x, _ in dark) == max(y for _, y in dark) == size - 1
    for left, top in ((0, 0), (size - 7, 0), (0, size - 7)):
        for x in range(7):
            for y in range(7):
                ring = max(abs(x - 3), abs(y - 3))
                assert ((left + x, top + y) in dark) == (ring != 2)


def test_the_same_address_always_gives_the_same_code() -> None:
    assert draw_qr(ADDRESS, "code") == draw_qr(ADDRESS, "code")
