"""Drawings laid aside come back to where they stood, or the build stops."""

import pytest

from builder.errors import BuilderError
from builder.publishing.pages.asides import lay_aside, put_back

PAGE = (
    'a <svg xmlns="x"><g/></svg> b <script type="application/json" class="c">{"d": 1}</script> e '
    '<svg xmlns="x"><path/></svg>'
)


def test_drawings_come_back_in_their_places() -> None:
    words, drawings = lay_aside(PAGE)
    assert "svg" not in words
    assert "script" not in words
    assert len(drawings) == 3
    assert put_back(words, drawings) == PAGE


def test_a_page_without_drawings_stays_as_it_is() -> None:
    assert lay_aside("<p>a</p>") == ("<p>a</p>", ())
    assert put_back("<p>a</p>", ()) == "<p>a</p>"


@pytest.mark.parametrize("lost", ["0", "2"])
def test_a_lost_drawing_stops_the_build(lost: str) -> None:
    words, drawings = lay_aside(PAGE)
    broken = words.replace(f'<span data-tl-aside="{lost}"></span>', "")
    with pytest.raises(BuilderError, match="another plugin"):
        put_back(broken, drawings)
