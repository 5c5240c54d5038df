"""Edge to face: an edge that stands against a panel's skin or a support, within its outline."""

from __future__ import annotations

import numpy as np

from seamwright.geometry.search import Floats, Ints, boxes_around, clip_to_outlines, near_boxes
from seamwright.joints.gather import FRONT, Edges, Surfaces
from seamwright.joints.touch import Touches, joined
from seamwright.tolerance import Tolerance

_STEEPEST = -0.15
"""Cosine between the side face's normal and the face's: a square wall top still bears under a roof
of 81 degrees. [-] (common practice, no source)"""

_LEVELS = (0.5, 0.2, 0.8)
"""Where across the thickness the edge is held against the outline: mid-thickness first, then
nearer each skin (an edge over a seam or past the rim of its bearing). [-]"""


def rest_edges(edges: Edges, surfaces: Surfaces, tolerance: Tolerance) -> Touches:
    """Return every stretch where an edge stands against a face within the widest gap. [m]

    A touch at mid-thickness has rank 0; one found only nearer a skin has rank 1.
    """
    lower, upper = boxes_around(edges.corners(), tolerance.bridged_gap)
    i, k = near_boxes(lower, upper, surfaces.lower, surfaces.upper)
    return rest_pairs(edges, surfaces, i, k, tolerance)


def rest_pairs(edges: Edges, surfaces: Surfaces, i: Ints, k: Ints, tolerance: Tolerance) -> Touches:
    """Return the touches among the given candidate pairs of edge and surface."""
    foreign = (surfaces.side[k] >= FRONT) | (edges.panel[i] != surfaces.owner[k])
    i, k = i[foreign], k[foreign]
    normal = surfaces.normal[k]
    level = np.abs(_dot(edges.along[i], normal)) < tolerance.angle
    facing = _dot(edges.out[i], normal) < _STEEPEST
    near = np.abs(_lowest(edges, surfaces, i, k)) <= tolerance.bridged_gap + 0.05
    keep = level & facing & near
    i, k = i[keep], k[keep]
    parts = []
    for rank, share in enumerate(_LEVELS):
        found = _clipped(edges, surfaces, (i, k), share, tolerance)
        parts.append(_measured(edges, surfaces, found, min(rank, 1), tolerance))
        done = np.isin(i * len(surfaces.owner) + k, found[0] * len(surfaces.owner) + found[1])
        i, k = i[~done], k[~done]
    return joined(parts)


def _lowest(edges: Edges, surfaces: Surfaces, i: Ints, k: Ints) -> Floats:
    """Return the lesser height of the section's two ends at the edge's middle. [m]"""
    inner, outer = _heights(edges, surfaces, i, k, edges.length[i] / 2.0)
    return np.minimum(inner, outer)


def _heights(
    edges: Edges, surfaces: Surfaces, i: Ints, k: Ints, at: Floats
) -> tuple[Floats, Floats]:
    point = edges.start[i] + edges.along[i] * at[:, None] - surfaces.origin[k]
    normal = surfaces.normal[k]
    return _dot(point, normal), _dot(point + edges.across[i], normal)


def _clipped(
    edges: Edges, surfaces: Surfaces, pairs: tuple[Ints, Ints], share: float, tolerance: Tolerance
) -> tuple[Ints, Ints, Floats, Floats]:
    """Return edge, surface, start and end of the stretches within the surface's outline."""
    i, k = pairs
    offset = edges.start[i] + share * edges.across[i] - surfaces.origin[k]
    point = np.stack((_dot(offset, surfaces.u[k]), _dot(offset, surfaces.v[k])), axis=1)
    run = np.stack((_dot(edges.along[i], surfaces.u[k]), _dot(edges.along[i], surfaces.v[k])), 1)
    run /= np.maximum(np.linalg.norm(run, axis=1), 1e-12)[:, None]
    row, start, end = clip_to_outlines(point, run, k, surfaces.outlines)
    i, k = i[row], k[row]
    start = np.maximum(start, np.minimum(0.0, edges.outer_from[i]))
    end = np.minimum(end, np.maximum(edges.length[i], edges.outer_to[i]))
    keep = end - start >= tolerance.min_length
    return i[keep], k[keep], start[keep], end[keep]


def _measured(
    edges: Edges,
    surfaces: Surfaces,
    found: tuple[Ints, Ints, Floats, Floats],
    rank: int,
    tolerance: Tolerance,
) -> Touches:
    """Keep stretches near enough to the face, with the steps at both skins."""
    i, k, start, end = found
    inner, outer = _heights(edges, surfaces, i, k, (start + end) / 2.0)
    lowest = np.minimum(inner, outer)
    gap = np.maximum(lowest, 0.0)
    keep = (lowest >= -tolerance.gap / 2.0) & (lowest <= tolerance.bridged_gap)
    cosine = np.abs(_dot(edges.out[i], surfaces.normal[k]))
    share = np.where(outer < inner - 1e-9, 0.8, np.where(inner < outer - 1e-9, 0.2, 0.5))
    height = inner + share * (outer - inner)
    middle = edges.start[i] + edges.along[i] * ((start + end) / 2.0)[:, None]
    middle = middle + share[:, None] * edges.across[i]
    middle = middle - surfaces.normal[k] * (height / 2.0)[:, None]
    n = len(i)
    near = np.maximum(start, 0.0), np.minimum(end, edges.length[i])
    far = np.maximum(start, edges.outer_from[i]), np.minimum(end, edges.outer_to[i])
    on_inner = near[1] - near[0] >= tolerance.min_length
    return Touches(
        edge=i,
        other=np.full(n, -1),
        surface=k,
        start=np.where(on_inner, near[0], far[0]),
        end=np.where(on_inner, near[1], far[1]),
        on_inner=on_inner,
        outer_start=far[0],
        outer_end=far[1],
        gap=gap,
        inner_step=np.maximum(inner, 0.0) / cosine,
        outer_step=np.maximum(outer, 0.0) / cosine,
        inner_open=np.maximum(inner, 0.0),
        outer_open=np.maximum(outer, 0.0),
        rank=np.full(n, rank),
        middle=middle,
        member=np.full(n, -1),
    ).take(keep)


def _dot(a: Floats, b: Floats) -> Floats:
    return np.asarray(np.einsum("ij,ij->i", a, b))
