"""The starter's course file with a studio's values, its comments kept."""

import json
import re
from collections.abc import Collection

from builder.errors import BuilderError
from builder.starting.wishes import Wishes

_STRAND = re.compile(r"^  - (?:\{)?\s*id:\s*[\"']?([a-z0-9-]+)")
_LISTED = re.compile(r"^  - [\"']?([a-z0-9-]+)")
_VALUE = r"(?:\"[^\"\n]*\"|\{[^\n]*\}|[^#\n]*?)"
_TOP_KEY = re.compile(r"^[a-z_]+:")


def write_course_file(starter: str, wishes: Wishes, strands: Collection[str]) -> str:
    """Return the course file with the wishes in their places and only some of the strands."""
    text = starter
    for key in ("paper", "language"):
        value = getattr(wishes, key)
        text = _set(text, key, quote(value)) if value else text
    text = _set(text, "address", quote(wishes.address))
    studio = f"{{name: {quote(wishes.name)}, contact: {quote(wishes.contact)}}}"
    text = _set(text, "studio", studio)
    if wishes.accent:
        text = _set_accent(text, wishes.accent)
    return _keep_strands(text, strands)


def keep_notices(text: str, notices: Collection[str]) -> str:
    """Take off the course file's list the notices that aren't there."""
    kept: list[str] = []
    inside = False
    for line in text.splitlines(keepends=True):
        if _TOP_KEY.match(line):
            inside = line.startswith("notices:")
        found = _LISTED.match(line) if inside else None
        if found is None or found[1] in notices:
            kept.append(line)
    return "".join(kept)


def drop_languages(text: str) -> str:
    """Take out which other languages the starter is in."""
    kept: list[str] = []
    inside = False
    for line in text.splitlines(keepends=True):
        if _TOP_KEY.match(line):
            inside = line.startswith("languages:")
        if not inside:
            kept.append(line)
    return "".join(kept)


def quote(text: str) -> str:
    """Write a text of one line as YAML and JSON read it, whatever is in it."""
    return json.dumps(text, ensure_ascii=False)


def _set(text: str, key: str, value: str) -> str:
    """Put a value on a key's line; the comment after it stays."""
    line = re.compile(
        rf"^({key}:[ ]+)(?:\"[^\"\n]*\"|\{{[^\n]*\}}|[^#\n]*?)([ ]+#.*)?$", re.MULTILINE
    )
    changed, count = line.subn(lambda found: f"{found[1]}{value}{found[2] or ''}", text, count=1)
    if not count:
        raise _unlike(key)
    return changed


def _set_accent(text: str, accent: str) -> str:
    line = re.compile(r"^(colours:[^\n]*\baccent: )\"#[0-9a-fA-F]{6}\"", re.MULTILINE)
    changed, count = line.subn(lambda found: f"{found[1]}{quote(accent)}", text, count=1)
    if not count:
        raise _unlike("colours")
    return changed


def _keep_strands(text: str, strands: Collection[str]) -> str:
    kept: list[str] = []
    inside, keeping = False, True
    for line in text.splitlines(keepends=True):
        if _TOP_KEY.match(line):
            inside, keeping = line.startswith("strands:"), True
        found = _STRAND.match(line) if inside else None
        if found:
            keeping = found[1] in strands
        if keeping or not line.strip():
            kept.append(line)
    return "".join(kept)


def _unlike(key: str) -> BuilderError:
    return BuilderError(
        f'the starter\'s course file has no line "{key}: …" of the known form',
        "install tempoleaf again",
    )
