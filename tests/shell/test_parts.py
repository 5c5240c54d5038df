"""Floors, bases, timbers, inner walls, given panels and dormers, each where it belongs."""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction as F  # noqa: N817 (a plan is full of fractions)

import pytest
import shapely
from tests.shell import plans
from tests.shell.solids import overlaps, volume

from seamwright.geometry.polygon import signed_area
from seamwright.shell.build import build_shell
from seamwright.shell.plan import (
    Base,
    GivenPanel,
    GivenSupport,
    InnerWall,
    OpeningSpec,
    Plan,
    Site,
    Spaced,
    TimberSize,
    WallRule,
)
from seamwright.shell.types import Member, Shell

T = 0.1619
BEAM = TimberSize(width=F(9, 100), depth=F(3, 10))


def members(shell: Shell, kind: str) -> list[Member]:
    """Return the timbers of one kind."""
    return [m for m in shell.members if m.kind == kind]


def test_slab_lies_under_the_whole_footprint() -> None:
    """The slab's outline is the outer wall face, its top at the base's top, normal up."""
    slab = build_shell(plans.box()).supports[0]
    assert signed_area(slab.outline) == pytest.approx(48.0)
    assert slab.frame.n == (0.0, 0.0, 1.0)


def test_stem_wall_is_a_band_under_each_wall() -> None:
    """Bands under the four walls cover the walls' own ground and nothing else."""
    shell = build_shell(plans.box(base=Base(kind="stem_wall", thickness=F(1, 2))))
    bands = [shapely.Polygon(s.outline) for s in shell.supports]
    band = shapely.box(0, 0, 8, 6).difference(shapely.box(T, T, 8 - T, 6 - T))
    assert sum(b.area for b in bands) == pytest.approx(band.area)
    assert shapely.union_all(bands).symmetric_difference(band).area < 1e-9


def test_sill_lifts_the_walls_and_lies_under_them() -> None:
    """With a sill the walls stand on plates whose tops carry the wall bottoms."""
    shell = build_shell(plans.box(base=Base(kind="slab", sill=F(38, 1000))))
    assert {p.frame.origin[2] for p in shell.panels if p.role == "wall"} == {0.038}
    plates = members(shell, "plate")
    assert [m.id for m in plates] == ["A.sill", "B.sill", "C.sill", "D.sill"]
    assert sum(math.dist(m.start, m.end) for m in plates) == pytest.approx(28 - 4 * T)


def test_floor_panels_reach_the_outer_wall_face() -> None:
    """Floor panels fill the footprint with the room side up."""
    base = Base(kind="floor_panels", panel_type="R10", top=F(1))
    shell = build_shell(plans.gapless(plans.box(base=base)))
    floor = [p for p in shell.panels if p.role == "floor"]
    assert sum(volume(p) for p in floor) == pytest.approx(48.0 * floor[0].thickness)
    assert all(p.frame.n == pytest.approx((0.0, 0.0, -1.0)) for p in floor)
    assert {p.frame.point(v)[2] for p in floor for v in p.inner} == {1.0}


def test_platform_floor_closes_with_rim_and_deck() -> None:
    """Rim from the lower walls' top to the deck, deck out to the outer face, upper walls on it."""
    shell = build_shell(plans.two_storeys("platform"))
    rims = [p for p in shell.panels if p.role == "rim"]
    assert {p.plane_id for p in rims} == {"2A.rim", "2B.rim", "2C.rim", "2D.rim"}
    tops = {round(p.frame.point(v)[2], 9) for p in rims for v in p.inner}
    assert tops == {2.4, 2.68}
    deck = next(s for s in shell.supports if s.kind == "deck")
    assert deck.frame.origin[2] == pytest.approx(2.7)
    assert signed_area(deck.outline) == pytest.approx(48.0)
    upper = {round(p.frame.origin[2], 9) for p in shell.panels if p.plane_id == "2A"}
    assert upper == {2.7}


def test_hanging_floor_leaves_walls_whole_and_hangs_a_ledger() -> None:
    """Eave walls run past a hanging floor, gables too tall for a panel do not; ledgers inside."""
    shell = build_shell(plans.two_storeys("hanging"))
    assert {p.plane_id for p in shell.panels if p.plane_id.startswith("2")} == {"2B", "2D"}
    ledger = members(shell, "ledger")
    assert len(ledger) == 4
    assert {round(m.start[2], 9) for m in ledger} == {2.38}


