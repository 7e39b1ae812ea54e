"""Props in the picture: what is drawn over what."""

import pytest

from builder.course.figure import View
from builder.drawing.figure.paint import Layer
from builder.drawing.figure.stage import look_at, paint_scene, set_scenes


@pytest.mark.parametrize(("hand", "layer"), [("right", Layer.NEAR), ("left", Layer.FAR)])
def test_a_bag_hangs_over_the_near_leg_or_behind_the_far_one(
    make_figure, hand: str, layer: Layer
) -> None:
    scene, _ = set_scenes(make_figure("standing", props={"bag": f"{hand}-hand"}))
    parts = paint_scene(scene, look_at(View.SIDE, 100))
    names = [part.name for part in parts]
    assert {part.layer for part in parts if part.name == "bag"} == {layer}
    leg, bag = names.index(f"{hand}-leg"), names.index("bag")
    assert bag > leg if hand == "right" else bag < leg
