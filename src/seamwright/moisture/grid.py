"""Triangles for a section: fine at corners, coarse in the plain, and true to every outline.

Outline stretches are split until no other point lies in the circle over them. Then the Delaunay
triangles of all points keep to the outlines and have no obtuse angle against them, so that the
equations of `conduction` keep the maximum principle exactly.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import shapely
from scipy.spatial import Delaunay, cKDTree

from seamwright.moisture.outlines import Net, net_of
from seamwright.moisture.types import Counts, Flags, Floats, Grid, PlainSection

FINEST = 0.004
"""Spacing at the corners of a section. [m]"""

COARSEST = 8.0
"""Spacing far from every corner, in spacings at the corners. [-]"""

GROWTH = 0.25
"""How fast the spacing grows with the distance from a corner. [-]"""

_ROUNDS = 40
_LEAST = 1.0 / 64.0
_CLEAR = 0.55


@dataclass(frozen=True, kw_only=True, slots=True)
class _Spacing:
    """How far apart points shall stand: `finest` at corners, growing to `coarsest`. [m]"""

    tree: cKDTree | None
    finest: float
    coarsest: float
    growth: float

    def at(self, points: Floats) -> Floats:
        if self.tree is None or len(points) == 0:
            return np.full(len(points), self.coarsest)
        far = self.tree.query(points)[0]
        near: Floats = self.finest + self.growth * np.asarray(far, dtype=np.float64)
        return np.minimum(near, self.coarsest)


def make_grid(
    section: PlainSection,
    finest: float = FINEST,
    *,
    about: Floats | None = None,
    coarsest: float = COARSEST,
    growth: float = GROWTH,
) -> Grid:
    """Return the triangles of a section, `finest` apart at its corners. [m]

    The same section always gives the same grid. Half of `finest` gives about four times as many
    triangles. `about` (k, 2) names the places to be fine at instead of every corner; the spacing
    grows from there by `growth` up to `coarsest` times `finest`.

    Raises
    ------
    GeometryError
        When the section has no area.
    """
    net = net_of(section)
    places = net.sharp if about is None else about
    spacing = _Spacing(
        tree=cKDTree(places) if len(places) else None,
        finest=finest,
        coarsest=coarsest * finest,
        growth=growth,
    )
    rim, edges = _split_long(net.points, net.edges, spacing)
    free = _lattice(net, spacing, rim)
    rim, edges, free = _settle(rim, edges, free, len(net.points), _LEAST * finest)
    points = np.concatenate([rim, free])
    triangles = _triangles(points)
    cell = _cell_of(points[triangles].mean(axis=1), net)
    triangles, cell = triangles[cell >= 0], cell[cell >= 0]
    region = net.region[cell]
    borders, exposure = _borders(points, triangles, section)
    return Grid(
        section=section,
        points=points,
        triangles=triangles,
        region=region,
        borders=borders,
        exposure=exposure,
        misfit=_misfit(points, triangles, cell, net),
        strays=_strays(edges, triangles),
        bare=_bare(points, borders, section),
    )


def areas_of(points: Floats, triangles: Counts) -> Floats:
    """Return the area of each triangle, positive counter-clockwise. [m²]"""
    a, b, c = (points[triangles[:, k]] for k in range(3))
    u, v = b - a, c - a
    return np.asarray((u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]) / 2.0)


def _split_long(points: Floats, edges: Counts, spacing: _Spacing) -> tuple[Floats, Counts]:
    while True:
        ends = points[edges]
        middle = ends.mean(axis=1)
        long = np.linalg.norm(ends[:, 1] - ends[:, 0], axis=1) > spacing.at(middle)
        if not long.any():
            return points, edges
        points, edges = _halved(points, edges, long)


def _halved(points: Floats, edges: Counts, which: Flags, corners: int = 0) -> tuple[Floats, Counts]:
    """Return the edges with those of `which` cut in two.

    An edge that starts at a corner (a point below `corners`) is cut at a power of two from it, so
    that edges in a sharp corner end up alike instead of cutting one another for ever.
    """
    a, b = points[edges[which, 0]], points[edges[which, 1]]
    first, second = edges[which, 0] < corners, edges[which, 1] < corners
    length = np.linalg.norm(b - a, axis=1)
    shell = np.exp2(np.round(np.log2(length / 2))) / length
    share = np.where(first == second, 0.5, np.where(first, shell, 1.0 - shell))
    fresh = a + share[:, None] * (b - a)
    index = np.arange(len(points), len(points) + len(fresh))
    near = np.column_stack([edges[which, 0], index])
    far = np.column_stack([index, edges[which, 1]])
    return np.concatenate([points, fresh]), np.concatenate([edges[~which], near, far])


def _lattice(net: Net, spacing: _Spacing, rim: Floats) -> Floats:
    """Return middles of a tree of squares, each no larger than the spacing asks, off the rim."""
    low, high = net.points.min(axis=0), net.points.max(axis=0)
    size = spacing.coarsest
    counts = np.maximum(np.ceil((high - low) / size).astype(int), 1)
    grid = np.stack(np.meshgrid(*(np.arange(n) for n in counts), indexing="ij"), axis=-1)
    open_squares = low + (grid.reshape(-1, 2) + 0.5) * size
    done: list[tuple[Floats, float]] = []
    while len(open_squares):
        small = size <= spacing.at(open_squares) * (1 + 1e-9)
        done.append((open_squares[small], size))
        size /= 2
        rest = open_squares[~small]
        shifts = np.array([(-1, -1), (1, -1), (-1, 1), (1, 1)]) * size / 2
        open_squares = (rest[:, None, :] + shifts).reshape(-1, 2)
    points = np.concatenate([p for p, _ in done])
    sizes = np.concatenate([np.full(len(p), s) for p, s in done])
    whole = shapely.unary_union(net.cells)
    shapely.prepare(whole)
    inside = shapely.contains_xy(whole, points[:, 0], points[:, 1])
    points, sizes = points[inside], sizes[inside]
    lines = shapely.linestrings(net.points[net.edges])
    tree = shapely.STRtree(lines)
    (which, _), far = tree.query_nearest(
        shapely.points(points), return_distance=True, all_matches=False
    )
    clear = np.zeros(len(points), dtype=bool)
    clear[which] = far > _CLEAR * sizes[which]
    near_rim = cKDTree(rim).query(points)[0] > _CLEAR * sizes
    return np.asarray(points[clear & near_rim])


def _settle(
    rim: Floats, edges: Counts, free: Floats, corners: int, least: float
) -> tuple[Floats, Counts, Floats]:
    """Split stretches and drop free points until no circle over a stretch holds a point."""
    for _ in range(_ROUNDS):
        ends = rim[edges]
        middle = ends.mean(axis=1)
        radius = np.linalg.norm(ends[:, 1] - ends[:, 0], axis=1) / 2 * (1 - 1e-7)
        hit = cKDTree(rim).query(middle)[0] < radius
        hit &= 2 * radius > least
        if len(free):
            inside = cKDTree(middle).query_ball_tree(cKDTree(free), radius.max())
            drop = {
                j
                for i, near in enumerate(inside)
                for j in near
                if np.hypot(*(free[j] - middle[i])) < radius[i]
            }
            free = np.delete(free, sorted(drop), axis=0)
        if not hit.any():
            break
        rim, edges = _halved(rim, edges, hit, corners)
    return rim, edges, free


def _triangles(points: Floats) -> Counts:
    middle = (points.min(axis=0) + points.max(axis=0)) / 2
    size = np.ptp(points, axis=0).max()
    triangles = Delaunay((points - middle) / size).simplices.astype(np.int64)
    area = areas_of(points, triangles)
    triangles[area < 0] = triangles[area < 0][:, ::-1]
    sides = points[triangles] - points[np.roll(triangles, 1, axis=1)]
    longest = (sides**2).sum(axis=2).max(axis=1)
    return np.asarray(triangles[np.abs(area) > 1e-7 * longest])


def _cell_of(middles: Floats, net: Net) -> Counts:
    found = np.full(len(middles), -1, dtype=np.int64)
    where, cell = shapely.STRtree(net.cells).query(shapely.points(middles), predicate="within")
    found[where] = cell
    return found


def _borders(points: Floats, triangles: Counts, section: PlainSection) -> tuple[Counts, Counts]:
    """Return the outer edges of the triangles that lie on an exposure, and on which."""
    sides = np.concatenate([triangles[:, [0, 1]], triangles[:, [1, 2]], triangles[:, [2, 0]]])
    _, first, count = np.unique(
        np.sort(sides, axis=1), axis=0, return_index=True, return_counts=True
    )
    outer = sides[first[count == 1]]
    if not section.exposures:
        return outer[:0], np.zeros(0, dtype=np.int64)
    lines = shapely.linestrings([(e.start, e.end) for e in section.exposures])
    middles = shapely.points(points[outer].mean(axis=1))
    which, line = shapely.STRtree(lines).query_nearest(
        middles, max_distance=3e-5, all_matches=False
    )
    return outer[which], np.asarray(line, dtype=np.int64)


def _misfit(points: Floats, triangles: Counts, cell: Counts, net: Net) -> float:
    area = np.bincount(cell, np.abs(areas_of(points, triangles)), minlength=len(net.cells))
    true = np.array([c.area for c in net.cells])
    return float(np.abs(area - true).sum() / true.sum())


def _bare(points: Floats, borders: Counts, section: PlainSection) -> float:
    asked = sum(math.dist(e.start, e.end) for e in section.exposures)
    ends = points[borders]
    found = float(np.linalg.norm(ends[:, 1] - ends[:, 0], axis=1).sum())
    return max(0.0, 1.0 - found / asked) if asked > 0 else 0.0


def _strays(edges: Counts, triangles: Counts) -> int:
    sides = np.concatenate([triangles[:, [0, 1]], triangles[:, [1, 2]], triangles[:, [2, 0]]])
    wide = int(max(edges.max(), triangles.max())) + 1
    codes = np.sort(sides, axis=1) @ np.array([wide, 1])
    wanted = np.sort(edges, axis=1) @ np.array([wide, 1])
    return int(np.count_nonzero(~np.isin(wanted, codes)))
