"""Reading finished work back."""

from hypothesis import given
from hypothesis import strategies as st

from builder.publishing.cards.record import CardRecord
from builder.publishing.proof.read_back import find_missing_texts, fold_text, read_pdf
from builder.sums.paper import PAPERS


def test_line_breaks_hyphens_and_ligatures_do_not_hide_a_text() -> None:
    page = "Breathe out \ufb01rst, then let the shoul-\nders   fall."
    wanted = {"step 1": "Breathe out first, then let the shoulders fall."}
    assert find_missing_texts(page, wanted) == ()


def test_a_text_that_lost_a_word_is_named() -> None:
    wanted = {"step 1": "Never hold your breath in water.", "step 2": "Rest."}
    assert find_missing_texts("Hold your breath in water. Rest.", wanted) == ("step 1",)


@given(st.text(alphabet=st.characters(codec="ascii")))
def test_folding_is_settled_after_one_round(text: str) -> None:
    assert fold_text(fold_text(text)) == fold_text(text)


def test_a_finished_card_tells_its_words_size_and_paper(hold_card: CardRecord) -> None:
    (page,) = read_pdf(hold_card.pdf)
    width, height = PAPERS["a6"].size_points
    assert "Breathe in for three, then hold for three." in page.text
    assert (round(page.width_points, 1), round(page.height_points, 1)) == (
        round(width, 1),
        round(height, 1),
    )
    assert page.smallest_points >= 8
    assert not page.has_words_outside
