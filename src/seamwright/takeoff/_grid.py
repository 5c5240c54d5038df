"""What is to be cut, and the same on a grid of whole numbers, where exact methods can count."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeAlias

Pattern: TypeAlias = tuple[int, ...]
"""What one roll is cut into: indices of lengths, repeated as often as cut, ascending."""

SAME = 1e-9
"""Two lengths nearer than this count as one, and a roll may be overfilled by as much. [m]"""


@dataclass(frozen=True, kw_only=True, slots=True)
class Demand:
    """Distinct `lengths`, longest first, how many of each, and the length of a `roll`. [m]"""

    lengths: tuple[float, ...]
    counts: tuple[int, ...]
    roll: float

    @property
    def n_pieces(self) -> int:
        """Pieces in all."""
        return sum(self.counts)

    def total(self) -> float:
        """Return the length of all pieces together. [m]"""
        return math.fsum(a * n for a, n in zip(self.lengths, self.counts, strict=True))

    def used(self, pattern: Pattern) -> float:
        """Return the length a pattern takes from its roll. [m]"""
        return math.fsum(self.lengths[i] for i in pattern)


@dataclass(frozen=True, kw_only=True, slots=True)
class Grid:
    """The lengths of a demand in whole cells of a roll of `capacity` cells.

    A pattern that fits with the `above` sizes fits in truth; one that does not fit with the
    `below` sizes cannot fit. On an `exact` grid both are the same.
    """

    capacity: int
    above: tuple[int, ...]
    below: tuple[int, ...]
    exact: bool


def collect(lengths: Sequence[float], roll: float) -> Demand:
    """Return the demand for pieces of these lengths, equal ones counted together. [m]"""
    distinct: list[float] = []
    counts: list[int] = []
    for length in sorted(lengths, reverse=True):
        if distinct and distinct[-1] - length <= SAME:
            counts[-1] += 1
        else:
            distinct.append(length)
            counts.append(1)
    return Demand(lengths=tuple(distinct), counts=tuple(counts), roll=roll)


def lay_grid(demand: Demand, cells: int) -> Grid:
    """Return the demand on its own common measure, or on `cells` cells when it has none so coarse.

    The common measure is found by Euclid's method on the lengths. Pieces that all measure whole
    sixteenths of an inch, say, are cut exactly; others are taken a cell too long (safe to cut) and
    a cell too short (safe as a bound).
    """
    unit = _common_measure(demand.lengths, demand.roll / (8 * cells))
    if unit is not None:
        sizes = tuple(round(length / unit) for length in demand.lengths)
        capacity = math.floor(demand.roll / unit + SAME / unit)
        return Grid(capacity=capacity, above=sizes, below=sizes, exact=True)
    unit = demand.roll / cells
    slack = SAME / unit
    return Grid(
        capacity=cells,
        above=tuple(max(1, math.ceil(length / unit - slack)) for length in demand.lengths),
        below=tuple(max(1, math.floor(length / unit + slack)) for length in demand.lengths),
        exact=False,
    )


def _common_measure(lengths: Sequence[float], least: float) -> float | None:
    """Return the longest length that divides all of them, None when below `least`. [m]"""
    near = 1e-7
    unit = 0.0
    for length in lengths:
        a, b = max(unit, length), min(unit, length)
        while b > near:
            a, b = b, math.remainder(a, b)
            b = abs(b)
        unit = a
        if unit < least:
            return None
    if unit <= 0:
        return None
    off = max(abs(length - round(length / unit) * unit) for length in lengths)
    return unit if off <= SAME * 10 else None
