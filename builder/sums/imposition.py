"""Imposition: cards on a sheet to cut, so that backs meet their fronts."""

from dataclasses import dataclass

from builder.sums.paper import Paper

_SLACK_MM = 0.01
"""Two halves of a sheet fill it, whatever their decimals add up to."""
_EDGE_MM = 0.25
"""Nobody cuts off less than this."""


@dataclass(frozen=True, slots=True)
class Cell:
    """A card's place on a sheet: its lower left corner in millimetres from the sheet's."""

    left_mm: float
    bottom_mm: float


@dataclass(frozen=True, slots=True)
class Imposition:
    """How cards lie on an upright sheet."""

    sheet: Paper
    columns: int
    rows: int
    is_turned: bool
    """Whether cards lie on their side, their head to the left on the front."""
    cell_width_mm: float
    cell_height_mm: float

    @property
    def count(self) -> int:
        """Return how many cards a sheet holds."""
        return self.columns * self.rows

    @property
    def left_mm(self) -> float:
        """Return the white to the left of the cards, and to their right."""
        return (self.sheet.width_mm - self.columns * self.cell_width_mm) / 2

    @property
    def bottom_mm(self) -> float:
        """Return the white under the cards, and over them."""
        return (self.sheet.height_mm - self.rows * self.cell_height_mm) / 2

    @property
    def fronts(self) -> tuple[Cell, ...]:
        """Return the cells in reading order: from the top left."""
        return tuple(
            Cell(
                self.left_mm + column * self.cell_width_mm,
                self.bottom_mm + row * self.cell_height_mm,
            )
            for row in reversed(range(self.rows))
            for column in range(self.columns)
        )

    @property
    def cuts_mm(self) -> tuple[tuple[float, ...], tuple[float, ...]]:
        """Return where to cut, upright and level, the sheet's own edges left out."""
        return (
            _inside(self.left_mm, self.cell_width_mm, self.columns, self.sheet.width_mm),
            _inside(self.bottom_mm, self.cell_height_mm, self.rows, self.sheet.height_mm),
        )

    @property
    def backs(self) -> tuple[Cell, ...]:
        """Return the cells of the backs, in the order of the fronts.

        A sheet flipped on its long edge turns about its upright middle line, so left and right
        change places and top stays top.
        """
        width = self.sheet.width_mm - self.cell_width_mm
        return tuple(Cell(width - cell.left_mm, cell.bottom_mm) for cell in self.fronts)


def impose(card: Paper, sheet: Paper) -> Imposition:
    """Lay out as many cards as an upright sheet holds, upright if that holds as many."""
    upright = _count(card.width_mm, card.height_mm, sheet)
    turned = _count(card.height_mm, card.width_mm, sheet)
    if turned[0] * turned[1] > upright[0] * upright[1]:
        return Imposition(sheet, *turned, True, card.height_mm, card.width_mm)
    return Imposition(sheet, *upright, False, card.width_mm, card.height_mm)


def _inside(start: float, step: float, count: int, length: float) -> tuple[float, ...]:
    lines = (start + step * index for index in range(count + 1))
    return tuple(line for line in lines if _EDGE_MM < line < length - _EDGE_MM)


def _count(width_mm: float, height_mm: float, sheet: Paper) -> tuple[int, int]:
    columns = int((sheet.width_mm + _SLACK_MM) // width_mm)
    return columns, int((sheet.height_mm + _SLACK_MM) // height_mm)
