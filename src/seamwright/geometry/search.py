"""Which boxes come near each other, and where lines run inside outlines: many at a time.

No pair is tried that lies far apart: boxes are kept in a packed tree over their plan rectangles,
so the cost grows with the number of neighbors and not with the square of the number of things.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray
from shapely import STRtree, box

Floats: TypeAlias = NDArray[np.float64]
Ints: TypeAlias = NDArray[np.int64]

_CHUNK = 20_000


@dataclass(frozen=True, kw_only=True, slots=True)
class Outlines:
    """Closed outlines with their holes, each in its own plane axes, as one ragged table.

    `first[i]` and `count[i]` say which rows of `start` and `end` (m, 2) are the sides of outline i.
    Inside is where a line has crossed an odd number of sides, so holes need no mark. [m]
    """

    first: Ints
    count: Ints
    start: Floats
    end: Floats


def boxes_around(points: Floats, margin: float) -> tuple[Floats, Floats]:
    """Return the lower and upper corners (n, 3) of boxes around `points` (n, k, 3), grown. [m]"""
    return points.min(axis=1) - margin, points.max(axis=1) + margin


def near_boxes(
    lower: Floats, upper: Floats, other_lower: Floats, other_upper: Floats
) -> tuple[Ints, Ints]:
    """Return index pairs (i, j) of boxes that overlap: i in the first set, j in the second. [m]"""
    none = np.empty(0, dtype=np.int64)
    if len(lower) == 0 or len(other_lower) == 0:
        return none, none
    tree = STRtree(box(other_lower[:, 0], other_lower[:, 1], other_upper[:, 0], other_upper[:, 1]))
    found_i: list[Ints] = []
    found_j: list[Ints] = []
    for at in range(0, len(lower), _CHUNK):
        part = slice(at, at + _CHUNK)
        plan = box(lower[part, 0], lower[part, 1], upper[part, 0], upper[part, 1])
        i, j = tree.query(plan)
        i = i + at
        keep = (lower[i, 2] <= other_upper[j, 2]) & (other_lower[j, 2] <= upper[i, 2])
        found_i.append(i[keep])
        found_j.append(j[keep])
    return np.concatenate(found_i), np.concatenate(found_j)


def clip_to_outlines(
    point: Floats, direction: Floats, owner: Ints, outlines: Outlines
) -> tuple[Ints, Floats, Floats]:
    """Return where lines run inside outlines: row of the line, from, to along its direction.

    Parameters
    ----------
    point, direction : (n, 2) float
        A point of each line and its unit direction, in the axes of its outline. [m]
    owner : (n,) int
        The outline each line is held against.
    outlines : Outlines
        The outlines.

    Returns
    -------
    row, start, end : (k,) arrays
        Rows may repeat where an outline is not convex or has holes. Sorted by row. [m]
    """
    count = outlines.count[owner]
    row = np.repeat(np.arange(len(owner)), count)
    side = np.repeat(outlines.first[owner], count) + _running(count)
    along, across = _in_line_axes(outlines.start[side] - point[row], direction[row])
    along_end, across_end = _in_line_axes(outlines.end[side] - point[row], direction[row])
    crossed = (across > 0.0) != (across_end > 0.0)
    row, a, b = row[crossed], across[crossed], across_end[crossed]
    at = along[crossed] + (along_end[crossed] - along[crossed]) * a / (a - b)
    order = np.lexsort((at, row))
    row, at = row[order], at[order]
    return row[0::2], at[0::2], at[1::2]


def segment_distance(point: Floats, start: Floats, end: Floats) -> Floats:
    """Return the distance of points (n, 3) from segments (n, 3) to (n, 3). [m]"""
    run = end - start
    square = np.maximum(np.einsum("ij,ij->i", run, run), 1e-30)
    t = np.clip(np.einsum("ij,ij->i", point - start, run) / square, 0.0, 1.0)
    return np.asarray(np.linalg.norm(point - start - t[:, None] * run, axis=1))


def _running(count: Ints) -> Ints:
    """Return 0, 1, ... count[0]-1, 0, 1, ... count[1]-1 and so on."""
    total = int(count.sum())
    return np.arange(total) - np.repeat(np.cumsum(count) - count, count)


def _in_line_axes(offset: Floats, direction: Floats) -> tuple[Floats, Floats]:
    along = offset[:, 0] * direction[:, 0] + offset[:, 1] * direction[:, 1]
    across = direction[:, 0] * offset[:, 1] - direction[:, 1] * offset[:, 0]
    return along, across
