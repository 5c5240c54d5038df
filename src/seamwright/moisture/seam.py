"""The way air takes through a section: between its parts, never through one."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import shapely
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import dijkstra
from scipy.spatial import cKDTree

from seamwright.moisture.types import Counts, Flags, Floats, Grid, Point

NEAR = 0.02
"""How far from a face's joint line a way may begin. [m] common practice, no source"""

_SLIVER = 3e-4


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class Seam:
    """The points of a grid from the room's face to the outer face, and how far each lies along
    the way (n,). [m]
    """

    cells: Counts
    along: Floats

    @property
    def length(self) -> float:
        """From face to face. [m]"""
        return float(self.along[-1])

    @property
    def shares(self) -> Floats:
        """The stretch of the way that belongs to each point. [m]"""
        step = np.diff(self.along)
        ends = np.concatenate([[0.0], step, [0.0]])
        return np.asarray((ends[:-1] + ends[1:]) / 2)


def find_seam(grid: Grid, first: Point | None, last: Point | None) -> Seam | None:
    """Return the shortest way from the room to the outdoors along borders between parts.

    Parts are told apart by the `owner` of their regions; a void (no owner) is open throughout.
    `first` and `last` are the joint lines of the inner and outer face: the way begins and ends at
    the nearest place of the edge that such a border reaches, at most `NEAR` farther than the
    closest. None stands for anywhere. None comes back when parts leave no way through.
    """
    open_edges = _bridged(grid, _open_edges(grid))
    ends = grid.points[open_edges]
    length = np.linalg.norm(ends[:, 1] - ends[:, 0], axis=1)
    count = len(grid.points)
    graph = coo_matrix(
        (np.maximum(length, 1e-9), (open_edges[:, 0], open_edges[:, 1])), shape=(count, count)
    ).tocsr()
    reached = np.unique(open_edges)
    starts = _gates(grid, reached, "inside", first)
    stops = _gates(grid, reached, "outside", last)
    if not len(starts) or not len(stops):
        return None
    far, before, _ = dijkstra(
        graph, directed=False, indices=starts, return_predecessors=True, min_only=True
    )
    end = int(stops[np.argmin(far[stops])])
    if not math.isfinite(float(far[end])):
        return None
    cells = [end]
    while before[cells[-1]] >= 0:
        cells.append(int(before[cells[-1]]))
    way = np.array(cells[::-1], dtype=np.int64)
    return Seam(cells=way, along=np.asarray(far[way], dtype=np.float64))


def _open_edges(grid: Grid) -> Counts:
    """Return the inner edges with a different owner on each side, or with a void on one."""
    owners: dict[str, int] = {"": -1}
    number = [owners.setdefault(r.owner, len(owners)) for r in grid.section.regions]
    owner = np.array(number, dtype=np.int64)[grid.region]
    sides = np.concatenate([grid.triangles[:, pair] for pair in ([0, 1], [1, 2], [2, 0])])
    owner = np.tile(owner, 3)
    edges, index, count = np.unique(
        np.sort(sides, axis=1), axis=0, return_inverse=True, return_counts=True
    )
    low = np.full(len(edges), np.iinfo(np.int64).max)
    high = np.full(len(edges), np.iinfo(np.int64).min)
    np.minimum.at(low, index, owner)
    np.maximum.at(high, index, owner)
    between = (count == 2) & ((low != high) | (low < 0))
    return np.asarray(edges[between | ((count == 1) & _within(grid, edges))])


def _within(grid: Grid, edges: Counts) -> Flags:
    """Return which edges lie inside the section: one that has a single triangle bounds a sliver."""
    parts = [shapely.make_valid(shapely.Polygon(r.outline)) for r in grid.section.regions]
    whole = shapely.union_all([part.buffer(_SLIVER, join_style="mitre") for part in parts])
    middles = shapely.points(grid.points[edges].mean(axis=1))
    far = shapely.distance(middles, shapely.boundary(whole))
    return np.asarray(far > 2 * _SLIVER, dtype=np.bool_)


def _bridged(grid: Grid, edges: Counts) -> Counts:
    """Return the edges with those added that join their ends across slivers."""
    reached = np.unique(edges)
    near = cKDTree(grid.points[reached]).query_pairs(_SLIVER, output_type="ndarray")
    return np.concatenate([edges, reached[near].reshape(-1, 2)])


def _gates(grid: Grid, reached: Counts, side: str, near: Point | None) -> Counts:
    """Return the points of a side's faces at which a way can begin or end."""
    mine = np.array([e.side == side for e in grid.section.exposures])[grid.exposure]
    found = np.intersect1d(reached, np.unique(grid.borders[mine]))
    if near is None or not len(found):
        return found
    far = np.linalg.norm(grid.points[found] - np.asarray(near), axis=1)
    return np.asarray(found[far <= far.min() + NEAR])
