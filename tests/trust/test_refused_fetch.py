"""What a card may not open is a finding at its lesson; the other cards are printed."""

from dataclasses import replace
from pathlib import Path

import pytest
from markupsafe import Markup

from builder.course.audience import Audience
from builder.course.course import Course
from builder.errors import FetchRefusedError
from builder.publishing.cards.face import CardFace, face_cards
from builder.publishing.cards.findings import find_card_faults
from builder.publishing.cards.pdf import open_press
from builder.publishing.cards.record import CardRecord
from builder.publishing.cards.worker import run_batch
from builder.reading.course_folder import read_course
from builder.sums.paper import PAPERS
from builder.work.pool import open_pool
from tests.conftest import SMALL_COURSE
from tests.trust.looking import find_pdf_acts
from tests.trust.vectors import HOST

PAPER = PAPERS["a6"]


@pytest.fixture(scope="module")
def course() -> Course:
    read = read_course(SMALL_COURSE).course
    assert read is not None
    return read


def make_faces(course: Course, html: str) -> tuple[CardFace, ...]:
    """Make three faces; the one in the middle holds HTML, as only a fault of the tool could do."""
    faces = face_cards(course, course.lessons[:3], Audience.CLIENT, [PAPER])[PAPER.id]
    step = Markup(html)  # noqa: S704  # meant
    bad = replace(faces[1], lesson=replace(faces[1].lesson, set_up=(step,)))
    return (faces[0], bad, faces[2])


def reach(secret: Path) -> list[str]:
    return [
        f'<img src="{secret.as_uri()}" alt="x">',
        f'<img src="http://{HOST}/a.png" alt="x">',
        f'<link rel="attachment" href="{secret.as_uri()}">',
        f'<a rel="attachment" href="{secret.as_uri()}">x</a>',
        f'<style>@import url("{secret.as_uri()}");</style>',
        f'<style>@import url("http://{HOST}/a.css");</style>',
        f"<style>@font-face{{font-family:f;src:url({secret.as_uri()})}}</style>"
        '<b style="font-family:f">x</b>',
        f'<b style="background:url(http://{HOST}/a.png)">x</b>',
        '<svg xmlns="http://www.w3.org/2000/svg">'
        f'<image width="9" height="9" href="{secret.as_uri()}"/></svg>',
        f'<object data="{secret.as_uri()}"></object>',
        f'<embed src="{secret.as_uri()}">',
        f'<img src="course:/drawings/../../{secret.name}" alt="x">',
        f'<img src="{secret.name}" alt="x">',
    ]


@pytest.mark.parametrize("number", range(len(reach(Path("/x")))))
def test_nothing_that_html_could_ask_for_is_opened(
    course: Course, tmp_path: Path, number: int
) -> None:
    secret = tmp_path / "secret.txt"
    secret.write_text("canary-of-a-secret", encoding="utf-8")
    before, refused, after = run_batch(make_faces(course, reach(secret)[number]))
    assert before.is_sound(PAPER.floor_points)
    assert after.is_sound(PAPER.floor_points)
    assert b"canary-of-a-secret" not in refused.pdf
    (finding,) = find_card_faults(course.lessons[1], make_faces(course, "")[1], refused)
    assert str(finding).startswith(f"{course.lessons[1].path}:2:8: U105 fetch-refused: ")


def test_parts_of_other_drawings_are_not_even_asked_for(course: Course) -> None:
    use = f'<svg width="9" height="9"><use href="http://{HOST}/a.svg#x"/></svg>'
    (_, printed, _) = run_batch(make_faces(course, use))
    assert (printed.refused, printed.missing) == ("", ())


def test_a_data_address_of_an_author_is_not_opened_either(course: Course) -> None:
    svg = (
        "data:image/svg+xml,<svg xmlns='http://www.w3.org/2000/svg'><image href='file:///x'/></svg>"
    )
    (_, refused, _) = run_batch(make_faces(course, f'<img src="{svg}" alt="x">'))
    assert "data:image" in refused.refused


def test_a_worker_hands_the_refusal_back_with_the_other_cards(course: Course) -> None:
    faces = make_faces(course, '<img src="file:///etc/hostname" alt="x">')
    with open_pool(1) as pool:
        records = pool.submit(run_batch, faces).result()
    assert [bool(record.refused) for record in records] == [False, True, False]
    assert CardRecord.from_bytes(records[1].to_bytes()) == records[1]


def test_whoever_prints_else_is_told_without_a_traceback() -> None:
    with pytest.raises(FetchRefusedError, match='asks for "file:///etc/hostname"'):
        open_press().lay_out("<html lang=en><title>x</title><img src='file:///etc/hostname'>", "")


def test_the_eye_on_pdfs_sees_attachments_and_addresses() -> None:
    html = '<html lang=en><title>x</title><body><a href="https://elsewhere.invalid/">x</a>'
    found = list(find_pdf_acts(open_press().lay_out(html, "").write(), "https://small.example/"))
    assert found == ["/URI https://elsewhere.invalid/"]
