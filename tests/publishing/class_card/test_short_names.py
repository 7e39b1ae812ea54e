"""Short names on a card, and how they stay apart."""

import pytest

from builder.publishing.class_card.short_names import shorten_names


@pytest.mark.parametrize(
    ("names", "short"),
    [
        (("Maren Tjeldvoll", "Ffion Treharwyn"), ["Maren", "Ffion"]),
        (("Maren Tjeldvoll", "Maren Ostrander"), ["Maren T.", "Maren O."]),
        (("Maren Tjeldvoll", "maren Torvald"), ["Maren Tj.", "maren To."]),
        (("Maren", "Maren Torvald"), ["Maren", "Maren T."]),
        (("Maren Torvald", "Maren Torvald"), ["Maren Torvald", "Maren Torvald"]),
        (("Ana Maria Li", "Ana Lopes"), ["Ana Maria Li", "Ana Lo."]),
        (("Jos\u00e9-Luis P\u00e9rez",), ["Jos\u00e9-Luis"]),
    ],
)
def test_short_names_tell_people_apart(names: tuple[str, ...], short: list[str]) -> None:
    people = tuple((f"C{number}", name) for number, name in enumerate(names))
    assert list(shorten_names(people).values()) == short
