"""A band matrix of two-by-two blocks: factored without exchange of rows and solved, compiled.

Sound for the matrices of conduction and diffusion with storage, whose diagonal outweighs the rest.
Single precision is enough: the iteration that uses it works out what is left over in double.

Eight rows, four blocks, make a panel, stored column by column, so that eight rows are worked at
once. Behind its columns each panel keeps the inverses of its lower and of its upper corner.
"""

from __future__ import annotations

from typing import TypeAlias

import numpy as np
import numpy.typing as npt

from seamwright.moisture.transient.compiled import compiled
from seamwright.moisture.transient.lanes import gather, sweep, sweep_all
from seamwright.moisture.types import Counts

Singles: TypeAlias = npt.NDArray[np.float32]

Band: TypeAlias = npt.NDArray[np.float32]
"""(panels, columns, 8): entry (r, c) stands at [r // 8, c - 8 (r // 8) + half, r % 8]; half is
a multiple of 8, there are 2 half + 8 columns, and then two times 8 of the corners' inverses."""

ROWS = 8


def room_for(blocks: int, reach: int) -> Band:
    """Return an empty band for so many blocks that reach so many blocks to either side."""
    half = -(-2 * reach // ROWS) * ROWS
    return np.zeros((-(-blocks // 4), 2 * half + 3 * ROWS, ROWS), dtype=np.float32)


@compiled
def half_of(band: Band) -> int:
    """Return how many columns stand before a panel's own eight."""
    return int((band.shape[1] - 3 * ROWS) // 2)


@compiled
def add(band: Band, row: int, column: int, value: float) -> None:
    """Add to an entry."""
    panel = row >> 3
    band[panel, column - ROWS * panel + half_of(band), row & 7] += value


@compiled
def factor(band: Band, last: Counts) -> None:
    """Factor in place; block row and block column k end at `last[k]`, which never falls."""
    half, blocks, wide = half_of(band), len(last), band.shape[1]
    _complete(band, blocks)
    by, flat = np.empty(ROWS * ROWS, dtype=np.float32), band.reshape(-1)
    for own in range(len(band)):
        end = last[min(4 * own + 3, blocks - 1)]
        _own_rows(band, flat, own, by, 2 * end + 2 - ROWS * own)
        _upper(band, flat, own, by)
        source = ROWS * (wide * own + half + ROWS)
        upper = source + ROWS * (half + ROWS)
        for q in range(own + 1, end // 4 + 1):
            to = ROWS * (wide * q + ROWS * (own - q) + half)
            for j in range(ROWS * ROWS):
                by[j] = flat[to + j]
                flat[to + j] = 0.0
            sweep_all(flat, to, by, upper, ROWS)
            for j in range(ROWS * ROWS):
                by[j] = -flat[to + j]
                flat[to + j] = by[j]
            sweep_all(flat, to + ROWS * ROWS, by, source, 2 * end + 2 - ROWS * (own + 1))


@compiled
def _own_rows(band: Band, flat: Band, own: int, by: Singles, end: int) -> None:
    """Factor a panel's own rows, which reach `end` columns far."""
    half, wide = half_of(band), band.shape[1]
    block = np.empty(4, dtype=np.float32)
    corner = ROWS * (wide * own + 2 * half + ROWS)
    for j in range(4):
        at, lane = half + 2 * j, 2 * j
        _invert(band[own], at, lane, block)
        _shares_within(block, band[own], at, by, lane + 2)
        source = ROWS * (wide * own + at + 2) + lane
        sweep(flat, source - lane, by, source, max(end - 2 * j - 2, 0))
        sweep(flat, corner, by, corner + lane, ROWS)


@compiled
def solve(band: Band, first: Counts, last: Counts, x: Singles) -> None:
    """Replace the right-hand side by the solution, from a factored band.

    `x` has a place for each row of each panel and eight more.
    """
    half, wide, blocks = half_of(band), band.shape[1], len(last)
    flat = band.reshape(-1)
    rest = ROWS * len(band)
    for p in range(len(band)):
        base = ROWS * wide * p
        start = max(0, half - ROWS * p, (2 * first[4 * p] - ROWS * p + half) // 4 * 4)
        gather(flat, base + ROWS * start, x, start + ROWS * p - half, ROWS * p, half - start)
        _turn(flat, base + ROWS * (2 * half + ROWS), x, ROWS * p, rest)
    for p in range(len(band) - 1, -1, -1):
        base = ROWS * wide * p
        end = (2 * last[min(4 * p + 3, blocks - 1)] + 2 - ROWS * (p + 1) + 3) // 4 * 4
        end = max(0, min(end, ROWS * (len(band) - p - 1)))
        gather(flat, base + ROWS * (half + ROWS), x, ROWS * (p + 1), ROWS * p, end)
        _turn(flat, base + ROWS * (2 * half + 2 * ROWS), x, ROWS * p, rest)


@compiled
def _turn(flat: Band, corner: int, x: Singles, at: int, rest: int) -> None:
    """Multiply eight unknowns by a corner's inverse, by way of the rest of x."""
    for j in range(ROWS):
        x[rest + j] = 0.0
    gather(flat, corner, x, at, rest, ROWS)
    for j in range(ROWS):
        x[at + j] = -x[rest + j]


@compiled
def _complete(band: Band, blocks: int) -> None:
    """Set ones on the diagonal beyond the last block and on that of the corners."""
    half = half_of(band)
    for row in range(2 * blocks, ROWS * len(band)):
        band[len(band) - 1, half + row % ROWS, row % ROWS] = 1.0
    for p in range(len(band)):
        for c in range(2 * ROWS):
            for j in range(ROWS):
                band[p, 2 * half + ROWS + c, j] = 1.0 if j == c % ROWS else 0.0


@compiled
def _invert(panel: Band, at: int, lane: int, block: Singles) -> None:
    """Replace a two-by-two block by its inverse, and set it beside."""
    a, b = panel[at, lane], panel[at + 1, lane]
    c, d = panel[at, lane + 1], panel[at + 1, lane + 1]
    over = np.float32(1.0) / (a * d - b * c)
    block[0], block[1], block[2], block[3] = d * over, -b * over, -c * over, a * over
    panel[at, lane], panel[at + 1, lane] = block[0], block[1]
    panel[at, lane + 1], panel[at + 1, lane + 1] = block[2], block[3]


@compiled
def _shares_within(block: Singles, panel: Band, column: int, by: Singles, least: int) -> None:
    """Set and keep the multipliers of a pivot's own panel from row `least` on; zero before."""
    for j in range(ROWS):
        one, two = panel[column, j], panel[column + 1, j]
        p, q = one * block[0] + two * block[2], one * block[1] + two * block[3]
        below = j >= least
        by[j] = p if below else np.float32(0.0)
        by[ROWS + j] = q if below else np.float32(0.0)
        panel[column, j] = p if below else one
        panel[column + 1, j] = q if below else two


@compiled
def _upper(band: Band, flat: Band, panel: int, by: Singles) -> None:
    """Work out the inverse of a panel's upper corner."""
    half = half_of(band)
    corner = ROWS * (band.shape[1] * panel + 2 * half + 2 * ROWS)
    for k in range(3, -1, -1):
        at, lane = half + 2 * k, 2 * k
        a, b = band[panel, at, lane], band[panel, at + 1, lane]
        c, d = band[panel, at, lane + 1], band[panel, at + 1, lane + 1]
        by[:] = 0.0
        for j in range(lane):
            one, two = band[panel, at, j], band[panel, at + 1, j]
            by[j], by[ROWS + j] = one * a + two * c, one * b + two * d
        sweep(flat, corner, by, corner + lane, ROWS)
        for q in range(2 * half + 2 * ROWS, 2 * half + 3 * ROWS):
            one, two = band[panel, q, lane], band[panel, q, lane + 1]
            band[panel, q, lane] = a * one + b * two
            band[panel, q, lane + 1] = c * one + d * two
