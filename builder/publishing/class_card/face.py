"""What stands on a class card, as values that a template prints and a proof looks for."""

from dataclasses import dataclass

from builder.course.figure import Figure
from builder.publishing.views.class_view import BlockView, ClassView

Caution = tuple[str, str, tuple[tuple[int, str], ...]]
"""Id, name, and numbered sentences of one person for whom something is changed."""


@dataclass(frozen=True, slots=True)
class NumberLine:
    """A line on which a reading is noted."""

    letter: str
    """That of its measure on this card; empty where the card has only one measure."""
    has_sides: bool


@dataclass(frozen=True, slots=True)
class PersonFace:
    """One person under a lesson."""

    id: str
    name: str
    has_close_look: bool
    marks: str
    """Numbers of what the box of cautions says of this person; empty where nothing is changed."""
    caution_word: str
    """What the marks are about; empty where it has to give way."""
    side: str
    """Which side is first, and how the sets are shared out."""
    rest: str
    """This person's own rest between sets, where it isn't that of the group's dose."""


@dataclass(frozen=True, slots=True)
class GroupFace:
    """A lesson in a block, with those who do it in the same way."""

    title: str
    pace: str
    """That they breathe at their own pace while others count; else empty."""
    position: str
    """How they are placed, where others do this lesson in another position; else empty."""
    dose: str
    look_at: str
    """What to look at; empty where it has been said before or has to give way."""
    figure: Figure | None
    lines: tuple[NumberLine, ...]
    people: tuple[PersonFace, ...]


@dataclass(frozen=True, slots=True)
class BlockFace:
    """A block with its lessons."""

    view: BlockView
    start: str
    """Minutes and seconds since the class began; a plus where a block is spare."""
    props: str
    rows: tuple[tuple[GroupFace, ...], ...]
    """Lessons that stand side by side."""

    @property
    def groups(self) -> tuple[GroupFace, ...]:
        """Return the lessons in the order in which they are read."""
        return tuple(group for row in self.rows for group in row)


@dataclass(frozen=True, slots=True)
class ClassFace:
    """Everything on a class card."""

    view: ClassView
    private_mark: str
    blocks: tuple[BlockFace, ...]
    spare: tuple[BlockFace, ...]
    spare_title: str
    drop_title: str
    props: str
    measures: tuple[tuple[str, str], ...]
    """What is noted in the class: the letter of each measure's lines, and its name."""
    looks: tuple[tuple[str, str], ...]
    """When coaches look closely, and at whom."""
    cautions: tuple[Caution, ...]
    without_figures: str
    """That the card has none, in words; else empty."""
