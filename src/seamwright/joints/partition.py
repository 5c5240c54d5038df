"""Space cut along the inner faces of a house into convex bodies, indoors or outdoors."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from seamwright.geometry.convex import (
    Body,
    Level,
    Loop,
    cut_body,
    cut_loop,
    flat_area,
    prism,
    vector_area,
)
from seamwright.geometry.plane import unit
from seamwright.geometry.types import Frame, Vec3, cross, dot
from seamwright.joints.enclose import INSIDE, hull_triangles, winding_numbers
from seamwright.joints.hulls import House
from seamwright.tolerance import Tolerance

_GRID = 1e-7
"""Corners of sides are rounded to this before they are laid over each other. [m]"""

_CRUMB = 1e-4
"""A face smaller than this does not cut space. [m²]"""


@dataclass(frozen=True, kw_only=True, slots=True)
class Face:
    """A flat outline that parts space; `hull` when it also parts indoors from outdoors."""

    loop: tuple[Vec3, ...]
    hull: bool
    roof: bool = False


def faces_of(house: House) -> list[Face]:
    """Return every face that cuts space around a house: panels, openings, bases and decks."""
    faces = [
        Face(loop=_loop(p.frame.point(uv) for uv in p.inner), hull=True, roof=p.role == "roof")
        for p in house.panels
    ]
    faces += [
        Face(loop=_loop(o.frame.point(uv) for uv in o.outline), hull=True) for o in house.openings
    ]
    faces += [Face(loop=loop, hull=True) for loop in house.bases]
    faces += [
        Face(loop=_loop(d.frame.point(uv) for uv in d.outline), hull=False) for d in house.decks
    ]
    return [face for face in faces if flat_area(face.loop) > _CRUMB]


def levels_of(faces: list[Face], tolerance: Tolerance) -> list[Level]:
    """Return the planes of the faces, the larger first; faces within the tolerance share one."""
    levels: list[Level] = []
    for face in sorted(faces, key=lambda f: -flat_area(f.loop)):
        if _level_under(face.loop, levels, tolerance.step) is None:
            turn = vector_area(face.loop)
            size = math.sqrt(dot(turn, turn))
            n = (turn[0] / size, turn[1] / size, turn[2] / size)
            offset = math.fsum(dot(n, p) for p in face.loop) / len(face.loop)
            levels.append(Level(normal=n, offset=offset))
    return levels


def indoor_bodies(
    house: House, faces: Sequence[Face], levels: Sequence[Level], tolerance: Tolerance
) -> list[Body]:
    """Return the convex bodies that lie indoors."""
    start = _around(faces)
    if start is None or not levels:
        return []
    loops: dict[int, list[tuple[Vec3, ...]]] = defaultdict(list)
    for face in faces:
        number = _level_under(face.loop, levels, tolerance.step)
        if number is not None:
            loops[number].append(face.loop)
    bodies = _parts(start, loops, levels, tolerance.equal)
    closed = [[o.frame.point(uv) for uv in o.outline] for o in house.openings]
    triangles = hull_triangles(house.panels, [*house.bases, *closed])
    winding = winding_numbers(np.array([b.center for b in bodies]), triangles).tolist()
    inside = [w > INSIDE for w in winding]
    return _without_splinters(bodies, inside, levels, tolerance.node)


def boundary_area(bodies: Sequence[Body], levels: Sequence[Level]) -> float:
    """Return the area of the sides of convex bodies that no other of them shares. [m²]"""
    sides: dict[int, tuple[list[Loop], list[Loop]]] = {}
    for body in bodies:
        for side in body.sides:
            pair = sides.setdefault(side.plane, ([], []))
            pair[0 if side.above else 1].append(side.loop)
    parts = []
    for plane, (above, below) in sides.items():
        parts += [flat_area(loop) for loop in (*above, *below)]
        if above and below:
            parts.append(-2.0 * _shared(above, below, levels[plane]))
    return math.fsum(parts)


def _without_splinters(
    bodies: Sequence[Body], inside: list[bool], levels: Sequence[Level], thin: float
) -> list[Body]:
    """Return the indoor bodies; thin ones count where they leave the smaller boundary.

    In the slot between a wall's top and the roof the winding number changes from one to a half,
    so it cannot tell on which side a splinter there lies.
    """
    for at, body in enumerate(bodies):
        if body.volume >= thin * max(flat_area(side.loop) for side in body.sides):
            continue
        others = [b for i, b in enumerate(bodies) if inside[i] and i != at]
        if others:
            alone = boundary_area(others, levels)
            inside[at] = boundary_area([*others, body], levels) < alone
    return [body for body, within in zip(bodies, inside, strict=True) if within]


def _shared(above: Sequence[Loop], below: Sequence[Loop], level: Level) -> float:
    frame = _frame_on(level)
    ups, downs = (
        np.array([shapely.Polygon([frame.local(p)[:2] for p in loop]) for loop in loops])
        for loops in (above, below)
    )
    tree = shapely.STRtree(downs)
    a, b = tree.query(ups, predicate="intersects")
    return float(shapely.area(shapely.intersection(ups[a], downs[b], grid_size=_GRID)).sum())


def _frame_on(level: Level) -> Frame:
    n = level.normal
    axis = (1.0, 0.0, 0.0) if abs(n[0]) < 0.7 else (0.0, 1.0, 0.0)
    u = unit(cross(axis, n))
    return Frame(origin=(0.0, 0.0, 0.0), u=u, v=cross(n, u))


def _parts(
    start: Body,
    loops: dict[int, list[tuple[Vec3, ...]]],
    levels: Sequence[Level],
    slack: float,
) -> list[Body]:
    """Return a body cut along each plane that has a face within it, the largest first."""
    done: list[Body] = []
    waiting = [(start, loops)]
    while waiting:
        body, within = waiting.pop()
        if not within:
            done.append(body)
            continue
        number = max(within, key=lambda k: (math.fsum(flat_area(x) for x in within[k]), -k))
        above, below = cut_body(body, levels[number], number, slack)
        sorted_out: tuple[dict[int, list[tuple[Vec3, ...]]], ...] = ({}, {})
        for other, outlines in within.items():
            if other == number:
                continue
            for loop in outlines:
                cut = cut_loop(loop, levels[number], slack)
                for at in (0, 1):
                    if len(cut[at]) >= 3 and flat_area(cut[at]) > _CRUMB:
                        sorted_out[at].setdefault(other, []).append(cut[at])
        waiting += [
            (part, sorted_out[at]) for at, part in enumerate((above, below)) if part is not None
        ]
    return done


def _around(faces: Sequence[Face]) -> Body | None:
    """Return the upright box around walls and floors; the roof only says how high it is.

    Where a wall is missing, the box ends the room.
    """
    firm = [p for face in faces if not face.roof for p in face.loop]
    points = firm if len(firm) >= 3 else [p for face in faces for p in face.loop]
    heights = [p[2] for face in faces for p in face.loop]
    if not points or max(heights) - min(heights) < 0.1:
        return None
    box = shapely.MultiPoint([(p[0], p[1]) for p in points]).minimum_rotated_rectangle
    if box.area < 0.1:
        return None
    ring = list(shapely.orient_polygons(box).exterior.coords)[:-1]
    return prism([(x, y) for x, y in ring], min(heights), max(heights))


def _level_under(loop: Sequence[Vec3], levels: Sequence[Level], slack: float) -> int | None:
    for number, level in enumerate(levels):
        if all(abs(level.height(p)) <= slack for p in loop):
            return number
    return None


def _loop(points: object) -> tuple[Vec3, ...]:
    return tuple(points)  # type: ignore[arg-type]
