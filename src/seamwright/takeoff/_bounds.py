"""Numbers of rolls that no cutting can go below, without solving anything."""

from __future__ import annotations

import math
from collections.abc import Callable

from seamwright.takeoff._grid import SAME, Demand

_STEPS = 40
"""How many members of each family of functions are tried."""


def length_bound(demand: Demand) -> float:
    """Return all pieces laid end to end, in rolls. [-]"""
    return demand.total() / demand.roll


def long_piece_bound(demand: Demand) -> float:
    """Return the best bound of two families of dual feasible functions. [-]

    A dual feasible function f on [0, 1] keeps every set of sizes that fits one roll at a sum of f
    at most 1, so the sum of f over all pieces is a bound. Pieces above half a roll cannot share
    one, and these functions know it where the plain length does not.

    Source: S. P. Fekete, J. Schepers, Mathematical Programming 91 (2001) 11-31 (from memory; that
    each function is dual feasible is tested).
    """
    sizes = [length / demand.roll for length in demand.lengths]
    slack = SAME / demand.roll
    edges = sorted({s for s in sizes if s <= 0.5} | {1 - s for s in sizes if s > 0.5})
    every = max(1, len(edges) // _STEPS)
    family = [raised(edge, slack) for edge in edges[::every]]
    family += [rounded(k, slack) for k in range(1, _STEPS)]
    return max(
        (math.fsum(f(s) * n for s, n in zip(sizes, demand.counts, strict=True)) for f in family),
        default=0.0,
    )


def raised(edge: float, slack: float) -> Callable[[float], float]:
    """Return the function that counts sizes above ``1 - edge`` as whole rolls, below `edge` as 0.

    `edge` lies in [0, 1/2]; `slack` keeps rounding on the safe side.
    """

    def f(x: float) -> float:
        if x > 1 - edge + 2 * slack:
            return 1.0
        return x if x >= edge - slack else 0.0

    return f


def rounded(k: int, slack: float) -> Callable[[float], float]:
    """Return the function that rounds sizes down to multiples of 1/k after scaling by k + 1.

    A size that is itself a multiple of 1/(k + 1) stays as it is.
    """

    def f(x: float) -> float:
        scaled = (k + 1) * x
        if abs(scaled - round(scaled)) <= (k + 1) * slack:
            return x
        return math.floor(scaled) / k

    return f
