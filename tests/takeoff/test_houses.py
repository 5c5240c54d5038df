"""The order of the built-in houses: sums, cuts and references hold on real registers."""

from __future__ import annotations

import math
from collections import Counter

import pytest

from seamwright.io.plan import builtin_house, read_plan
from seamwright.report.house import SealedHouse
from seamwright.seals.catalog import default_catalog
from seamwright.takeoff.cutting import plan_cuts
from seamwright.takeoff.runs import lay_runs
from seamwright.tolerance import DEFAULT
from seamwright.workflow import seal_house


@pytest.fixture(scope="module", params=["first_house", "heron_house"])
def house(request: pytest.FixtureRequest) -> SealedHouse:
    """Return a built-in house, sealed from the shelf of common practice."""
    return seal_house(read_plan(builtin_house(request.param)).plan, default_catalog())


def test_each_line_is_the_sum_of_its_pieces(house: SealedHouse) -> None:
    """Net of every strip equals its pieces to the last digit, and packs hold net and reserve."""
    for plan in house.order.cutting:
        own = [p.length for p in house.order.pieces if p.stock_id == plan.stock_id]
        (line,) = [one for one in house.order.lines if one.item == plan.stock_id]
        assert line.net == math.fsum(own)
        assert line.packs * line.pack_size >= line.amount
        cut = [i for roll in plan.cuts for i in roll.piece_ids]
        assert len(cut) == len(set(cut)) == len(own)


def test_every_strip_is_in_one_run(house: SealedHouse) -> None:
    """Merging loses no strip and counts none twice; pieces are no shorter than the strips."""
    strips = [s for s in house.schedule.strips if s.stock_id is not None]
    runs = lay_runs(strips, house.register, DEFAULT)
    laid = Counter((s.joint_id, s.face, s.length) for run in runs for s in run.strips)
    assert laid == Counter((s.joint_id, s.face, s.length) for s in strips)
    pieces = [p.length for p in house.order.pieces if p.purpose != "patch"]
    assert math.fsum(pieces) >= math.fsum(s.length for s in strips) - 1e-9


def test_rolls_are_proven_or_near_their_bound(house: SealedHouse) -> None:
    """No stock takes more rolls than proven least, or 1 % above the linear bound."""
    for plan in house.order.cutting:
        assert plan.optimal or plan.rolls <= 1.01 * plan.lp_bound


def test_every_reference_leads_to_a_joint_or_node(house: SealedHouse) -> None:
    """Lines and pieces point to what is in the register, and every line points somewhere."""
    known = {j.id for j in house.register.joints} | {n.id for n in house.register.nodes}
    for line in house.order.lines:
        assert line.refs
        assert set(line.refs) <= known
    assert all(set(piece.joint_ids) <= known for piece in house.order.pieces)


def test_piece_names_are_single_and_stable(house: SealedHouse) -> None:
    """No two pieces share a name, and shuffled pieces give the same plan."""
    names = [piece.id for piece in house.order.pieces]
    assert len(names) == len(set(names))
    for plan in house.order.cutting:
        own = [p for p in reversed(house.order.pieces) if p.stock_id == plan.stock_id]
        (stock,) = [s for s in house.catalog.strips if s.id == plan.stock_id]
        assert plan_cuts(own, stock) == plan
