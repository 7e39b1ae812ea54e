"""What rows may name."""

import pytest

from builder.course.vocabulary import Measure
from builder.records.known import list_words


@pytest.mark.parametrize(
    ("unit", "words"),
    [
        ("chest, belly or both", ("chest", "belly", "both")),
        ("even, left first or right first", ("even", "left first", "right first")),
        ("yes or no", ("yes", "no")),
        ("pecho, abdomen o ambos", ("pecho", "abdomen", "ambos")),
        ("Brust, Bauch oder beide", ("Brust", "Bauch", "beide")),
        ("s", ()),
        ("breaths a minute", ()),
        ("", ()),
    ],
)
def test_a_unit_that_lists_words_gives_them(unit: str, words: tuple[str, ...]) -> None:
    assert list_words(Measure("m", "m", unit)) == words
