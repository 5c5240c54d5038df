"""The register of whole sample shells."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import replace
from pathlib import Path

import pytest
from tests.samples import (
    EAVE,
    GAP,
    LENGTH,
    PITCH,
    RAKE,
    THICK,
    UP,
    WIDTH,
    corner_pair,
    flush_pair,
    gable_box,
    plate,
    rectangle,
)

import seamwright
from seamwright.geometry.types import Frame
from seamwright.io.plan import read_plan
from seamwright.joints.register import build_register
from seamwright.joints.types import Joint, Register
from seamwright.shell.build import build_shell
from seamwright.shell.plan import Override
from seamwright.shell.types import Opening, Shell

HOUSES = Path(seamwright.__file__).parent / "data" / "houses"


def test_flush_pair_has_one_spline() -> None:
    """Two panels side by side meet in one flush seam with the gap between them."""
    register = build_register(flush_pair())
    (joint,) = register.joints
    assert (joint.id, joint.kind, joint.contact) == ("A.1-A.2", "wall_spline", "edge_edge")
    assert joint.length == pytest.approx(2.4)
    assert joint.gap == pytest.approx(GAP)
    assert joint.dihedral == pytest.approx(math.pi)
    assert joint.inner.offset == pytest.approx(0.0, abs=1e-9)


def test_corner_pair_has_one_corner() -> None:
    """A wall that butts against another's end is one outside corner, counted once."""
    (joint,) = build_register(corner_pair()).joints
    assert (joint.id, joint.kind, joint.contact) == ("A.1-B.1", "wall_corner", "edge_face")
    assert joint.outside_corner
    assert joint.dihedral == pytest.approx(math.pi / 2)


def test_gable_box_counts() -> None:
    """The sample house has every joint of each kind and no other."""
    register = build_register(gable_box())
    assert Counter(joint.kind for joint in register.joints) == {
        "wall_spline": 2,
        "wall_corner": 4,
        "sill": 6,
        "eave": 4,
        "rake": 4,
        "ridge": 2,
        "roof_spline": 2,
        "opening": 4,
        "penetration": 1,
    }


def test_gable_box_closes() -> None:
    """The inner and outer lines of the sample house close."""
    assert build_register(gable_box()).breaks == ()


def joints_of(shell: Shell) -> dict[str, Joint]:
    """Return a shell's joints by id."""
    return {joint.id: joint for joint in build_register(shell).joints}


def test_roof_seam_ends_indoors_at_the_eave() -> None:
    """A roof seam's inner line runs from the wall's inner face to the ridge, its outer line on."""
    seam = joints_of(gable_box())["R1.1-R1.2"]
    slope = math.hypot(1.0, PITCH)
    assert seam.inner.length == pytest.approx((WIDTH / 2 - THICK) * slope)
    assert seam.outer.length == pytest.approx((WIDTH / 2 + EAVE) * slope)
    assert seam.length == pytest.approx(seam.outer.length)


def test_ridge_ends_indoors_at_the_gables() -> None:
    """The ridge's inner lines span the room; the ridge itself runs on over the rakes."""
    ridges = [j for j in build_register(gable_box()).joints if j.kind == "ridge"]
    assert sum(j.inner.length for j in ridges) == pytest.approx(LENGTH - 2 * THICK, abs=2 * GAP)
    assert sum(j.length for j in ridges) == pytest.approx(LENGTH + 2 * RAKE, abs=2 * GAP)


@pytest.mark.parametrize("beam", [True, False])
def test_ridge_beam_buries_the_inner_line(*, beam: bool) -> None:
    """Over a ridge beam the inner strip goes on before the panels, without one after them."""
    ridge = joints_of(gable_box(beam=beam))["R1.1-R2.2"]
    expected = ("before_panels_only", "ridge-beam") if beam else ("until_hidden", "ceiling")
    assert (ridge.inner.reach, ridge.inner.hidden_by) == expected
    assert ridge.inner.timbers == (("ridge-beam",) if beam else ())
    assert ridge.outer.reach == "until_hidden"


def test_through_wall_sill_ends_indoors_at_the_corner() -> None:
    """A wall that runs through has its inner sill line end at the corner, not at its own end."""
    sill = joints_of(gable_box())["A.1-slab"]
    assert sill.inner.length == pytest.approx(LENGTH / 2 - GAP / 2 - THICK)
    assert sill.outer.length == pytest.approx(LENGTH / 2 - GAP / 2)


