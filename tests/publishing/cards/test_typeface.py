"""Signs that the shipped typeface lacks are told, for the text of a PDF would hide them."""

import pytest

from builder.publishing.cards.typeface import find_lacking_signs


@pytest.mark.parametrize(
    "text", ["Breathe in for 4 – “so”…", "½ × 5 °", "Grüße, señal, œuvre, Łódź", "ἀήρ воздух"]
)
def test_letters_of_european_languages_are_there(text: str) -> None:
    assert find_lacking_signs([text]) == ()


def test_signs_that_would_print_as_boxes_are_found_once() -> None:
    assert find_lacking_signs(["漢 a 🧘", "b 漢"]) == ("漢", "🧘")
