"""Outlines of panels and timbers in space, and their cut at a height."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from seamwright.geometry.types import Ring, Vec2, Vec3, cross
from seamwright.shell.types import Member, Panel

UPRIGHT = 0.02
"""A panel whose normal rises by less than this stands upright. [-]"""


@dataclass(frozen=True, kw_only=True, slots=True)
class Slice:
    """One cut layer of a panel seen from above."""

    outline: Ring
    layer: str
    panel_id: str


def ring_at(panel: Panel, height: float) -> Ring:
    """Return the panel's outline at `height` above its inner face, in its own axes. [m]"""
    t = height / panel.thickness
    return tuple(
        (a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1]))
        for a, b in zip(panel.inner, panel.outer, strict=True)
    )


def face(panel: Panel, *, outer: bool) -> tuple[Vec3, ...]:
    """Return the corners of the inner or outer face in space. [m]"""
    height = panel.thickness if outer else 0.0
    ring = panel.outer if outer else panel.inner
    return tuple(panel.frame.point(p, height) for p in ring)


def corners(panel: Panel) -> tuple[Vec3, ...]:
    """Return all corners of a panel in space. [m]"""
    return face(panel, outer=False) + face(panel, outer=True)


def is_upright(panel: Panel) -> bool:
    """Return whether the panel stands upright."""
    return abs(panel.frame.n[2]) < UPRIGHT


def member_box(member: Member) -> tuple[Vec3, ...]:
    """Return the corners of a timber: four at its start, four at its end. [m]"""
    axis = tuple(b - a for a, b in zip(member.start, member.end, strict=True))
    length = math.hypot(*axis)
    if length == 0.0:
        return (member.start,) * 8
    along = (axis[0] / length, axis[1] / length, axis[2] / length)
    side = cross(along, member.up)
    points = []
    for end in (member.start, member.end):
        for across, down in ((-0.5, 0.0), (0.5, 0.0), (0.5, 1.0), (-0.5, 1.0)):
            points.append(
                _moved(_moved(end, side, across * member.width), member.up, -down * member.depth)
            )
    return tuple(points)


def member_top(member: Member) -> tuple[Vec3, ...]:
    """Return the corners of a timber's top face, in order around it. [m]"""
    box = member_box(member)
    return (box[0], box[1], box[5], box[4])


def _moved(p: Vec3, d: Vec3, by: float) -> Vec3:
    return (p[0] + by * d[0], p[1] + by * d[1], p[2] + by * d[2])


def cut_at(panel: Panel, z: float) -> Iterator[Slice]:
    """Yield the layers of an upright panel cut at elevation `z`, seen from above. [m]

    Holes are left open. A layer whose two faces are cut into different numbers of pieces (a cut
    that just grazes a corner) is left out.
    """
    levels = (
        ("skin", 0.0, panel.skin_inner),
        ("core", panel.skin_inner, panel.thickness - panel.skin_outer),
        ("skin", panel.thickness - panel.skin_outer, panel.thickness),
    )
    for layer, low, high in levels:
        near, far = _pieces(panel, low, z), _pieces(panel, high, z)
        if len(near) != len(far):
            continue
        for (a, b), (c, d) in zip(near, far, strict=True):
            v = z - panel.frame.origin[2]
            quad = ((a, low), (b, low), (d, high), (c, high))
            outline = tuple(_seen(panel.frame.point((u, v), w)) for u, w in quad)
            yield Slice(outline=outline, layer=layer, panel_id=panel.id)


def _seen(p: Vec3) -> Vec2:
    return (p[0], p[1])


def _pieces(panel: Panel, height: float, z: float) -> list[tuple[float, float]]:
    """Return the stretches of u that the outline covers at elevation z, less the holes."""
    v = z - panel.frame.origin[2]
    spans = _crossings(ring_at(panel, height), v)
    for hole in panel.holes:
        spans = _without(spans, _crossings(hole.outline, v))
    return [(a, b) for a, b in spans if b - a > 1e-6]


def _crossings(ring: Ring, v: float) -> list[tuple[float, float]]:
    """Return the stretches of u inside an outline at height `v`; its v axis must be upright."""
    at = []
    for (u0, v0), (u1, v1) in zip(ring, ring[1:] + ring[:1], strict=True):
        if (v0 <= v) != (v1 <= v):
            at.append(u0 + (v - v0) / (v1 - v0) * (u1 - u0))
    at.sort()
    return list(zip(at[::2], at[1::2], strict=True))


def _without(
    spans: list[tuple[float, float]], holes: list[tuple[float, float]]
) -> list[tuple[float, float]]:
    for low, high in holes:
        spans = [
            piece
            for a, b in spans
            for piece in ((a, min(b, low)), (max(a, high), b))
            if piece[1] > piece[0]
        ]
    return spans
