"""Cards spoiled by chance, judged by us and by the dots that another program draws."""

import random
import shutil
import subprocess
from contextlib import suppress
from io import BytesIO
from itertools import pairwise
from pathlib import Path

import pikepdf
import pytest
from pikepdf import Dictionary, Name

from builder.publishing.cards.record import CardRecord
from builder.publishing.proof.finished.pdf_reading import PdfUnsoundError
from builder.publishing.proof.safety.pdf_fonts import find_foreign_fonts
from builder.publishing.proof.safety.sighting import Box
from tests.publishing.proof.safety.pdf_edits import (
    Change,
    add_resource,
    change,
    draw,
    find_box,
    insert,
    rectangle,
    sight,
)
from tests.trying import count_tries

_DOTS_PER_INCH = 216
_SLICES = 24
_CLEAR, _GONE = 7.0, 2.0
"""Contrasts at which nobody doubts whether a slice of words is seen. Ours."""


def choose_edit(chance: random.Random, box: Box) -> Change:
    """Return some drawings over and under words, and some other ways to set them."""
    left, bottom, width, height = (float(side) for side in rectangle(box).split()[:4])

    def choose_drawing(pdf: pikepdf.Pdf) -> None:
        name = f"/G{chance.randrange(10**6)}"
        alpha = chance.choice([0.05, 0.5, 0.97, 1])
        add_resource(pdf, "/ExtGState", name, Dictionary(ca=alpha, CA=alpha))
        x, y = left + chance.uniform(-30, width), bottom + chance.uniform(-15, height)
        size = f"{chance.uniform(1, 150):.1f} {chance.uniform(1, 30):.1f}"
        grey = chance.choice([0, 0.4, 0.9, 1])
        draw(f"{name} gs {grey} g {x:.1f} {y:.1f} {size} re f", under=chance.random() < 0.4)(pdf)

    def choose_ink(pdf: pikepdf.Pdf) -> None:
        grey = chance.choice([0, 0.1, 0.3, 0.7, 0.95])
        mode = chance.choice([0, 0, 0, 3])
        insert(box, f"{grey} g {mode} Tr", "0 g 0 Tr")(pdf)

    def choose_clip(pdf: pikepdf.Pdf) -> None:
        x = chance.uniform(-100, 450)
        insert(box, f"q {x:.1f} 0 400 900 re W n", "Q")(pdf)

    kinds = [choose_drawing, choose_drawing, choose_ink, choose_clip]
    chosen = chance.sample(kinds, chance.choice([1, 1, 2, 3]))

    def edit(pdf: pikepdf.Pdf) -> None:
        # What stands among the words comes first: what is drawn later moves them in the stream.
        for kind in sorted(chosen, key=lambda kind: kind is choose_drawing):
            kind(pdf)

    return edit


class Dots:
    """Greys of a card's page, as Poppler draws them."""

    def __init__(self, pdf: bytes, folder: Path) -> None:
        (folder / "card.pdf").write_bytes(pdf)
        command = ["pdftoppm", "-gray", "-r", str(_DOTS_PER_INCH), "card.pdf", "card"]
        subprocess.run(command, cwd=folder, check=True)
        (picture,) = folder.glob("card*.pgm")
        content = picture.read_bytes()
        header = content.split(maxsplit=4)
        self.width, height = int(header[1]), int(header[2])
        self.dots = content[-self.width * height :]

    def list_slices(self, box: Box) -> list[list[int]]:
        """Return the dots of a box in slices from left to right."""
        scale = _DOTS_PER_INCH / 25.4
        rows = range(int(box.top_mm * scale), int((box.top_mm + box.height_mm) * scale))
        edges = [
            int((box.left_mm + box.width_mm * at / _SLICES) * scale) for at in range(_SLICES + 1)
        ]
        return [
            [dot for row in rows for dot in self.dots[row * self.width + a : row * self.width + b]]
            for a, b in pairwise(edges)
        ]


