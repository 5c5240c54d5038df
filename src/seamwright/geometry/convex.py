"""Convex bodies bounded by numbered planes: cutting them in two, their volume, their sections."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TypeAlias

from seamwright.geometry.types import Vec2, Vec3, cross, dot

Loop: TypeAlias = tuple[Vec3, ...]
"""Corners of a flat outline in space, counter-clockwise seen from outside. [m]"""


@dataclass(frozen=True, kw_only=True, slots=True)
class Level:
    """A plane as unit normal and distance: points with normal · p = offset. [m]"""

    normal: Vec3
    offset: float

    def height(self, p: Vec3) -> float:
        """Return how far `p` lies off the plane, positive on the normal's side. [m]"""
        return dot(self.normal, p) - self.offset


@dataclass(frozen=True, kw_only=True, slots=True)
class Side:
    """One flat side of a body: the number of its plane, and its outline.

    `above` says that the body lies on the side of the plane that its normal points to.
    """

    plane: int
    above: bool
    loop: Loop


@dataclass(frozen=True, kw_only=True, slots=True)
class Body:
    """A convex body by its sides."""

    sides: tuple[Side, ...]

    @property
    def center(self) -> Vec3:
        """Mean of the corners, always inside. [m]"""
        points = [p for side in self.sides for p in side.loop]
        n = len(points)
        return (
            math.fsum(p[0] for p in points) / n,
            math.fsum(p[1] for p in points) / n,
            math.fsum(p[2] for p in points) / n,
        )

    @property
    def volume(self) -> float:
        """Volume, by the divergence theorem over its sides. [m³]"""
        c = self.center
        parts = []
        for side in self.sides:
            turn = vector_area(side.loop)
            p = side.loop[0]
            parts.append(dot((p[0] - c[0], p[1] - c[1], p[2] - c[2]), turn) / 3.0)
        return math.fsum(parts)


def vector_area(loop: Sequence[Vec3]) -> Vec3:
    """Return the area of a flat outline as a vector along its normal. [m²]"""
    if len(loop) < 3:
        return (0.0, 0.0, 0.0)
    o = loop[0]
    arms = [(p[0] - o[0], p[1] - o[1], p[2] - o[2]) for p in loop[1:]]
    turns = [cross(a, b) for a, b in pairwise(arms)]
    return (
        math.fsum(t[0] for t in turns) / 2.0,
        math.fsum(t[1] for t in turns) / 2.0,
        math.fsum(t[2] for t in turns) / 2.0,
    )


def flat_area(loop: Sequence[Vec3]) -> float:
    """Return the area of a flat outline. [m²]"""
    turn = vector_area(loop)
    return math.sqrt(dot(turn, turn))


def prism(outline: Sequence[Vec2], low: float, high: float) -> Body:
    """Return the upright body over a convex counter-clockwise outline. [m]

    Its planes are numbered from -1 downward, so that no other plane shares a number with them.
    """
    bottom = tuple((x, y, low) for x, y in outline)
    top = tuple((x, y, high) for x, y in outline)
    sides = [
        Side(plane=-1, above=True, loop=tuple(reversed(bottom))),
        Side(plane=-2, above=True, loop=top),
    ]
    for i in range(len(outline)):
        j = (i + 1) % len(outline)
        sides.append(
            Side(plane=-3 - i, above=True, loop=(bottom[i], bottom[j], top[j], top[i])),
        )
    return Body(sides=tuple(sides))


def cut_loop(loop: Sequence[Vec3], level: Level, slack: float) -> tuple[Loop, Loop]:
    """Return the parts of a flat outline above and below a plane; points within `slack` [m] of it
    count as on it. Either part may be empty.
    """
    heights = [level.height(p) for p in loop]
    above, below = [], []
    for i, (q, hq) in enumerate(zip(loop, heights, strict=True)):
        p, hp = loop[i - 1], heights[i - 1]
        if (hp > slack and hq < -slack) or (hp < -slack and hq > slack):
            t = hp / (hp - hq)
            at = (p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1]), p[2] + t * (q[2] - p[2]))
            above.append(at)
            below.append(at)
        if hq >= -slack:
            above.append(q)
        if hq <= slack:
            below.append(q)
    has_above = any(h > slack for h in heights)
    has_below = any(h < -slack for h in heights)
    return tuple(above) if has_above else (), tuple(below) if has_below else ()


def cut_body(
    body: Body, level: Level, number: int, slack: float
) -> tuple[Body | None, Body | None]:
    """Return the parts of a body above and below plane `number`; None where nothing is left."""
    above, below = [], []
    for side in body.sides:
        up, down = cut_loop(side.loop, level, slack)
        if len(up) >= 3:
            above.append(Side(plane=side.plane, above=side.above, loop=up))
        if len(down) >= 3:
            below.append(Side(plane=side.plane, above=side.above, loop=down))
    if not above or not below:
        return (body if above else None), (body if below else None)
    cap = section(body, level, slack)
    if len(cap) < 3:
        return (body, None) if len(above) >= len(below) else (None, body)
    above.append(Side(plane=number, above=True, loop=tuple(reversed(cap))))
    below.append(Side(plane=number, above=False, loop=cap))
    return Body(sides=tuple(above)), Body(sides=tuple(below))


def section(body: Body, level: Level, slack: float) -> Loop:
    """Return the outline in which a plane cuts a body, counter-clockwise about its normal."""
    points: list[Vec3] = []
    for side in body.sides:
        up, down = cut_loop(side.loop, level, slack)
        if up and down:
            points += [p for p in up if abs(level.height(p)) <= 2.0 * slack]
    kept: list[Vec3] = []
    for p in points:
        if all(math.dist(p, q) > slack for q in kept):
            kept.append(p)
    if len(kept) < 3:
        return ()
    return _around(kept, level.normal)


def _around(points: Sequence[Vec3], normal: Vec3) -> Loop:
    """Return points of a convex outline in order around a normal."""
    n = len(points)
    c = tuple(math.fsum(p[k] for p in points) / n for k in range(3))
    axis = (1.0, 0.0, 0.0) if abs(normal[0]) < 0.7 else (0.0, 1.0, 0.0)
    u = cross(normal, axis)
    v = cross(normal, u)

    def turn(p: Vec3) -> float:
        d = (p[0] - c[0], p[1] - c[1], p[2] - c[2])
        return math.atan2(dot(d, v), dot(d, u))

    return tuple(sorted(points, key=turn))
