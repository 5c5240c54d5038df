"""Beads and gaskets by joint, spline and footing."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.hand_joints import (
    joint,
    ridge_joint,
    sill_joint,
    spline_joint,
)
from tests.hand_seals import INCH, codes, plan
from tests.samples import THICK, UP, flush_pair, gable_box

from seamwright.seals.catalog import default_catalog
from seamwright.seals.types import BeadRule
from seamwright.shell.types import Member


def test_the_line_of_a_ledger_takes_beads_only() -> None:
    """Behind a ledger the skin runs by, so its line has two beads and no strip."""
    ledger = Member(
        id="L1", kind="ledger", start=(0, 0.2, 2), end=(2, 0.2, 2), up=UP, width=0.04, depth=0.24
    )
    line = joint(
        "A.1-L1",
        "floor_line",
        (0.0, THICK, 1.9),
        (1.2, THICK, 1.9),
        panels=("A.1",),
        others=("L1",),
        contact="edge_support",
    )
    schedule = plan(replace(flush_pair(), members=(ledger,)), [line])
    assert schedule.strips == ()
    assert [b.place for b in schedule.beads] == ["behind the ledger"]
    assert "span-inner" not in codes(schedule)


@pytest.mark.parametrize(
    ("spline", "beads"),
    [("surface", 6), ("block", 6), ("lumber", 6), ("i_joist", 6), ("cam_lock", 4)],
)
def test_beads_of_each_spline(spline: str, beads: int) -> None:
    """Each kind of spline gets its beads, none more than six."""
    schedule = plan(flush_pair(spline=spline), [spline_joint(spline=spline)])  # type: ignore[arg-type]
    assert sum(b.count for b in schedule.beads) == beads


def test_a_ridge_on_a_beam_takes_eight_beads() -> None:
    """The published upper end at the ridge is used up."""
    assert sum(b.count for b in plan(gable_box(), [ridge_joint()]).beads) == 8


def test_a_bead_without_a_size_is_a_finding_not_a_guess() -> None:
    """A rule without diameter leaves the bead without one and says so."""
    catalog = replace(
        default_catalog(),
        beads=(BeadRule(kind="wall_spline", spline=None, count=4, place="skins", diameter=None),),
    )
    schedule = plan(flush_pair(), [spline_joint()], catalog=catalog)
    assert schedule.beads[0].diameter is None
    assert "bead-size" in codes(schedule)


def test_a_joint_without_a_bead_rule_is_a_finding() -> None:
    """Kinds that the catalog says nothing about are named."""
    catalog = replace(default_catalog(), beads=())
    assert "bead-rule" in codes(plan(flush_pair(), [spline_joint()], catalog=catalog))


def test_a_sill_on_concrete_has_a_gasket_and_thicker_beads() -> None:
    """Under a sill on concrete lie a gasket and two half-inch beads before setting."""
    schedule = plan(gable_box(), [sill_joint()])
    assert [g.stage for g in schedule.gaskets] == ["before_setting"]
    rough = [b for b in schedule.beads if b.diameter == pytest.approx(INCH / 2)]
    assert [(b.count, b.stage) for b in rough] == [(2, "before_setting")]
