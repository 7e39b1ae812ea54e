"""What files of a class and of several weeks name, against the people and the course.

The text's own tree is looked through, so that an unknown name is told even where another part of
the file breaks the schema.
"""

from collections.abc import Iterable, Iterator, Mapping
from itertools import islice

from builder import rules
from builder.course.course import Course
from builder.reading.known import HeaderCheck
from builder.reading.yaml_tree import Way, YamlTree
from builder.records.group_schema import MOST_ENTRIES

Names = Mapping[str, str]
"""Id of everybody on record to what people call them."""


def check_group(check: HeaderCheck, course: Course, names: Names | None) -> None:
    """Note unknown and doubled people, coaches, strands and props.

    Without names nobody is looked up, because the people themselves can't be read.
    """
    for key in ("people", "coaches", "strands"):
        refuse_doubled(check, key, list_texts(check.tree, key))
    for index, person in list_texts(check.tree, "people") if names is not None else ():
        _check_person(check, ("people", index), person, names or {})
    for index, strand in list_texts(check.tree, "strands"):
        check.known(("strands", index), strand, course.vocabulary.strands)
    props = check.tree.values.get("props")
    for prop in islice(props, MOST_ENTRIES) if isinstance(props, dict) else ():
        check.known(("props", prop), prop, course.vocabulary.props)


def list_texts(tree: YamlTree, key: str) -> Iterator[tuple[int, str]]:
    """Yield the texts of a list with their index, as many as a list may have."""
    values = tree.values.get(key)
    for index, value in enumerate(values[:MOST_ENTRIES]) if isinstance(values, list) else ():
        if isinstance(value, str):
            yield index, value


def refuse_doubled(check: HeaderCheck, key: str, entries: Iterable[tuple[int, str]]) -> None:
    """Note what stands in a list more than once."""
    seen: set[str] = set()
    for index, entry in entries:
        if entry in seen:
            fact = f'"{entry}" stands in "{key}" again'
            check.refuse(rules.ID_DOUBLED, (key, index), fact, "keep one of the two")
        seen.add(entry)


def map_lesson_names(course: Course) -> dict[str, str]:
    """Return the present id of every lesson by its present and former ids."""
    former = {name: lesson.id for lesson in course.lessons for name in lesson.was}
    present = (*course.by_id, *sorted(course.unreadable))
    return former | {name: name for name in present}


def _check_person(check: HeaderCheck, way: Way, person: str, names: Names) -> None:
    called = [each for each, name in names.items() if name.casefold() == person.casefold()]
    if person not in names and len(called) == 1:
        fact = f'"{person}" under "people" is what somebody is called, not their id'
        check.refuse(rules.NAME_UNKNOWN, way, fact, f'write "{called[0]}"')
    else:
        check.known(way, person, names)
