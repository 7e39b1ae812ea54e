"""Traits: what a drill asks that a caution may speak of."""

from collections.abc import Iterable
from dataclasses import dataclass

from builder.course.lesson import Drill
from builder.course.vocabulary import Position, PropUse

SLOW_RATE_PER_MINUTE = 10.0
"""Slow breathing is 4 to 10 breaths a minute (Russo, Santarelli, O'Rourke 2017)."""
BRISK_RATE_PER_MINUTE = 20.0
"""Above the resting adult's 12 to 20 (Royal College of Physicians, NEWS2, 2017)."""


@dataclass(frozen=True, slots=True)
class Trait:
    """One trait, and whether a lesson with it must carry a notice."""

    id: str
    title: str
    needs_notice: bool = True


TRAITS = {
    trait.id: trait
    for trait in (
        Trait("breath-hold", "holding the breath"),
        Trait("slow-breathing", "slow breathing"),
        Trait("brisk-breathing", "brisk breathing"),
        Trait("prone", "lying face down"),
        Trait("supine", "lying on the back"),
        Trait("side-lying", "lying on the side", needs_notice=False),
        Trait("floor-transfer", "getting down to the floor and up"),
        Trait("wrist-load", "weight on the wrists"),
        Trait("knee-load", "weight on the knees"),
        Trait("trunk-flexion", "bending the trunk"),
        Trait("trunk-rotation", "turning the trunk"),
        Trait("load", "working against a load"),
        Trait("band-tension", "a band under tension"),
        Trait("hand-resistance", "pressing with one's own hand"),
        Trait("bracing", "bracing the belly"),
        Trait("full-exhale", "breathing out further than usual"),
        Trait("balance", "keeping one's balance"),
        Trait("hands-on", "a coach's hands on the body"),
        Trait("moving-limbs", "moving limbs", needs_notice=False),
    )
}
"""Traits that the tool knows; a course may name more of its own."""


def find_traits(drill: Drill) -> frozenset[str]:
    """Work out every trait of a drill, those that its author named included."""
    facts = {
        "breath-hold": drill.tempo is not None and drill.tempo.has_breath_hold,
        "slow-breathing": _is_slow(drill),
        "brisk-breathing": _is_brisk(drill),
        "moving-limbs": bool(drill.moving),
    }
    worked_out = frozenset(name for name, holds in facts.items() if holds)
    return drill.named_traits | find_place_traits(drill.position, drill.props) | worked_out


def find_place_traits(position: Position, props: Iterable[PropUse]) -> frozenset[str]:
    """Work out the traits of a position and of props, whatever is done there."""
    used = [use.prop for use in props]
    facts = {
        "floor-transfer": position.on_floor,
        "load": any(prop.load for prop in used),
        "balance": position.balance > 0,
    }
    own = (name for name, holds in facts.items() if holds)
    return position.traits.union(own, *(prop.traits for prop in used))


def is_loaded(drill: Drill) -> bool:
    """Tell whether a drill works against a load or asks for more than gentle effort."""
    return "load" in find_traits(drill) or drill.effort.rank > 0


def _is_slow(drill: Drill) -> bool:
    return drill.tempo is not None and 60 / drill.tempo.cycle_seconds <= SLOW_RATE_PER_MINUTE


def _is_brisk(drill: Drill) -> bool:
    return drill.tempo is not None and 60 / drill.tempo.cycle_seconds > BRISK_RATE_PER_MINUTE
