"""Edge to edge: side faces that run parallel and face each other across a small opening."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from seamwright.geometry.search import Floats, Ints, boxes_around, near_boxes
from seamwright.joints.gather import Edges
from seamwright.joints.touch import BLOCK, Touches, joined
from seamwright.tolerance import Tolerance

_WIDEST_WEDGE = 0.5
"""Cosine of the angle between side normals above which two edges no longer face each other: a
wedge of 120 degrees, wider than any roof ridge cut square. [-] (common practice, no source)"""


@dataclass(frozen=True, kw_only=True, slots=True)
class _Pairs:
    """Candidate edge pairs with the stretch they share, in the axis of the first edge."""

    i: Ints
    j: Ints
    start: Floats
    end: Floats
    on_inner: NDArray[np.bool_]
    outer: tuple[Floats, Floats]
    shift: Floats


def meet_edges(edges: Edges, tolerance: Tolerance) -> Touches:
    """Return every stretch where two panels' edges face each other within the widest gap. [m]

    Pairs of one panel are left out. Each pair is listed once, the lower-numbered panel first.
    """
    lower, upper = boxes_around(edges.corners(), tolerance.bridged_gap / 2.0)
    i, j = near_boxes(lower, upper, lower, upper)
    starts = range(0, max(len(i), 1), BLOCK)
    return joined(
        [meet_pairs(edges, i[at : at + BLOCK], j[at : at + BLOCK], tolerance) for at in starts]
    )


def meet_pairs(edges: Edges, i: Ints, j: Ints, tolerance: Tolerance) -> Touches:
    """Return the touches among the given candidate pairs of edges."""
    keep = edges.panel[i] < edges.panel[j]
    i, j = i[keep], j[keep]
    facing = np.einsum("ij,ij->i", edges.out[i], edges.out[j]) < _WIDEST_WEDGE
    parallel = np.linalg.norm(np.cross(edges.along[i], edges.along[j]), axis=1) < tolerance.angle
    keep = facing & parallel
    pairs = _shared(edges, i[keep], j[keep], tolerance)
    return _facing(edges, pairs, tolerance)


def _shared(edges: Edges, i: Ints, j: Ints, tolerance: Tolerance) -> _Pairs:
    """Keep pairs that overlap along their direction, on the inner or else the outer arris."""
    along = edges.along[i]
    sign = np.sign(np.einsum("ij,ij->i", along, edges.along[j]))
    begin = np.einsum("ij,ij->i", edges.start[j] - edges.start[i], along)
    inner = _overlap(0.0, edges.length[i], begin, begin + sign * edges.length[j])
    outer = _overlap(
        edges.outer_from[i],
        edges.outer_to[i],
        begin + sign * edges.outer_from[j],
        begin + sign * edges.outer_to[j],
    )
    use_inner = inner[1] - inner[0] >= tolerance.min_length
    start = np.where(use_inner, inner[0], outer[0])
    end = np.where(use_inner, inner[1], outer[1])
    middle = (start + end) / 2.0
    there = edges.start[j] + edges.along[j] * ((middle - begin) * sign)[:, None]
    shift = there - edges.start[i] - along * middle[:, None]
    shift -= along * np.einsum("ij,ij->i", shift, along)[:, None]
    keep = end - start >= tolerance.min_length
    return _Pairs(
        i=i[keep],
        j=j[keep],
        start=start[keep],
        end=end[keep],
        on_inner=use_inner[keep],
        outer=(outer[0][keep], outer[1][keep]),
        shift=shift[keep],
    )


def _overlap(
    lo: Floats | float, hi: Floats, other_a: Floats, other_b: Floats
) -> tuple[Floats, Floats]:
    low = np.maximum(lo, np.minimum(other_a, other_b))
    return low, np.minimum(hi, np.maximum(other_a, other_b))


def _facing(edges: Edges, pairs: _Pairs, tolerance: Tolerance) -> Touches:
    """Keep pairs whose cross-sections lie in front of each other and overlap, near enough."""
    q_i, q_j, p = edges.across[pairs.i], edges.across[pairs.j], pairs.shift
    bisector = _unit(_unit(q_i) + _unit(q_j))
    apart = _unit(edges.out[pairs.i] - edges.out[pairs.j])
    gap, shared, middle = _between(q_i, q_j, p, bisector, apart)
    near = gap <= tolerance.bridged_gap + tolerance.equal
    keep = _in_front(edges, pairs, tolerance.gap / 2.0) & near & (shared >= tolerance.min_length)
    end_step = p + q_j - q_i
    at = edges.start[pairs.i] + edges.along[pairs.i] * ((pairs.start + pairs.end) / 2.0)[:, None]
    n = len(pairs.i)
    return Touches(
        edge=pairs.i,
        other=pairs.j,
        surface=np.full(n, -1),
        start=pairs.start,
        end=pairs.end,
        on_inner=pairs.on_inner,
        outer_start=pairs.outer[0],
        outer_end=pairs.outer[1],
        gap=gap,
        inner_step=np.abs(_dot(p, bisector)),
        outer_step=np.abs(_dot(end_step, bisector)),
        inner_open=np.maximum(_dot(p, apart), 0.0),
        outer_open=np.maximum(_dot(end_step, apart), 0.0),
        rank=np.zeros(n, dtype=np.int64),
        facing=-_dot(edges.out[pairs.i], edges.out[pairs.j]),
        middle=at + middle,
        member=np.full(n, -1),
    ).take(keep)


def _between(
    q_i: Floats, q_j: Floats, p: Floats, bisector: Floats, apart: Floats
) -> tuple[Floats, Floats, Floats]:
    """Return the gap of two sections, how far they overlap, and a point halfway across. [m]

    The sections run from 0 to `q_i` and from `p` to `p + q_j`; they are compared at equal heights
    along the bisector, where the opening varies evenly from one end of the overlap to the other.
    """
    top_i, top_j, level = _dot(q_i, bisector), _dot(q_j, bisector), _dot(p, bisector)
    low, high = np.maximum(0.0, level), np.minimum(top_i, level + top_j)
    safe_i, safe_j = np.maximum(top_i, 1e-9), np.maximum(top_j, 1e-9)

    def across_at(x: Floats) -> tuple[Floats, Floats]:
        here = q_i * (x / safe_i)[:, None]
        there = p + q_j * ((x - level) / safe_j)[:, None]
        return _dot(there - here, apart), (here + there) / 2.0

    open_low, open_high = across_at(low)[0], across_at(high)[0]
    where = np.where(open_low <= open_high, 0.75 * low + 0.25 * high, (low + high) / 2)
    return np.maximum(np.minimum(open_low, open_high), 0.0), high - low, across_at(where)[1]


def _in_front(edges: Edges, pairs: _Pairs, slack: float) -> NDArray[np.bool_]:
    q_i, q_j, p = edges.across[pairs.i], edges.across[pairs.j], pairs.shift
    out_i, out_j = edges.out[pairs.i], edges.out[pairs.j]
    ahead_i = np.minimum(_dot(p, out_i), _dot(p + q_j, out_i))
    ahead_j = np.minimum(_dot(-p, out_j), _dot(q_i - p, out_j))
    return np.asarray((ahead_i >= -slack) & (ahead_j >= -slack))


def _dot(a: Floats, b: Floats) -> Floats:
    return np.asarray(np.einsum("ij,ij->i", a, b))


def _unit(a: Floats) -> Floats:
    return np.asarray(a / np.maximum(np.linalg.norm(a, axis=1), 1e-12)[:, None])
