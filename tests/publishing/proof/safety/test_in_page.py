"""Notices on web pages that hide them in every way we know, and on pages that don't."""

from pathlib import Path

import pytest

from builder.publishing.proof.safety.in_page import sight_in_page
from builder.publishing.proof.safety.sighting import Lack, Sighting
from tests.publishing.proof.safety.hostile import (
    AWAY,
    COVERED,
    HIDDEN,
    HONEST,
    PALE,
    SMALL,
    WORDS,
    Case,
)


def sight(folder: Path, case: Case) -> Sighting:
    case.write(folder)
    return sight_in_page(lambda path: (folder / path).read_bytes(), "index.html", {"a": WORDS})["a"]


@pytest.mark.parametrize("name", HONEST)
def test_a_notice_is_seen_on_an_honest_page(tmp_path: Path, name: str) -> None:
    found = sight(tmp_path, HONEST[name])
    assert found.lack is None
    assert found.place is not None
    assert found.place.spot == "cautions"


@pytest.mark.parametrize("name", HIDDEN)
def test_a_hidden_notice_is_not_seen(tmp_path: Path, name: str) -> None:
    assert sight(tmp_path, HIDDEN[name]).lack is not None


@pytest.mark.parametrize("name", AWAY)
def test_a_notice_that_is_moved_away_is_not_seen(tmp_path: Path, name: str) -> None:
    assert sight(tmp_path, AWAY[name]).lack is Lack.OUTSIDE


@pytest.mark.parametrize("name", SMALL)
def test_small_letters_are_not_enough(tmp_path: Path, name: str) -> None:
    assert sight(tmp_path, SMALL[name]).lack is Lack.SMALL


@pytest.mark.parametrize("name", PALE)
def test_pale_letters_are_not_enough(tmp_path: Path, name: str) -> None:
    assert sight(tmp_path, PALE[name]).lack is Lack.PALE


@pytest.mark.parametrize("name", COVERED)
def test_nothing_may_lie_over_a_notice(tmp_path: Path, name: str) -> None:
    assert sight(tmp_path, COVERED[name]).lack is Lack.COVERED
