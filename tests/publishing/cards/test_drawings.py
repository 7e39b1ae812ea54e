"""Drawings beside their page: fewer parts to lay out."""

from builder.course.course import Course
from builder.publishing.cards.drawings import set_drawings_aside
from builder.publishing.cards.html import write_front
from builder.publishing.cards.setting import Setting
from tests.publishing.conftest import make_face

SVG = '<svg xmlns="http://www.w3.org/2000/svg" class="figure" role="{}"><title>{}</title><g/></svg>'


def test_a_drawing_becomes_a_picture_with_its_title() -> None:
    page = f"<p>{SVG.format('img', 'Lying &amp; still')}</p>"
    html, drawings = set_drawings_aside(page, "course:/d/")
    assert html == '<p><img class="drawing" src="course:/d/0.svg" alt="Lying &amp; still"></p>'
    assert drawings == {"course:/d/0.svg": SVG.format("img", "Lying &amp; still").encode()}


def test_a_quote_in_a_title_does_not_end_what_is_told() -> None:
    html, _ = set_drawings_aside(SVG.format("img", 'The "tail" tucks'), "course:/d/")
    assert 'alt="The &quot;tail&quot; tucks"' in html


def test_a_drawing_with_links_stays_in_its_page() -> None:
    page = SVG.format("group", "Map")
    assert set_drawings_aside(page, "course:/d/") == (page, {})


def test_a_card_is_laid_out_without_the_parts_of_its_drawings(small_course: Course) -> None:
    face = make_face(small_course, "short-hold")
    html = write_front(face, Setting(8, is_dense=True))
    page, drawings = set_drawings_aside(html, "course:/d/")
    assert len(drawings) == html.count("<svg") == 2
    assert "<path" in html
    assert "<path" not in page
