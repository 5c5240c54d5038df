"""Strips of single joints: where, when, how wide."""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction

import pytest
from tests.hand_joints import (
    corner_joint,
    face,
    joint,
    ridge_joint,
    roof_seam,
    spline_joint,
)
from tests.hand_seals import HOUSE, INCH, codes, plan, signed, widths
from tests.samples import THICK, UP, flush_pair, gable_box, rect_panel

from seamwright.joints.types import Register
from seamwright.seals.catalog import default_catalog
from seamwright.seals.schedule import plan_seals
from seamwright.shell.plan import Override
from seamwright.shell.types import Member, Penetration


def test_the_house_gets_the_widths_of_common_practice() -> None:
    """4 in at flush joints and 18 in over the ridge beam."""
    assert widths(plan(gable_box(), HOUSE)) == {
        ("R1.1-R2.2", "inner"): 18.0,
        ("A.1-R1.1", "inner"): 4.0,
        ("R1.1-R1.2", "inner"): 4.0,
        ("A.1-slab", "inner"): 4.0,
        ("A.1-W1", "inner"): 4.0,
    }


def test_the_strip_over_the_ridge_beam_lies_before_the_roof_with_open_wings() -> None:
    """The beam hides the inner ridge line, so its strip goes on before the panels."""
    strip = next(s for s in plan(gable_box(), HOUSE).strips if s.joint_id == "R1.1-R2.2")
    assert (strip.stage, strip.wings_open, strip.primary) == ("before_roof", True, True)


def test_a_roof_seam_over_timber_is_draped_even_where_the_outer_face_is_primary() -> None:
    """What can never be taped from below is taped before, whatever face is primary."""
    schedule = plan(gable_box(), [ridge_joint()], decisions=[signed("outer")])
    assert [(s.face, s.primary) for s in schedule.strips] == [("inner", False), ("outer", True)]


def test_a_crossing_timber_gets_a_short_strip_over_it() -> None:
    """A timber across a seam takes a short strip before the roof, laps on both sides."""
    seam = roof_seam()
    crossed = replace(seam, inner=replace(seam.inner, crossings=("ridge-beam",)))
    strips = plan(gable_box(), [crossed]).strips
    short = next(s for s in strips if s.wings_open)
    assert short.stage == "before_roof"
    assert short.length == pytest.approx(0.1334 * math.hypot(1, 8 / 12) + 2 * 3 * INCH)


def test_a_ledger_across_a_wall_seam_takes_an_ordinary_piece_before_it() -> None:
    """A ledger comes after the panels: behind it the seam gets its strip without wings."""
    ledger = Member(
        id="L1",
        kind="ledger",
        start=(0.0, THICK + 0.02, 2.0),
        end=(2.4, THICK + 0.02, 2.0),
        up=UP,
        width=0.04,
        depth=0.24,
    )
    seam = spline_joint()
    crossed = replace(seam, inner=replace(seam.inner, crossings=("L1",)))
    strips = plan(replace(flush_pair(), members=(ledger,)), [crossed]).strips
    piece = next(s for s in strips if s.length < 1.0)
    assert (piece.stage, piece.wings_open, piece.stock_id) == (
        "before_next_panel",
        False,
        "strip-4",
    )
    assert piece.length == pytest.approx(0.24 + 2 * 3 * INCH)


def test_both_faces_give_two_strips() -> None:
    """A joint sealed on both faces gets a strip on each."""
    schedule = plan(flush_pair(), [spline_joint()], decisions=[signed("both")])
    assert [s.face for s in schedule.strips] == ["inner", "outer"]


def test_a_face_out_of_reach_is_a_finding_and_no_strip() -> None:
    """A primary line that can never be reached gets a way out instead of a strip."""
    seam = spline_joint()
    hidden = replace(seam, inner=replace(seam.inner, reach="never", hidden_by="a stair"))
    schedule = plan(flush_pair(), [hidden], decisions=[signed("inner")])
    assert schedule.strips == ()
    assert "reach-inner" in codes(schedule)


def test_a_wider_beam_than_any_strip_is_a_finding_with_its_lengths() -> None:
    """The sum, the span and the widest stock stand in the finding as lengths."""
    shell = gable_box()
    beam = replace(shell.members[0], width=0.40)
    schedule = plan(replace(shell, members=(beam,)), [ridge_joint()])
    found = next(f for f in schedule.findings if f.id.startswith("width-inner"))
    assert set(found.sentence.lengths) == {"required", "span", "widest"}
    assert schedule.strips[0].stock_id is None


