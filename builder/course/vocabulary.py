"""The words a course gives its lessons: positions, props, efforts, conditions, measures."""

from dataclasses import dataclass, field
from enum import StrEnum

EFFORT_MET = (0.8, 12.0)
"""From sleep to a hard run; a drill outside it is a slip of the pen."""


@dataclass(frozen=True, slots=True)
class Position:
    """How the body lies, sits or stands."""

    id: str
    title: str
    term: str
    """The trade's word; empty where the title is the word."""
    rank: int
    """How much the position itself asks; 0 is least."""
    traits: frozenset[str] = frozenset()
    on_floor: bool = False
    balance: int = 0
    """How much it asks of balance; 0 is nothing."""
    pose: str = ""
    """The base pose of its figures; empty where the course names none."""
    family: str = ""
    """Id of the positions among which a class can move without a stop; its own id if none is."""

    def __post_init__(self) -> None:
        if not self.family:
            object.__setattr__(self, "family", self.id)


@dataclass(frozen=True, slots=True)
class Prop:
    """A thing to use, with what a household has instead."""

    id: str
    title: str
    stand_in: str
    """What to use at home; empty where the author gave none."""
    load: int = 0
    """0 none, 1 light, 2 more."""
    traits: frozenset[str] = frozenset()
    class_set: int | None = None
    """How many the studio has; None where nobody counted."""
    on_floor: bool = False
    """It is there to lie or kneel on, and of no use off the floor."""


@dataclass(frozen=True, slots=True)
class PropUse:
    """How many of a prop one person needs."""

    prop: Prop
    count: int


@dataclass(frozen=True, slots=True)
class Effort:
    """How hard a drill is, as a multiple of rest."""

    id: str
    met: float
    edition: str
    """The edition that the MET value comes from; editions differ by up to 0.3 at rest."""
    code: str
    rank: int = 0
    """What it adds to the load axis of demand; 0 is nothing."""


@dataclass(frozen=True, slots=True)
class Condition:
    """What a person may bring that a notice speaks of."""

    id: str
    title: str


class Better(StrEnum):
    """Which way a measure goes as people get on."""

    MORE = "more"
    LESS = "less"
    """As a gap that closes."""
    NONE = "none"
    """Neither: words, or a number that is only noted."""


@dataclass(frozen=True, slots=True)
class Measure:
    """What can be recorded, with its unit."""

    id: str
    title: str
    unit: str
    has_sides: bool = False
    better: Better = Better.MORE


@dataclass(frozen=True, slots=True)
class Strand:
    """A row of lessons that build one thing."""

    id: str
    title: str
    summary: str
    aim: str
    """observe, calm or work."""
    minutes: int
    """The longest that one lesson of it may take."""
    days_a_week: int | None = None
    """How often to practise; None where the course says nothing."""


@dataclass(frozen=True, slots=True)
class Vocabulary:
    """All words of a course, by id."""

    strands: dict[str, Strand] = field(default_factory=dict)
    positions: dict[str, Position] = field(default_factory=dict)
    families: dict[str, str] = field(default_factory=dict)
    """Title of every family of positions, from the least asking to the most."""
    props: dict[str, Prop] = field(default_factory=dict)
    efforts: dict[str, Effort] = field(default_factory=dict)
    conditions: dict[str, Condition] = field(default_factory=dict)
    measures: dict[str, Measure] = field(default_factory=dict)