def test_short_panels_end_at_a_hanging_floor() -> None:
    """Where the panel is too short, the wall ends at the floor level with half the gap each."""
    short = (replace(plans.WALL, max_length=F(3)), plans.ROOF)
    shell = build_shell(plans.two_storeys("hanging", panel_types=short))
    lower = [p for p in shell.panels if p.plane_id == "A"]
    upper = [p for p in shell.panels if p.plane_id == "2A"]
    assert max(v for p in lower for _, v in p.inner) == pytest.approx(2.4 - 0.0015)
    assert min(v for p in upper for _, v in p.inner) == pytest.approx(0.0015)


def test_opening_in_an_upper_wall_that_runs_on_from_below() -> None:
    """A window of wall 2A is cut into the continuous wall at its own storey's height."""
    plan = plans.two_storeys("hanging", openings=(plans.window(host="2A"),))
    opening = build_shell(plan).openings[0]
    assert opening.plane_id == "A"
    assert min(v for _, v in opening.outline) == pytest.approx(2.4 + 0.9)


def test_wall_type_and_widths_follow_the_rule() -> None:
    """A rule sets a wall's panel type and its widths from the start corner."""
    rule = WallRule(wall="A", widths=(F(1), F(12, 10), F(12, 10), F(12, 10), F(12, 10), F(1)))
    shell = build_shell(plans.gapless(plans.box(wall_rules=(rule,))))
    found = [p for p in shell.panels if p.plane_id == "A"]
    widths = [max(u for u, _ in p.inner) - min(u for u, _ in p.inner) for p in found]
    assert widths == pytest.approx([1.0, 1.2, 1.2, 1.2, 1.2, 1.0, 8 - T - 6.8])


def test_what_fixed_widths_leave_is_laid_out_as_usual() -> None:
    """Two widths at the start of a wall leave the rest to panels of the type's width."""
    rule = WallRule(wall="A", widths=(F(1), F(1)))
    shell = build_shell(plans.gapless(plans.box(wall_rules=(rule,))))
    found = [p for p in shell.panels if p.plane_id == "A"]
    widths = [max(u for u, _ in p.inner) - min(u for u, _ in p.inner) for p in found]
    assert widths[:2] == pytest.approx([1.0, 1.0])
    assert max(widths) <= 1.2192 + 1e-6
    assert sum(widths) == pytest.approx(8 - T)


def test_alternate_corners_let_every_second_wall_run_through() -> None:
    """With alternate corners walls A and C run through at both ends, B and D butt at both."""
    plan = plans.box(preferences=replace(plans.box().preferences, corners="alternate"))
    shell = build_shell(plans.gapless(plan))
    for name, length in (("A", 8.0), ("B", 6.0 - 2 * T), ("C", 8.0), ("D", 6.0 - 2 * T)):
        us = [u for p in shell.panels if p.plane_id == name for u, _ in p.inner]
        assert max(us) - min(us) == pytest.approx(length)


def test_gables_run_through_beside_a_stepped_eave() -> None:
    """Where eave walls stop below a plate, the gable walls reach the outer corners."""
    plan = plans.box(roof=(plans.gable(eave_plate=F(38, 1000)),))
    shell = build_shell(plans.gapless(plan))
    for name, length in (("A", 8.0 - 2 * T), ("B", 6.0)):
        us = [u for p in shell.panels if p.plane_id == name for u, _ in p.inner]
        assert max(us) - min(us) == pytest.approx(length)
    plate = next(m for m in shell.members if m.id == "A.eave_plate")
    assert plate.start[2] == pytest.approx(2.4 + 0.038)


def test_ridge_beam_lies_under_the_ridge_between_the_gables() -> None:
    """The beam's top is at the ridge line and it stops at the gable walls' inner faces."""
    beam = members(build_shell(plans.box(roof=(plans.gable(ridge_beam=BEAM),))), "ridge_beam")
    assert len(beam) == 1
    assert sorted((beam[0].start[0], beam[0].end[0])) == pytest.approx([T, 8 - T])
    assert beam[0].start[1:] == pytest.approx((3.0, 5.4))


def test_hip_and_valley_beams_follow_their_lines() -> None:
    """A hip roof has four hip beams, a T two valley beams, all square to their own slope."""
    hips = members(build_shell(plans.box(roof=(plans.hip(hip_beams=BEAM),))), "hip_beam")
    assert len(hips) == 4
    for m in hips:
        d = [b - a for a, b in zip(m.start, m.end, strict=True)]
        assert sum(x * y for x, y in zip(d, m.up, strict=True)) == pytest.approx(0.0, abs=1e-12)
        assert m.up[2] > 0.9
    tee = plans.tee(side=plans.wing(valley_beams=BEAM))
    assert len(members(build_shell(tee), "valley_beam")) == 2


