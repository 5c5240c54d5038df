"""The register as tables."""

from __future__ import annotations

import math
from dataclasses import replace

from tests.hand_house import JOINTS, register

from seamwright.report.register_tables import (
    break_table,
    joint_table,
    joint_totals,
    kinds_present,
    ledger_table,
    node_table,
)


def test_kinds_come_from_the_ground_up() -> None:
    """The sill stands before the walls, the ridge after them."""
    assert kinds_present(register()) == ("sill", "wall_spline", "ridge")


def test_totals_by_kind_sum_to_the_total_of_all() -> None:
    """Counts and lengths of the kinds add up to those of the register, unrounded."""
    table = joint_totals(register())
    assert sum(row[1].value for row in table.rows) == table.total[1].value == len(JOINTS)
    assert math.fsum(row[2].value for row in table.rows) == table.total[2].value
    assert table.total[2].value == math.fsum(j.length for j in JOINTS)


def test_each_kind_table_totals_its_own_rows() -> None:
    """The total row of a kind is the sum of the lengths printed above it."""
    table = joint_table(register(), "wall_spline")
    assert [row[0] for row in table.rows] == ["A.1-A.2", "A.2-A.3"]
    for column in (3, 4, 5):
        assert table.total[column].value == math.fsum(row[column].value for row in table.rows)


def test_the_ledger_accounts_for_every_edge() -> None:
    """Matched, explained and free edges add up to all edges."""
    table = ledger_table(register())
    assert math.fsum(row[2].value for row in table.rows) == table.total[2].value == 1.5


def test_a_node_shows_where_it_is_and_what_meets() -> None:
    """A node row has its id, kind in words, joints and place."""
    (row,) = node_table(register()).rows
    assert row[:3] == ("N1", "sill + wall spline", "A.1-A.2, A.1-base")


def test_a_break_says_what_closes_it() -> None:
    """Each break has its reason and its remedy in the same row."""
    (row,) = break_table(register().breaks).rows
    assert row[3:] == ("the panel's end meets nothing", "add the neighboring wall")


def test_a_stretch_open_on_both_faces_is_one_row() -> None:
    """Inside and outside of the same gap are told once, with both faces."""
    (inner,) = register().breaks
    (row,) = break_table((inner, replace(inner, face="outer"))).rows
    assert row[:2] == ("inside and outside", "A.1")


def test_no_break_gives_an_empty_table() -> None:
    """A shell that closes has no rows to show."""
    assert break_table(()).rows == ()


def test_like_breaks_are_counted_and_their_face_named_once() -> None:
    """Two open stretches of one length on a panel are one row that says so."""
    (inner,) = register().breaks
    (row,) = break_table((inner, replace(inner, face="outer"), inner)).rows
    assert row[0] == "inside and outside, 2 places"
