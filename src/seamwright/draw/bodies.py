"""Faces of panels, timbers and bearings for views in depth."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from seamwright.draw.solids import member_box
from seamwright.draw.visible import Face
from seamwright.geometry.types import Vec3, cross
from seamwright.shell.types import Member, Panel, Shell, Support

BOX_SIDES = ((0, 3, 2, 1), (4, 5, 6, 7), (0, 1, 5, 4), (1, 2, 6, 5), (2, 3, 7, 6), (3, 0, 4, 7))


def shell_faces(shell: Shell) -> Iterator[Face]:
    """Yield every face of panels, timbers and level bearings, normals out of the body."""
    for panel in shell.panels:
        yield from panel_faces(panel)
    for member in shell.members:
        yield from _member_faces(member)
    for support in shell.supports:
        if support.kind != "other_wall":
            yield from _support_faces(support)


def panel_faces(panel: Panel) -> Iterator[Face]:
    """Yield the two skins, the edges, and the sides of the holes of a panel."""
    frame, t = panel.frame, panel.thickness
    inner = tuple(frame.point(p) for p in panel.inner)
    outer = tuple(frame.point(p, t) for p in panel.outer)
    low = tuple(tuple(frame.point(p) for p in hole.outline) for hole in panel.holes)
    high = tuple(tuple(frame.point(p, t) for p in hole.outline) for hole in panel.holes)
    n = frame.n
    back = (-n[0], -n[1], -n[2])
    yield Face(outline=outer, holes=high, normal=n, owner=panel.id, material=panel.role)
    yield Face(outline=inner, holes=low, normal=back, owner=panel.id, material="inside")
    yield from _edges(inner, outer, panel.id, "edge")
    for bottom, top in zip(low, high, strict=True):
        yield from _edges(bottom[::-1], top[::-1], panel.id, "edge")


def _edges(low: Sequence[Vec3], high: Sequence[Vec3], owner: str, material: str) -> Iterator[Face]:
    for i in range(len(low)):
        j = (i + 1) % len(low)
        quad = (low[i], low[j], high[j], high[i])
        normal = _normal(quad)
        if normal is not None:
            yield Face(outline=quad, holes=(), normal=normal, owner=owner, material=material)


def _member_faces(member: Member) -> Iterator[Face]:
    box = member_box(member)
    for side in BOX_SIDES:
        quad = tuple(box[i] for i in side)
        normal = _normal(quad)
        if normal is not None:
            yield Face(outline=quad, holes=(), normal=normal, owner=member.id, material="timber")


def _support_faces(support: Support) -> Iterator[Face]:
    frame = support.frame
    top = tuple(frame.point(p) for p in support.outline)
    foot = tuple(frame.point(p, -support.thickness) for p in support.outline)
    yield Face(outline=top, holes=(), normal=frame.n, owner=support.id, material=support.kind)
    yield from _edges(foot, top, support.id, support.kind)


def _normal(quad: Sequence[Vec3]) -> Vec3 | None:
    """Return the unit normal of a flat quad (by its diagonals), None when it has no area."""
    p, q, r, s = quad
    d = cross((r[0] - p[0], r[1] - p[1], r[2] - p[2]), (s[0] - q[0], s[1] - q[1], s[2] - q[2]))
    length = math.hypot(*d)
    if length < 1e-9:
        return None
    return (d[0] / length, d[1] / length, d[2] / length)
