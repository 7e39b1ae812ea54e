"""Prints whose words are found as text, and seen by nobody."""

import pytest

from builder.publishing.proof.safety.printed import find_unseen_words
from builder.publishing.proof.safety.sighting import Box
from tests.publishing.proof.safety.pdf_edits import NAME, NOTICE, change, draw, insert, rectangle


def test_a_sound_card_hides_nothing(card: bytes) -> None:
    assert find_unseen_words(card, {NAME: NOTICE}) == {}


def test_words_that_others_look_for_are_no_matter_here(card: bytes) -> None:
    assert find_unseen_words(card, {NAME: "Nobody wrote this."}) == {}


@pytest.mark.parametrize(
    ("edit", "lack"),
    [
        (lambda box: insert(box, "1 g", "0 g"), "too pale"),
        (lambda box: insert(box, "3 Tr", "0 Tr"), "hidden"),
        (lambda box: draw(f"1 g {rectangle(box)} f"), "covered"),
    ],
)
def test_words_that_nobody_sees_are_named(card: bytes, box: Box, edit, lack: str) -> None:  # type: ignore[no-untyped-def]
    assert find_unseen_words(change(card, edit(box)), {NAME: NOTICE}) == {NAME: lack}


def test_what_is_no_print_shows_nothing() -> None:
    assert find_unseen_words(b"no PDF", {NAME: NOTICE}) == {NAME: "in a file that can't be read"}
