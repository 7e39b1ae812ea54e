"""What an element looks like, worked out from the rules that it falls under."""

from collections.abc import Mapping
from dataclasses import dataclass

from builder.publishing.proof.safety.sighting import Lack
from builder.publishing.proof.safety.styles.harmless import HARMLESS
from builder.publishing.proof.safety.styles.judged import WORKED_OUT
from builder.publishing.proof.safety.styles.lengths import Letter, read_length
from builder.publishing.proof.safety.styles.letter_sizes import MEDIUM_PX, OWN_SIZES, read_size
from builder.publishing.proof.safety.styles.longhands import Names, list_longhands
from builder.publishing.proof.safety.styles.paints import (
    BLACK,
    CLEAR,
    Paint,
    read_ground,
    read_paint,
)
from builder.publishing.proof.safety.styles.plain import INHERITED, JUDGES, tell_lack
from builder.publishing.proof.safety.styles.sheets import Declaration

_LINK = Paint(0, 0, 238 / 255)
_UNKNOWN_LACKS = {"color": Lack.PALE, "font-size": Lack.SMALL, "background-color": Lack.PALE}
_SIDES = ("margin-left", "margin-right", "padding-left", "padding-right")
_MOST_SIDES_PX = 240.0
"""What may stand beside words on both sides together, in whatever boxes; ours."""
_SCREEN_PX = 320.0
"""The narrowest screen: WCAG 2.2, 1.4.10 Reflow."""
_SCROLLING = frozenset({"visible", "auto", "scroll"})


@dataclass(frozen=True, slots=True, eq=False)
class Style:
    """The looks of an element, with those of what it stands in."""

    parent: "Style | None"
    names: Mapping[str, str]
    """What names (custom properties) stand for."""
    inherited: Mapping[str, str]
    """What is taken over by elements in this one, as it is written."""
    font_px: float
    root_px: float
    colour: Paint | None
    fill: Paint | None
    """What letters are filled with where it isn't their colour."""
    ground: Paint | None
    opacity: float
    is_visible: bool
    family: str
    side_px: float
    """What its boxes leave free beside its words, at both sides."""
    lack: Lack | None
    """What its words lack by this element's looks or by those of what it stands in."""

    @property
    def letters(self) -> Paint | None:
        """The colour of its letters; None where it isn't understood."""
        return self.fill if self.fill is not None else self.colour


@dataclass(frozen=True, slots=True)
class Kind:
    """What a browser's own rules ask of an element."""

    tag: str
    is_link: bool


@dataclass(frozen=True, slots=True)
class Given:
    """A declaration for an element, and whether it is the tool's or the theme's own."""

    declaration: Declaration
    is_ours: bool


def compute_style(parent: Style | None, kind: Kind, given: tuple[Given, ...]) -> Style:
    """Work out an element's looks from its declarations, the winning ones last."""
    names = _settle_names(parent, given)
    values, lack = _settle_values(names, given)
    return _Looks(parent, kind, names, values, lack).settle()


def _settle_names(parent: Style | None, given: tuple[Given, ...]) -> Mapping[str, str]:
    above = parent.names if parent is not None else {}
    each_own = (each.declaration for each in given if each.declaration.name.startswith("--"))
    own = {each.name: each.value for each in each_own}
    if not own:
        return above
    kept = {name: value for name, value in own.items() if value.lower() != "inherit"}
    raw = {**above, **kept}
    written = Names(raw)
    settled = {name: written.look_up(name) for name in kept}
    known = {name: value for name, value in settled.items() if value is not None}
    return {**{name: value for name, value in above.items() if name not in settled}, **known}


def _settle_values(
    names: Mapping[str, str], given: tuple[Given, ...]
) -> tuple[dict[str, str], Lack | None]:
    """Return the winning value of each property, and what the odd ones among others' bring."""
    values: dict[str, str] = {}
    lack: Lack | None = None
    written = Names(names)
    for item in given:
        each, is_ours = item.declaration, item.is_ours
        if each.name.startswith("--"):
            continue
        value = written.put(each.value) if "var(" in each.value.lower() else each.value
        value = "unset" if value is None else value.lower()
        for name, part in list_longhands(each.name, value):
            if name in JUDGES or name in WORKED_OUT:
                values[name] = part
            elif not is_ours and name not in HARMLESS:
                lack = Lack.HIDDEN
    return values, lack


