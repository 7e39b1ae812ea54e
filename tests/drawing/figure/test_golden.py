"""Each base pose as a drawing that a reviewer can look at: open the files in golden/."""

from collections.abc import Callable
from pathlib import Path

import pytest

from builder.course.base_poses import BASE_POSES
from builder.course.figure import BreathPlace, Figure, Stance, View
from builder.drawing.figure.pair import draw_pair

GOLDEN = Path(__file__).parent / "golden"
MATLESS = {"sitting": {"chair": "seat"}, "standing": {}, "squat": {}, "hinge": {}}


@pytest.mark.parametrize("name", sorted(BASE_POSES))
def test_a_base_pose_is_drawn_as_its_golden_file_shows(
    name: str, check_golden: Callable[[Path, str], None]
) -> None:
    base = BASE_POSES[name]
    stance = Stance(name, base.pose, base.contacts)
    props = MATLESS.get(name, {"mat": "under"})
    figure = Figure(View.SIDE, stance, stance, (BreathPlace.BELLY,), props)
    check_golden(GOLDEN / f"{name}.svg", draw_pair(figure, name).svg + "\n")