def test_window_has_four_sides_seen_from_outside() -> None:
    """Each side of a window is one joint, left and right as seen from outside."""
    found = joints_of(gable_box())
    assert found["A.1-W1.sill"].line.middle[2] == pytest.approx(0.9)
    assert found["A.1-W1.head"].line.middle[2] == pytest.approx(2.1)
    assert found["A.1-W1.left"].line.middle[0] < found["A.1-W1.right"].line.middle[0]
    assert found["A.1-W1.left"].others == ("W1",)


def test_penetration_has_its_perimeter() -> None:
    """A pipe is one joint at its panel, as long as it is round."""
    pipe = joints_of(gable_box())["R1.1-P1"]
    assert pipe.length == pytest.approx(math.pi * 0.11)
    assert pipe.line.length == 0.0


def test_penetration_finds_its_panel() -> None:
    """A service without a panel's name goes to the panel it passes through."""
    whole = gable_box()
    nameless = tuple(replace(p, panel_id=None, plane_id="") for p in whole.penetrations)
    assert "R1.1-P1" in joints_of(replace(whole, penetrations=nameless))


def test_nodes_of_the_gable_box() -> None:
    """The sample house has the nodes one counts by hand, by kind."""
    kinds = Counter(node.kind for node in build_register(gable_box()).nodes)
    assert kinds == {
        "sill+wall_corner": 4,
        "sill+wall_spline": 2,
        "eave+rake+wall_corner": 4,
        "eave+roof_spline+wall_spline": 2,
        "rake+ridge": 2,
        "ridge+roof_spline": 1,
        "opening": 4,
    }


def test_door_has_a_threshold_that_closes_the_sill() -> None:
    """A door down to the slab is sealed there too, between the two ends of the sill."""
    frame = Frame(origin=(0.0, THICK, 0.0), u=(1.0, 0.0, 0.0), v=UP)
    ring = ((0, 0), (0.8, 0), (0.8, 2.1), (1.7, 2.1), (1.7, 0), (2.6, 0), (2.6, 2.5), (0, 2.5))
    door = Opening(
        id="D1", kind="door", plane_id="A", frame=frame, outline=rectangle(0.9, 2.1, 0.8)
    )
    slab = gable_box().supports
    shell = Shell(
        builds=(), panels=(plate("A.1", "wall", frame, ring),), openings=(door,), supports=slab
    )
    found = joints_of(shell)
    assert sorted(found) == [
        "A.1-D1.head",
        "A.1-D1.left",
        "A.1-D1.right",
        "A.1-slab",
        "A.1-slab-D1.sill",
        "A.1-slab:2",
    ]
    threshold = found["A.1-slab-D1.sill"]
    assert (threshold.kind, threshold.contact) == ("opening", "opening")
    assert threshold.length == pytest.approx(0.9)
    assert found["A.1-slab"].length == pytest.approx(0.8)
    assert found["A.1-slab:2"].length == pytest.approx(0.9)


def test_corrections_by_id() -> None:
    """A kind is corrected, a joint ignored with its reason, and a lost correction is named."""
    register = build_register(
        gable_box(),
        (
            Override(joint="A.1-A.2", reason="tall wall", kind="end_joint"),
            Override(joint="C.1-C.2", reason="one piece", ignore=True),
            Override(joint="Z.1-Z.2", reason="old plan", kind="ridge"),
        ),
    )
    found = {joint.id: joint for joint in register.joints}
    assert found["A.1-A.2"].kind == "end_joint"
    assert "tall wall" in found["A.1-A.2"].note
    assert "C.1-C.2" not in found
    reasons = {use.reason for use in register.ledger if use.panel_id.startswith("C.")}
    assert "ignored by a correction: one piece" in reasons
    assert register.lost_overrides == ("Z.1-Z.2",)
    assert register.breaks == ()


def test_empty_shell_has_an_empty_register() -> None:
    """No panels, no joints, nothing to close."""
    assert build_register(Shell(builds=(), panels=())) == Register(
        joints=(), nodes=(), ledger=(), breaks=()
    )


def test_lone_panel_is_free_all_round() -> None:
    """One panel alone has four free edges and no break, since it closes nothing."""
    register = build_register(Shell(builds=(), panels=flush_pair().panels[:1]))
    assert [use.fate for use in register.ledger] == ["free"] * 4
    assert register.breaks == ()


@pytest.mark.parametrize("name", ["first_house", "heron_house", "cypress_house"])
def test_built_in_houses_close(name: str) -> None:
    """Each built-in house closes on both faces and leaves no edge free."""
    register = build_register(build_shell(read_plan(HOUSES / f"{name}.yaml").plan))
    assert register.breaks == ()
    assert [use for use in register.ledger if use.fate == "free"] == []
    assert len({joint.id for joint in register.joints}) == len(register.joints)
    assert len({node.id for node in register.nodes}) == len(register.nodes)
