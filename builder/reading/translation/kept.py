"""Originals as they were when they were translated, so that a later change can be shown.

``tempoleaf translate`` keeps them in ``.originals`` of the content folder, a file of its own for
each; nobody edits them, and no site shows them.
"""

import json
from pathlib import Path
from typing import cast

from builder.reading.translation.parts import Parts

FOLDER = ".originals"


def name_kept(within: str, language: str) -> str:
    """Return where the copy of an original lies, both from the content folder."""
    return f"{FOLDER}/{language}/{within}.json"


def read_kept(path: Path) -> Parts | None:
    """Read a kept original; None where there is none, or where somebody broke it."""
    try:
        values = json.loads(path.read_text(encoding="utf-8"))
    except (OSError, UnicodeDecodeError, json.JSONDecodeError, RecursionError):
        return None
    return _take(values)


def write_kept(parts: Parts) -> str:
    """Return an original's words as the text of its kept copy."""
    text = json.dumps(dict(parts), ensure_ascii=False, indent=1)
    return f"{text}\n"


def _take(values: object) -> Parts | None:
    """Return values that are parts; None where they are anything else."""
    if not isinstance(values, dict):
        return None
    for texts in values.values():
        if not isinstance(texts, list) or not all(isinstance(text, str) for text in texts):
            return None
    found = cast("dict[str, list[str]]", values)
    return {name: tuple(texts) for name, texts in found.items()}