class _Looks:
    """Works one element's looks out."""

    def __init__(
        self,
        parent: Style | None,
        kind: Kind,
        names: Mapping[str, str],
        values: dict[str, str],
        lack: Lack | None,
    ) -> None:
        self.parent, self.kind, self.names, self.values = parent, kind, names, values
        self.lacks = [each for each in (parent.lack if parent else None, lack) if each]

    def settle(self) -> Style:
        """Return the looks."""
        parent, _values = self.parent, self.values
        font = self._find_size()
        self.letter = Letter(font, parent.root_px if parent else font)
        inherited = self._find_inherited()
        self._judge_own()
        colour = self._find_colour()
        opacity = self._find_opacity()
        ground = self._find_ground(colour)
        is_visible = self._find_visible()
        return Style(
            parent,
            self.names,
            inherited,
            font,
            self.letter.root_px,
            colour,
            self._find_fill(colour),
            ground,
            opacity,
            is_visible,
            self._take("font-family") or (parent.family if parent else ""),
            self._add_sides(),
            self.lacks[0] if self.lacks else None,
        )

    def _take(self, name: str, *, is_inherited: bool = True) -> str | None:
        """Return a value of the element's own; None where it takes what it stands in or nothing."""
        value = self.values.get(name)
        if value == "inherit" or (value == "unset" and is_inherited):
            return None
        return "initial" if value == "unset" else value

    def _find_size(self) -> float:
        above = self.parent.font_px if self.parent else MEDIUM_PX
        value = self._take("font-size")
        if value is None and "font-size" not in self.values:
            value = OWN_SIZES.get(self.kind.tag)
        root = self.parent.root_px if self.parent else MEDIUM_PX
        return read_size(value, above, root) if value else above

    def _find_inherited(self) -> Mapping[str, str]:
        """Judge what is inherited where it ends up: at each element anew."""
        above = self.parent.inherited if self.parent else {}
        own = {name: value for name, value in self.values.items() if name in INHERITED}
        kept = {**above}
        for name, value in own.items():
            if value == "initial":
                kept.pop(name, None)
            elif value not in {"inherit", "unset"}:
                kept[name] = self._freeze(name, value)
        return kept if own else above

    def _freeze(self, name: str, value: str) -> str:
        """Write an inherited length as it is taken over: worked out where it was set."""
        if name == "line-height" and value.replace(".", "", 1).isdigit():
            return value
        share = {"line-height": self.letter.em_px}.get(name)
        length = read_length(value, Letter(self.letter.em_px, self.letter.root_px, share))
        return value if length is None else f"{length:g}px"

    def _judge_own(self) -> None:
        for name, value in self.values.items():
            is_set = name in JUDGES and name not in INHERITED
            is_own = is_set and value not in {"initial", "unset", "inherit"}
            if is_own and not JUDGES[name](value, self.letter):
                self.lacks.append(tell_lack(name))
        if "all" in self.values:
            self.lacks.append(Lack.HIDDEN)
        self._judge_overflow()

    def _add_sides(self) -> float:
        values = (self.values.get(name, "0") for name in _SIDES)
        letter = Letter(self.letter.em_px, self.letter.root_px, _SCREEN_PX)
        own = sum(read_length(value, letter) or 0.0 for value in values)
        return own + (self.parent.side_px if self.parent else 0.0)

    def _judge_overflow(self) -> None:
        """Refuse a page that can't be scrolled, and a box of a height that cuts words off."""
        overflow = self.values.get("overflow-y", "visible")
        is_cut = overflow not in _SCROLLING
        is_low = any(
            self.values.get(name, "auto") not in {"auto", "none", "initial", "unset"}
            for name in ("height", "max-height")
        )
        if is_cut and (is_low or self.kind.tag in {"html", "body"}):
            self.lacks.append(Lack.HIDDEN)

    def _find_colour(self) -> Paint | None:
        above = self.parent.colour if self.parent else BLACK
        value = self._take("color")
        if value is None:
            return _LINK if self.kind.is_link and "color" not in self.values else above
        return BLACK if value == "initial" else read_paint(value, above)

    def _find_fill(self, colour: Paint | None) -> Paint | None:
        value = self._take("-webkit-text-fill-color")
        if value is None:
            return self.parent.fill if self.parent else None
        if value in {"initial", "currentcolor"}:
            return None
        found = read_paint(value, colour)
        if found is None:
            self.lacks.append(Lack.PALE)
        return found

    def _find_opacity(self) -> float:
        value = self._take("opacity", is_inherited=False)
        if value is None:
            is_taken = self.values.get("opacity") == "inherit" and self.parent is not None
            return self.parent.opacity if is_taken and self.parent else 1.0
        if value == "initial":
            return 1.0
        try:
            number = float(value[:-1]) / 100 if value.endswith("%") else float(value)
        except ValueError:
            number = 0.0
        return max(0.0, min(1.0, number))

    def _find_ground(self, colour: Paint | None) -> Paint | None:
        """Return the ground that the element paints; None where it isn't understood."""
        if self.values.get("background-image", "none") not in {"none", "initial", "unset"}:
            return None
        value = self._take("background-color", is_inherited=False)
        if value is None or value in {"none", "initial"}:
            return CLEAR
        return read_ground(value, colour)

    def _find_visible(self) -> bool:
        value = self._take("visibility")
        if value is None:
            return self.parent.is_visible if self.parent else True
        return value in {"visible", "initial"}


def find_words_lack(style: Style) -> Lack | None:
    """Return what words in an element lack by its looks, colours and sizes aside."""
    if style.lack is not None:
        return style.lack
    if not style.is_visible:
        return Lack.HIDDEN
    if style.side_px > _MOST_SIDES_PX:
        return Lack.OUTSIDE
    letter = Letter(style.font_px, style.root_px)
    for name, value in style.inherited.items():
        if not JUDGES[name](value, letter):
            return tell_lack(name)
    return None
