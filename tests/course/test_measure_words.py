"""Measures that are read in words."""

import pytest

from builder.course.measure_words import list_words
from builder.course.vocabulary import Measure


@pytest.mark.parametrize(
    ("unit", "words"),
    [
        ("chest, belly or both", ("chest", "belly", "both")),
        ("even, left first or right first", ("even", "left first", "right first")),
        ("pecho, vientre o ambos", ("pecho", "vientre", "ambos")),
        ("Brust, Bauch oder beide", ("Brust", "Bauch", "beide")),
        ("yes or no", ("yes", "no")),
        ("floor, door", ("floor", "door")),
        ("cm", ()),
        ("breaths", ()),
        ("", ()),
    ],
)
def test_a_unit_lists_words_or_none(unit: str, words: tuple[str, ...]) -> None:
    assert list_words(Measure("any", "any", unit)) == words
