"""Laid-out houses under every kind of roof close, and lose no edge."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from fractions import Fraction

import pytest
from tests.shell import plans

from seamwright.joints.register import build_register
from seamwright.joints.types import Register
from seamwright.shell.build import build_shell
from seamwright.shell.plan import Plan

HOUSES = {
    "gable": plans.box(),
    "hip": plans.box(roof=(plans.hip(),)),
    "gambrel": plans.box(roof=(plans.gambrel(),)),
    "saltbox": plans.box(roof=(plans.gable(kind="saltbox", second_pitch=Fraction(1, 3)),)),
    "shed": plans.box(roof=(plans.gable(kind="shed", eaves=(0,)),)),
    "octagon": plans.octagon(),
    "tee": plans.tee(),
    "equal tee": plans.equal_tee(),
    "ell": plans.ell(),
    "hipped ell": plans.hipped_ell(),
    "platform": plans.two_storeys("platform"),
    "hanging": plans.two_storeys("hanging"),
    "entry": plans.with_entry("platform"),
    "dormer": plans.with_dormer(),
    "shed dormer": plans.with_dormer(kind="shed"),
}


def register_of(plan: Plan) -> Register:
    """Return the register of a laid-out plan."""
    return build_register(build_shell(plan))


@pytest.mark.parametrize("name", HOUSES)
def test_house_closes(name: str) -> None:
    """No line of a whole house breaks, no edge is free, and every id is its own."""
    register = register_of(HOUSES[name])
    assert register.breaks == ()
    assert [use for use in register.ledger if use.fate == "free"] == []
    assert Counter(joint.id for joint in register.joints).most_common(1)[0][1] == 1
    assert Counter(node.id for node in register.nodes).most_common(1)[0][1] == 1


@pytest.mark.parametrize(
    ("name", "kinds"),
    [
        ("hip", {"hip", "ridge", "eave"}),
        ("gambrel", {"ridge", "eave", "rake"}),
        ("tee", {"valley", "ridge", "rake"}),
        ("platform", {"floor_line", "sill"}),
        ("entry", {"roof_step"}),
        ("dormer", {"roof_step", "valley"}),
    ],
)
def test_house_shows_its_kinds(name: str, kinds: set[str]) -> None:
    """Each roof has the kinds of joint that make it what it is."""
    assert kinds <= {joint.kind for joint in register_of(HOUSES[name]).joints}


@pytest.mark.parametrize(
    ("name", "lost"),
    [
        ("hip", "A.2"),
        ("hip", "B.1"),
        ("hip", "R1.3"),
        ("octagon", "C.1"),
        ("platform", "2A.3"),
        ("platform", "2B.1"),
        ("gambrel", "R2.2"),
        ("shed", "R1.4"),
        ("dormer", "D1.front.1"),
    ],
)
def test_missing_panel_leaves_its_rim(name: str, lost: str) -> None:
    """A house short of one panel breaks along the lines where it was joined, and no others."""
    shell = build_shell(HOUSES[name])
    joined = ("edge_edge", "edge_face", "edge_support")
    rim = sum(
        joint.inner.length
        for joint in build_register(shell).joints
        if lost in joint.panels and joint.contact in joined
    )
    kept = tuple(panel for panel in shell.panels if panel.id != lost)
    breaks = build_register(replace(shell, panels=kept)).breaks
    assert rim == pytest.approx(sum(b.line.length for b in breaks if b.face == "inner"), abs=0.1)


def test_octagon_corners_are_mitered() -> None:
    """Eight walls meet in eight outside corners of 135 degrees, edge to edge."""
    corners = [j for j in register_of(HOUSES["octagon"]).joints if j.kind == "wall_corner"]
    assert len(corners) == 8
    assert {joint.contact for joint in corners} == {"edge_edge"}
    degrees = [joint.dihedral * 180.0 / 3.141592653589793 for joint in corners]
    assert degrees == pytest.approx([135.0] * 8)
