"""Cutting from rolls: every piece once, no roll overfilled, bounds that hold."""

from __future__ import annotations

import math
import random

import pytest

from seamwright.errors import InputError
from seamwright.seals.types import StripStock
from seamwright.takeoff._bounds import raised, rounded
from seamwright.takeoff._grid import collect, lay_grid
from seamwright.takeoff._group import group_lengths, ungroup
from seamwright.takeoff._packing import (
    _fill_one,
    best_fit_decreasing,
    first_fit_decreasing,
    fullest_rolls,
)
from seamwright.takeoff.cutting import EASE, plan_cuts
from seamwright.takeoff.types import CuttingPlan, Piece

INCH = 0.0254


def stock(roll: float) -> StripStock:
    """Return a strip in rolls of one length. [m]"""
    return StripStock(id="s", width=0.1, roll_length=roll, per_carton=8)


def pieces(lengths: list[float]) -> list[Piece]:
    """Return one piece for each length."""
    return [
        Piece(id=f"P{k:04d}", stock_id="s", length=length, joint_ids=(f"J{k}",))
        for k, length in enumerate(lengths)
    ]


def checked(lengths: list[float], roll: float) -> CuttingPlan:
    """Return the plan for these lengths after checking that it can be cut."""
    made = pieces(lengths)
    plan = plan_cuts(made, stock(roll))
    length_of = {piece.id: piece.length for piece in made}
    assert sorted(i for cut in plan.cuts for i in cut.piece_ids) == sorted(length_of)
    for cut in plan.cuts:
        used = math.fsum(length_of[i] for i in cut.piece_ids)
        assert used <= roll + 1e-8
        assert cut.left == pytest.approx(roll - used, abs=1e-8)
    assert plan.bound <= plan.rolls
    assert plan.optimal == (plan.rolls == plan.bound)
    assert [cut.roll for cut in plan.cuts] == list(range(1, plan.rolls + 1))
    return plan


def test_nothing_to_cut_takes_no_roll() -> None:
    """No pieces, no rolls, and that is optimal."""
    plan = checked([], 20.0)
    assert (plan.rolls, plan.bound, plan.lp_bound, plan.optimal) == (0, 0, 0.0, True)


def test_a_piece_as_long_as_the_roll_fits() -> None:
    """Whole rolls are cut without waste, rounding noise or not."""
    plan = checked([20.0, 0.1 + 0.2 + 19.7], 20.0)
    assert (plan.rolls, plan.optimal) == (2, True)


def test_pieces_that_fill_rolls_exactly_fill_them() -> None:
    """Ten times three pieces of a third of the roll take ten rolls."""
    assert checked([20.0 / 3] * 30, 20.0).rolls == 10


def test_pieces_over_half_a_roll_stand_alone() -> None:
    """Pieces longer than half the roll need one each, and the bound knows it."""
    plan = checked([10.5, 11.0, 12.25, 10.001], 20.0)
    assert (plan.rolls, plan.bound, plan.optimal) == (4, 4, True)


def test_patterns_beat_the_quick_packings() -> None:
    """Eleven pieces that fit four rolls, where three quick packings take five."""
    lengths = [2.0, 3.0, 3.0, 5.0, 7.0, 11.0, 12.0, 16.0, 19.0, 20.0, 21.0]
    demand = collect(lengths, 30.0)
    grid = lay_grid(demand, 1 << 16)
    packings = (
        first_fit_decreasing(demand),
        best_fit_decreasing(demand),
        fullest_rolls(demand, grid),
    )
    assert [len(rolls) for rolls in packings] == [5, 5, 5]
    plan = checked(lengths, 30.0)
    assert (plan.rolls, plan.optimal) == (4, True)


@pytest.mark.parametrize("seed", range(6))
def test_hard_random_pieces_stay_near_their_bound(seed: int) -> None:
    """Pieces of an eighth to two thirds of the roll: at most 1 % and one roll above the bound."""
    rng = random.Random(seed)
    plan = checked([rng.uniform(2.6, 13.3) for _ in range(90)], 20.0)
    assert plan.rolls <= 1.01 * plan.lp_bound + 1


def test_sixteenths_of_an_inch_are_counted_exactly() -> None:
    """Lengths in sixteenths of an inch lie on an exact grid, and only on theirs."""
    rng = random.Random(5)
    lengths = [rng.randint(100, 4000) * INCH / 16 for _ in range(50)]
    assert lay_grid(collect(lengths, 900 * INCH), 1 << 13).exact
    assert not lay_grid(collect([*lengths, math.pi], 900 * INCH), 1 << 13).exact


def test_an_inexact_grid_is_safe_on_both_sides() -> None:
    """Sizes above are never shorter than the truth, sizes below never longer."""
    rng = random.Random(7)
    demand = collect([rng.uniform(0.5, 9.0) for _ in range(200)], 20.0)
    grid = lay_grid(demand, 1000)
    cell = demand.roll / grid.capacity
    for length, above, below in zip(demand.lengths, grid.above, grid.below, strict=True):
        assert below * cell <= length + 1e-8
        assert above * cell >= length - 1e-8
        assert above - below <= 1


