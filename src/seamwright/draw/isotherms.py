"""Bands and lines of equal temperature over a grid of triangles."""

from __future__ import annotations

import itertools
from collections.abc import Sequence

import numpy as np
import shapely

from seamwright.geometry.types import Vec2
from seamwright.moisture.types import Field, Floats


def band_areas(field: Field, values: Floats, levels: Sequence[float]) -> list[shapely.Geometry]:
    """Return the area between each two neighboring levels, in section coordinates. [m]

    `values` (n,) stand at the grid's points; below the first and above the last level count with
    the end bands.
    """
    corners = field.grid.points[field.grid.triangles]
    heights = values[field.grid.triangles]
    bounds = [-np.inf, *levels[1:-1], np.inf]
    areas = []
    for low, high in itertools.pairwise(bounds):
        hit = (heights.max(axis=1) > low) & (heights.min(axis=1) < high)
        whole = hit & (heights.min(axis=1) >= low) & (heights.max(axis=1) <= high)
        rings = [corners[i] for i in np.flatnonzero(whole)]
        rings += [
            ring
            for i in np.flatnonzero(hit & ~whole)
            if len(ring := _between(corners[i], heights[i], low, high)) > 2
        ]
        areas.append(shapely.union_all([shapely.Polygon(r) for r in rings], grid_size=1e-6))
    return areas


def isolines(field: Field, values: Floats, level: float) -> list[list[Vec2]]:
    """Return the lines on which the values reach a level, as runs of points. [m]"""
    corners = field.grid.points[field.grid.triangles]
    heights = values[field.grid.triangles] - level
    heights = np.where(heights == 0.0, 1e-12, heights)
    pieces = []
    for points, h in zip(corners, heights, strict=True):
        if h.min() < 0.0 < h.max():
            ends = [
                points[i] + (points[j] - points[i]) * h[i] / (h[i] - h[j])
                for i, j in ((0, 1), (1, 2), (2, 0))
                if h[i] * h[j] < 0.0
            ]
            pieces.append(np.round(ends, 7))
    if not pieces:
        return []
    merged = shapely.line_merge(shapely.MultiLineString([p.tolist() for p in pieces]))
    return [[(float(x), float(y)) for x, y in line.coords] for line in shapely.get_parts(merged)]


def _between(points: Floats, heights: Floats, low: float, high: float) -> Floats:
    """Return the part of a triangle whose values lie between two levels."""
    for level, sign in ((low, 1.0), (high, -1.0)):
        if np.isfinite(level):
            points, heights = _above(points, heights, level, sign)
    return points


def _above(points: Floats, heights: Floats, level: float, sign: float) -> tuple[Floats, Floats]:
    kept, values = [], []
    over = sign * (heights - level)
    for i in range(len(points)):
        j = (i + 1) % len(points)
        if over[i] >= 0.0:
            kept.append(points[i])
            values.append(heights[i])
        if over[i] * over[j] < 0.0:
            share = over[i] / (over[i] - over[j])
            kept.append(points[i] + share * (points[j] - points[i]))
            values.append(level)
    return np.array(kept).reshape(-1, 2), np.array(values)
