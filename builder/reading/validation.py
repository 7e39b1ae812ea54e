"""Headers against their schema: every problem at once, each with its place and cure."""

from collections.abc import Iterable, Iterator
from typing import Any, TypeVar, get_args

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from builder import rules
from builder.course.names import offer, suggest
from builder.errors import InvalidValueError
from builder.findings import Finding, Place, Rule
from builder.input_limits import LIST_ENTRIES
from builder.reading.part import Part
from builder.reading.scalars import COLOUR, LANGUAGE, SLUG, VERSION
from builder.reading.yaml_tree import Way, YamlTree, read_yaml
from builder.rules.excess import tell_excess

Header = TypeVar("Header", bound=Part)

_NO_STEPS = ("float", "constrained-float", "LooserLimit", "[key]")
"""What a way to a value may hold besides keys: the names of possible types."""
_KINDS = {
    "string_type": ("text", "give text, in quotes if it looks like a number or begins with #"),
    "int_type": ("a whole number", "give a whole number without a unit, such as 30"),
    "int_from_float": ("a whole number", "give a whole number without a unit, such as 30"),
    "float_type": ("a number", "give a number without a unit, such as 2.5"),
    "bool_type": ("true or false", "give true or false"),
    "list_type": ("a list", "give a list in square brackets, such as [one, two]"),
    "dict_type": ("keys and values", "give keys and values, such as {key: value}"),
    "model_type": ("keys and values", "give keys and values, such as {key: value}"),
}

_PATTERNS = {
    SLUG: (rules.ID_MALFORMED, "which is no id", "use small letters, digits and single hyphens"),
    COLOUR: (
        rules.VALUE_OUT_OF_RANGE,
        "which is no colour here",
        'give # and six digits or letters a to f in quotes, such as "#1f5e5b"',
    ),
    LANGUAGE: (rules.VALUE_OUT_OF_RANGE, "which is no language tag", "give one such as en-GB"),
    VERSION: (
        rules.VALUE_OUT_OF_RANGE,
        "which is no version code",
        "leave the lines of this file as `tempoleaf release` wrote them",
    ),
}
"""Rule, fact and cure for texts that must have a form."""


def validate(tree: YamlTree, model: type[Header], path: str) -> tuple[Header | None, list[Finding]]:
    """Check a header against its schema; return the values, or None with all findings."""
    long_lists = [*_find_long_lists(tree, path)] if model.has_short_lists else []
    if long_lists:
        return None, long_lists
    try:
        return model.model_validate(tree.values), []
    except ValidationError as error:
        details = _without_twins(error.errors(include_url=False))
        return None, [_find(detail, tree, model, path) for detail in details]


def _find_long_lists(tree: YamlTree, path: str) -> Iterator[Finding]:
    """Report lists and mappings right in a header that have more than can be looked up."""
    for key, value in tree.values.items():
        if isinstance(value, (list, dict)) and len(value) > LIST_ENTRIES.most:
            place, name = place_of(tree, path, (key,)), _name((key,))
            yield tell_excess(place, LIST_ENTRIES, len(value), "shorten it", name)


def read_validated(
    text: str, path: str, model: type[Header]
) -> tuple[YamlTree | None, Header | None, list[Finding]]:
    """Read a file that is nothing but YAML; return what could be read, with all findings."""
    tree, findings = read_yaml(text, path)
    header, more = validate(tree, model, path) if tree else (None, [])
    return tree, header, [*findings, *more]


def place_of(tree: YamlTree, path: str, way: Way) -> Place:
    """Return the place of a value, or of the nearest one around it."""
    while way and way not in tree.places:
        way = way[:-1]
    line, column = tree.places.get(way, (1, 1))
    return Place(path, line, column)


def _without_twins(details: Iterable[ErrorDetails]) -> list[ErrorDetails]:
    """Keep one error a place: a value of two possible types is told once."""
    kept: dict[Way, ErrorDetails] = {}
    for detail in details:
        way = tuple(step for step in detail["loc"] if step not in _NO_STEPS)
        kept.setdefault(way, {**detail, "loc": way})
    around = {way[:depth] for way in kept for depth in range(1, len(way))}
    return [detail for way, detail in kept.items() if way not in around]


