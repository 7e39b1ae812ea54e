"""How the eight invented clients come, learn and measure; all of it made up (ours)."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

QUICK = {"RR": 5, "ARR": 3, "RARR": 1}
STEADY = {"RR": 2, "ARR": 4, "RARR": 2, "AARR": 1, "EARR": 1}
SLOW = {"ARR": 3, "AARR": 3, "RARR": 2, "EARR": 2, "AARARR": 1}
"""How a lesson may go until it is known, with weights. R ready, A again, E easier."""

Readings = tuple[str | None, ...]
"""One for each retest; None where nobody looked."""


@dataclass(frozen=True, slots=True)
class Habit:
    """One client."""

    known: str
    floor: str
    kneel: str
    weekdays: tuple[int, ...]
    """Monday is 0."""
    misses: float
    """The share of classes that they miss."""
    pace: Mapping[str, int]
    way: tuple[str, ...]
    """What they work on, the first that are open first."""
    runs: Mapping[str, str] = field(default_factory=dict)
    """Lessons that went in a way of their own."""
    last_day: date = date(2026, 11, 22)
    focus: int = 2
    """How many lessons they work on in an hour."""
    not_for: frozenset[str] = frozenset()
    """Traits that the coach keeps from them beyond what the course forbids."""
    seldom: frozenset[str] = frozenset()
    """Traits of lessons that they don't repeat once they are known."""
    sitting: Readings = ()
    lying: Readings = ()
    ribs: Readings = ()
    holds: tuple[tuple[int, int, int], ...] = ()
    expansion: Readings = ()
    reach: tuple[tuple[int, int], ...] = ()
    """Left and right, for each retest from the first in which they do that lesson."""
    cycles: tuple[int, ...] = ()
    """The longest easy breath, for each time on the ladder."""
    notes: Mapping[tuple[str, int], str] = field(default_factory=dict)
    """What the coach noted, by lesson and number of the retest from 0."""


