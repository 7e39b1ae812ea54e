"""What a course says of its other languages, held against what it has."""

from collections.abc import Iterable, Iterator
from pathlib import PurePosixPath

from builder import rules
from builder.course.course import Course
from builder.course.names import suggest
from builder.findings import Finding
from builder.reading.pages import Page

_TAKEN = frozenset(
    (
        *("assets", "authors", "cards", "coaches", "lessons", "map", "my-practice", "notices"),
        *("props", "safety", "search", "sources", "start-here", "tracks"),
    )
)
"""Folders that every site has; a language's site lies beside them."""


def find_scope_faults(course: Course, pages: Iterable[Page]) -> Iterator[Finding]:
    """Report pages that aren't there, and languages whose folder another page would have."""
    paths = [page.path for page in pages]
    taken = _TAKEN | {PurePosixPath(path).parts[0].removesuffix(".md").lower() for path in paths}
    own = course.settings.language.lower()
    seen: set[str] = set()
    for tag, scope in course.settings.languages.items():
        if tag.lower() in seen | {own}:
            yield rules.ID_DOUBLED.at(
                course.settings.at(f"languages.{tag}"),
                f'"{tag}" stands here twice, but for its capitals',
                "keep one of the two",
            )
        seen.add(tag.lower())
        if tag.lower() in taken:
            yield rules.ID_DOUBLED.at(
                course.settings.at(f"languages.{tag}"),
                f'"{tag}" is the name of a page or folder of the site already',
                "give the language's own tag, such as es or pt-BR",
            )
        for index, path in enumerate(scope.pages or ()):
            if path not in paths:
                yield rules.NAME_UNKNOWN.at(
                    course.settings.at(f"languages.{tag}.pages.{index}"),
                    f'there is no page "{path}"',
                    suggest(path, paths) or "name a file of the content folder, such as index.md",
                )
