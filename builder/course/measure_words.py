"""The words of a measure that is read in words and not in numbers."""

import re

from builder.course.vocabulary import Measure

_BETWEEN = re.compile(r"\s*,\s*|\s+(?:or|o|u|oder|ou)\s+")
"""A comma, or the last "or" of a list in a language that the tool speaks."""


def list_words(measure: Measure) -> tuple[str, ...]:
    """Return the words that a unit such as ``chest, belly or both`` lists; none for a number."""
    words = tuple(word for word in _BETWEEN.split(measure.unit.strip()) if word)
    return words if len(words) > 1 else ()
