"""Where the outer faces of a house look."""

from __future__ import annotations

import math

import pytest

from seamwright.io.plan import builtin_house, read_plan
from seamwright.schedule.outer_faces import outer_faces
from seamwright.shell.build import build_shell


def test_a_gable_house_looks_six_ways() -> None:
    """The first built-in house has four walls and two slopes, each found once."""
    shell = build_shell(read_plan(builtin_house("first_house"), name="first_house").plan)
    faces = outer_faces(shell)
    walls = [f for f in faces if f.tilt == pytest.approx(math.pi / 2)]
    roofs = [f for f in faces if 0.1 < f.tilt < 1.2]
    assert len(faces) == len(walls) + len(roofs)
    assert sorted(round(math.degrees(f.azimuth)) for f in walls) == [0, 90, 180, 270]
    assert len(roofs) == 2
    turned = abs(roofs[0].azimuth - roofs[1].azimuth)
    assert turned == pytest.approx(math.pi)
    assert len({f.id for f in faces}) == len(faces)
