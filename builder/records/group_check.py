"""What files of a class and of several weeks name, against the people and the course.

The text's own tree is looked through, so that an unknown name is told even where another part of
the file breaks the schema.
"""

from collections.abc import Collection, Iterable, Iterator
from itertools import islice

from builder import rules
from builder.course.names import offer, suggest
from builder.reading.known import HeaderCheck
from builder.reading.yaml_tree import Way, YamlTree
from builder.records.group_schema import MOST_ENTRIES
from builder.records.known import Known, show_person


def check_group(check: HeaderCheck, known: Known) -> None:
    """Note unknown and doubled people, coaches, strands and props."""
    for key in ("coaches", "strands"):
        refuse_doubled(check, key, list_texts(check.tree, key))
    if known.has_people:
        _check_people(check, known)
    for index, strand in list_texts(check.tree, "strands"):
        check.known(("strands", index), strand, known.course.vocabulary.strands)
    props = check.tree.values.get("props")
    for prop in islice(props, MOST_ENTRIES) if isinstance(props, dict) else ():
        check.known(("props", prop), prop, known.course.vocabulary.props)


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


def _check_people(check: HeaderCheck, known: Known) -> None:
    """Note who is unknown, stands here twice, or has a row that can't be read."""
    people = list(list_texts(check.tree, "people"))
    ids = [(index, known.person_ids.get(person.casefold(), person)) for index, person in people]
    refuse_doubled(check, "people", ids)
    for index, person in ids:
        way = ("people", index)
        if person in known.unreadable_people:
            fact = f'"{person}" under "people" has a row that can\'t be read'
            check.refuse(rules.NAME_UNKNOWN, way, fact, "mend the row in the file of people first")
        elif person not in known.people:
            _refuse_person(check, way, person, known)


def _refuse_person(check: HeaderCheck, way: Way, person: str, known: Known) -> None:
    called = known.ids_by_name.get(person.casefold())
    if called:
        fact = 'a name stands under "people", not an id'
        check.refuse(rules.NAME_UNKNOWN, way, fact, f'write "{called}"')
    else:
        refuse_stranger(check, way, person, known.people)


def refuse_stranger(check: HeaderCheck, way: Way, person: str, known: Collection[str]) -> None:
    """Note somebody whom nobody knows; what could be a name is not said."""
    fact = f'{show_person(person)} under "{way[0]}" is unknown'
    check.refuse(rules.NAME_UNKNOWN, way, fact, suggest(person, known) or offer(known))
