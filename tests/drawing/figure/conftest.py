"""Figures made from base poses, with what each breath changes."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from builder.course.base_poses import BASE_POSES
from builder.course.figure import BreathPlace, Figure, Stance, View
from builder.course.pose import Shape

MakeFigure = Callable[..., Figure]


@pytest.fixture(scope="session")
def make_figure() -> MakeFigure:
    """Make a figure: a base pose, hands, breath, and parts that the exhale changes."""

    def make(
        base: str = "back-knees-bent",
        breath: tuple[str, ...] = (),
        hands: dict[str, str] | None = None,
        props: dict[str, str] | None = None,
        view: View = View.SIDE,
        **exhale: object,
    ) -> Figure:
        pose = BASE_POSES[base]
        contacts = replace(pose.contacts, hands={**pose.contacts.hands, **(hands or {})})
        full = Shape(**dict.fromkeys(breath, 1.0))
        return Figure(
            view,
            Stance(base, replace(pose.pose, shape=full), contacts),
            Stance(base, replace(pose.pose, **exhale), contacts),
            tuple(map(BreathPlace, breath)),
            props or {},
        )

    return make