def find_contrasts(clean: Dots, spoiled: Dots, box: Box) -> tuple[float, float]:
    """Return the least contrast of a slice's ink to its ground, by its worst dots and by all."""
    pairs = zip(clean.list_slices(box), spoiled.list_slices(box), strict=True)
    found = [contrasts for before, after in pairs if (contrasts := measure(before, after))]
    return min(worst for worst, _ in found), min(whole for _, whole in found)


def measure(before: list[int], after: list[int]) -> tuple[float, float] | None:
    ink = sorted(dot for was, dot in zip(before, after, strict=True) if was < 40)
    ground = sorted(dot for was, dot in zip(before, after, strict=True) if was > 250)
    if len(ink) < 10:
        return None
    worst = contrast(ink[-1], ground[0])
    if ink[0] > ground[0]:
        worst = contrast(ink[0], ground[-1])
    return worst, contrast(sum(ink) / len(ink), sum(ground) / len(ground))


def contrast(first: float, second: float) -> float:
    low, high = sorted((luminance(first), luminance(second)))
    return (high + 0.05) / (low + 0.05)


def luminance(grey: float) -> float:
    # WCAG 2.2, "relative luminance", for a grey.
    share = grey / 255
    return share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4


@pytest.mark.skipif(not shutil.which("pdftoppm"), reason="needs poppler's pdftoppm")
def test_what_chance_spoils_is_judged_as_another_program_draws_it(
    hold_card: CardRecord, tmp_path: Path
) -> None:
    box = find_box(hold_card.pdf)
    clean = Dots(hold_card.pdf, tmp_path)
    judged = {True: 0, False: 0}
    for seed in range(count_tries(20, 2000)):
        pdf = change(hold_card.pdf, choose_edit(random.Random(seed), box))  # noqa: S311  # no secret
        worst, whole = find_contrasts(clean, Dots(pdf, tmp_path), box)
        if worst >= _CLEAR or whole <= _GONE:
            is_seen = sight(pdf).lack is None
            assert is_seen == (worst >= _CLEAR), f"seed {seed}: {worst:.2f}, {whole:.2f}"
            judged[is_seen] += 1
    assert min(judged.values()) >= 3


def spoil_bytes(chance: random.Random, pdf: bytes) -> bytes:
    """Change some bytes, numbers or names of a file, or leave some out."""
    content = bytearray(pdf)
    for _ in range(chance.choice([1, 5, 30])):
        at = chance.randrange(len(content))
        name = max(0, content.find(b"/", at))
        content[:] = chance.choice(
            [
                content[:at] + bytes([chance.randrange(256)]) + content[at + 1 :],
                content[:at] + content[at + chance.randrange(1, 50) :],
                content[:at] + chance.choice([b"-9", b"1e9", b" null "]) + content[at + 1 :],
                content[: name + 1] + b"Xx" + content[name + 3 :],
            ]
        )
    return bytes(content)


def test_a_damaged_file_is_read_or_called_unsound(hold_card: CardRecord) -> None:
    loose = BytesIO()
    with pikepdf.open(BytesIO(hold_card.pdf)) as opened:
        level = pikepdf.StreamDecodeLevel.generalized
        opened.save(loose, compress_streams=False, stream_decode_level=level)
    read = 0
    for seed in range(count_tries(40, 5000)):
        pdf = spoil_bytes(random.Random(seed), loose.getvalue())  # noqa: S311  # no secret
        for look in (sight, find_foreign_fonts):
            with suppress(PdfUnsoundError):
                look(pdf)
                read += 1
    assert read > 0


def test_a_form_without_a_size_is_read(hold_card: CardRecord) -> None:
    def edit(pdf: pikepdf.Pdf) -> None:
        add_resource(pdf, "/XObject", "/Odd", pdf.make_stream(b"", Subtype=Name.Form))

    assert sight(change(hold_card.pdf, edit)).lack is None
