"""A band matrix of two-by-two blocks: factored without exchange of rows and solved, compiled.

Sound for the matrices of conduction and diffusion with storage, whose diagonal outweighs the rest.
Single precision is enough: the iteration that uses it works out what is left over in double.
"""

from __future__ import annotations

from typing import TypeAlias

import numpy as np
import numpy.typing as npt

from seamwright.moisture.transient.compiled import compiled
from seamwright.moisture.types import Counts

Band: TypeAlias = npt.NDArray[np.float32]
"""(2 · blocks, 4 · reach + 2): entry (2i + a, 2j + b) stands at [2i + a, 2 (j - i + reach) + b]."""

Singles: TypeAlias = npt.NDArray[np.float32]


@compiled
def factor(band: Band, first: Counts, last: Counts) -> None:
    """Factor in place; block row i begins at block column `first[i]` and ends at `last[i]`.

    Diagonal blocks then hold their inverses, below them stand the multipliers.
    """
    mid = band.shape[1] // 2 - 1
    for k in range(len(first)):
        invert(band, 2 * k, mid)
        b = band[2 * k : 2 * k + 2, mid : mid + 2]
        width = 2 * (last[k] - k)
        upper = band[2 * k, mid + 2 : mid + 2 + width]
        lower = band[2 * k + 1, mid + 2 : mid + 2 + width]
        for i in range(k + 1, last[k] + 1):
            if first[i] > k:
                continue
            at = mid + 2 * (k - i)
            p, q = times(band[2 * i], at, b)
            r, s = times(band[2 * i + 1], at, b)
            top = band[2 * i, at + 2 : at + 2 + width]
            low = band[2 * i + 1, at + 2 : at + 2 + width]
            for j in range(width):
                top[j] -= p * upper[j] + q * lower[j]
                low[j] -= r * upper[j] + s * lower[j]


@compiled
def times(row: Singles, at: int, block: Band) -> tuple[np.float32, np.float32]:
    """Replace two entries of a row by their product with a block; return it."""
    p = row[at] * block[0, 0] + row[at + 1] * block[1, 0]
    q = row[at] * block[0, 1] + row[at + 1] * block[1, 1]
    row[at], row[at + 1] = p, q
    return p, q


@compiled
def invert(band: Band, row: int, at: int) -> None:
    """Replace a two-by-two block by its inverse."""
    a, b, c, d = band[row, at], band[row, at + 1], band[row + 1, at], band[row + 1, at + 1]
    over = np.float32(1.0) / (a * d - b * c)
    band[row, at], band[row, at + 1] = d * over, -b * over
    band[row + 1, at], band[row + 1, at + 1] = -c * over, a * over


@compiled
def solve(band: Band, first: Counts, last: Counts, x: Singles) -> None:
    """Replace the right-hand side by the solution, from a factored band."""
    mid = band.shape[1] // 2 - 1
    n = len(first)
    for i in range(n):
        known = x[2 * first[i] : 2 * i]
        top, low = scalar(band, 2 * i, mid - len(known), known)
        x[2 * i] -= top
        x[2 * i + 1] -= low
    for i in range(n - 1, -1, -1):
        top, low = scalar(band, 2 * i, mid + 2, x[2 * i + 2 : 2 * last[i] + 2])
        top, low = x[2 * i] - top, x[2 * i + 1] - low
        x[2 * i] = band[2 * i, mid] * top + band[2 * i, mid + 1] * low
        x[2 * i + 1] = band[2 * i + 1, mid] * top + band[2 * i + 1, mid + 1] * low


@compiled
def scalar(band: Band, row: int, at: int, known: Singles) -> tuple[np.float32, np.float32]:
    """Return the sums of two rows, from column `at` on, with what is known."""
    a, b = band[row, at : at + len(known)], band[row + 1, at : at + len(known)]
    top, low = np.float32(0.0), np.float32(0.0)
    for j in range(len(known)):
        top += a[j] * known[j]
        low += b[j] * known[j]
    return top, low
