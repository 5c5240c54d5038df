"""Beams, members and columns as straight timbers, and flat tops as bearings."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely

from seamwright.io.ifc.notes import plain
from seamwright.io.ifc.plates import corners_of
from seamwright.io.ifc.types import Body, Entity, Floats
from seamwright.shell.types import MemberKind

_WORDS: tuple[tuple[str, MemberKind], ...] = (
    ("ridge", "ridge_beam"),
    ("hip", "hip_beam"),
    ("valley", "valley_beam"),
    ("purlin", "purlin"),
    ("rafter", "rafter"),
    ("ledger", "ledger"),
    ("plate", "plate"),
    ("sill", "plate"),
    ("post", "post"),
    ("column", "post"),
)


@dataclass(frozen=True, kw_only=True, slots=True)
class Stick:
    """A straight timber: ends along the middle of its top face, width, depth [m], share of box."""

    start: Floats
    end: Floats
    width: float
    depth: float
    fullness: float


def fit_stick(body: Body) -> Stick | None:
    """Return the straight timber that a body is, or None when it is not long and straight."""
    axis, sides = _axis(body)
    if axis is None:
        return None
    top = max(sides, key=lambda s: abs(s[2])) if sides else None
    if top is None:
        return None
    top = top if top[2] >= 0 else -top
    across = np.cross(axis, top)
    along, wide, high = body.points @ axis, body.points @ across, body.points @ top
    length, width, depth = (float(np.ptp(x)) for x in (along, wide, high))
    if length < 1.5 * max(width, depth) or min(width, depth) < 1e-3:
        return None
    edge = across * (wide.max() + wide.min()) / 2 + top * high.max()
    return Stick(
        start=edge + axis * along.min(),
        end=edge + axis * along.max(),
        width=width,
        depth=depth,
        fullness=_volume(body) / (length * width * depth),
    )


def member_kind(element: Entity) -> tuple[MemberKind, bool]:
    """Return the kind of a timber and whether its name or type told it."""
    words = " ".join(
        plain(getattr(element, name, None)).lower()
        for name in ("Name", "ObjectType", "PredefinedType", "Description")
    )
    for word, kind in _WORDS:
        if word in words:
            return kind, True
    return ("post", True) if element.is_a("IfcColumn") else ("beam", False)


def top_face(body: Body) -> tuple[Floats, float, float] | None:
    """Return the outline (n, 2), elevation and depth of a body's level top, or None. [m]"""
    points, triangles = body.points, body.triangles
    top = float(points[:, 2].max())
    flat = (np.abs(points[triangles, 2] - top) < 1e-4).all(axis=1)
    rings = np.round(points[triangles[flat]][:, :, :2], 7)
    if not len(rings):
        return None
    face = shapely.union_all(shapely.polygons(rings))
    if isinstance(face, shapely.MultiPolygon):
        face = max(face.geoms, key=lambda part: part.area)
    depth = top - float(points[:, 2].min())
    if not isinstance(face, shapely.Polygon) or face.area < 1e-4 or depth < 1e-4:
        return None
    corners = corners_of(face.exterior)
    return np.roll(corners, -int(corners.sum(axis=1).argmin()), axis=0), top, depth


def _axis(body: Body) -> tuple[Floats | None, list[Floats]]:
    """Return the direction of most sharp-edge length, and the face directions square to it."""
    normals, faces = _faces(body)
    totals: list[tuple[Floats, float]] = []
    for (a, b), owners in faces.items():
        if len(owners) == 2 and abs(normals[owners[0]] @ normals[owners[1]]) > 0.999:
            continue
        edge = body.points[b] - body.points[a]
        length = float(np.linalg.norm(edge))
        if length < 1e-6:
            continue
        way = edge / length
        for index, (known, total) in enumerate(totals):
            if abs(float(known @ way)) > 1 - 1e-8:
                totals[index] = (known, total + length)
                break
        else:
            totals.append((way, length))
        if len(totals) > 400:
            return None, []
    if not totals:
        return None, []
    axis = max(totals, key=lambda t: t[1])[0]
    square = [n for n in normals if abs(float(n @ axis)) < 1e-5]
    return axis, square


def _faces(body: Body) -> tuple[Floats, dict[tuple[int, int], list[int]]]:
    corners = body.points[body.triangles]
    cross = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    length = np.linalg.norm(cross, axis=1)
    normals = cross / np.where(length > 0, length, 1.0)[:, None]
    same: dict[tuple[float, ...], int] = {}
    index = [same.setdefault(tuple(np.round(p, 6)), i) for i, p in enumerate(body.points)]
    owners: dict[tuple[int, int], list[int]] = {}
    for number, triangle in enumerate(body.triangles):
        for i in range(3):
            a, b = index[triangle[i]], index[triangle[(i + 1) % 3]]
            owners.setdefault((min(a, b), max(a, b)), []).append(number)
    return normals, owners


def _volume(body: Body) -> float:
    corners = body.points[body.triangles] - body.points[0]
    return (
        abs(
            float(
                np.einsum("ij,ij->i", corners[:, 0], np.cross(corners[:, 1], corners[:, 2])).sum()
            )
        )
        / 6
    )
