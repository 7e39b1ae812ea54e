"""YAML text to plain values with the place of each, read as YAML 1.2 would read it.

PyYAML tells the events; what a scalar means is decided here, so that ``4:4`` and ``no`` stay
text. Doubled keys, aliases, tags and deep nesting are problems, never surprises.
"""

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass, field

import yaml

from builder import rules
from builder.errors import InvalidValueError
from builder.findings import Finding, Place
from builder.input_limits import YAML_LEVELS, YAML_VALUES, InputLimit
from builder.reading.hidden_signs import CURE, find_hidden_sign
from builder.rules.excess import tell_excess

Tree = str | int | float | bool | list["Tree"] | dict[str, "Tree"] | None
Way = tuple[str | int, ...]

_LONGEST_NUMBER = 15
"""Digits that a float holds exactly; what is longer is no number of a lesson, and stays text."""
_LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_INT = re.compile(r"[-+]?[0-9]+")
_BASED = re.compile(r"0o[0-7]+|0x[0-9a-fA-F]+")
_FLOAT = re.compile(r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?")
_CURE = "mend the text at this place"
_FLATTEN = "flatten this"
_PROBLEMS = (
    (
        "mapping values are not allowed",
        "a colon stands inside a text",
        "put the whole text in double quotes",
    ),
    (
        "cannot start any token",
        "no value can begin with this sign",
        "put the text in double quotes; indent with spaces, not tabs",
    ),
    ("end of stream", "a quote is opened and never closed", "close it"),
    ("could not find expected ':'", "a key has no colon after it", "write key: value"),
    ("escape c", "the backslash in this text means nothing", "write it twice, or leave it out"),
    (
        "did not find expected",
        "something before this place is unfinished",
        "close every quote and bracket, and begin keys of one level in the same column",
    ),
)
"""Part of what the YAML reader says, and what to tell instead."""
_WORDS: dict[str, bool | None] = {
    **dict.fromkeys(("", "~", "null", "Null", "NULL")),
    **dict.fromkeys(("true", "True", "TRUE"), True),
    **dict.fromkeys(("false", "False", "FALSE"), False),
}


@dataclass(frozen=True, slots=True)
class YamlTree:
    """A mapping read from YAML, with line and column (from 1) of every key and value."""

    values: dict[str, Tree]
    keys: dict[Way, tuple[int, int]]
    places: dict[Way, tuple[int, int]]


@dataclass(slots=True)
class _Frame:
    """A list or mapping that is still open."""

    into: list[Tree] | dict[str, Tree]
    way: Way
    key: str | None = None


@dataclass(slots=True)
class _Growth:
    """The tree while it grows, and the problems met on the way."""

    path: str
    first_line: int
    keys: dict[Way, tuple[int, int]] = field(default_factory=dict)
    places: dict[Way, tuple[int, int]] = field(default_factory=dict)
    frames: list[_Frame] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)
    root: Tree = None
    documents: int = 0
    values: int = 0

    def spot(self, event: yaml.Event) -> tuple[int, int]:
        mark = event.start_mark
        return (mark.line + self.first_line, mark.column + 1) if mark else (self.first_line, 1)


def read_yaml(text: str, path: str, first_line: int = 1) -> tuple[YamlTree | None, list[Finding]]:
    """Read a mapping from YAML text that starts at a line of a file.

    Returns None in place of the tree where the text is no mapping or can't be read on.
    """
    growth = _Growth(path, first_line)
    try:
        for event in _events(text):
            _grow(growth, event)
    except yaml.MarkedYAMLError as error:
        line, column = _find_spot(error, text)
        spot = (line + first_line, column + 1)
        growth.findings.append(_tell_unreadable(growth, spot, error, text))
        return None, growth.findings
    except yaml.reader.ReaderError as error:
        fact = f"character {error.position + 1} can't stand in a header ({error.reason})"
        growth.findings.append(_unreadable(growth, (first_line, 1), fact))
        return None, growth.findings
    except InvalidValueError:
        return None, growth.findings
    if not isinstance(growth.root, dict):
        fact = "there are no keys and values here"
        growth.findings.append(
            _unreadable(growth, (first_line, 1), fact, "write lines of key: value")
        )
        return None, growth.findings
    return YamlTree(growth.root, growth.keys, growth.places), growth.findings


def read_scalar(text: str) -> Tree:
    """Give an unquoted scalar its meaning by the core rules of YAML 1.2."""
    if text in _WORDS:
        return _WORDS[text]
    if len(text) > _LONGEST_NUMBER:
        return text
    if _INT.fullmatch(text):
        return int(text)
    if _BASED.fullmatch(text):
        return int(text, 0)
    if _FLOAT.fullmatch(text) and math.isfinite(float(text)):
        return float(text)
    return text


def _events(text: str) -> Iterator[yaml.Event]:
    yield from yaml.parse(text, Loader=_LOADER)


