"""How a sheet is set, and what gives way where room is short."""

from dataclasses import dataclass

from builder.publishing.client_sheet.view import SheetForm


@dataclass(frozen=True, slots=True)
class SheetSetting:
    """One way to set a sheet."""

    form: SheetForm
    points: float
    """The size of its body type."""
    is_tight: bool = False
    """Smaller drawings, and short texts on one line."""

    @property
    def figure_lines(self) -> float:
        """Return how high a pair of figures may be, in letters."""
        if self.form is SheetForm.LARGE:
            return 11.0
        return 5.0 if self.is_tight else 7.0

    @property
    def plot_lines(self) -> float:
        """Return how high the plot of a chart is, in letters."""
        return 3.6 if self.is_tight or self.form is SheetForm.LARGE else 5.5


LARGE = SheetSetting(SheetForm.LARGE, 18.0)
ROOMY = SheetSetting(SheetForm.REGULAR, 10.5)
_TIGHT = tuple(
    SheetSetting(SheetForm.REGULAR, points, is_tight=True) for points in (10.5, 10.0, 9.5, 9.0)
)
SETTINGS = ((1, (ROOMY, *_TIGHT[:3])), (2, (ROOMY, *_TIGHT)))
"""Most pages, and what gives way for them in turn: one page, unless its type would be small (ours);
else one leaf, printed on both sides."""
MOST_EMPTY_SHARE = 0.25
"""How much of the first page may be empty at its end, as a part of its height (ours)."""
TYPE_FOR_A_BREAK = 0.5
"""How many points of type are given for a fuller first page (ours)."""
END_MARK = "end-"
"""What the ids of marks behind lessons and other parts begin with, as the template has them."""
