"""Cutting against published instances whose least number of rolls is proven.

The instances, with where they come from, are in ``data/cutting_stock.json``. The bound of the paper
reels is 72.91667 and the optimum 73; the bins of class u120 need 46 to 50, where best fit
decreasing takes one more in most.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from seamwright.seals.types import StripStock
from seamwright.takeoff._grid import collect
from seamwright.takeoff._packing import best_fit_decreasing
from seamwright.takeoff.cutting import pattern_bound, plan_cuts
from seamwright.takeoff.types import Piece

DATA: dict[str, Any] = json.loads(
    (Path(__file__).parent / "data" / "cutting_stock.json").read_text("utf-8")
)
REELS = DATA["paper_reels"]
BINS = DATA["u120"]


def pieces(lengths: list[int]) -> list[Piece]:
    """Return one piece for each length, in the instance's own unit."""
    return [
        Piece(id=f"P{k:04d}", stock_id="s", length=float(length), joint_ids=())
        for k, length in enumerate(lengths)
    ]


def stock(roll: int) -> StripStock:
    """Return a stock with rolls of the instance."""
    return StripStock(id="s", width=1.0, roll_length=float(roll), per_carton=1)


def reel_lengths() -> list[int]:
    """Return every reel of the paper instance, one by one."""
    pairs = zip(REELS["widths"], REELS["demand"], strict=True)
    return [width for width, n in pairs for _ in range(n)]


@pytest.mark.source("gilmore-gomory-1961", "the pattern program, on the 13-width paper instance")
def test_paper_reels_take_73() -> None:
    """The published optimum of 73 reels is found and proven."""
    plan = plan_cuts(pieces(reel_lengths()), stock(REELS["stock"]))
    assert (plan.rolls, plan.bound, plan.optimal) == (REELS["optimum"], 73, True)
    waste = 1 - sum(reel_lengths()) / (plan.rolls * REELS["stock"])
    assert waste == pytest.approx(0.00401, abs=5e-6)


@pytest.mark.source("gilmore-gomory-1961", "bound of the pattern program on the same instance")
def test_paper_reels_bound() -> None:
    """The linear program over all patterns gives 72 11/12."""
    demand = collect([float(width) for width in reel_lengths()], float(REELS["stock"]))
    assert pattern_bound(demand) == pytest.approx(REELS["lp_bound"], abs=1e-6)


@pytest.mark.source("or-library-u120", "u120_00 to u120_09")
@pytest.mark.parametrize("instance", BINS["instances"], ids=lambda one: one["name"])
def test_u120_bins_meet_their_optimum(instance: dict[str, Any]) -> None:
    """Each instance is packed in its proven least number of bins, and proven so here."""
    plan = plan_cuts(pieces(instance["items"]), stock(BINS["capacity"]))
    assert (plan.rolls, plan.optimal) == (instance["optimum"], True)


@pytest.mark.source("or-library-u120", "u120_00 to u120_09")
def test_the_instances_tell_a_heuristic_from_an_exact_method() -> None:
    """Best fit decreasing alone misses most of the optima, so these instances test something."""
    missed = 0
    for instance in BINS["instances"]:
        demand = collect([float(item) for item in instance["items"]], float(BINS["capacity"]))
        missed += len(best_fit_decreasing(demand)) > instance["optimum"]
    assert missed >= 5
