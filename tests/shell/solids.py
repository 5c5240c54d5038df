"""Panels as solids, for the tests: volume, points inside, overlap by sampling."""

from __future__ import annotations

import itertools
import math
import random

import numpy as np
import shapely

from seamwright.geometry.plate import Loop, halfway
from seamwright.geometry.polygon import signed_area
from seamwright.shell.types import Panel


def section(panel: Panel, share: float) -> shapely.Geometry:
    """Return the cut through a panel parallel to its faces, holes taken out."""
    ring = halfway(Loop(inner=panel.inner, outer=panel.outer), share)
    shape = shapely.Polygon(ring)
    for hole in panel.holes:
        shape = shape.difference(shapely.Polygon(hole.outline))
    return shape


def volume(panel: Panel) -> float:
    """Return the volume of a panel with its holes out. [m³]"""
    loop = Loop(inner=panel.inner, outer=panel.outer)
    areas = [signed_area(halfway(loop, s)) for s in (0.0, 0.5, 1.0)]
    holes = sum(signed_area(h.outline) for h in panel.holes)
    return panel.thickness * ((areas[0] + 4 * areas[1] + areas[2]) / 6 - holes)


def depth_inside(panel: Panel, point: tuple[float, float, float]) -> float:
    """Return how deep a point lies in a panel, 0 outside. [m]"""
    u, v, w = panel.frame.local(point)
    if not 0.0 < w < panel.thickness:
        return 0.0
    shape = section(panel, w / panel.thickness)
    if not shape.contains(shapely.Point(u, v)):
        return 0.0
    return min(w, panel.thickness - w, shape.exterior.distance(shapely.Point(u, v)))


def samples(panel: Panel, n: int, seed: int) -> list[tuple[float, float, float]]:
    """Return points well spread in a panel, many of them near its edges."""
    draw = random.Random(seed)
    points = []
    for _ in range(n):
        share = draw.uniform(0.02, 0.98)
        shape = section(panel, share).buffer(-0.002)
        if shape.is_empty:
            continue
        if draw.random() < 0.6:
            spot = shape.boundary.interpolate(draw.random(), normalized=True)
        else:
            x0, y0, x1, y1 = shape.bounds
            spot = shapely.Point(draw.uniform(x0, x1), draw.uniform(y0, y1))
            if not shape.contains(spot):
                continue
        points.append(panel.frame.point((spot.x, spot.y), share * panel.thickness))
    return points


def bounds(panel: Panel) -> np.ndarray:
    """Return the least and greatest corner of a panel in space, shape (2, 3). [m]"""
    corners = [panel.frame.point(p) for p in panel.inner]
    corners += [panel.frame.point(p, panel.thickness) for p in panel.outer]
    return np.array([np.min(corners, axis=0), np.max(corners, axis=0)])


def overlaps(panels: tuple[Panel, ...], n: int = 60) -> list[tuple[str, str, float]]:
    """Return pairs of panels of which sampled points lie in both by more than 1 mm. [m]"""
    boxes = [bounds(p) for p in panels]
    points = [samples(p, n, seed=i) for i, p in enumerate(panels)]
    found = []
    for i, j in itertools.permutations(range(len(panels)), 2):
        if (boxes[i][0] > boxes[j][1]).any() or (boxes[j][0] > boxes[i][1]).any():
            continue
        worst = max((depth_inside(panels[j], x) for x in points[i]), default=0.0)
        if worst > 0.001:
            found.append((panels[i].id, panels[j].id, worst))
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


def outside_hits(panels: tuple[Panel, ...], inside: tuple, n: int, seed: int) -> list[float]:
    """Return for rays upward from a point inside how much panel each passes through. [m]

    A ray that meets no panel has found a hole in the shell.
    """
    draw = random.Random(seed)
    found = []
    for _ in range(n):
        z, a = draw.uniform(0, 1), draw.uniform(0, 2 * math.pi)
        r = math.sqrt(1 - z * z)
        d = (r * math.cos(a), r * math.sin(a), z)
        found.append(sum(_through(p, inside, d) for p in panels))
    return found


def _through(panel: Panel, o: tuple, d: tuple) -> float:
    n = panel.frame.n
    speed = float(np.dot(n, d))
    start = panel.frame.local(o)[2]
    if abs(speed) < 1e-9:
        return 0.0
    steps = np.linspace(0.02, 0.98, 25) * panel.thickness
    hits = 0
    for w in steps:
        t = (w - start) / speed
        if t > 0:
            u, v, _ = panel.frame.local(tuple(o[k] + t * d[k] for k in range(3)))
            hits += section(panel, w / panel.thickness).contains(shapely.Point(u, v))
    return hits / len(steps) * panel.thickness / abs(speed)