TUESDAY, THURSDAY, SATURDAY = 1, 3, 5
HABITS = {
    "C1": Habit(
        *("breath", "chair", "yes"),
        weekdays=(TUESDAY,),
        misses=0.1,
        pace=STEADY,
        way=("side-lying-breath", "even-count", "sitting-breath", "standing-breath"),
        runs={"even-count": "RR"},
        not_for=frozenset({"breath-hold", "prone", "bracing", "load", "hand-resistance"}),
        seldom=frozenset({"supine", "side-lying"}),
        sitting=("both", None, "belly", None, "both"),
        ribs=("even", "even", None, "even"),
        notes={
            ("even-count", 0): "in a chair, not on the back",
            ("hands-check-sitting", 4): "sits higher, on a folded blanket",
        },
    ),
    "C2": Habit(
        *("breath", "easy", "yes"),
        weekdays=(TUESDAY, SATURDAY),
        misses=0.1,
        pace=STEADY,
        way=(
            *("even-count", "tail-tuck", "side-lying-breath", "deep-belly-feel", "long-exhale"),
            *("tuck-and-all-round", "sitting-breath", "tempo-ladder", "brace-and-breathe"),
            *("ball-on-belly", "ball-hold"),
        ),
        runs={
            "tail-tuck": "RR",
            "deep-belly-feel": "ARR",
            "tuck-and-all-round": "ARR",
            "brace-and-breathe": "AEERARR",
            "tempo-ladder": "RARR",
        },
        not_for=frozenset({"breath-hold"}),
        sitting=("chest", None, "both", None, "belly"),
        lying=("belly", None, None, None, "belly"),
        ribs=("even", None, "even"),
        expansion=("4.1", None, "4.4", None, "5.2"),
        cycles=(12, 12, 13, 13, 13, 14),
    ),
    "C3": Habit(
        *("breath", "chair", "no"),
        weekdays=(TUESDAY, THURSDAY),
        misses=0.1,
        pace=SLOW,
        way=(
            *("full-exhale", "even-count", "side-lying-breath", "sitting-breath", "tail-tuck"),
            *("standing-breath", "long-exhale"),
        ),
        runs={"tail-tuck": "ARAEAAAA", "sitting-breath": "ARR"},
        not_for=frozenset({"trunk-flexion", "trunk-rotation", "hand-resistance", "knee-load"}),
        sitting=("both", None, "both", None, "belly"),
        lying=("belly", None, "belly"),
        ribs=("even", None, None, "even"),
        holds=((13, 14, 14), (12, 14, 15), (13, 13, 14), (14, 13, 15), (13, 15, 14)),
        expansion=("3.4", None, "3.6", None, "3.5"),
    ),
    "C4": Habit(
        *("breath", "easy", "yes"),
        weekdays=(TUESDAY, SATURDAY),
        misses=0,
        pace=STEADY,
        way=("even-count", "side-lying-breath", "tail-tuck", "long-exhale", "deep-belly-feel"),
        runs={"even-count": "RR", "tail-tuck": "ARR"},
        last_day=date(2026, 10, 3),
        sitting=("chest", "both"),
        lying=("both", "belly"),
        ribs=("even",),
        holds=((17, 19, 18), (18, 18, 20)),
        notes={("hands-check-lying", 1): "before supper"},
    ),
    "C5": Habit(
        *("new", "easy", "yes"),
        weekdays=(TUESDAY, THURSDAY, SATURDAY),
        misses=0.35,
        pace=SLOW,
        way=(
            *("belly-breath", "side-rib-breath", "weak-side-breath", "back-rib-breath"),
            *("all-round-breath", "belly-then-ribs", "full-exhale", "tail-tuck"),
        ),
        runs={"belly-breath": "ARR", "weak-side-breath": "AARR"},
        sitting=("chest", None, "chest", None, "both"),
        lying=("chest", "both", None, "belly"),
        ribs=("right first", "right first", "right first", "even", "even"),
        holds=((9, 10, 10), (10, 10, 11), (10, 11, 12), (11, 12, 13), (12, 13, 14)),
        expansion=("4.6", None, "4.9", None, "5.0"),
    ),
    "C6": Habit(
        *("brace", "easy", "yes"),
        weekdays=(TUESDAY, THURSDAY, SATURDAY),
        misses=0.15,
        pace=QUICK,
        way=(
            *("brace-and-breathe", "even-count", "ball-on-belly", "ball-hold", "short-box"),
            *("ball-squeeze", "one-limb", "box", "side-lying-breath", "diagonal"),
            *("band-press-out", "crocodile", "roll", "no-ball-diagonal", "band-one-leg"),
        ),
        runs={"diagonal": "AERARR", "roll": "EARAARR"},
        focus=3,
        sitting=("belly", None, None, "belly"),
        lying=("belly",),
        ribs=("even", None, "even", None, "even"),
        holds=((35, 38, 37), (37, 39, 41), (33, 36, 37), (36, 40, 38), (35, 37, 39)),
        notes={("comfortable-hold", 2): "slept badly"},
    ),
    "C7": Habit(
        *("brace", "easy", "yes"),
        weekdays=(TUESDAY, THURSDAY, SATURDAY),
        misses=0.2,
        pace=QUICK,
        way=(
            *("side-lying-breath", "even-count", "side-lying-rotation-pulse"),
            *("side-lying-rotation-hold", "brace-and-breathe", "strap-hamstring", "sitting-breath"),
            *("ball-on-belly", "ball-hold", "all-fours-breath", "ball-squeeze", "cat-cow-breath"),
            *("one-limb", "find-neutral", "arm-lift", "leg-press-back"),
        ),
        runs={"side-lying-breath": "RR", "even-count": "RR", "side-lying-rotation-pulse": "RR"},
        focus=3,
        sitting=("belly", None, "belly"),
        lying=("belly",),
        ribs=("even", None, "even"),
        holds=((29, 31, 30), (30, 31, 32), (30, 32, 33), (31, 33, 32), (33, 33, 34)),
        reach=((23, 15), (20, 15), (17, 14), (15, 14), (14, 14)),
        notes={("side-lying-rotation-hold", 0): "left arm on top turns less, so it goes first"},
    ),
    "C8": Habit(
        *("new", "chair", "yes"),
        weekdays=(TUESDAY, SATURDAY),
        misses=0.1,
        pace=STEADY,
        way=(
            *("belly-breath", "side-rib-breath", "back-rib-breath", "all-round-breath"),
            *("belly-then-ribs", "side-lying-breath", "full-exhale", "even-count"),
            *("sitting-breath", "long-exhale"),
        ),
        runs={
            "belly-breath": "RR",
            "side-rib-breath": "ARR",
            "all-round-breath": "RR",
            "belly-then-ribs": "RR",
        },
        sitting=("belly", None, "belly"),
        lying=("belly", None, "belly"),
        ribs=("even", None, None, "even"),
        holds=((12, 11, 12), (12, 12, 13), (11, 12, 12), (12, 13, 13), (12, 13, 12)),
    ),
}
