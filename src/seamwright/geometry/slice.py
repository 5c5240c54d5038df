"""Cutting plates by a plane: exact outlines of each layer, in the axes of the cut.

A plate stands between a lower ring and an upper ring that have the same number of corners; corner
i of one is joined to corner i of the other, so every side is flat. At a level between the two the
outline is the straight mix of both rings. Between two levels at which no corner crosses the
cutting plane the cut is a set of quadrilaterals, which is what this module uses.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from typing import TypeAlias

from seamwright.geometry.types import Frame, Ring, Vec2, dot

Span: TypeAlias = tuple[Vec2, Vec2]
"""A stretch of a line, by its two ends. [m]"""

_PARALLEL = 1e-9


@dataclass(frozen=True, kw_only=True, slots=True)
class Plate:
    """A body between `lower` (in the plane of `frame`) and `upper`, `thickness` along the normal.

    `holes` go square through the whole plate. [m]
    """

    frame: Frame
    lower: Ring
    upper: Ring
    thickness: float
    holes: tuple[Ring, ...] = ()


def cut_layers(plate: Plate, cut: Frame, levels: tuple[float, ...]) -> tuple[tuple[Ring, ...], ...]:
    """Return the outlines of each layer of `plate` on the plane of `cut`, counter-clockwise.

    Parameters
    ----------
    plate
        The body.
    cut
        The cutting plane; outlines come back in its (u, v). [m]
    levels
        Ascending shares of the thickness from 0 to 1; one layer lies between two neighbors. [-]

    Returns
    -------
    One tuple of rings per layer; empty where the plane misses it or is parallel to the plate.
    """
    slicer = _Slicer(plate, cut)
    if slicer.is_parallel:
        return tuple(() for _ in levels[1:])
    pairs = itertools.pairwise(levels)
    return tuple(slicer.layer(low, high) for low, high in pairs)


def cut_level(plate: Plate, cut: Frame, level: float) -> tuple[Span, ...]:
    """Return the stretches of the plate's outline at `level` that lie on the plane of `cut`.

    Ordered along the cut; in the (u, v) of `cut`. [m] Empty where the plane misses the plate or
    is parallel to it.
    """
    slicer = _Slicer(plate, cut)
    return () if slicer.is_parallel else slicer.spans(level)


def clip(ring: Ring, reach: float) -> Ring:
    """Return the part of `ring` within the square of half-width `reach` about the origin. [m]

    Empty when nothing is left. Meant for rings that are convex or nearly so.
    """
    points = list(ring)
    for axis in (0, 1):
        for sign in (1.0, -1.0):
            points = _clip_side(points, axis, sign, reach)
    return tuple(points)


def _clip_side(points: list[Vec2], axis: int, sign: float, reach: float) -> list[Vec2]:
    kept: list[Vec2] = []
    for a, b in zip(points, points[1:] + points[:1], strict=True):
        da, db = reach - sign * a[axis], reach - sign * b[axis]
        if da >= 0:
            kept.append(a)
        if (da > 0 > db) or (da < 0 < db):
            t = da / (da - db)
            kept.append((a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])))
    return kept if len(kept) > 2 else []


class _Slicer:
    """Distances of a plate's corners from a plane, and the crossings they make."""

    def __init__(self, plate: Plate, cut: Frame) -> None:
        self.plate, self.cut = plate, cut
        frame, n = plate.frame, cut.n
        self.a, self.b = dot(n, frame.u), dot(n, frame.v)
        self.c = dot(n, frame.n) * plate.thickness
        self.d = dot(n, frame.origin) - dot(n, cut.origin)
        self.is_parallel = abs(self.a) < _PARALLEL and abs(self.b) < _PARALLEL
        rings = [(plate.lower, plate.upper), *((hole, hole) for hole in plate.holes)]
        self.sides = [
            ((low[i], up[i]), (low[j], up[j]))
            for low, up in rings
            for i, j in ((k, (k + 1) % len(low)) for k in range(len(low)))
        ]

    def _at(self, corner: Span, level: float) -> tuple[Vec2, float]:
        """Return a corner's place at `level` and its distance from the plane."""
        (x0, y0), (x1, y1) = corner
        x, y = x0 + level * (x1 - x0), y0 + level * (y1 - y0)
        return (x, y), self.a * x + self.b * y + self.c * level + self.d

    def _crossed(self, level: float) -> list[tuple[Span, Span]]:
        """Return the sides that the plane crosses at `level`, in order along the cut."""
        found = []
        for side in self.sides:
            (p, dp), (q, dq) = (self._at(corner, level) for corner in side)
            if (dp > 0) != (dq > 0):
                t = dp / (dp - dq)
                x, y = p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1])
                found.append((self.a * y - self.b * x, side))
        return [side for _, side in sorted(found, key=lambda item: item[0])]

    def _point(self, side: tuple[Span, Span], level: float) -> Vec2:
        (p, dp), (q, dq) = (self._at(corner, level) for corner in side)
        t = 0.5 if abs(dp - dq) < _PARALLEL else min(1.0, max(0.0, dp / (dp - dq)))
        place = (p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1]))
        u, v, _ = self.cut.local(
            self.plate.frame.point(place, level * self.plate.thickness),
        )
        return (u, v)

    def spans(self, level: float) -> tuple[Span, ...]:
        points = [self._point(side, level) for side in self._crossed(level)]
        return tuple(zip(points[::2], points[1::2], strict=False))

    def _turns(self, low: float, high: float) -> list[float]:
        """Return the levels between `low` and `high` where a corner passes the plane."""
        turns = {low, high}
        for first, _ in self.sides:
            d0, d1 = self._at(first, 0.0)[1], self._at(first, 1.0)[1]
            if abs(d0 - d1) > _PARALLEL and low < d0 / (d0 - d1) < high:
                turns.add(d0 / (d0 - d1))
        return sorted(turns)

    def layer(self, low: float, high: float) -> tuple[Ring, ...]:
        slabs = []
        turns = self._turns(low, high)
        for a, b in itertools.pairwise(turns):
            sides = self._crossed((a + b) / 2)
            slabs.append([(self._point(s, a), self._point(s, b)) for s in sides])
        if len({len(slab) for slab in slabs}) == 1:
            return tuple(
                _ring([slab[k] for slab in slabs], [slab[k + 1] for slab in slabs])
                for k in range(0, len(slabs[0]) - 1, 2)
            )
        return tuple(
            _ring([slab[k]], [slab[k + 1]]) for slab in slabs for k in range(0, len(slab) - 1, 2)
        )


def _ring(left: list[Span], right: list[Span]) -> Ring:
    """Return the outline between a left and a right chain, counter-clockwise, without repeats."""
    up = [left[0][0], *(span[1] for span in left)]
    down = [right[0][0], *(span[1] for span in right)]
    points: list[Vec2] = []
    for point in [*down, *reversed(up)]:
        if not points or max(abs(point[0] - points[-1][0]), abs(point[1] - points[-1][1])) > 1e-9:
            points.append(point)
    pairs = zip(points, points[1:] + points[:1], strict=True)
    twice = sum(a[0] * b[1] - b[0] * a[1] for a, b in pairs)
    return tuple(points if twice >= 0 else reversed(points))
