"""Properties written as one, taken apart, and names for values put in their place."""

import re
from collections.abc import Iterator, Mapping

_DEEPEST = 24
_LONGEST = 20_000
"""Values that grow beyond these by names in names are not followed."""
_SIDES = ("top", "right", "bottom", "left")
_LOGICAL = {
    "block-start": ("top",),
    "block-end": ("bottom",),
    "block": ("top", "bottom"),
    "inline": ("left", "right"),
    "inline-start": ("left", "right"),
    "inline-end": ("left", "right"),
}
"""Which side a start or an end is depends on the direction; both are judged alike."""
_OTHER_NAMES = {
    "block-size": "height",
    "max-block-size": "max-height",
    "inline-size": "width",
    "max-inline-size": "max-width",
    "min-inline-size": "min-width",
    "-webkit-transform": "transform",
    "-webkit-animation-name": "animation-name",
    "-webkit-animation": "animation",
    "-webkit-opacity": "opacity",
    "-webkit-writing-mode": "writing-mode",
    "-webkit-box-shadow": "box-shadow",
    "grid-row-start": "grid-row",
    "grid-row-end": "grid-row",
    "grid-column-start": "grid-column",
    "grid-column-end": "grid-column",
    "columns": "column-count",
    "word-wrap": "overflow-wrap",
    "offset": "offset-path",
    "-webkit-margin-start": "margin-left",
    "-webkit-margin-end": "margin-left",
    "-webkit-margin-before": "margin-top",
    "-webkit-margin-after": "margin-top",
    "-webkit-backface-visibility": "backface-visibility",
    "-webkit-perspective": "perspective",
    "-webkit-column-count": "column-count",
    "-webkit-columns": "column-count",
    "grid-gap": "gap",
    "row-gap": "gap",
    "column-gap": "gap",
    "grid-row-gap": "gap",
    "grid-column-gap": "gap",
    "list-style-type": "list-style",
    "transition-duration": "transition",
    "transition-delay": "transition",
    "-moz-tab-size": "tab-size",
    **{
        f"border-{corner}-radius": "border-radius"
        for ends in (("top", "bottom"), ("start", "end"))
        for corner in (f"{end}-{side}" for end in ends for side in ("left", "right", *ends))
    },
    "-webkit-order": "order",
    "-webkit-flex-direction": "flex-direction",
}
_VAR = re.compile(r"var\(", re.IGNORECASE)
_SIZE = re.compile(
    r"(?:^|\s)((?:[\d.]+(?:px|pt|pc|in|cm|mm|q|r?em|ex|ch|%|vw|vh)|xx-small|x-small|small|medium|"
    r"large|x-large|xx-large|xxx-large|smaller|larger|(?:calc|clamp|min|max)\(.*?\))"
    r")(?:\s*/\s*(\S+))?(?=\s)",
    re.ASCII,
)
_TURNED = re.compile(r"(?:none|running|paused|normal|[\d.]+m?s|0s|\s)+", re.ASCII)


def list_longhands(name: str, value: str) -> Iterator[tuple[str, str]]:
    """Yield the properties that a declaration sets, each with its value."""
    name = _OTHER_NAMES.get(name, name)
    family, _, rest = name.partition("-")
    if family in {"margin", "padding"}:
        yield from _list_sides(family, rest, value)
    elif family == "inset":
        yield from ((side, each) for side, each in _part_sides(rest, value))
    elif name == "font":
        yield from _list_font(value)
    elif name == "background":
        yield from _list_background(value)
    elif name == "animation":
        yield "animation-name", "none" if _TURNED.fullmatch(value) else value
    elif name == "text-decoration":
        yield "text-decoration-line", value
    elif name in {"overflow", "overflow-block"}:
        yield "overflow-y", value.rsplit(maxsplit=1)[-1] if value else value
    elif name == "flex-flow":
        yield "flex-direction", _pick(value, ("row-reverse", "column-reverse", "column"), "row")
    elif family == "border" and (name.endswith("-width") or rest in _WIDE_BORDERS):
        yield "border-width", value
    else:
        yield name, value


_WIDE_BORDERS = frozenset({"", "top", "right", "bottom", "left", "block", "inline"}) | frozenset(
    f"{way}-{end}" for way in ("block", "inline") for end in ("start", "end")
)


class Names:
    """What names (custom properties) stand for, each worked out once."""

    def __init__(self, written: Mapping[str, str]) -> None:
        self._written = written
        self._known: dict[str, str | None] = {}

    def look_up(self, name: str, depth: int = 0) -> str | None:
        """Return the value of a name; None where it has none, or stands for itself."""
        if name not in self._known:
            self._known[name] = None  # as long as it isn't known, it is in itself
            value = self._written.get(name)
            if value is not None and depth <= _DEEPEST:
                self._known[name] = self.put(value, depth + 1)
        return self._known[name]

    def put(self, value: str, depth: int = 0) -> str | None:
        """Put the values of names (``var``) into a value; None where one is missing."""
        while (found := _VAR.search(value)) is not None:
            end = _find_end(value, found.end())
            name, comma, instead = value[found.end() : end].partition(",")
            put = self.look_up(name.strip(), depth)
            if put is None and comma and depth <= _DEEPEST:
                put = self.put(instead, depth + 1)
            if put is None:
                return None
            value = f"{value[: found.start()]}{put}{value[end + 1 :]}"
            if len(value) > _LONGEST:
                return None
        return " ".join(value.split())


def _find_end(text: str, start: int) -> int:
    """Return where the bracket that is open at a place is closed."""
    depth = 1
    for place in range(start, len(text)):
        depth += {"(": 1, ")": -1}.get(text[place], 0)
        if depth == 0:
            return place
    return len(text)


def _list_sides(family: str, rest: str, value: str) -> Iterator[tuple[str, str]]:
    for side, each in _part_sides(rest, value):
        yield f"{family}-{side}", each


def _part_sides(rest: str, value: str) -> Iterator[tuple[str, str]]:
    """Yield sides with their values: of one side, of a pair, or of all four."""
    parts = [value] if "(" in value else value.split() or [value]
    if not rest:
        count = len(parts)
        if count <= 4:
            picks = (0, min(1, count - 1), 2 if count > 2 else 0)
            chosen = (*picks, 3 if count > 3 else picks[1])
            yield from zip(_SIDES, (parts[pick] for pick in chosen), strict=True)
        else:
            yield from ((side, value) for side in _SIDES)
        return
    sides = _LOGICAL.get(rest, (rest,))
    for number, side in enumerate(sides):
        yield side, parts[min(number, len(parts) - 1)] if len(sides) > 1 else value


def _list_font(value: str) -> Iterator[tuple[str, str]]:
    if value in {"inherit", "initial", "unset", "revert"}:
        for name in ("font-size", "line-height", "font-family"):
            yield name, value
        return
    found = _SIZE.search(f" {value}")
    yield "font-size", found[1] if found else "unknown"
    yield "line-height", (found[2] or "normal") if found else "normal"
    yield "font-family", value[found.end() - 1 :].strip() if found else "unknown"


def _list_background(value: str) -> Iterator[tuple[str, str]]:
    yield "background-color", value
    yield "background-image", "none" if _is_without_picture(value) else value
    yield "background-clip", "text" if re.search(r"\btext\b", value) else "border-box"


def _is_without_picture(value: str) -> bool:
    return not re.search(r"url\(|gradient\(|image|element\(|cross-fade|paint\(|src\(", value)


def _pick(value: str, words: tuple[str, ...], otherwise: str) -> str:
    return next((word for word in words if word in value.split()), otherwise)
