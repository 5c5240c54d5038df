"""One contact for each stretch of an edge: where several claim it, the closest keeps it."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import fields
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from seamwright.geometry.search import Floats, Ints
from seamwright.joints.gather import Edges
from seamwright.joints.touch import Touches
from seamwright.tolerance import Tolerance

Stretch: TypeAlias = tuple[float, float]
Flags: TypeAlias = NDArray[np.bool_]

_SAME = 0.001
"""Stretches that share less than this do not compete: the ledger closes to 1 mm. [m]"""

_SQUARELY = 0.3
"""Cosine of the angle above which two side faces meet as a wedge, not squarely. [-]"""


def settle(edges: Edges, touches: Touches, tolerance: Tolerance) -> Touches:
    """Return touches none of which share a stretch of an edge.

    Order of preference: nothing between before a timber between, then contact at the surface before
    an arris inside the other panel, then square contact before a wedge, then the smaller gap, then
    edge to edge before edge to face, then mid-thickness, then the natural order of the panels.
    """
    contested = _contested(edges, touches)
    order = [row for row in _by_preference(touches) if contested[row]]
    taken: dict[int, list[Stretch]] = defaultdict(list)
    rows, starts, ends = [], [], []
    for row in order:
        for start, end in _free(edges, touches, row, taken, tolerance.min_length):
            rows.append(row)
            starts.append(start)
            ends.append(end)
    quiet = np.flatnonzero(~contested)
    pick = np.concatenate((quiet, np.array(rows, dtype=np.int64)))
    new_start = np.concatenate((touches.start[quiet], np.array(starts, dtype=float)))
    new_end = np.concatenate((touches.end[quiet], np.array(ends, dtype=float)))
    return _trimmed(touches.take(pick), new_start, new_end)


def _contested(edges: Edges, touches: Touches) -> Flags:
    """Mark rows that share a stretch of an edge with another row."""
    n = len(touches)
    paired = np.flatnonzero(touches.other >= 0)
    begin, sign = _mapping(edges, touches, paired)
    a, b = (touches.start[paired] - begin) * sign, (touches.end[paired] - begin) * sign
    edge = np.concatenate((touches.edge, touches.other[paired]))
    start = np.concatenate((touches.start, np.minimum(a, b)))
    end = np.concatenate((touches.end, np.maximum(a, b)))
    row = np.concatenate((np.arange(n), paired))
    order = np.lexsort((row, start, edge))
    edge, start, end, row = edge[order], start[order], end[order], row[order]
    contested = np.zeros(n, dtype=bool)
    for step in range(1, 9):
        clash = (edge[step:] == edge[:-step]) & (start[step:] < end[:-step] - _SAME)
        if not clash.any():
            break
        contested[row[step:][clash]] = True
        contested[row[:-step][clash]] = True
    return _spread(contested, edge, row)


def _spread(contested: Flags, edge: Ints, row: Ints) -> Flags:
    """Mark also every other row on an edge that has a contested one (its stretches matter)."""
    hot = np.zeros(int(edge.max()) + 1 if len(edge) else 0, dtype=bool)
    hot[edge[contested[row]]] = True
    spread = contested.copy()
    spread[row[hot[edge]]] = True
    return spread


def _by_preference(touches: Touches) -> list[int]:
    bridged = touches.member >= 0
    near = np.round(touches.gap / 0.005)
    askew = touches.facing < _SQUARELY
    inside = touches.rank == 2
    to_face = touches.other < 0
    target = np.where(to_face, touches.surface, touches.other)
    keys = (
        touches.start,
        target,
        touches.edge,
        touches.rank,
        to_face,
        near,
        askew,
        inside,
        bridged,
    )
    return [int(row) for row in np.lexsort(keys)]


def _mapping(edges: Edges, touches: Touches, rows: Ints) -> tuple[Floats, Floats]:
    """Return begin and sign: a place s on the first edge is (s - begin) * sign on the other."""
    i, j = touches.edge[rows], touches.other[rows]
    begin = np.einsum("ij,ij->i", edges.start[j] - edges.start[i], edges.along[i])
    return begin, np.sign(np.einsum("ij,ij->i", edges.along[i], edges.along[j]))


def _free(
    edges: Edges, touches: Touches, row: int, taken: dict[int, list[Stretch]], shortest: float
) -> list[Stretch]:
    """Return what is left of a row's stretch on both its edges, and take it."""
    i, j = int(touches.edge[row]), int(touches.other[row])
    left = _minus([(float(touches.start[row]), float(touches.end[row]))], taken[i])
    begin, sign = 0.0, 1.0
    if j >= 0:
        found = _mapping(edges, touches, np.array([row]))
        begin, sign = float(found[0][0]), float(found[1][0])
        left = _mapped(_minus(_mapped(left, -begin * sign, sign), taken[j]), begin, sign)
    left = [(a, b) for a, b in left if b - a >= shortest]
    taken[i] += left
    if j >= 0:
        taken[j] += _mapped(left, -begin * sign, sign)
    return left


def _mapped(stretches: list[Stretch], shift: float, sign: float) -> list[Stretch]:
    pairs = [(a * sign + shift, b * sign + shift) for a, b in stretches]
    return [(min(pair), max(pair)) for pair in pairs]


def _minus(stretches: list[Stretch], taken: list[Stretch]) -> list[Stretch]:
    for low, high in taken:
        stretches = [
            piece
            for a, b in stretches
            for piece in ((a, min(b, low)), (max(a, high), b))
            if piece[1] > piece[0]
        ]
    return stretches


def _trimmed(
    touches: Touches,
    start: Floats,
    end: Floats,
) -> Touches:
    """Return the touches with new ends; the outer stretch follows an end that moved."""
    values = {f.name: getattr(touches, f.name) for f in fields(Touches)}
    later = start > touches.start + _SAME
    sooner = end < touches.end - _SAME
    values["outer_start"] = np.where(
        later, np.maximum(touches.outer_start, start), touches.outer_start
    )
    values["outer_end"] = np.where(sooner, np.minimum(touches.outer_end, end), touches.outer_end)
    values["start"], values["end"] = start, end
    return Touches(**values)
