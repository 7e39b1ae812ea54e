"""Colours: text that can be read on the studio's paper."""

import math
from collections.abc import Iterator

from builder import rules
from builder.course.course import Course
from builder.findings import Finding
from builder.sums.contrast import LEAST_FOR_TEXT, contrast_ratio
from builder.sums.shades import darken_until_read


def find_low_contrast(course: Course) -> Iterator[Finding]:
    """Report ink or accent with too little contrast on the course's paper."""
    colours = course.settings.colours
    for name, colour in (("ink", colours.ink), ("accent", colours.accent)):
        contrast = contrast_ratio(colour, colours.paper)
        if contrast < LEAST_FOR_TEXT:
            yield rules.LOW_CONTRAST.at(
                course.settings.at(f"colours.{name}"),
                f"the {name} {colour} on the paper {colours.paper} has a contrast of "
                f"{_round_down(contrast):g} to 1, under {LEAST_FOR_TEXT:g}",
                _find_cure(colour, colours.paper),
            )


def _find_cure(colour: str, paper: str) -> str:
    darker = darken_until_read(colour, (paper,), LEAST_FOR_TEXT)
    if contrast_ratio(darker, paper) < LEAST_FOR_TEXT:
        return "choose a paler paper"
    return f'write "{darker}", the nearest darker shade that can be read'


def _round_down(contrast: float) -> float:
    """Round to one decimal, never up to the limit."""
    return math.floor(contrast * 10) / 10
