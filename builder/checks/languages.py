"""Languages: one that the tool itself has no words in."""

from collections.abc import Iterator

from builder import rules
from builder.course.course import Course
from builder.course.language_tag import root_of
from builder.findings import Finding
from builder.language import language_of, spoken_languages
from builder.sums.readability import FORMULAS_BY_LANGUAGE


def find_unspoken_languages(course: Course) -> Iterator[Finding]:
    """Report languages in which the tool's own words would stay English."""
    settings = course.settings
    known = [language_of(root).name for root in spoken_languages()]
    for tag in (settings.language, *settings.languages):
        if root_of(tag) not in spoken_languages():
            key = "language" if tag == settings.language else f"languages.{tag}"
            graded = "" if root_of(tag) in FORMULAS_BY_LANGUAGE else ", and texts aren't graded"
            yield rules.LANGUAGE_UNSPOKEN.at(
                settings.at(key),
                f'the tool has no words of its own in "{tag}"{graded}',
                f"read the pages yourself: headings and buttons are English; it has "
                f"{', '.join(known)}",
            )
