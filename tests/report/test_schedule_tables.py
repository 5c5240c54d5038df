"""The seal schedule as tables."""

from __future__ import annotations

import math

import pytest
from tests.hand_house import JOINTS, register, schedule, strip

from seamwright.report.schedule_tables import (
    patch_table,
    schedule_table,
    seal_type_table,
    strip_arithmetic,
)
from seamwright.report.seal_types import joint_seals, seal_types
from seamwright.units import fill

SEALS = joint_seals(register(), schedule())
TYPES = seal_types(SEALS)


def test_joints_sealed_alike_share_a_type() -> None:
    """Two splines of equal make-up are one type; sill and ridge are types of their own."""
    assert [t.joint_ids for t in TYPES] == [
        ("A.1-base",),
        ("A.1-A.2", "A.2-A.3"),
        ("R1.1-R2.1",),
    ]
    assert [t.id for t in TYPES] == ["S1", "S2", "S3"]


def test_types_lose_no_joint() -> None:
    """Every joint is in exactly one type, and their lengths add up."""
    ids = [joint_id for t in TYPES for joint_id in t.joint_ids]
    assert sorted(ids) == sorted(j.id for j in JOINTS)
    total = seal_type_table(TYPES).total[2].value
    assert total == pytest.approx(math.fsum(j.length for j in JOINTS), abs=1e-12)


def test_an_unsigned_face_is_marked_in_every_row() -> None:
    """UNSIGNED stands beside each face that nobody signed, and not beside the signed one."""
    rows = seal_type_table(TYPES).rows
    assert [row[3] for row in rows] == ["inside", "inside UNSIGNED", "inside UNSIGNED"]
    faces = [row[3] for row in schedule_table(SEALS, TYPES, "wall_spline").rows]
    assert faces == ["inside UNSIGNED", "inside UNSIGNED"]


def test_the_arithmetic_shows_every_term_and_the_stock() -> None:
    """The sum reads term by term and ends at the stock width and the real lap."""
    assert fill(strip_arithmetic(strip(JOINTS[0])), "us") == (
        '2 × lap 2" = 4" ≤ 4" strip, lap 2" each side'
    )


def test_a_strip_no_stock_covers_says_so() -> None:
    """Without a stock width the sum ends in NO STOCK."""
    assert fill(strip_arithmetic(strip(JOINTS[3], width=None)), "us") == (
        'span 16" + 2 × lap 2" = 20"; NO STOCK covers it'
    )


def test_the_schedule_totals_strips_beads_and_dams() -> None:
    """The total row holds the run of strip, all beads together, and the dams."""
    total = schedule_table(SEALS, TYPES, "wall_spline").total
    assert total[5].value == pytest.approx(2 * 2.4384)
    assert total[6].value == pytest.approx(4 * 2 * 2.4384)
    assert total[8].value == 1


def test_a_bead_without_a_size_is_marked() -> None:
    """A bead diameter nobody gave reads NO SIZE, never a guess."""
    assert "NO SIZE" in seal_type_table(TYPES).rows[2][5].text


def test_each_node_has_its_patch() -> None:
    """A patch row says how it goes on and when."""
    (row,) = patch_table(schedule()).rows
    assert row[0] == "N1"
    assert row[4:] == ("slit to the center, stretched into the corner", "weathered in")
