"""Hatches as explicit lines and dots, cut to the outline they fill."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator

import shapely
from shapely.geometry import LineString, MultiLineString, Point, Polygon

from seamwright.draw.types import Points
from seamwright.geometry.types import Vec2


def hatch_lines(
    area: Polygon | shapely.MultiPolygon, pitch: float, angle: float
) -> list[tuple[Vec2, Vec2]]:
    """Return parallel lines `pitch` apart at `angle` degrees inside an area. [mm]

    Lines lie on a grid fixed to the sheet, so that neighbors hatch through.
    """
    if area.is_empty or pitch <= 0.0:
        return []
    turn = math.radians(angle)
    c, s = math.cos(turn), math.sin(turn)
    x0, y0, x1, y1 = area.bounds
    spots = [(x, y) for x in (x0, x1) for y in (y0, y1)]
    across = [y * c - x * s for x, y in spots]
    along = [x * c + y * s for x, y in spots]
    low, high = min(along) - 1.0, max(along) + 1.0
    first, last = math.ceil(min(across) / pitch), math.floor(max(across) / pitch)
    rules = [
        LineString(
            [(low * c - k * pitch * s, low * s + k * pitch * c),
             (high * c - k * pitch * s, high * s + k * pitch * c)]
        )
        for k in range(first, last + 1)
    ]  # fmt: skip
    if not rules:
        return []
    return list(_pairs(shapely.intersection(MultiLineString(rules), area)))


def zigzag_lines(area: Polygon | shapely.MultiPolygon, pitch: float) -> list[tuple[Vec2, Vec2]]:
    """Return rows of a shallow zigzag inside an area: the sign for foam. [mm]"""
    if area.is_empty:
        return []
    x0, y0, x1, y1 = area.bounds
    rows = []
    for row in range(math.floor(y0 / pitch), math.ceil(y1 / pitch) + 1):
        y = row * pitch
        first, last = math.floor(x0 / pitch) - 1, math.ceil(x1 / pitch) + 1
        rows.append(
            LineString(
                [(k * pitch, y + (0.28 if (k + row) % 2 else -0.28) * pitch)
                 for k in range(first, last + 1)]
            )
        )  # fmt: skip
    return list(_pairs(shapely.intersection(MultiLineString(rows), area)))


def stipple_points(area: Polygon | shapely.MultiPolygon, pitch: float) -> list[Vec2]:
    """Return staggered, slightly shaken points inside an area: the sign for concrete. [mm]

    The shake is a fixed function of the row and column, so a drawing always comes out the same.
    """
    if area.is_empty:
        return []
    x0, y0, x1, y1 = area.bounds
    shapely.prepare(area)
    points = []
    for row in range(math.floor(y0 / pitch), math.ceil(y1 / pitch) + 1):
        for column in range(math.floor(x0 / pitch), math.ceil(x1 / pitch) + 1):
            shake = math.sin(row * 12.9898 + column * 78.233) * 43758.5453
            shake -= math.floor(shake)
            x = (column + 0.5 * (row % 2) + 0.35 * (shake - 0.5)) * pitch
            y = (row + 0.35 * (shake * 7 % 1 - 0.5)) * pitch
            if area.contains(Point(x, y)):
                points.append((x, y))
    return points


def as_area(ring: Points) -> Polygon:
    """Return an outline as a valid area (empty when it has none)."""
    if len(ring) < 3:
        return Polygon()
    return shapely.make_valid(Polygon(ring)).buffer(0)


def _pairs(cut: shapely.Geometry) -> Iterator[tuple[Vec2, Vec2]]:
    for line in shapely.get_parts(cut):
        if line.geom_type != "LineString":
            continue
        points = [(float(x), float(y)) for x, y in line.coords]
        yield from itertools.pairwise(points)
