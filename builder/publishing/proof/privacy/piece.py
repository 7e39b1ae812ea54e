"""One text of a file, with its spot, and what a file that can't be read raises."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Piece:
    """One text as it stands."""

    spot: str
    """Where it stands in the file, in words; empty for the file's own text."""
    text: str
    has_tags: bool = False
    is_code: bool = False
    """Whether a machine reads it, so that single words in it say nothing."""
    is_place: bool = False
    """Whether it stands for a place on earth that a picture or film tells, and has no text."""


class UnreadableError(ValueError):
    """A file can't be opened, so that nobody can tell what it says."""
