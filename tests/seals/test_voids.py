"""Foam and dams in the channels of joints."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from tests.hand_joints import (
    ridge_joint,
    roof_seam,
    spline_joint,
)
from tests.hand_seals import plan
from tests.samples import flush_pair, gable_box

from seamwright.shell.types import Penetration


def test_open_channels_are_dammed_at_both_ends() -> None:
    """A seam with a surface, block or I-joist spline has a dam at each end, a solid one none."""
    for spline, dams in (("surface", 2), ("block", 2), ("i_joist", 2), ("lumber", 0)):
        shell, seam = flush_pair(spline=spline), spline_joint(spline=spline)  # type: ignore[arg-type]
        found = [d.why for d in plan(shell, [seam]).dams]
        assert found == ["panel_end"] * dams


def test_a_roof_joint_is_dammed_over_the_wall_line() -> None:
    """Where a roof seam or ridge runs out under an overhang it is dammed over the wall."""
    schedule = plan(gable_box(), [roof_seam(), ridge_joint()])
    at_wall = [(d.joint_id, d.at) for d in schedule.dams if d.why == "wall_line"]
    assert [joint_id for joint_id, _ in at_wall] == ["R1.1-R1.2", "R1.1-R2.2"]
    assert at_wall[0][1] == pytest.approx(roof_seam().inner.line.start)  # type: ignore[union-attr]


def test_a_chase_is_dammed_where_it_leaves_its_panel() -> None:
    """A chase is plugged at its own height in each seam of its panel."""
    chase = Penetration(
        id="C1", kind="chase", plane_id="A", panel_id="A.1", at=(0.5, 0.165, 0.4), axis=(0, -1, 0)
    )
    shell = replace(flush_pair(spline="lumber"), penetrations=(chase,))
    dams = plan(shell, [spline_joint(spline="lumber")]).dams
    assert [(d.why, d.at[2]) for d in dams] == [("chase_crossing", pytest.approx(0.4))]


def test_a_square_cut_ridge_is_filled_with_foam() -> None:
    """The wedge between square-cut edges is foam by its measured area."""
    shell = gable_box(beam=False)
    square = tuple(replace(p, outer=p.inner) if p.role == "roof" else p for p in shell.panels)
    fills = plan(replace(shell, panels=square), [ridge_joint(beam=False)]).fills
    theta = math.atan(8 / 12)
    thick = shell.panels[0].thickness
    assert fills[0].area == pytest.approx(thick * thick * math.sin(theta) * math.cos(theta))
