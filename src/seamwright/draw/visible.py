"""What an eye at infinity sees: visible parts of flat faces and of lines, exactly, face by face.

Every front face is a polygon in the view's plane with its depth as a plane over it. Where two
faces overlap in the view, the nearer one is found at one point of each piece of the overlap, which
is exact as long as faces do not run through each other; the covered piece is cut off the farther
face. Lines are cut the same way, with a small allowance so that a line on a face is seen.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from seamwright.draw.view import Axes
from seamwright.geometry.types import Segment, Vec2, Vec3, cross, dot

EDGE_ON = 1e-3
"""A face whose normal is this near to square to the eye is seen edge on and left out. [-]"""
COPLANAR = 1e-4
"""Depths nearer than this are equal. [m]"""
LEAST = 1e-5
"""Overlaps and visible pieces smaller than this are dropped. [m²]"""
SLIVER = 3e-4
"""Half the width of the thinnest visible piece that is drawn. [m]"""
LINE_ALLOWANCE = 0.03
"""A line this far behind a face still counts as lying on it. [m]"""


@dataclass(frozen=True, kw_only=True, slots=True)
class Face:
    """A flat face in space: outline, holes, unit normal out of its body, and whose it is."""

    outline: tuple[Vec3, ...]
    holes: tuple[tuple[Vec3, ...], ...]
    normal: Vec3
    owner: str
    material: str = "panel"


@dataclass(frozen=True, kw_only=True, slots=True)
class Seen:
    """Front faces in the view's plane: outlines, and depth = a·x + b·y + c toward the eye. [m]"""

    faces: tuple[Face, ...]
    areas: NDArray[np.object_]
    planes: NDArray[np.float64]

    def depth(self, index: NDArray[np.intp], at: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return the depth of faces at points (n, 2), positive toward the eye. [m]"""
        plane = self.planes[index]
        depth: NDArray[np.float64] = plane[:, 0] * at[:, 0] + plane[:, 1] * at[:, 1] + plane[:, 2]
        return depth


def front_faces(axes: Axes, faces: Sequence[Face]) -> Seen:
    """Return the faces turned to the eye, flattened; degenerate ones are left out."""
    toward = cross(axes.right, axes.up)
    kept: list[Face] = []
    areas: list[shapely.Polygon] = []
    planes: list[tuple[float, float, float]] = []
    for face in faces:
        facing = dot(face.normal, toward)
        if facing < EDGE_ON or len(face.outline) < 3:
            continue
        outline = [axes.flat(p) for p in face.outline]
        holes = [[axes.flat(p) for p in hole] for hole in face.holes]
        area = shapely.make_valid(shapely.Polygon(outline, holes)).buffer(0)
        if area.area < LEAST:
            continue
        d = dot(face.normal, face.outline[0])
        a, b = -dot(face.normal, axes.right) / facing, -dot(face.normal, axes.up) / facing
        kept.append(face)
        areas.append(area)
        planes.append((a, b, d / facing))
    found = np.empty(len(areas), dtype=object)
    found[:] = areas
    return Seen(faces=tuple(kept), areas=found, planes=np.array(planes).reshape(-1, 3))


def visible_areas(seen: Seen) -> list[shapely.Geometry]:
    """Return the visible part of every front face, in the view's plane. [m]"""
    parts: list[list[shapely.Geometry]] = [[] for _ in seen.faces]
    if not len(seen.areas):
        return []
    tree = shapely.STRtree(seen.areas)
    behind, front = tree.query(seen.areas, predicate="intersects")
    order = behind < front
    first, second = behind[order], front[order]
    shared = shapely.intersection(seen.areas[first], seen.areas[second])
    pieces, index = shapely.get_parts(shared, return_index=True)
    large = shapely.area(pieces) > LEAST
    pieces, index = pieces[large], index[large]
    spots = shapely.get_coordinates(shapely.point_on_surface(pieces))
    a, b = first[index], second[index]
    nearer = seen.depth(a, spots) - seen.depth(b, spots)
    for piece, i, j, gap in zip(pieces, a, b, nearer, strict=True):
        if gap > COPLANAR:
            parts[j].append(piece)
        elif gap < -COPLANAR:
            parts[i].append(piece)
    return [
        _cleaned(area.difference(shapely.unary_union(covers))) if covers else area
        for area, covers in zip(seen.areas, parts, strict=True)
    ]


def _cleaned(area: shapely.Geometry) -> shapely.Geometry:
    """Return the area without slivers and spikes thinner than twice `SLIVER`."""
    thinner = area.buffer(-SLIVER, join_style="mitre")
    return thinner.buffer(SLIVER, join_style="mitre")


def visible_stretches(
    axes: Axes, seen: Seen, lines: Sequence[Segment]
) -> list[list[tuple[float, float]]]:
    """Return for each line the stretches of 0..1 that no face hides, in order."""
    toward = cross(axes.right, axes.up)
    tree = shapely.STRtree(seen.areas) if len(seen.areas) else None
    found = []
    for line in lines:
        a, b = axes.flat(line.start), axes.flat(line.end)
        za, zb = dot(line.start, toward), dot(line.end, toward)
        flat = shapely.LineString([a, b])
        near = tree.query(flat, predicate="intersects") if tree is not None else ()
        hidden = [span for j in near for span in _hidden(seen, int(j), flat, (a, b), (za, zb))]
        found.append(_left(hidden))
    return found


def _hidden(
    seen: Seen, j: int, flat: shapely.LineString, ends: tuple[Vec2, Vec2], depths: Vec2
) -> list[tuple[float, float]]:
    """Return the stretches of a line that face j covers."""
    length = flat.length
    if length < 1e-9:
        return []
    (ax, ay), (bx, by) = ends
    pa, pb, pc = seen.planes[j]
    behind_a = pa * ax + pb * ay + pc - depths[0] - LINE_ALLOWANCE
    behind_b = pa * bx + pb * by + pc - depths[1] - LINE_ALLOWANCE
    spans = []
    for piece in shapely.get_parts(shapely.intersection(flat, seen.areas[j])):
        if piece.geom_type != "LineString":
            continue
        ts = [((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / length**2 for x, y in piece.coords]
        span = _positive(behind_a, behind_b, min(ts), max(ts))
        if span is not None:
            spans.append(span)
    return spans


def _positive(at_0: float, at_1: float, low: float, high: float) -> tuple[float, float] | None:
    """Return where in low..high the linear function through at_0 (t=0) and at_1 (t=1) is > 0."""
    y0, y1 = at_0 + (at_1 - at_0) * low, at_0 + (at_1 - at_0) * high
    if y0 <= 0.0 and y1 <= 0.0:
        return None
    if y0 > 0.0 and y1 > 0.0:
        return (low, high)
    zero = at_0 / (at_0 - at_1)
    return (low, zero) if y0 > 0.0 else (zero, high)


def _left(hidden: list[tuple[float, float]]) -> list[tuple[float, float]]:
    free, at = [], 0.0
    for low, high in sorted(hidden):
        if low > at + 1e-6:
            free.append((at, low))
        at = max(at, high)
    if at < 1.0 - 1e-6:
        free.append((at, 1.0))
    return free
