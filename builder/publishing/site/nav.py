"""The order in which the site shows its pages."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from itertools import pairwise
from math import ceil

from builder import rules
from builder.course.course import Course
from builder.language import language_of
from builder.publishing.pages.author import PLAIN_TITLES
from builder.publishing.pages.links import (
    AUTHORS,
    COACHES,
    HOME,
    LICENCES,
    MAP,
    PRACTICE,
    SOURCES,
    START,
    SUMS,
    lesson_page,
    rule_page,
    strand_page,
)
from builder.publishing.pages.rule_pages import FAMILIES
from builder.publishing.pages.templates import escape_for_host
from builder.reading.pages import Page

Nav = list[dict[str, object]]
"""Title to path, or title to a list of the same, as hosts take it."""

_Part = tuple[int, int, dict[str, object]]
"""A strand or a group of strands, after the numbers of its first and its last."""

MOST_IN_LIST = 24
"""As many strands as a list shows at most; with more, they stand in groups."""
_GROUP = 20
_FIRST = ("strands.md", "practise.md", "props.md", "glossary.md", "safety.md")
"""Pages in the order a learner needs them; a course's other pages follow."""
_FOR_COACHES = (COACHES, SUMS, SOURCES)


def order_navigation(course: Course, pages: Iterable[Page], made: Iterable[str]) -> Nav:
    """Return the navigation: home, map, strands with their lessons, other pages, for coaches."""
    titles = {page.path: escape_for_host(page.title) for page in pages}
    made = frozenset(made)
    say = language_of(course.settings.language).say
    plain = {path: say(title) for path, title in PLAIN_TITLES.items() if path in made}
    titles = {**plain, **titles}
    others = [path for path in (*_FIRST, *sorted(titles)) if path in titles]
    others = [path for path in dict.fromkeys(others) if path not in (HOME, *_FOR_COACHES)]
    nav: Nav = [{say("Home"): HOME}]
    nav += [{say("Start here"): START}] if START in made else []
    nav += [{say("My practice"): PRACTICE}, {say("Course map"): MAP}]
    nav += _group([_strand(course, strand_id) for strand_id in course.vocabulary.strands], say)
    nav += [{titles[path]: path} for path in others]
    for_coaches: list[object] = [{titles[path]: path} for path in _FOR_COACHES if path in titles]
    if AUTHORS in made:
        for_coaches.append({say("Author guide"): _authors(made)})
    if for_coaches:
        nav.append({titles[COACHES]: for_coaches})
    return nav


def _strand(course: Course, strand_id: str) -> dict[str, object]:
    lessons = [
        {escape_for_host(lesson.title): lesson_page(lesson)}
        for lesson in course.lessons_of(strand_id)
    ]
    title = escape_for_host(course.vocabulary.strands[strand_id].title)
    return {title: [strand_page(strand_id), *lessons]}


def _group(strands: Nav, say: Callable[..., str]) -> Nav:
    """Put many strands into groups, and many groups into larger ones.

    A page shows the whole of each list that it stands in. Were they to grow with the course, a
    site would grow with its square.
    """
    parts = [(number, number, strand) for number, strand in enumerate(strands, 1)]
    while len(parts) > MOST_IN_LIST:
        parts = [_join(group, say) for group in _split(parts)]
    return [part for _, _, part in parts]


def _split(parts: list[_Part]) -> Iterator[list[_Part]]:
    """Yield groups as like in size as can be."""
    count = ceil(len(parts) / _GROUP)
    starts = [len(parts) * number // count for number in range(count + 1)]
    return (parts[start:end] for start, end in pairwise(starts))


def _join(group: list[_Part], say: Callable[..., str]) -> _Part:
    first, last = group[0][0], group[-1][1]
    title = say("Strands {first} to {last}", first=first, last=last)
    return first, last, {title: [part for _, _, part in group]}


def _authors(made: frozenset[str]) -> list[object]:
    families: Mapping[str, list[dict[str, str]]] = {
        name: [
            {f"{rule.id} {rule.name}": rule_page(rule.id)}
            for rule in rules.RULES
            if rule.id.startswith(letter) and rule_page(rule.id) in made
        ]
        for letter, name in FAMILIES.items()
    }
    families_shown = ({name: pages} for name, pages in families.items() if pages)
    return [AUTHORS, *families_shown, LICENCES]
