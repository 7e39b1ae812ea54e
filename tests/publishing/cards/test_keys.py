"""Keys of the card cache: whatever shapes a card is part of them."""

from pathlib import Path

from builder.publishing.cards.keys import list_makers


def test_the_code_that_draws_lays_out_and_reads_back_is_among_the_makers() -> None:
    names = {"/".join(path.parts[-3:]) for path in list_makers()}
    assert {
        "drawing/figure/pair.py",
        "publishing/cards/html.py",
        "publishing/proof/read_back.py",
        "site_templates/cards/card.css",
    } <= names
    assert any(name.endswith("sums/body.py") for name in names)


def test_every_maker_is_a_file() -> None:
    makers = list_makers()
    assert all(isinstance(path, Path) and path.is_file() for path in makers)
    assert len(makers) == len(set(makers))
