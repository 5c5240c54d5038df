"""The seal schedule as a whole, on joints made by hand."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest
from tests.hand_joints import (
    corner_joint,
    eave_joint,
    face,
    joint,
    opening_joint,
    ridge_joint,
    roof_seam,
    sill_joint,
    spline_joint,
)
from tests.samples import THICK, UP, flush_pair, gable_box, rect_panel

from seamwright.geometry.types import Segment
from seamwright.joints.section import cut_section
from seamwright.joints.types import Break, Joint, Node, Register
from seamwright.seals.catalog import default_catalog
from seamwright.seals.schedule import plan_seals
from seamwright.seals.types import BeadRule, SealSchedule
from seamwright.shell.plan import Decision, Override
from seamwright.shell.types import Member, Penetration, Shell

INCH = 0.0254
HOUSE = (ridge_joint(), eave_joint(), roof_seam(), sill_joint(), opening_joint())


def plan(
    shell: Shell,
    joints: Sequence[Joint],
    nodes: Sequence[Node] = (),
    breaks: Sequence[Break] = (),
    **options: Any,
) -> SealSchedule:
    """Return the schedule of some joints, in zone 4C unless told otherwise."""
    register = Register(joints=tuple(joints), nodes=tuple(nodes), ledger=(), breaks=tuple(breaks))
    given: dict[str, Any] = {
        "catalog": default_catalog(),
        "decisions": (),
        "overrides": (),
        "climate_zone": "4C",
        "zone_edition": "2021",
    }
    sections = {j.id: cut_section(shell, j) for j in joints}
    return plan_seals(shell, register, sections, **{**given, **options})


def widths(schedule: SealSchedule) -> dict[tuple[str, str], float]:
    """Return stock widths in inches by joint and face."""
    return {
        (s.joint_id, s.face): round(s.width / INCH, 6)
        for s in schedule.strips
        if s.width is not None
    }


def signed(choice: str, **scope: Any) -> Decision:
    """Return a signed decision."""
    return Decision(
        face=choice,  # type: ignore[arg-type]
        signed_by="A. Designer",
        role="architect",
        date="2025-03-01",
        **scope,
    )


def codes(schedule: SealSchedule) -> set[str]:
    """Return what the findings are about."""
    return {f.id.split(":")[0] for f in schedule.findings}


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


def test_a_signed_decision_outranks_the_climate() -> None:
    """The designer's word is used, and reads signed."""
    side = plan(flush_pair(), [spline_joint()], decisions=[signed("outer")]).sides[0]
    assert (side.face, side.signed) == ("outer", True)
    assert "A. Designer" in side.by


def test_the_most_specific_decision_wins() -> None:
    """A decision about a joint beats one about its kind, and that one about the house."""
    seam = spline_joint()
    decisions = [
        signed("both"),
        signed("outer", kinds=("wall_spline",)),
        signed("inner", joints=(seam.id,)),
    ]
    faces = [plan(flush_pair(), [seam], decisions=decisions[:n]).sides[0].face for n in (1, 2, 3)]
    assert faces == ["both", "outer", "inner"]


def test_contradicting_decisions_leave_the_face_unsigned() -> None:
    """Two decisions of the same reach that differ are a finding that stops the work."""
    schedule = plan(flush_pair(), [spline_joint()], decisions=[signed("inner"), signed("outer")])
    assert schedule.sides[0].signed is False
    assert "decisions-contradict" in codes(schedule)


def test_unsigned_faces_are_summed_up_per_kind() -> None:
    """Each kind gets one finding, however many joints it has."""
    schedule = plan(gable_box(), HOUSE)
    unsigned = [f.subject for f in schedule.findings if f.id.startswith("unsigned:")]
    assert unsigned == ["eave", "opening", "ridge", "roof_spline", "sill"]


