"""Which timbers lie along a joint's inner line and cover it, and which only cross it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from seamwright.geometry.search import Floats, Ints, near_boxes
from seamwright.geometry.types import Segment, Vec3
from seamwright.joints.fill import Boxes
from seamwright.tolerance import Tolerance

_PARALLEL = 0.05
"""A timber within this angle of the joint lies along it. [rad] (common practice, no source)"""

_COVERS = 0.5
"""A timber along at least this share of the inner line covers it. [-]"""


@dataclass(frozen=True, kw_only=True, slots=True)
class InnerLine:
    """An inner line to look behind: which joint, its line, the unit direction to the room.

    `fold` is the rise of each panel over its run to the line where they fold over the timber (a
    flat-topped ridge beam touches the slopes with its arrises and stands below the line). [-]
    """

    joint: int
    line: Segment
    room: Vec3
    fold: float


def timbers_behind(
    lines: Sequence[InnerLine], boxes: Boxes, tolerance: Tolerance
) -> tuple[dict[int, list[int]], dict[int, list[int]]]:
    """Return members along, and members across, the inner line of each joint."""
    along: dict[int, list[int]] = defaultdict(list)
    across: dict[int, list[int]] = defaultdict(list)
    if not lines or len(boxes.middle) == 0:
        return along, across
    start = np.array([line.line.start for line in lines], dtype=float)
    end = np.array([line.line.end for line in lines], dtype=float)
    room = np.array([line.room for line in lines], dtype=float)
    ends = np.stack((start, end), axis=1)
    i, m = near_boxes(ends.min(axis=1), ends.max(axis=1), boxes.lower, boxes.upper)
    run = end[i] - start[i]
    length = np.linalg.norm(run, axis=1)
    run = run / np.maximum(length, 1e-12)[:, None]
    leaning = np.linalg.norm(np.cross(run, boxes.along[m]), axis=1)
    low, high = _span_along(start[i], run, boxes, m)
    low, high = np.maximum(low, 0.0), np.minimum(high, length)
    parallel = (leaning < _PARALLEL) & (high - low >= _COVERS * length)
    crossing = leaning >= _PARALLEL
    place = np.where(parallel, (low + high) / 2.0, _closest(start[i], run, boxes, m))
    within = parallel | (crossing & (place >= 0.0) & (place <= length))
    fold = np.array([line.fold for line in lines], dtype=float)
    depth = tolerance.gap + fold[i] * boxes.half[m, 1]
    point = start[i] + run * place[:, None]
    touches = _touches(point, room[i], boxes, m, reach=depth, slack=tolerance.gap)
    for row in np.flatnonzero(within & touches):
        where = along if parallel[row] else across
        where[lines[int(i[row])].joint].append(int(m[row]))
    return along, across


def _span_along(start: Floats, run: Floats, boxes: Boxes, m: Ints) -> tuple[Floats, Floats]:
    middle = np.einsum("ij,ij->i", boxes.middle[m] - start, run)
    return middle - boxes.half[m, 0], middle + boxes.half[m, 0]


def _closest(start: Floats, run: Floats, boxes: Boxes, m: Ints) -> Floats:
    """Return the place along the line that is closest to the timber's axis."""
    axis = boxes.along[m]
    offset = boxes.middle[m] - start
    cosine = np.einsum("ij,ij->i", run, axis)
    sine = np.maximum(1.0 - cosine**2, 1e-9)
    return np.asarray(
        (np.einsum("ij,ij->i", offset, run) - cosine * np.einsum("ij,ij->i", offset, axis)) / sine
    )


def _touches(
    point: Floats, room: Floats, boxes: Boxes, m: Ints, *, reach: Floats, slack: float
) -> NDArray[np.bool_]:
    """Return whether the timber is met just inside the face, going from the line to the room."""
    found = np.zeros(len(m), dtype=bool)
    for depth in (np.full(len(m), slack / 4.0), np.full(len(m), slack), reach):
        local = point + room * depth[:, None] - boxes.middle[m]
        inside = np.ones(len(m), dtype=bool)
        for axis, half in ((boxes.along, 0), (boxes.across, 1), (boxes.up, 2)):
            reach_half = boxes.half[m, half] + slack / 4.0
            inside &= np.abs(np.einsum("ij,ij->i", local, axis[m])) <= reach_half
        found |= inside
    return found
