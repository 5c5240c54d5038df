"""Find the plate in a body: its two largest parallel faces and the outlines of both."""

from __future__ import annotations

import numpy as np
import shapely

from seamwright.io.ifc.types import Body, Entity, Floats, Mask, Plate

GRID = 1e-6
"""Outlines are held to 1/1000 mm. [m]"""

PARALLEL = 1e-5
"""Sine of the angle below which two faces are parallel. [-]"""

SAME = 2e-5
"""Faces nearer than this are in one plane. [m]"""

LEAST_SHARE = 0.45
"""Least share of a plate's surface in its two large faces; a cube has a third. Our own choice."""


def fit_plate(body: Body) -> Plate | str:
    """Return the plate in `body`, or a clause saying why there is none.

    The largest set of parallel faces gives the direction; the outermost large faces of the set are
    the two skins, so layers drawn as solids of their own make one plate.
    """
    normals, areas = _triangle_normals(body)
    if areas.sum() <= 0:
        return "its body has no surface"
    direction, share = _main_direction(normals, areas)
    parallel = np.abs(normals @ direction) > 1 - PARALLEL
    heights = body.points @ direction
    levels = _levels(heights[body.triangles].mean(axis=1), areas, parallel)
    large = [h for h, area in levels if area > 0.2 * max(a for _, a in levels)]
    thickness = large[-1] - large[0]
    if thickness < SAME:
        return "its body has no thickness"
    if share < LEAST_SHARE:
        return "its body is not a plate: no two faces of it are much larger than the others"
    frame = _axes(direction)
    faces = [_outline(body, frame, heights, parallel, level) for level in (large[0], large[-1])]
    low, high = faces
    if low is None or high is None:
        return "one of its faces is made of pieces that do not join"
    return _plate(body, frame, (low, high), (large[0], large[-1]), [h for h, _ in levels])


def _plate(
    body: Body,
    frame: Floats,
    faces: tuple[shapely.Polygon, shapely.Polygon],
    ends: tuple[float, float],
    levels: list[float],
) -> Plate:
    normal, (low, high) = frame[2], faces
    heights = body.points @ normal
    doubts = []
    if heights.min() < ends[0] - 1e-3 or heights.max() > ends[1] + 1e-3:
        doubts.append("parts standing out of the plate were passed over")
    rings = paired(corners_of(low.exterior), corners_of(high.exterior))
    if rings is None:
        doubts.append("its edges differ too much between the two faces and were taken as square")
        ring = corners_of(low.exterior) if low.area >= high.area else corners_of(high.exterior)
        rings = (ring, ring)
    holes = tuple(
        _lifted(corners_of(hole)[::-1], frame, ends[0]) for hole in low.interiors if _is_hole(hole)
    )
    return Plate(
        normal=normal,
        low=_lifted(rings[0], frame, ends[0]),
        high=_lifted(rings[1], frame, ends[1]),
        holes=holes,
        thickness=ends[1] - ends[0],
        steps=tuple(h - ends[0] for h in levels if ends[0] - SAME <= h <= ends[1] + SAME),
        doubts=tuple(doubts),
    )


def _triangle_normals(body: Body) -> tuple[Floats, Floats]:
    a, b, c = (body.points[body.triangles[:, i]] for i in range(3))
    cross = np.cross(b - a, c - a)
    length = np.linalg.norm(cross, axis=1)
    safe = np.where(length > 0, length, 1.0)
    return cross / safe[:, None], length / 2


def _main_direction(normals: Floats, areas: Floats) -> tuple[Floats, float]:
    """Return the direction with most face area, both ways together, and its share of the whole."""
    best, best_area = normals[int(areas.argmax())], 0.0
    left = areas > 0
    for _ in range(24):
        if not left.any():
            break
        candidate = normals[int(np.where(left, areas, -1.0).argmax())]
        along = np.abs(normals @ candidate) > 1 - PARALLEL
        area = float(areas[along].sum())
        if area > best_area:
            best, best_area = candidate, area
        left &= ~along
    return _tidy(best), best_area / float(areas.sum())