def test_corrections_set_width_span_and_face() -> None:
    """A correction's width, span and face are used and its joint is named when it is gone."""
    seam = spline_joint()
    fix = Override(
        joint=seam.id,
        reason="as built",
        face="outer",
        span=Fraction(127, 2500),
        strip_width=Fraction(18 * 127, 5000),
    )
    lost = Override(joint="X-Y", reason="gone")
    schedule = plan(flush_pair(), [seam], overrides=[fix, lost])
    strip = schedule.strips[0]
    assert (strip.face, strip.span, strip.stock_id) == (
        "outer",
        pytest.approx(2 * INCH),
        "strip-18",
    )
    assert schedule.sides[0].signed is False
    assert "lost-override:X-Y" in {f.id for f in schedule.findings}


def test_a_joint_without_a_section_says_what_to_measure() -> None:
    """A span nobody measured is a finding, and a given span heals it."""
    seam = corner_joint()
    register = Register(joints=(seam,), nodes=(), ledger=(), breaks=())
    known = {"catalog": default_catalog(), "decisions": (), "climate_zone": "5A"}
    bare = plan_seals(
        flush_pair(),
        register,
        {},
        overrides=(),
        zone_edition=None,
        **known,  # type: ignore[arg-type]
    )
    assert "span-inner" in codes(bare)
    fix = Override(joint=seam.id, reason="measured", span=Fraction(0))
    healed = plan_seals(
        flush_pair(),
        register,
        {},
        overrides=(fix,),
        zone_edition=None,
        **known,  # type: ignore[arg-type]
    )
    assert healed.strips[0].stock_id == "strip-4"


def test_the_tee_of_an_outer_house_needs_no_strip() -> None:
    """The outer skin runs past an inner wall, so only its beads remain."""
    tee = joint("A.1-I.1", "wall_tee", (0.6, 0.165, 0.0), (0.6, 0.165, 2.4))
    tee = replace(tee, outer=face((0, 0, 0), (0, 0, 1), line=None), contact="edge_face")
    schedule = plan(flush_pair(), [tee], decisions=[signed("outer")])
    assert schedule.strips == ()
    assert sum(b.count for b in schedule.beads) == 2


def test_the_strip_behind_an_inner_wall_lies_before_that_wall() -> None:
    """A tee's strip spans the inner wall's thickness and goes on before the wall hides it."""
    shell = flush_pair()
    thick = 0.1143
    inner_wall = rect_panel(
        "I.1", "partition", (0.6 + thick / 2, THICK, 0.0), (0.0, 1.0, 0.0), UP, 2.0, 2.4
    )
    shell = replace(shell, panels=(*shell.panels, replace(inner_wall, thickness=thick)))
    tee = joint("A.1-I.1", "wall_tee", (0.6, THICK, 0.0), (0.6, THICK, 2.4), contact="edge_face")
    tee = replace(
        tee,
        inner=replace(tee.inner, reach="before_panels_only"),
        outer=replace(tee.outer, line=None, reach="never"),
    )
    strip = plan(shell, [tee]).strips[0]
    assert (strip.stage, strip.wings_open) == ("before_next_panel", False)
    assert strip.span == pytest.approx(thick)
    assert strip.required == pytest.approx(thick + 4 * INCH + INCH / 4)


def test_an_unreachable_rim_asks_for_an_apron() -> None:
    """A rim's inner line behind joists and deck asks for an apron or for the outer face."""
    rim = joint("A.1-A.2", "floor_line", (0, 0, 2.4), (1.2, 0, 2.4))
    rim = replace(rim, inner=replace(rim.inner, reach="never", hidden_by="floor joists"))
    found = [
        f
        for f in plan(flush_pair(), [rim], decisions=[signed("inner")]).findings
        if f.id.startswith("reach-inner")
    ]
    assert "apron" in found[0].way_out.text


def test_the_rim_of_a_hole_needs_no_section() -> None:
    """Around a service the skin ends at its rim: the collar is sized without a section."""
    at = (0.5, 0.0, 1.5)
    pipe = Penetration(
        id="P1", kind="pipe", plane_id="A", panel_id="A.1", at=at, axis=(0, -1, 0), diameter=0.1
    )
    spot = joint(
        "A.1-P1", "penetration", at, at, panels=("A.1",), others=("P1",), contact="penetration"
    )
    register = Register(joints=(replace(spot, length=0.314),), nodes=(), ledger=(), breaks=())
    schedule = plan_seals(
        replace(flush_pair(), penetrations=(pipe,)),
        register,
        {},
        catalog=default_catalog(),
        decisions=(),
        overrides=(),
        climate_zone="5A",
        zone_edition=None,
    )
    assert [(s.stock_id, s.length, s.stage) for s in schedule.strips] == [
        ("strip-4", 0.314, "rough_in")
    ]
