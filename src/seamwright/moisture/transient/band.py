"""A band matrix: factored without exchange of rows and solved, compiled.

Sound for the matrices of conduction and diffusion with storage, whose diagonal outweighs the rest.
"""

from __future__ import annotations

from typing import Any

import numpy.typing as npt

from seamwright.moisture.transient.compiled import compiled
from seamwright.moisture.types import Counts, Floats

Band = npt.NDArray[Any]
"""(rows, 2 · half + 1): entry (i, j) of the matrix stands at [i, j - i + half]."""


@compiled
def factor(band: Band, first: Counts, last: Counts) -> None:
    """Factor in place; row i begins at column `first[i]` and ends at `last[i]`.

    The diagonal then holds the inverse pivots, below it stand the multipliers.
    """
    half = band.shape[1] // 2
    for k in range(len(first)):
        pivot = 1.0 / band[k, half]
        band[k, half] = pivot
        end = last[k]
        row = band[k, half + 1 : half + 1 + end - k]
        for i in range(k + 1, end + 1):
            if first[i] <= k:
                at = half + k - i
                share = band[i, at] * pivot
                band[i, at] = share
                if share != 0.0:
                    target = band[i, at + 1 : at + 1 + end - k]
                    for j in range(len(row)):
                        target[j] -= share * row[j]


@compiled
def solve(band: Band, first: Counts, last: Counts, x: Floats) -> None:
    """Replace the right-hand side by the solution, from a factored band."""
    half = band.shape[1] // 2
    n = len(first)
    for i in range(n):
        row = band[i, half + first[i] - i : half]
        known = x[first[i] : i]
        total = 0.0
        for j in range(len(row)):
            total += row[j] * known[j]
        x[i] -= total
    for i in range(n - 1, -1, -1):
        row = band[i, half + 1 : half + 1 + last[i] - i]
        known = x[i + 1 : last[i] + 1]
        total = 0.0
        for j in range(len(row)):
            total += row[j] * known[j]
        x[i] = (x[i] - total) * band[i, half]
