"""QR codes made in the browser, against ISO/IEC 18004 as two libraries know it."""

import random
import string
from typing import cast

import numpy as np
import pytest
import segno
import zxingcpp

from tests.browser_scripts.node import run_script

# ISO/IEC 18004:2015, table 7, level L, byte mode: what versions 1 to 20 hold at most.
CAPACITIES = [
    *(17, 32, 53, 78, 106, 134, 154, 192, 230, 271),
    *(321, 367, 425, 458, 520, 586, 644, 718, 792, 858),
]
SIGNS = string.ascii_letters + string.digits + "-._~%&=:/#"


def make_texts(lengths: list[int]) -> list[str]:
    generator = random.Random(18004)  # noqa: S311  # the same texts each time
    return ["".join(generator.choices(SIGNS, k=length)) for length in lengths]


def draw(texts: list[str], mask: int | None = None) -> list[list[list[bool]]]:
    code = "return given.texts.map((t) => globalThis.tempoleaf.makeQr(t, given.mask ?? undefined));"
    drawn = run_script(("qr.js",), code, {"texts": texts, "mask": mask})
    return cast(list[list[list[bool]]], drawn)


@pytest.mark.parametrize("mask", range(8))
def test_full_codes_are_those_of_another_maker(mask: int) -> None:
    texts = make_texts(CAPACITIES)
    for version, (text, ours) in enumerate(zip(texts, draw(texts, mask), strict=True), 1):
        theirs = segno.make(
            text, version=version, error="l", mode="byte", mask=mask, boost_error=False
        )
        assert ours == [[bool(cell) for cell in row] for row in theirs.matrix]


def test_a_reader_reads_what_was_written() -> None:
    texts = [*make_texts([1, 2, 18, 99, 300, 499, 700, 858]), "Ruhe, año, 静か"]
    for text, cells in zip(texts, draw(texts), strict=True):
        light = np.pad(~np.array(cells), 4, constant_values=True)
        picture = np.kron(light, np.ones((3, 3))).astype(np.uint8) * 255
        (found,) = zxingcpp.read_barcodes(picture)
        assert (found.text, found.ec_level) == (text, "L")


def test_a_text_takes_the_smallest_version_that_holds_it() -> None:
    sizes = [len(cells) for cells in draw(make_texts([17, 18, 858]))]
    assert sizes == [21, 25, 97]


def test_too_long_a_text_is_refused() -> None:
    code = "try { globalThis.tempoleaf.makeQr(given); } catch (error) { return error.message; }"
    refusal = run_script(("qr.js",), code, "x" * 859)
    assert refusal == "859 bytes are too many for a QR code of version 20"