def test_purlins_and_rafters_are_evenly_spaced() -> None:
    """Purlins lie at multiples of their spacing up the slope, rafters along the eave."""
    part = plans.gable(
        purlins=Spaced(size=BEAM, spacing=F(1)), rafters=Spaced(size=BEAM, spacing=F(1))
    )
    shell = build_shell(plans.box(roof=(part,)))
    south = [m for m in members(shell, "purlin") if m.id.startswith("R1")]
    feet = [math.hypot(m.start[1], m.start[2] + 0.3 * m.up[2] - 2.4) for m in south]
    assert len(south) == 4
    assert [m.id for m in south] == [f"R1.purlin.{i}" for i in range(1, 5)]
    assert feet[1] - feet[0] == pytest.approx(1.0, abs=0.05)
    rafters = [m for m in members(shell, "rafter") if m.id.startswith("R1")]
    assert [round(m.start[0], 6) for m in rafters] == [float(i) for i in range(1, 8)]


def test_inner_wall_stops_at_the_outside_walls_and_the_roof() -> None:
    """A partition drawn through the outside walls ends at their inner faces and under the roof."""
    inner = InnerWall(
        id="I1", storey="ground", start=(F(4), F(0)), end=(F(4), F(6)), thickness=F(1, 10)
    )
    shell = build_shell(plans.box(inner_walls=(inner,)))
    wall = next(p for p in shell.panels if p.role == "partition")
    assert min(u for u, _ in wall.inner) == pytest.approx(T)
    assert max(u for u, _ in wall.inner) == pytest.approx(6 - T)
    assert max(v for _, v in wall.inner) == pytest.approx(5.4)
    assert overlaps(shell.panels) == []


def test_second_inner_wall_stops_at_the_first() -> None:
    """An inner wall that runs into another ends at its face."""
    first = InnerWall(
        id="I1", storey="ground", start=(F(4), F(0)), end=(F(4), F(6)), thickness=F(1, 10)
    )
    second = InnerWall(
        id="I2", storey="ground", start=(F(0), F(3)), end=(F(4), F(3)), thickness=F(1, 10)
    )
    shell = build_shell(plans.box(inner_walls=(first, second)))
    wall = next(p for p in shell.panels if p.id == "I2")
    assert max(u for u, _ in wall.inner) == pytest.approx(4 - 0.05)
    assert overlaps(shell.panels) == []


def test_inner_wall_below_another_storey_ends_at_the_ceiling() -> None:
    """Below a hanging floor a partition ends at the joists' underside."""
    inner = InnerWall(
        id="I1", storey="ground", start=(F(4), F(1)), end=(F(4), F(5)), thickness=F(1, 10)
    )
    shell = build_shell(plans.two_storeys("hanging", inner_walls=(inner,)))
    wall = next(p for p in shell.panels if p.id == "I1")
    assert max(v for _, v in wall.inner) == pytest.approx(2.4 - 0.3)


def given(**changes: object) -> GivenPanel:
    """Return a given roof-like panel of 1.2 by 2.4 m."""
    one = GivenPanel(
        id="P1",
        panel_type="W6",
        role="wall",
        origin=(F(0), F(0), F(0)),
        along=(2.0, 0.0, 0.0),
        up=(1.0, 0.0, 3.0),
        outline=plans.rectangle(F(12, 10), F(24, 10)),
    )
    return replace(one, **changes)


def listed(*panels: GivenPanel, **changes: object) -> Plan:
    """Return a plan that only lists panels."""
    plan = Plan(site=Site(name="list"), panel_types=(plans.WALL, plans.ROOF), panels=panels)
    return replace(plan, **changes)


def test_given_panel_keeps_its_outline_and_squares_its_axes() -> None:
    """`up` is made square to `along`, the outer side is at along × up, the id stays."""
    panel = build_shell(listed(given(plane="south"))).panels[0]
    assert (panel.id, panel.plane_id) == ("P1", "south")
    assert panel.frame.v == pytest.approx((0.0, 0.0, 1.0))
    assert panel.frame.n == pytest.approx((0.0, -1.0, 0.0))
    assert volume(panel) == pytest.approx(1.2 * 2.4 * T)