def _find(detail: ErrorDetails, tree: YamlTree, model: type[Part], path: str) -> Finding:
    way, kind = detail["loc"], detail["type"]
    key = str(way[-1]) if way else ""
    if kind == "missing":
        fact = f'"{key}" is missing' + (f' from "{way[-2]}"' if len(way) > 1 else "")
        return rules.KEY_MISSING.at(place_of(tree, path, way[:-1]), fact, f'add "{key}: …"')
    if kind == "extra_forbidden":
        line, column = tree.keys.get(way, (1, 1))
        known = _fields_at(model, way[:-1])
        cure = suggest(key, known) or offer(known)
        return rules.KEY_UNKNOWN.at(Place(path, line, column), f'"{key}" is no key here', cure)
    rule, fact, cure = _describe(detail, _name(way))
    return rule.at(place_of(tree, path, way), fact, cure)


def _name(way: Way) -> str:
    """Name a value as a coach would: the last key, and its number in a list."""
    if way and isinstance(way[-1], int):
        return f"{_name(way[:-1])} number {way[-1] + 1}"
    return f'"{way[-1]}"' if way else "the header"


def _describe(detail: ErrorDetails, name: str) -> tuple[Rule, str, str]:
    kind, context, value = detail["type"], detail.get("ctx", {}), detail["input"]
    shown = _show(value)
    error = context.get("error")
    if isinstance(error, InvalidValueError):
        is_tempo = name in ('"tempo"', '"count"')
        rule = rules.TEMPO_MALFORMED if is_tempo else rules.VALUE_OUT_OF_RANGE
        return rule, error.fact, error.cure
    if kind in _KINDS:
        wanted, cure = _KINDS[kind]
        return rules.WRONG_TYPE, f"{name} is {shown}, not {wanted}", cure
    if kind == "literal_error":
        expected = str(context["expected"]).replace("'", '"')
        cure = (suggest(value, expected.split('"')[1::2]) if isinstance(value, str) else "") or (
            f"give {expected}"
        )
        return rules.NAME_UNKNOWN, f"{name} is {shown}", cure
    if kind.startswith("date"):
        return rules.WRONG_TYPE, f"{name} is {shown}, not a date", "give a date such as 2026-10-01"
    return _describe_limits(kind, context, name, shown)


def _describe_limits(
    kind: str, context: dict[str, Any], name: str, shown: str
) -> tuple[Rule, str, str]:
    if kind == "string_pattern_mismatch":
        rule, what, cure = _PATTERNS[context["pattern"]]
        return (
            rule,
            f"{shown} is {what.removeprefix('which is ')}"
            if name == shown
            else f"{name} is {shown}, {what}",
            cure,
        )
    cures = {
        "greater_than_equal": "give at least {ge:g}",
        "less_than_equal": "give at most {le:g}",
        "greater_than": "give more than {gt:g}",
        "string_too_short": "write at least a word",
        "string_too_long": "use at most {max_length} characters",
        "too_long": "give at most {max_length}",
        "too_short": "give at least {min_length}",
    }
    cure = cures.get(kind, "see the author guide for what may stand here").format(**context)
    fact = f"{name} has {context['actual_length']}" if kind == "too_long" else f"{name} is {shown}"
    return rules.VALUE_OUT_OF_RANGE, fact, cure


def _show(value: object) -> str:
    if value is None:
        return "empty"
    if value == []:
        return "an empty list"
    if isinstance(value, (list, dict)):
        return "a list" if isinstance(value, list) else "keys and values"
    if isinstance(value, (bool, int, float)):
        return str(value).lower()
    text = str(value)
    return f'"{text[:60]}…"' if len(text) > 60 else f'"{text}"'


def _fields_at(model: type[BaseModel], way: Way) -> list[str]:
    """Return the known keys at a way into a header."""
    for step in way:
        field = model.model_fields.get(str(step))
        inner = _models_in(field.annotation) if field else [model]
        if inner:
            model = inner[0]
    return list(model.model_fields)


def _models_in(annotation: object) -> list[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return [annotation]
    return [model for part in get_args(annotation) for model in _models_in(part)]
