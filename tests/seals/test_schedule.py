"""The schedule as a whole: corrections, breaks, services, joints left out."""

from __future__ import annotations

import math
from dataclasses import replace

from tests.hand_joints import (
    joint,
    spline_joint,
)
from tests.hand_seals import plan
from tests.samples import flush_pair

from seamwright.geometry.types import Segment
from seamwright.joints.types import Break
from seamwright.shell.plan import Override
from seamwright.shell.types import Penetration


def test_an_ignored_joint_gets_nothing() -> None:
    """A joint that the lead set aside has no seal and no side."""
    seam = spline_joint()
    schedule = plan(
        flush_pair(), [seam], overrides=[Override(joint=seam.id, reason="demo", ignore=True)]
    )
    assert (schedule.sides, schedule.strips, schedule.beads) == ((), (), ())


def test_a_flue_gets_no_seal_but_a_stop() -> None:
    """No strip, bead or foam goes near a flue; the finding defers to its listing."""
    at = (0.5, 0.0, 1.5)
    flue = Penetration(
        id="F1", kind="flue", plane_id="A", panel_id="A.1", at=at, axis=(0, -1, 0), diameter=0.15
    )
    shell = replace(flush_pair(), penetrations=(flue,))
    spot = joint(
        "A.1-F1",
        "penetration",
        at,
        at,
        panels=("A.1",),
        others=("F1",),
        contact="penetration",
        length=0.15 * math.pi,
    )
    schedule = plan(shell, [spot])
    assert (schedule.strips, schedule.beads, schedule.fills) == ((), (), ())
    assert next(f for f in schedule.findings if f.id == "flue:A.1-F1").severity == "stop"


def test_breaks_of_the_register_are_passed_on() -> None:
    """A break of a primary line needs attention, one of the other face is a note."""
    gap = Segment(start=(0.0, 0.0, 0.0), end=(0.0, 0.0, 1.0))
    breaks = [
        Break(face=f, panel_id="A.1", line=gap, reason="nothing here", remedy="add it")  # type: ignore[arg-type]
        for f in ("inner", "outer")
    ]
    found = [
        f for f in plan(flush_pair(), [spline_joint()], (), breaks).findings if "break" in f.id
    ]
    assert [f.severity for f in found] == ["attention", "note"]
    assert found[0].sentence.lengths == {"length": 1.0}
