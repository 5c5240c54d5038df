"""Rays shot from inside a house: an independent way to ask whether the shell closes.

Nothing of the joint finder is used: only panel faces, supports, openings and plain ray geometry.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from shapely import contains_xy, distance, points
from shapely.geometry import Polygon

from seamwright.geometry.types import Frame, Ring, Vec3
from seamwright.shell.types import Shell

Floats = NDArray[np.float64]


def directions(count: int, seed: int = 7) -> Floats:
    """Return `count` unit vectors spread evenly at random over the sphere, (count, 3)."""
    rng = np.random.default_rng(seed)
    way = rng.normal(size=(count, 3))
    return way / np.linalg.norm(way, axis=1, keepdims=True)


def _hits(
    frame: Frame, outline: Ring, start: Vec3, ways: Floats, slack: float
) -> NDArray[np.bool_]:
    """Return which rays pass the outline, or within `slack` of it. [m]"""
    n = np.array(frame.n)
    origin = np.array(frame.origin)
    speed = ways @ n
    with np.errstate(divide="ignore", invalid="ignore"):
        t = ((origin - np.array(start)) @ n) / speed
    ahead = (np.abs(speed) > 1e-9) & (t > 0)
    at = np.array(start) + ways * np.where(ahead, t, 0.0)[:, None]
    u = (at - origin) @ np.array(frame.u)
    v = (at - origin) @ np.array(frame.v)
    polygon = Polygon(outline)
    return ahead & (contains_xy(polygon, u, v) | (distance(polygon, points(u, v)) <= slack))


def escaping(shell: Shell, start: Vec3, ways: Floats, slack: float) -> Floats:
    """Return the directions in which a ray from `start` leaves the house without meeting anything.

    A ray is stopped by the inner face of any panel of the shell (holes included: an opening counts
    as closed by what fills it), by a support, or by the gap of a seam no wider than `slack`.
    """
    stopped = np.zeros(len(ways), dtype=bool)
    for panel in shell.panels:
        if panel.role != "partition":
            stopped |= _hits(panel.frame, panel.inner, start, ways, slack)
    for opening in shell.openings:
        stopped |= _hits(opening.frame, opening.outline, start, ways, slack)
    for support in shell.supports:
        stopped |= _hits(support.frame, support.outline, start, ways, slack)
    return ways[~stopped]


def distance_to_ray(start: Vec3, way: Floats, segments: Floats) -> float:
    """Return how near a ray passes to the nearest of the segments (n, 2, 3). [m]

    Each segment is sampled every 50 mm or finer, near enough for a test that asks for decimetres.
    """
    steps = np.linspace(0.0, 1.0, 1 + int(np.ptp(segments, axis=1).max() / 0.05))
    places = (
        segments[:, None, 0] + steps[None, :, None] * (segments[:, 1] - segments[:, 0])[:, None]
    )
    offset = places.reshape(-1, 3) - np.array(start)
    along = np.clip(offset @ way, 0.0, None)
    return float(np.linalg.norm(offset - along[:, None] * way, axis=1).min())
