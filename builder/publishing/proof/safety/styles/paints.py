"""Colours of style sheets, and what is seen where they lie over each other."""

from dataclasses import dataclass

from tinycss2 import parse_component_value_list  # type: ignore[import-untyped]
from tinycss2.ast import Node  # type: ignore[import-untyped]
from tinycss2.color4 import parse_color  # type: ignore[import-untyped]

from builder.sums.contrast import contrast_ratio


@dataclass(frozen=True, slots=True)
class Paint:
    """A colour, each part from 0 to 1."""

    red: float
    green: float
    blue: float
    alpha: float = 1.0

    def over(self, ground: "Paint") -> "Paint":
        """Return what is seen where this lies over a ground (W3C, Compositing 1, source-over)."""
        alpha = self.alpha + ground.alpha * (1 - self.alpha)
        if alpha == 0:
            return CLEAR
        mine, its = self.alpha / alpha, ground.alpha * (1 - self.alpha) / alpha
        return Paint(
            self.red * mine + ground.red * its,
            self.green * mine + ground.green * its,
            self.blue * mine + ground.blue * its,
            alpha,
        )

    def fade(self, share: float) -> "Paint":
        """Return this colour with less of it."""
        return Paint(self.red, self.green, self.blue, self.alpha * share)

    def to_hex(self) -> str:
        """Write the colour without its alpha as ``#rrggbb``."""
        return "#" + "".join(
            f"{round(min(1.0, max(0.0, part)) * 255):02x}"
            for part in (self.red, self.green, self.blue)
        )


_PLACING = frozenset(
    {"none", "repeat", "no-repeat", "repeat-x", "repeat-y", "space", "round", "scroll", "fixed"}
    | {"local", "center", "top", "right", "bottom", "left", "cover", "contain", "auto"}
    | {"border-box", "padding-box", "content-box", "initial"}
)
CLEAR = Paint(0, 0, 0, 0)
BLACK = Paint(0, 0, 0)
WHITE = Paint(1, 1, 1)


def compare_paints(letters: Paint, ground: Paint) -> float:
    """Return the contrast of two colours that let nothing through."""
    return contrast_ratio(letters.to_hex(), ground.to_hex())


def read_paint(text: str, current: Paint | None = None) -> Paint | None:
    """Read a colour, or give None where it isn't understood."""
    tokens = _drop_spaces(parse_component_value_list(text, skip_comments=True))
    return _read(tokens[0], current) if len(tokens) == 1 else None


def read_ground(text: str, current: Paint | None = None) -> Paint | None:
    """Read the colour in a background of several parts; None where a part isn't understood."""
    tokens = _drop_spaces(parse_component_value_list(text, skip_comments=True))
    paints = [paint for paint in (_read(token, current) for token in tokens) if paint is not None]
    others = [token for token in tokens if _read(token, current) is None]
    if len(paints) > 1 or not all(_is_placing(token) for token in others):
        return None
    return paints[0] if paints else CLEAR


def _is_placing(token: Node) -> bool:
    """Tell whether a part of a background says where, not what."""
    if token.type == "ident":
        return token.lower_value in _PLACING
    is_slash = token.type == "literal" and token.value == "/"
    return is_slash or token.type in {"number", "dimension", "percentage"}


def _read(token: Node, current: Paint | None) -> Paint | None:
    if token.type == "function" and token.lower_name == "color-mix":
        return _mix(token.arguments, current)
    found = parse_color(token)
    if found is None:
        return None
    if found == "currentcolor":
        return current
    red, green, blue = (0.0 if part is None else part for part in found.to("srgb").coordinates)
    return Paint(red, green, blue, found.alpha)


def _mix(tokens: list[Node], current: Paint | None) -> Paint | None:
    """Mix two colours in sRGB, by the shares and the rule of W3C, CSS Color 5, 3.1."""
    parts: list[list[Node]] = [[]]
    for token in _drop_spaces(tokens):
        if token.type == "literal" and token.value == ",":
            parts.append([])
        else:
            parts[-1].append(token)
    space = [getattr(token, "lower_value", "") for token in parts[0]]
    if len(parts) != 3 or space != ["in", "srgb"]:
        return None
    first, second = (_read_part(part, current) for part in parts[1:])
    if first is None or second is None:
        return None
    share, other = first[1], second[1]
    if share is None:
        share = 0.5 if other is None else 1 - other
    other = 1 - share if other is None else other
    if share + other <= 0:
        return None
    return _mix_paints(first[0], second[0], share / (share + other), min(1.0, share + other))


def _read_part(tokens: list[Node], current: Paint | None) -> tuple[Paint, float | None] | None:
    shares = [token for token in tokens if token.type == "percentage"]
    colours = [token for token in tokens if token.type != "percentage"]
    paint = _read(colours[0], current) if len(colours) == 1 else None
    if paint is None or len(shares) > 1:
        return None
    return paint, shares[0].value / 100 if shares else None


def _mix_paints(first: Paint, second: Paint, share: float, whole: float) -> Paint:
    mine, its = first.alpha * share, second.alpha * (1 - share)
    alpha = mine + its
    if alpha == 0:
        return CLEAR
    return Paint(
        (first.red * mine + second.red * its) / alpha,
        (first.green * mine + second.green * its) / alpha,
        (first.blue * mine + second.blue * its) / alpha,
        alpha * whole,
    )


def _drop_spaces(tokens: list[Node]) -> list[Node]:
    return [token for token in tokens if token.type not in {"whitespace", "comment"}]
