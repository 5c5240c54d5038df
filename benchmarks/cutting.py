"""Cutting from rolls: how far from the bound, and what it costs beside a quick packing.

Seeded demands of 2,000 pieces on rolls of 22.86 m (75 ft), from easy to hard. For each: rolls,
bound, gap to the linear bound, rolls of first fit decreasing, and the time of both in one run.
"""

from __future__ import annotations

import random
import time
from collections.abc import Callable
from typing import Any

from seamwright.seals.types import StripStock
from seamwright.takeoff._grid import collect
from seamwright.takeoff._packing import first_fit_decreasing
from seamwright.takeoff.cutting import plan_cuts
from seamwright.takeoff.types import Piece

ROLL = 22.86
STOCK = StripStock(id="strip", width=0.1016, roll_length=ROLL, per_carton=8)
PIECES = 2000
SEED = 20


def run(*, quick: bool = False) -> dict[str, Any]:
    """Return the figures of every demand, flat; `quick` cuts a tenth of the pieces."""
    n = PIECES // 10 if quick else PIECES
    cases = {name: _measure(make(random.Random(SEED), n)) for name, make in DEMANDS.items()}
    reached = all(case["proven"] or case["gap_percent"] <= 1.0 for case in cases.values())
    return {
        "pieces": n,
        **{f"{name} {key}": value for name, case in cases.items() for key, value in case.items()},
        "proven or within 1 %": reached,
    }


def _measure(lengths: list[float]) -> dict[str, Any]:
    pieces = [
        Piece(id=f"P{k:04d}", stock_id=STOCK.id, length=length, joint_ids=())
        for k, length in enumerate(lengths)
    ]
    plan, cut_time = _timed(lambda: plan_cuts(pieces, STOCK))
    packed, pack_time = _timed(lambda: first_fit_decreasing(collect(lengths, ROLL)))
    return {
        "lengths": len(set(lengths)),
        "rolls": plan.rolls,
        "lp_bound": plan.lp_bound,
        "gap_percent": 100 * (plan.rolls - plan.lp_bound) / plan.lp_bound,
        "proven": plan.optimal,
        "rolls_first_fit": len(packed),
        "rolls_ratio": plan.rolls / len(packed),
        "time_s": cut_time,
        "time_ratio": cut_time / pack_time,
    }


def _timed(work: Callable[[], Any]) -> tuple[Any, float]:
    start = time.perf_counter()
    result = work()
    return result, time.perf_counter() - start


def _house(rng: random.Random, n: int) -> list[float]:
    """Return runs of 0.3 to 9 m, mostly panel seams, and patches: what houses take."""
    return [rng.choice([0.1524, 1.2192, 2.5, 2.75, 4.3, rng.uniform(0.3, 9)]) for _ in range(n)]


def _uniform(rng: random.Random, n: int) -> list[float]:
    """Return 0.13 to 0.67 of a roll in any length, the hard class of the packing literature."""
    return [rng.uniform(0.13, 0.67) * ROLL for _ in range(n)]


def _sixteenths(rng: random.Random, n: int) -> list[float]:
    """Return 6 to 36 ft in sixteenths of an inch."""
    return [rng.randint(1152, 6912) * 0.0254 / 16 for _ in range(n)]


def _thirds(rng: random.Random, n: int) -> list[float]:
    """Return pieces around a third of a roll, where quick packings waste most."""
    return [rng.uniform(0.26, 0.41) * ROLL for _ in range(n)]


DEMANDS: dict[str, Callable[[random.Random, int], list[float]]] = {
    "house": _house,
    "uniform": _uniform,
    "sixteenths": _sixteenths,
    "thirds": _thirds,
}

if __name__ == "__main__":
    import json
    import sys

    print(json.dumps(run(quick="--quick" in sys.argv), indent=2))