def test_rolls_keep_some_slack_where_it_costs_no_roll() -> None:
    """Two rolls could hold 19.9 m and 12 m; two rolls that each keep 1 % are planned instead."""
    plan = checked([12.0, 7.9, 6.0, 6.0], 20.0)
    assert plan.optimal
    assert min(cut.left for cut in plan.cuts) >= 20.0 * EASE


def test_no_roll_is_added_for_slack() -> None:
    """Pieces that only fit two rolls to the end are planned to the end."""
    plan = checked([12.0, 8.0, 14.0, 6.0], 20.0)
    assert (plan.rolls, plan.optimal) == (2, True)
    assert [cut.left for cut in plan.cuts] == pytest.approx([0.0, 0.0])


def test_the_plan_does_not_depend_on_the_order_of_pieces() -> None:
    """Shuffled pieces give the same cuts, twice the same pieces the same plan."""
    rng = random.Random(11)
    made = pieces([rng.uniform(2.6, 13.3) for _ in range(60)])
    plan = plan_cuts(made, stock(20.0))
    rng.shuffle(made)
    assert plan_cuts(made, stock(20.0)) == plan


def test_too_long_a_piece_is_named_with_its_remedy() -> None:
    """Every piece that does not fit is told in one sentence."""
    with pytest.raises(InputError) as caught:
        plan_cuts(pieces([21.0, 5.0, 0.0]), stock(20.0))
    assert [problem.subject for problem in caught.value.problems] == ["P0000", "P0002"]
    assert "21.000 m does not fit a roll of s, 20.000 m" in str(caught.value)
    assert "split the run" in str(caught.value)


def test_pieces_of_another_stock_are_refused() -> None:
    """Cutting narrow pieces from a wide roll is a mistake, not a plan."""
    stray = Piece(id="X", stock_id="t", length=1.0, joint_ids=())
    with pytest.raises(InputError, match="of t, not of s"):
        plan_cuts([stray], stock(20.0))


def test_grouping_keeps_every_piece_and_both_sides() -> None:
    """Groups hold all pieces, raised lengths never shrink, and every piece finds its place."""
    rng = random.Random(3)
    demand = collect([rng.uniform(1, 9) for _ in range(300)], 20.0)
    groups = group_lengths(demand, 40)
    assert len(groups.above.lengths) <= 40
    assert groups.above.n_pieces == groups.below.n_pieces == 300
    assert all(a >= b for a, b in zip(groups.above.lengths, groups.below.lengths, strict=True))
    rolls = ungroup(best_fit_decreasing(groups.above), groups, demand)
    assert sorted(i for roll in rolls for i in roll) == list(range(300))
    assert all(demand.used(roll) <= demand.roll + 1e-9 for roll in rolls)


def test_the_fullest_roll_is_full_when_it_can_be() -> None:
    """Around the longest piece the rest is filled to the end where a subset allows it."""
    demand = collect([11.0, 8.0, 7.0, 5.0, 4.0, 2.0], 20.0)
    first = fullest_rolls(demand, lay_grid(demand, 1 << 16))[0]
    assert demand.used(first) == pytest.approx(20.0)


@pytest.mark.parametrize("seed", range(20))
def test_the_functions_behind_the_bound_are_dual_feasible(seed: int) -> None:
    """No set of sizes that fits one roll sums to more than one under any of the functions."""
    rng = random.Random(seed)
    sizes: list[float] = []
    while True:
        size = rng.choice([rng.uniform(0.01, 0.9), 1 / rng.randint(2, 9)])
        if math.fsum([*sizes, size]) > 1:
            break
        sizes.append(size)
    edges = [rng.uniform(0, 0.5) for _ in range(20)]
    functions = [raised(e, 1e-9) for e in edges] + [rounded(k, 1e-9) for k in range(1, 40)]
    for f in functions:
        assert math.fsum(f(size) for size in sizes) <= 1 + 1e-7


def test_a_roll_is_filled_as_by_looking_at_every_piece() -> None:
    """Passing over pieces that open no new sum chooses what looking at each of them chooses."""
    size = (410, 377, 300, 212, 130, 55)
    waiting = [i for i, n in enumerate((3, 5, 2, 9, 4, 30)) for _ in range(n)]
    capacity, room = 1000, 1000 - size[0]
    sums = [{0}]
    for i in waiting[1:]:
        sums.append(sums[-1] | {s + size[i] for s in sums[-1] if s + size[i] <= room})
        if room in sums[-1]:
            break
    best, chosen = max(sums[-1]), [0]
    for k in range(len(sums) - 1, 0, -1):
        if best not in sums[k - 1]:
            chosen.append(k)
            best -= size[waiting[k]]
    assert _fill_one(waiting, size, capacity) == sorted(chosen)
