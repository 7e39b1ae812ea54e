"""Ink: paths of a drawing that the PDF engine needn't read."""

from builder.publishing.cards.ink import take_ink

DRAWING = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 20" fill="currentColor">{}</svg>'


def test_paths_become_pictures_and_words_between_them_stay_in_their_place() -> None:
    parts = '<path d="M0 0L1 1"/><text x="3">in</text><path d="M2 2L3 3"/>'
    svg, inks = take_ink(DRAWING.format(parts).encode(), "a")
    assert list(inks) == ["a.0", "a.1"]
    assert svg.index(b'"a.0"') < svg.index(b">in<") < svg.index(b'"a.1"')
    assert b"path" not in svg


def test_a_part_is_drawn_as_a_line_and_then_as_a_fill_over_it() -> None:
    parts = (
        '<g fill="none" stroke="#ff0000" stroke-width="2" stroke-linejoin="round">'
        '<path id="p" d="M0 0L1 1"/><use href="#p" fill="#000" stroke="none"/></g>'
    )
    _, inks = take_ink(DRAWING.format(parts).encode(), "a")
    operators = " ".join(inks["a.0"].operators.decode().split())
    assert operators == "1 0 0 RG 2 w 1 j 0 J 4 M 0 0 m 1 1 l S 0 0 0 rg 0 0 m 1 1 l f"


def test_what_the_ink_does_not_know_is_left_to_the_engine() -> None:
    for part in (
        '<path d="M0 0L1 1" fill-opacity="0.5"/>',
        '<path d="M0 0L1 1" stroke-dasharray="1"/>',
        '<path d="M0 0L1 1" fill="teal"/>',
        '<path d="M0 0L1 1" stroke="#000" stroke-width="1px"/>',
        '<path d="M0 0q1 1 2 2"/>',
        '<g><path d="M0 0L1 1"/><circle r="4"/></g>',
        '<g transform="scale(2)"><path d="M0 0L1 1"/></g>',
        '<use href="#nowhere"/>',
        '<path style="fill: none" d="M0 0L1 1"/>',
    ):
        svg, inks = take_ink(DRAWING.format(part).encode(), "a")
        assert not inks
        assert b"image" not in svg


def test_a_drawing_with_a_frame_of_its_own_kind_is_left_to_the_engine() -> None:
    path = '<path d="M0 0L1 1"/>'
    for root in ('viewBox="1 0 4 4"', 'width="4"', 'viewBox="0 0 4 4" transform="scale(2)"'):
        drawing = f'<svg xmlns="http://www.w3.org/2000/svg" {root}>{path}</svg>'
        assert take_ink(drawing.encode(), "a")[1] == {}
