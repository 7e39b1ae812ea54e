"""The fit: type shrinks before a figure does."""

from builder.publishing.cards.fit import list_settings
from builder.sums.paper import PAPERS


def test_a_figure_gives_way_only_at_the_smallest_type_of_all() -> None:
    for paper in PAPERS.values():
        *others, last = list_settings(paper)
        assert last.has_small_figure
        assert last.points == paper.floor_points
        assert not any(setting.has_small_figure for setting in others)
        assert min(setting.points for setting in others) == last.points
