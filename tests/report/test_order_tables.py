"""The order as tables."""

from __future__ import annotations

import math

from tests.hand_house import order

from seamwright.report.order_tables import (
    cutting_sentence,
    cutting_table,
    order_table,
    piece_totals,
)


def test_pieces_of_all_stocks_sum_to_the_order() -> None:
    """The total row counts every piece and its length, by purpose too."""
    whole = order()
    total = piece_totals(whole).total
    assert [cell.value for cell in total[1:5]] == [2, 1, 0, 1]
    assert total[5].value == math.fsum(p.length for p in whole.pieces)


def test_a_roll_is_what_is_cut_and_what_is_left() -> None:
    """Cut and left of each roll add up to the roll."""
    (plan,) = order().cutting
    (row,) = cutting_table(plan, order().pieces).rows
    assert math.isclose(row[2].value + row[3].value, plan.roll_length)
    assert row[1].text == "P1 {p0} · 1 × patch {p1}"


def test_cost_stays_away_without_a_price() -> None:
    """Without prices there is no cost column at all; with one there is, and its total."""
    assert "Cost" not in " ".join(order_table(order()).columns)
    priced = order_table(order(price=41.0))
    assert priced.columns[-1] == "Cost USD"
    assert priced.total[-1].value == 41.0


def test_a_proven_plan_says_so() -> None:
    """An optimal cutting plan says that fewer rolls are impossible."""
    assert "fewer is proven impossible" in cutting_sentence(order().cutting[0]).text


def test_item_and_note_are_told_once() -> None:
    """The item is its id alone; width stands with what it is, the note with the source."""
    for line, row in zip(order().lines, order_table(order()).rows, strict=True):
        assert row[0] == line.item
        assert str(row[9]).endswith(line.source)
        assert line.note in str(row[9])
