"""Whom a course's files come from: the studio itself, or people whom it doesn't know."""

from enum import StrEnum
from pathlib import PurePosixPath

IMPORTED = "imported"
"""A folder of this name holds what others wrote, whatever the course file says."""


class Trust(StrEnum):
    """How far the words and pictures of a course are believed."""

    TRUSTED = "trusted"
    UNTRUSTED = "untrusted"

    def of(self, within: str) -> "Trust":
        """Return how far a file is believed, by its path from the content folder."""
        folders = PurePosixPath(within).parts[:-1]
        is_imported = any(folder.casefold() == IMPORTED for folder in folders)
        return Trust.UNTRUSTED if is_imported else self