def _grow(growth: _Growth, event: yaml.Event) -> None:
    if isinstance(event, yaml.DocumentStartEvent):
        growth.documents += 1
        if growth.documents > 1:
            _stop(growth, event, "a second document starts here", "keep one, without ---")
    elif isinstance(event, yaml.AliasEvent):
        _stop(growth, event, "an alias (*) stands here", "write the value out")
    elif isinstance(event, yaml.CollectionEndEvent):
        growth.frames.pop()
    elif isinstance(event, (yaml.ScalarEvent, yaml.CollectionStartEvent)):
        if event.anchor or event.tag:
            _stop(growth, event, "an anchor (&) or tag (!) stands here", "write the plain value")
        growth.values += 1
        if growth.values > YAML_VALUES.most:
            _refuse_excess(growth, event, YAML_VALUES, growth.values, "shorten it")
        hidden = find_hidden_sign(event.value) if isinstance(event, yaml.ScalarEvent) else None
        if hidden:
            _stop(growth, event, hidden[1], CURE)
        _place(growth, event)


def _place(growth: _Growth, event: yaml.ScalarEvent | yaml.CollectionStartEvent) -> None:
    frame = growth.frames[-1] if growth.frames else None
    if frame is not None and isinstance(frame.into, dict) and frame.key is None:
        _open_key(growth, frame, event)
        return
    way = _way(frame)
    growth.places[way] = growth.spot(event)
    value: Tree
    if isinstance(event, yaml.ScalarEvent):
        value = read_scalar(event.value) if event.implicit[0] else event.value
    else:
        value = [] if isinstance(event, yaml.SequenceStartEvent) else {}
    _attach(growth, frame, value)
    if isinstance(value, (list, dict)):
        growth.frames.append(_Frame(value, way))
        if len(growth.frames) > YAML_LEVELS.most:
            _refuse_excess(growth, event, YAML_LEVELS, len(growth.frames), _FLATTEN)


def _open_key(growth: _Growth, frame: _Frame, event: yaml.Event) -> None:
    if not isinstance(event, yaml.ScalarEvent):
        _stop(growth, event, "a list or mapping is used as a key", "write a word before the colon")
        return
    key = event.value
    way = (*frame.way, key)
    if way in growth.keys:
        line, column = growth.spot(event)
        growth.findings.append(
            rules.KEY_DOUBLED.at(
                Place(growth.path, line, column),
                f'"{key}" stands here again, after line {growth.keys[way][0]}',
                "keep one of the two",
            )
        )
    growth.keys.setdefault(way, growth.spot(event))
    frame.key = key


def _way(frame: _Frame | None) -> Way:
    if frame is None:
        return ()
    step = len(frame.into) if isinstance(frame.into, list) else frame.key
    return (*frame.way, step if step is not None else "")


def _attach(growth: _Growth, frame: _Frame | None, value: Tree) -> None:
    if frame is None:
        growth.root = value
    elif isinstance(frame.into, list):
        frame.into.append(value)
    elif frame.key is not None:
        frame.into.setdefault(frame.key, value)
        frame.key = None


def _stop(growth: _Growth, event: yaml.Event, fact: str, cure: str) -> None:
    growth.findings.append(_unreadable(growth, growth.spot(event), fact, cure))
    raise InvalidValueError(fact, cure)


def _refuse_excess(
    growth: _Growth, event: yaml.Event, limit: InputLimit, found: int, cure: str
) -> None:
    place = Place(growth.path, *growth.spot(event))
    growth.findings.append(tell_excess(place, limit, found, cure, "the text up to here"))
    raise InvalidValueError(limit.input, cure)


def _unreadable(growth: _Growth, spot: tuple[int, int], fact: str, cure: str = _CURE) -> Finding:
    return rules.HEADER_UNREADABLE.at(Place(growth.path, *spot), fact, cure)


def _find_spot(error: yaml.MarkedYAMLError, text: str) -> tuple[int, int]:
    """Return line and column from 0; the reader counts on beyond the end of what is unfinished."""
    mark = error.problem_mark or error.context_mark
    last = text.count("\n")
    if mark and mark.line > last:
        return last, len(text) - text.rfind("\n") - 1
    return (mark.line, mark.column) if mark else (0, 0)


def _tell_unreadable(
    growth: _Growth, spot: tuple[int, int], error: yaml.MarkedYAMLError, text: str
) -> Finding:
    """Say what the YAML reader met; it has a limit of its own for brackets in one another."""
    if "nesting" in str(error.problem):
        levels = text.count("[") + text.count("{")
        place = Place(growth.path, *spot)
        return tell_excess(place, YAML_LEVELS, levels, _FLATTEN, "the text up to here")
    return _unreadable(growth, spot, *_explain(error))


def _explain(error: yaml.MarkedYAMLError) -> tuple[str, str]:
    """Say in a coach's words what the YAML reader met, and what to do."""
    said = " ".join(filter(None, (error.context, error.problem)))
    for part, fact, cure in _PROBLEMS:
        if part in said:
            return fact, cure
    return said or "this is no YAML", _CURE
