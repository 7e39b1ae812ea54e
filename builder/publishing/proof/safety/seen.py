"""Whether words in an element are seen, by its looks."""

from dataclasses import dataclass

from builder.publishing.proof.safety.sighting import Lack
from builder.publishing.proof.safety.styles.computed import Style, find_words_lack
from builder.publishing.proof.safety.styles.paints import CLEAR, WHITE, Paint, compare_paints
from builder.sums.contrast import LEAST_FOR_TEXT
from builder.sums.paper import PAPERS

FLOOR_POINTS = PAPERS["a4"].floor_points
"""Of letters: on screens 12 pixels, of 0.75 points each, and as much on printed pages (ours)."""
_POINTS = 0.75


@dataclass(frozen=True, slots=True)
class Seen:
    """How words are seen, or what they lack."""

    lack: Lack | None
    size_points: float
    contrast: float


def judge_style(style: Style, *, is_paper: bool) -> Seen:
    """Judge the looks of an element for the words that stand in it."""
    size = round(style.font_px * _POINTS, 2)
    contrast = _find_contrast(style, is_paper=is_paper)
    lack = find_words_lack(style)
    if lack is None and size < FLOOR_POINTS:
        lack = Lack.SMALL
    if lack is None and contrast < LEAST_FOR_TEXT:
        lack = Lack.PALE
    return Seen(lack, size, contrast)


def _find_contrast(style: Style, *, is_paper: bool) -> float:
    """Return the contrast of letters to all that lies behind them; 1 where that can't be told.

    Browsers leave grounds out when they print, unless a reader asks for them: both must do. What
    shows through all grounds is white.
    """
    with_grounds = _compare(style, has_grounds=True)
    if not is_paper:
        return with_grounds
    return min(with_grounds, _compare(style, has_grounds=False))


def _compare(style: Style, *, has_grounds: bool) -> float:
    letters, ground = style.letters, CLEAR
    each: Style | None = style
    while each is not None:
        own: Paint | None = each.ground if has_grounds else CLEAR
        if letters is None or own is None:
            return 1.0
        letters, ground = letters.over(own), ground.over(own)
        letters, ground = letters.fade(each.opacity), ground.fade(each.opacity)
        each = each.parent
    if letters is None:
        return 1.0
    return round(compare_paints(letters.over(WHITE), ground.over(WHITE)), 2)
