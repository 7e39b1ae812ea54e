"""The words that a course uses anyway: as part of a name they give nobody away."""

import re
from functools import cache
from pathlib import Path

from builder.publishing.proof.privacy.letters import Folded, fold
from builder.resources import find_starter
from builder.rules.page import PAGES
from builder.sums.paper import PAPERS

_ENDINGS = (".md", ".yml")
_SMALL = re.compile(r"(?<![\w-])[^\W\d_]+(?![\w-])")
"""Words by themselves: what hyphens join may be an id made of a name."""


def list_course_words(content: Path | None) -> frozenset[str]:
    """Return the words that stand in small letters in a course's files or in the starter's.

    A name that a lesson says has a capital, so that it isn't taken for a word of the course.
    """
    own = _read_words(content) if content and content.is_dir() else frozenset()
    papers = {word for name in PAPERS for word in fold(name).words}
    return own | _read_starter() | papers


@cache
def read_guide() -> Folded:
    """Read the pages of all rules: they are part of every site, with people who are made up."""
    pages = sorted(PAGES.glob("*.md"))
    return fold("\n".join(page.read_text(encoding="utf-8") for page in pages))


@cache
def _read_starter() -> frozenset[str]:
    return _read_words(find_starter())


def _read_words(folder: Path) -> frozenset[str]:
    found: set[str] = set()
    for path in sorted(folder.rglob("*")):
        if path.suffix in _ENDINGS and path.is_file():
            text = path.read_text(encoding="utf-8", errors="replace")
            found.update(word for word in _SMALL.findall(text) if word.islower())
    return frozenset(word for each in sorted(found) for word in fold(each).words)
