"""Panels as solids, for the tests: volume, points inside, overlap by sampling, holes by rays."""

from __future__ import annotations

import math
import random
from functools import cache

import numpy as np
import shapely

from seamwright.geometry.plate import Loop, halfway
from seamwright.geometry.polygon import signed_area
from seamwright.shell.types import Panel


@cache
def section(panel: Panel, share: float) -> shapely.Geometry:
    """Return the cut through a panel parallel to its faces, holes taken out."""
    ring = halfway(Loop(inner=panel.inner, outer=panel.outer), share)
    shape = shapely.Polygon(ring, [hole.outline for hole in panel.holes])
    shapely.prepare(shape)
    return shape


def volume(panel: Panel) -> float:
    """Return the volume of a panel with its holes out. [m³]"""
    loop = Loop(inner=panel.inner, outer=panel.outer)
    areas = [signed_area(halfway(loop, s)) for s in (0.0, 0.5, 1.0)]
    holes = sum(signed_area(h.outline) for h in panel.holes)
    return panel.thickness * ((areas[0] + 4 * areas[1] + areas[2]) / 6 - holes)


def local(panel: Panel, points: np.ndarray) -> np.ndarray:
    """Return points (n, 3) in a panel's axes, (n, 3). [m]"""
    axes = np.array([panel.frame.u, panel.frame.v, panel.frame.n])
    return (points - np.array(panel.frame.origin)) @ axes.T


def samples(panel: Panel, n: int, seed: int) -> np.ndarray:
    """Return points well spread in a panel, more than half of them near its edges, (k, 3). [m]"""
    draw = random.Random(seed)
    points = []
    for share in (0.03, 0.35, 0.65, 0.97):
        shape = section(panel, share).buffer(-0.0015)
        if shape.is_empty:
            continue
        x0, y0, x1, y1 = shape.bounds
        for _ in range(n // 4):
            if draw.random() < 0.6:
                spot = shape.boundary.interpolate(draw.random(), normalized=True)
                u, v = spot.x, spot.y
            else:
                u, v = draw.uniform(x0, x1), draw.uniform(y0, y1)
                if not shape.contains(shapely.Point(u, v)):
                    continue
            points.append(panel.frame.point((u, v), share * panel.thickness))
    return np.array(points).reshape(-1, 3)


def overlaps(panels: tuple[Panel, ...], n: int = 80) -> list[tuple[str, str, float]]:
    """Return pairs of panels of which sampled points lie in both by more than 1 mm. [m]"""
    clouds = [samples(p, n, seed=i) for i, p in enumerate(panels)]
    points = np.concatenate(clouds)
    owner = np.repeat(np.arange(len(panels)), [len(c) for c in clouds])
    found = []
    for j, panel in enumerate(panels):
        at = local(panel, points)
        corners = np.array(panel.inner + panel.outer)
        low, high = corners.min(axis=0), corners.max(axis=0)
        near = (at[:, 2] > 0.001) & (at[:, 2] < panel.thickness - 0.001) & (owner != j)
        near &= np.all((at[:, :2] > low) & (at[:, :2] < high), axis=1)
        for k in np.flatnonzero(near):
            shape = section(panel, float(at[k, 2]) / panel.thickness)
            spot = shapely.Point(at[k, 0], at[k, 1])
            if shape.contains(spot) and shape.boundary.distance(spot) > 0.001:
                found.append((panels[owner[k]].id, panel.id, shape.boundary.distance(spot)))
    return found


def skewed_sides(panel: Panel) -> float:
    """Return the greatest distance by which a side face of a panel fails to be flat. [m]"""
    worst = 0.0
    n = len(panel.inner)
    for i in range(n):
        j = (i + 1) % n
        a, b = (panel.frame.point(panel.inner[k]) for k in (i, j))
        c, d = (panel.frame.point(panel.outer[k], panel.thickness) for k in (j, i))
        volume6 = abs(np.linalg.det(np.array([np.subtract(x, a) for x in (b, c, d)])))
        area = max(
            np.linalg.norm(np.cross(np.subtract(x, a), np.subtract(y, a)))
            for x, y in ((b, c), (c, d), (b, d))
        )
        worst = max(worst, volume6 / area if area > 1e-12 else 0.0)
    return worst


def upward_hits(panels: tuple[Panel, ...], inside: tuple, n: int, seed: int) -> np.ndarray:
    """Return for rays upward from a point inside how much panel each passes through, (n,). [m]

    A ray that meets no panel has found a hole in the shell.
    """
    draw = random.Random(seed)
    ways = []
    for _ in range(n):
        z, a = draw.uniform(0.0, 1.0), draw.uniform(0.0, 2.0 * math.pi)
        r = math.sqrt(1.0 - z * z)
        ways.append((r * math.cos(a), r * math.sin(a), z))
    way = np.array(ways)
    start = np.array(inside)
    total = np.zeros(n)
    for panel in panels:
        speed = way @ np.array(panel.frame.n)
        high = local(panel, start[None, :])[0, 2]
        for share in (0.1, 0.3, 0.5, 0.7, 0.9):
            with np.errstate(divide="ignore", invalid="ignore"):
                t = (share * panel.thickness - high) / speed
            ahead = np.isfinite(t) & (t > 0.0)
            at = local(panel, start + way * np.where(ahead, t, 0.0)[:, None])
            hit = ahead & shapely.contains_xy(section(panel, share), at[:, 0], at[:, 1])
            total += np.where(hit, panel.thickness / 5.0 / np.abs(np.where(ahead, speed, 1.0)), 0.0)
    return total
