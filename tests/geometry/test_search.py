"""Search by place, against every pair and against shapely."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon

from seamwright.geometry.search import (
    Outlines,
    clip_to_outlines,
    near_boxes,
    segment_distance,
)


@settings(derandomize=True, max_examples=30, deadline=None)
@given(seed=st.integers(0, 10_000), n=st.integers(0, 40), m=st.integers(0, 40))
def test_near_boxes_are_those_that_overlap(seed: int, n: int, m: int) -> None:
    """The tree finds just the pairs that holding each box against each other finds."""
    rng = np.random.default_rng(seed)
    lower, other = rng.uniform(0, 10, (n, 3)), rng.uniform(0, 10, (m, 3))
    upper, other_upper = lower + rng.uniform(0, 3, (n, 3)), other + rng.uniform(0, 3, (m, 3))
    i, j = near_boxes(lower, upper, other, other_upper)
    expected = {
        (a, b)
        for a in range(n)
        for b in range(m)
        if (lower[a] <= other_upper[b]).all() and (other[b] <= upper[a]).all()
    }
    assert expected == set(zip(i.tolist(), j.tolist(), strict=True))
    assert len(expected) == len(i)


def outlines(*rings: list[tuple[float, float]]) -> Outlines:
    """Return one outline made of a ring and its holes."""
    sides = [(*a, *b) for ring in rings for a, b in zip(ring, ring[1:] + ring[:1], strict=True)]
    table = np.array(sides, dtype=float)
    return Outlines(
        first=np.array([0]),
        count=np.array([len(sides)]),
        start=table[:, :2],
        end=table[:, 2:],
    )


SHELL = [(0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (2.5, 3.0), (2.5, 1.5), (1.5, 1.5), (1.5, 3.0), (0, 3)]
HOLE = [(0.5, 0.5), (0.5, 1.0), (3.5, 1.0), (3.5, 0.5)]


@settings(derandomize=True, max_examples=60, deadline=None)
@given(
    x=st.floats(-1.0, 5.0),
    y=st.floats(-1.0, 4.0),
    angle=st.floats(0.0, math.pi),
)
def test_clipping_agrees_with_shapely(x: float, y: float, angle: float) -> None:
    """A line runs inside a notched outline with a hole for as long as shapely says."""
    way = np.array([[math.cos(angle), math.sin(angle)]])
    row, start, end = clip_to_outlines(
        np.array([[x, y]]), way, np.array([0]), outlines(SHELL, HOLE)
    )
    line = LineString([np.array([x, y]) - 20 * way[0], np.array([x, y]) + 20 * way[0]])
    expected = Polygon(SHELL, [HOLE]).intersection(line).length
    assert (end - start).sum() == pytest.approx(expected, abs=1e-6)
    assert (end >= start).all()
    assert (row == 0).all()


def test_segment_distance_reaches_past_the_ends() -> None:
    """A point beyond a segment's end is as far as that end; a segment of no length is a point."""
    point = np.array([[0.0, 3.0, 0.0], [5.0, 4.0, 0.0], [1.0, 1.0, 1.0]])
    start = np.array([[-1.0, 0.0, 0.0], [0.0, 0.0, 0.0], [1.0, 1.0, 0.0]])
    end = np.array([[1.0, 0.0, 0.0], [2.0, 0.0, 0.0], [1.0, 1.0, 0.0]])
    assert segment_distance(point, start, end) == pytest.approx([3.0, 5.0, 1.0])