def _tidy(direction: Floats) -> Floats:
    """Return the unit vector with components that are only rounding set to nothing."""
    clean = np.where(np.abs(direction) < 1e-8, 0.0, direction)
    return np.asarray(clean / np.linalg.norm(clean), dtype=float)


def _levels(heights: Floats, areas: Floats, parallel: Mask) -> list[tuple[float, float]]:
    """Return (height, area) of every plane among the parallel faces, lowest first."""
    order = np.argsort(heights)
    levels: list[tuple[float, float]] = []
    for index in order:
        if not parallel[index] or areas[index] <= 0:
            continue
        height, area = float(heights[index]), float(areas[index])
        if levels and height - levels[-1][0] < SAME:
            levels[-1] = (levels[-1][0], levels[-1][1] + area)
        else:
            levels.append((height, area))
    return levels


def _axes(normal: Floats) -> Floats:
    """Return right-handed rows u, v, n with n the normal and v as near to up as can be."""
    up = np.array([0.0, 0.0, 1.0]) if abs(normal[2]) < 1 - 1e-9 else np.array([0.0, 1.0, 0.0])
    v = _tidy(up - (up @ normal) * normal)
    return np.vstack([np.cross(v, normal), v, normal])


def _outline(
    body: Body,
    frame: Floats,
    heights: Floats,
    parallel: Mask,
    level: float,
) -> shapely.Polygon | None:
    """Return the face at `level` as one polygon in (u, v), or None when it is in pieces."""
    at = np.abs(heights[body.triangles] - level).max(axis=1) < SAME
    flat = body.points @ frame[:2].T
    rings = np.round(flat[body.triangles[at & parallel]], 7)
    for grid in (None, GRID, 10 * GRID):
        whole = shapely.union_all(shapely.polygons(rings), grid_size=grid)
        if isinstance(whole, shapely.MultiPolygon):
            largest = max(whole.geoms, key=lambda part: part.area)
            whole = largest if largest.area > 0.98 * whole.area else None
        if isinstance(whole, shapely.Polygon) and not whole.is_empty:
            return whole
    return None


def corners_of(ring: Entity) -> Floats:
    """Return the real corners of a ring, counter-clockwise, without points on straight edges."""
    points = np.array(ring.coords)[:-1]
    if not shapely.is_ccw(ring):
        points = points[::-1]
    apart = np.linalg.norm(points - np.roll(points, 1, axis=0), axis=1) > 5 * GRID
    points = points[apart]
    before, after = np.roll(points, 1, axis=0) - points, np.roll(points, -1, axis=0) - points
    reach = np.maximum(np.linalg.norm(after - before, axis=1), 1e-12)
    off = np.abs(before[:, 0] * after[:, 1] - before[:, 1] * after[:, 0]) / reach
    return np.asarray(points[off > 2 * GRID], dtype=float)


def _is_hole(ring: Entity) -> bool:
    return bool(shapely.Polygon(ring).area > 1e-4)


def paired(low: Floats, high: Floats) -> tuple[Floats, Floats] | None:
    """Return both rings turned so that their edges run parallel one by one, or None."""
    if len(low) != len(high) or len(low) < 3:
        return None
    turns = [np.roll(high, -k, axis=0) for k in range(len(high))]
    best = min(turns, key=lambda ring: float(((ring - low) ** 2).sum()))
    a = np.roll(low, -1, axis=0) - low
    b = np.roll(best, -1, axis=0) - best
    lengths = np.linalg.norm(a, axis=1) * np.linalg.norm(b, axis=1)
    off = np.abs(a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]) / lengths
    return (low, best) if bool((off < 2e-3).all()) else None


def _lifted(ring: Floats, frame: Floats, height: float) -> Floats:
    return np.asarray(ring @ frame[:2] + height * frame[2], dtype=float)
