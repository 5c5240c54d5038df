"""Proposals of faces by climate zone."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.hand_joints import (
    spline_joint,
)
from tests.hand_seals import HOUSE, codes, plan, signed
from tests.samples import flush_pair, gable_box

from seamwright.seals.face_table import ROWS, row_for


@pytest.mark.parametrize(
    ("zone", "face", "roof_lines"),
    [
        ("8", "inner", "inner"),
        ("7", "inner", "inner"),
        ("4C", "inner", "inner"),
        ("5C", "inner", "inner"),
        ("6B", "inner", "inner"),
        ("5A", "inner", "inner"),
        ("4A", "inner", "inner"),
        ("1A", "outer", "both"),
        ("2A", "outer", "both"),
        ("2B", "inner", "inner"),
        ("zone 2a", "outer", "both"),
    ],
)
def test_faces_by_zone(zone: str, face: str, roof_lines: str) -> None:
    """Cold, marine, mixed and dry zones propose inner; warm humid ones outer."""
    row = row_for(zone)
    assert row is not None
    assert (row.face, row.roof_lines) == (face, roof_lines)


@pytest.mark.parametrize("zone", ["9", "4D", "", "cold", "4", None])
def test_an_unknown_zone_has_no_row(zone: str | None) -> None:
    """A zone that is none of the standard's gets no guess."""
    assert row_for(zone) is None


def test_every_zone_stands_in_one_row() -> None:
    """No zone is listed twice, and every row says why and where from."""
    zones = [zone for row in ROWS for zone in row.zones]
    assert len(zones) == len(set(zones))
    assert all(row.reason and row.source for row in ROWS)


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


def test_a_proposal_gives_way_to_the_face_that_can_be_reached() -> None:
    """Nobody proposes a face that can never be reached while the other can; the reason says so."""
    seam = spline_joint()
    hidden = replace(seam, inner=replace(seam.inner, reach="never", hidden_by="a stair"))
    side = plan(flush_pair(), [hidden]).sides[0]
    assert side.face == "outer"
    assert "can never be reached (a stair)" in side.reason