def test_given_bevels_move_the_outer_face() -> None:
    """A bevel of 45° on the lower edge lets the outer face reach one thickness further down."""
    panel = build_shell(listed(given(bevels_deg=(45.0, 0.0, 0.0, 0.0)))).panels[0]
    assert min(v for _, v in panel.outer) == pytest.approx(-T)
    assert max(v for _, v in panel.outer) == pytest.approx(2.4)


def test_given_clockwise_outline_is_turned_with_its_bevels() -> None:
    """An outline listed clockwise gives the same panel."""
    ring = plans.rectangle(F(12, 10), F(24, 10))
    one = build_shell(listed(given(bevels_deg=(45.0, 0.0, 0.0, 0.0)))).panels[0]
    back = given(outline=(ring[0], *ring[:0:-1]), bevels_deg=(0.0, 0.0, 0.0, 45.0))
    two = build_shell(listed(back)).panels[0]
    assert dict(zip(one.inner, one.outer, strict=True)) == dict(
        zip(two.inner, two.outer, strict=True)
    )


def test_given_plane_is_laid_out_like_any_other() -> None:
    """A whole plane with lay_out is split by the same rules."""
    wall = given(id="S", outline=plans.rectangle(F(5), F(24, 10)), lay_out=True)
    panels = build_shell(listed(wall)).panels
    assert [p.id for p in panels] == ["S.1", "S.2", "S.3", "S.4", "S.5"]


def test_opening_between_given_panels_cuts_nothing() -> None:
    """A door in the space two given panels leave is an opening of their plane."""
    left = given(id="P1", plane="S")
    right = given(id="P2", plane="S", origin=(F(2), F(0), F(0)))
    door = OpeningSpec(
        id="D1", kind="door", host="S", along=F(12, 10), up=F(0), width=F(8, 10), height=F(2)
    )
    shell = build_shell(listed(left, right, openings=(door,)))
    assert [o.plane_id for o in shell.openings] == ["S"]
    assert all(len(p.inner) == 4 and not p.holes for p in shell.panels)


def test_opening_of_a_plane_finds_its_given_panel() -> None:
    """An opening placed on the plane is cut into the panel it falls in, in that panel's axes."""
    left = given(id="P1", plane="S")
    right = given(id="P2", plane="S", origin=(F(2), F(0), F(0)))
    spec = plans.window(host="S", along=F(23, 10), width=F(5, 10))
    shell = build_shell(listed(left, right, openings=(spec,)))
    holed = [p for p in shell.panels if p.holes]
    assert [p.id for p in holed] == ["P2"]
    assert min(u for u, _ in holed[0].holes[0].outline) == pytest.approx(0.3)


def test_given_support_lies_level() -> None:
    """A given bearing face is level at its top, whatever way its outline runs."""
    slab = GivenSupport(
        id="slab",
        kind="slab",
        outline=tuple(reversed(plans.rectangle(4, 3))),
        top=F(1, 2),
        thickness=F(1, 10),
    )
    support = build_shell(listed(given(), supports=(slab,))).supports[0]
    assert support.frame.origin[2] == 0.5
    assert signed_area(support.outline) == pytest.approx(12.0)


def test_dormer_cuts_the_roof_and_stands_on_it() -> None:
    """A dormer adds two planes and three walls; the main roof loses the ground between them."""
    shell = build_shell(plans.gapless(plans.with_dormer()))
    assert {p.plane_id for p in shell.panels} >= {"R3", "R4", "D1.front", "D1.left", "D1.right"}
    plain = build_shell(plans.gapless(plans.box(roof=(plans.gable(pitch=F(5, 4)),))))

    def area(s: Shell) -> float:
        return sum(signed_area(p.inner) for p in s.panels if p.plane_id == "R1")

    assert area(plain) - area(shell) > 1.5
    cheek = next(p for p in shell.panels if p.plane_id == "D1.right")
    assert len(cheek.inner) == 3


def test_step_beside_a_higher_wall_has_no_overhang_there() -> None:
    """The entry's roof ends at the house's outer face and reaches out only on its free sides."""
    shell = build_shell(plans.with_entry("platform"))
    porch = [p for p in shell.panels if p.plane_id == "R3"]
    ys = [p.frame.point(v)[1] for p in porch for v in p.inner]
    xs = [p.frame.point(v)[0] for p in porch for v in p.inner]
    assert (min(ys), max(ys)) == pytest.approx((6.0, 8.3))
    assert (min(xs), max(xs)) == pytest.approx((1.8, 5.2))