def test_both_faces_give_two_strips() -> None:
    """A joint sealed on both faces gets a strip on each."""
    schedule = plan(flush_pair(), [spline_joint()], decisions=[signed("both")])
    assert [s.face for s in schedule.strips] == ["inner", "outer"]


def test_no_climate_zone_proposes_inner_and_says_what_to_give() -> None:
    """Without a zone the inner face is proposed and the zone is asked for."""
    schedule = plan(flush_pair(), [spline_joint()], climate_zone=None)
    assert schedule.sides[0].face == "inner"
    assert "climate_zone" in next(f for f in schedule.findings if f.id == "zone:site").way_out.text


def test_a_warm_humid_house_is_sealed_outside_and_at_the_ridge_on_both_faces() -> None:
    """Zone 2A proposes outer walls and both faces at the ridge."""
    sides = {s.joint_id: s.face for s in plan(gable_box(), HOUSE, climate_zone="2A").sides}
    assert sides["R1.1-R1.2"] == "outer"
    assert sides["R1.1-R2.2"] == "both"


def test_a_face_out_of_reach_is_a_finding_and_no_strip() -> None:
    """A primary line that can never be reached gets a way out instead of a strip."""
    seam = spline_joint()
    hidden = replace(seam, inner=replace(seam.inner, reach="never", hidden_by="a stair"))
    schedule = plan(flush_pair(), [hidden], decisions=[signed("inner")])
    assert schedule.strips == ()
    assert "reach-inner" in codes(schedule)


def test_a_proposal_gives_way_to_the_face_that_can_be_reached() -> None:
    """Nobody proposes a face that can never be reached while the other can; the reason says so."""
    seam = spline_joint()
    hidden = replace(seam, inner=replace(seam.inner, reach="never", hidden_by="a stair"))
    side = plan(flush_pair(), [hidden]).sides[0]
    assert side.face == "outer"
    assert "can never be reached (a stair)" in side.reason


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


def test_an_ignored_joint_gets_nothing() -> None:
    """A joint that the lead set aside has no seal and no side."""
    seam = spline_joint()
    schedule = plan(
        flush_pair(), [seam], overrides=[Override(joint=seam.id, reason="demo", ignore=True)]
    )
    assert (schedule.sides, schedule.strips, schedule.beads) == ((), (), ())


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


def test_a_square_cut_ridge_is_filled_with_foam() -> None:
    """The wedge between square-cut edges is foam by its measured area."""
    shell = gable_box(beam=False)
    square = tuple(replace(p, outer=p.inner) if p.role == "roof" else p for p in shell.panels)
    fills = plan(replace(shell, panels=square), [ridge_joint(beam=False)]).fills
    theta = math.atan(8 / 12)
    thick = shell.panels[0].thickness
    assert fills[0].area == pytest.approx(thick * thick * math.sin(theta) * math.cos(theta))


def test_each_node_is_patched_on_the_face_of_its_joints() -> None:
    """A node of two joints sealed inside gets one inner patch; a lone end gets none."""
    nodes = [
        Node(
            id="N1", kind="eave+roof_spline", at=(2.4, 0.1, 2.5), joints=("A.1-R1.1", "R1.1-R1.2")
        ),
        Node(id="N2", kind="sill", at=(0, 0, 0), joints=("A.1-slab",)),
    ]
    patches = plan(gable_box(), HOUSE, nodes).patches
    assert [(p.node_id, p.face, p.side) for p in patches] == [
        ("N1", "inner", pytest.approx(6 * INCH))
    ]


def test_a_line_that_changes_face_at_a_node_is_a_finding() -> None:
    """Inner walls under an outer roof leave the line to be carried through the joint."""
    node = Node(id="N1", kind="eave+roof_spline", at=(0, 0, 0), joints=("A.1-R1.1", "R1.1-R1.2"))
    schedule = plan(gable_box(), HOUSE, [node], decisions=[signed("outer", kinds=("eave",))])
    assert "crossing:N1" in {f.id for f in schedule.findings}


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
