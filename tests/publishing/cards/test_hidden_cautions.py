"""Cards that were written outside a site, with a caution that nobody can see."""

from pathlib import Path

from builder.course.audience import Audience
from builder.course.course import Course
from builder.publishing.cards.hidden_cautions import find_hidden_cautions
from builder.publishing.cards.record import CardRecord
from builder.publishing.cards.run import PaperRun
from builder.sums.paper import PAPERS
from builder.work.store import ContentStore
from tests.publishing.proof.safety.pdf_edits import change, find_box, insert


def test_a_hidden_caution_of_a_written_card_is_told_at_its_lesson(
    small_course: Course, hold_card: CardRecord, tmp_path: Path
) -> None:
    lesson = small_course.by_id["short-hold"]
    cards = (lesson,), (PaperRun(PAPERS["a6"], tmp_path, ()),)
    card = tmp_path / "short-hold.pdf"
    card.write_bytes(hold_card.pdf)
    shelf = ContentStore(tmp_path / "cache")
    for _ in range(2):  # looked at, and remembered
        assert find_hidden_cautions(small_course, *cards, Audience.CLIENT, shelf) == ()
    card.write_bytes(change(hold_card.pdf, insert(find_box(hold_card.pdf), "1 g", "0 g")))
    for _ in range(2):  # what can't be seen isn't remembered as seen
        (found,) = find_hidden_cautions(small_course, *cards, Audience.CLIENT, shelf)
    assert found.rule.id == "E101"
    assert found.place.path == lesson.path
    assert 'the notice holding of "short-hold" can\'t be read on its A6 card' in found.fact


def test_an_order_without_cards_hides_nothing(small_course: Course, tmp_path: Path) -> None:
    shelf = ContentStore(tmp_path)
    assert find_hidden_cautions(small_course, (), (), Audience.COACH, shelf) == ()
