"""Stand-in."""

from collections.abc import Callable, Mapping

from builder.publishing.proof.read_back import fold_text
from builder.publishing.proof.safety.sighting import Lack, Place, Sighting
from builder.publishing.proof.written_page import parse_written_page


def sight_in_page(
    read: Callable[[str], bytes], path: str, wanted: Mapping[str, str]
) -> dict[str, Sighting]:
    """Look."""
    letters = fold_text(parse_written_page(path, read(path).decode()).text)
    found = {}
    for name, words in wanted.items():
        is_there = fold_text(words) in letters and fold_text(words)
        place = Place(1, None, "x", 12, 16) if is_there else None
        found[name] = Sighting(name, place, None if place else Lack.ABSENT)
    return found
