"""Outlines in a plane: area, orientation, clipping by a line, simple questions of inside."""

from __future__ import annotations

import math
from collections.abc import Sequence

import shapely

from seamwright.geometry.types import Ring, Vec2


def signed_area(ring: Sequence[Vec2]) -> float:
    """Return the area of an outline, positive when it runs counter-clockwise. [m²]

    Examples
    --------
    >>> signed_area(((0, 0), (2, 0), (2, 1), (0, 1)))
    2.0
    """
    pairs = zip(ring, (*ring[1:], *ring[:1]), strict=True)
    return math.fsum(p[0] * q[1] - q[0] * p[1] for p, q in pairs) / 2.0


def counter_clockwise(ring: Sequence[Vec2]) -> Ring:
    """Return the outline running counter-clockwise, starting at the same point."""
    if signed_area(ring) >= 0.0:
        return tuple(ring)
    return (ring[0], *reversed(ring[1:]))


def is_simple(ring: Sequence[Vec2]) -> bool:
    """Return whether an outline has at least three corners, an area, and never crosses itself."""
    if len(set(ring)) < 3 or len(set(ring)) != len(ring):
        return False
    return bool(shapely.Polygon(ring).is_valid) and abs(signed_area(ring)) > 1e-9


def is_convex(ring: Sequence[Vec2], *, slack: float = 1e-9) -> bool:
    """Return whether a counter-clockwise outline never turns right by more than `slack`. [m²]"""
    n = len(ring)
    return all(turn(ring[i - 1], ring[i], ring[(i + 1) % n]) >= -slack for i in range(n))


def turn(a: Vec2, b: Vec2, c: Vec2) -> float:
    """Return the cross product of a→b and b→c, positive for a left turn. [m²]"""
    return (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])


def clipped(ring: Sequence[Vec2], a: float, b: float, c: float) -> Ring:
    """Return the part of a convex outline where a·x + b·y + c ≥ 0; empty when nothing is left."""
    kept: list[Vec2] = []
    values = [a * p[0] + b * p[1] + c for p in ring]
    for i, q in enumerate(ring):
        p, dp, dq = ring[i - 1], values[i - 1], values[i]
        if (dp > 0.0 > dq) or (dp < 0.0 < dq):
            t = dp / (dp - dq)
            kept.append((p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1])))
        if dq >= 0.0:
            kept.append(q)
    return without_repeats(kept)


def without_repeats(ring: Sequence[Vec2], *, near: float = 1e-9) -> Ring:
    """Return the outline without points that repeat their predecessor; empty below three. [m]"""
    kept = [p for i, p in enumerate(ring) if math.dist(p, ring[i - 1]) > near]
    return tuple(kept) if len(kept) >= 3 else ()


def without_straights(ring: Sequence[Vec2], *, slack: float = 1e-9) -> Ring:
    """Return the outline without points that lie on the line through their neighbors. [m]"""
    kept = list(without_repeats(ring))
    i = 0
    while i < len(kept) and len(kept) >= 3:
        a, b, c = kept[i - 1], kept[i], kept[(i + 1) % len(kept)]
        if abs(turn(a, b, c)) <= slack * max(math.dist(a, c), slack):
            del kept[i]
            i = max(i - 1, 0)
        else:
            i += 1
    return tuple(kept) if len(kept) >= 3 else ()


def crossing(p: Vec2, d: Vec2, q: Vec2, e: Vec2) -> Vec2 | None:
    """Return where the line through `p` along `d` meets the line through `q` along `e`.

    None when the lines are parallel (sine of the angle below 1e-9).
    """
    det = d[0] * e[1] - d[1] * e[0]
    if abs(det) <= 1e-9 * math.hypot(*d) * math.hypot(*e):
        return None
    t = ((q[0] - p[0]) * e[1] - (q[1] - p[1]) * e[0]) / det
    return (p[0] + t * d[0], p[1] + t * d[1])


def covers(ring: Sequence[Vec2], inside: Sequence[Vec2], *, slack: float = 1e-6) -> bool:
    """Return whether outline `ring` contains outline `inside`, touching allowed. [m]"""
    return bool(shapely.Polygon(ring).buffer(slack).covers(shapely.Polygon(inside)))


def distance_to_segment(p: Vec2, a: Vec2, b: Vec2) -> float:
    """Return the distance of a point from the segment a-b. [m]"""
    dx, dy = b[0] - a[0], b[1] - a[1]
    length2 = dx * dx + dy * dy
    t = 0.0 if length2 == 0.0 else ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / length2
    t = min(max(t, 0.0), 1.0)
    return math.dist(p, (a[0] + t * dx, a[1] + t * dy))
