"""What a place may leak before any test."""

from __future__ import annotations

import math

import pytest
from tests.leakage.houses import joint, node, service, window

from seamwright.leakage.combine import flow_of_area, in_series
from seamwright.leakage.prior_rows import PRIOR_ROWS
from seamwright.leakage.priors import DEFAULT_TABLE, WORKMANSHIPS, LeakTable, prior_of, rows_of


@pytest.mark.parametrize("row", PRIOR_ROWS, ids=lambda row: row.name)
def test_every_row_is_ordered_and_sourced(row) -> None:
    """Careless work never leaks less than careful, and each row says where it comes from."""
    assert 0 < row.careful <= row.ordinary <= row.careless
    marks = ("seen", "from memory", "common practice, no source")
    assert any(mark in row.source for mark in marks)


def test_a_joint_leaks_through_bare_contact_strip_and_beads_in_series() -> None:
    """The flow of a joint is its length times its layers one behind another."""
    place = joint("J", "sill", 4.0)
    area = in_series([4.0e-4, 0.10e-4, 0.30e-4]) * 4.0
    assert prior_of(place, "ordinary").flow == pytest.approx(flow_of_area(area, 50.0))


def test_a_node_of_three_lines_leaks_more_than_one_of_two() -> None:
    """A corner of three lines is harder to close."""
    two, three = node("A", "sill+wall_spline"), node("B", "eave+rake+wall_corner")
    assert prior_of(two, "ordinary").flow < prior_of(three, "ordinary").flow


@pytest.mark.parametrize("place", [joint("J"), node("N"), service("P"), window("W/unit")])
def test_worse_work_leaks_more(place) -> None:
    """Each place leaks more under ordinary than careful work, and most under careless."""
    flows = [prior_of(place, how).flow for how in WORKMANSHIPS]
    assert flows == sorted(flows)
    assert flows[0] < flows[2]


def test_cutting_a_joint_in_two_changes_neither_mean_nor_variance() -> None:
    """The scatter of a line falls with the root of its length."""
    whole, part = (prior_of(joint("J", length=length), "careless") for length in (5.0, 2.5))
    assert whole.flow == pytest.approx(2 * part.flow)
    variance = (whole.flow * whole.variation) ** 2
    assert variance == pytest.approx(2 * (part.flow * part.variation) ** 2)


def test_a_layer_that_says_nothing_about_a_place_is_passed_over() -> None:
    """A patch on a joint is no seal along it."""
    plain, odd = joint("J"), joint("J", layers=("strip_inner", "beads", "patch"))
    assert rows_of(plain) == rows_of(odd)


def test_a_layer_named_twice_counts_once() -> None:
    """Two strips of one name are one row."""
    assert len(rows_of(joint("J", layers=("beads", "beads")))) == 2


def test_an_unknown_kind_has_no_row() -> None:
    """A kind without a row is told, not guessed."""
    with pytest.raises(KeyError, match="cupola"):
        prior_of(joint("J", "cupola"), "ordinary")


def test_a_table_of_the_users_own_replaces_rows() -> None:
    """A tighter row of the user's own makes the place tighter."""
    tight = DEFAULT_TABLE.bare_lines["ridge"]
    own = LeakTable(bare_lines={**DEFAULT_TABLE.bare_lines, "sill": tight})
    assert prior_of(joint("J"), "ordinary", own).flow < prior_of(joint("J"), "ordinary").flow


def test_sigma_is_that_of_a_lognormal() -> None:
    """A coefficient of variation of 1 is a log deviation of √ln 2."""
    assert prior_of(joint("J", length=1.0), "careful").sigma == pytest.approx(
        math.sqrt(math.log(2.0))
    )
