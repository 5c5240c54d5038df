"""The band matrix of a run against a dense solution."""

from __future__ import annotations

import numpy as np
import pytest

from seamwright.moisture.transient.band import ROWS, add, factor, room_for, solve


@pytest.mark.parametrize(("blocks", "reach"), [(1, 0), (3, 1), (7, 3), (16, 5), (33, 12), (50, 9)])
def test_a_band_of_uneven_rows_is_solved(blocks: int, reach: int) -> None:
    """Whatever the number of blocks and how far each row reaches, as a dense solver has it."""
    rng = np.random.default_rng(blocks)
    place = np.arange(blocks)
    first = np.maximum(0, place - rng.integers(0, reach + 1, blocks))
    first = np.minimum.accumulate(first[::-1])[::-1].copy()
    last = np.array([np.flatnonzero(first <= k).max() for k in place])
    band, dense = room_for(blocks, reach), np.zeros((2 * blocks, 2 * blocks))
    for i, j in np.argwhere((first[:, None] <= place) & (first <= place[:, None])):
        values = rng.normal(size=(2, 2)) + (8.0 * (reach + 1) * np.eye(2) if i == j else 0.0)
        dense[2 * i : 2 * i + 2, 2 * j : 2 * j + 2] = values
        for a, b in np.ndindex(2, 2):
            add(band, 2 * i + a, 2 * j + b, values[a, b])
    right = rng.normal(size=2 * blocks)
    x = np.zeros(ROWS * (len(band) + 1), dtype=np.float32)
    x[: 2 * blocks] = right
    factor(band, last)
    solve(band, first, last, x)
    assert x[: 2 * blocks] == pytest.approx(np.linalg.solve(dense, right), abs=1e-6)
