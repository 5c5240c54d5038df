"""No ray from inside a closed house escapes, and one does where a panel is missing."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests.rays import directions, distance_to_ray, escaping
from tests.samples import HEIGHT, LENGTH, WIDTH, gable_box

from seamwright.io.plan import builtin_house, read_plan
from seamwright.joints.register import build_register
from seamwright.shell.build import build_shell

MIDDLE = (LENGTH / 2 + 0.11, WIDTH / 2 + 0.07, HEIGHT / 2)


def test_no_ray_escapes_the_sample_house() -> None:
    """The hand-made house closes to the width of its seams."""
    assert len(escaping(gable_box(), MIDDLE, directions(20_000), slack=0.005)) == 0


def test_rays_escape_where_a_panel_is_missing() -> None:
    """Without one roof panel the sky shows, and only there."""
    shell = gable_box()
    panels = tuple(panel for panel in shell.panels if panel.id != "R1.2")
    ways = escaping(replace(shell, panels=panels), MIDDLE, directions(20_000), slack=0.005)
    assert len(ways) > 1_000
    assert (ways[:, 2] > 0).all()
    assert (ways[:, 0] > -0.2).all()


@pytest.mark.parametrize(
    ("house", "start"),
    [
        ("first_house", (2.49, 1.86, 1.24)),
        ("cypress_house", (4.85, 3.63, 2.14)),
        ("cypress_house", (4.85, 3.63, 5.0)),
        ("heron_house", (5.74, 1.05, 1.24)),
        ("heron_house", (2.79, 8.26, 1.24)),
    ],
)
def test_rays_escape_a_built_in_house_only_through_joints_of_the_register(
    house: str, start: tuple[float, float, float]
) -> None:
    """What slips between panels (past a deck's edge, round a wall's end) slips through a joint."""
    shell = build_shell(read_plan(builtin_house(house)).plan)
    joints = build_register(shell).joints
    segments = np.array([(j.line.start, j.line.end) for j in joints if j.kind != "penetration"])
    ways = escaping(shell, start, directions(5_000), slack=0.005)
    assert len(ways) < 20
    assert [w for w in ways if distance_to_ray(start, w, segments) > 0.17] == []
