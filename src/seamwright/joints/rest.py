"""Edge to face: an edge that stands against a panel's skin or a support, within its outline."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from seamwright.geometry.search import Floats, Ints, boxes_around, clip_to_outlines, near_boxes
from seamwright.joints.gather import FRONT, Edges, Surfaces
from seamwright.joints.touch import BLOCK, Touches, joined
from seamwright.tolerance import Tolerance

_STEEPEST = -0.15
"""Cosine between the side face's normal and the face's: a square wall top still bears under a roof
of 81 degrees. [-] (common practice, no source)"""

_LEVELS = (0.5, 0.2, 0.8)
"""Where across the thickness the edge is held against the outline: mid-thickness first, then
nearer each skin (an edge over a seam or past the rim of its bearing). [-]"""

_SLOPE = 0.05
"""Most an edge within the angle tolerance rises over half its length. [m]"""

_ALONG = 0.98
"""Cosine above which a panel lies along a face; a wall under a roof of 78 degrees does not. [-]"""

_SKIN = 0.001
"""How far inside a skin its line is held against an outline that may end flush with it. [-]"""


def rest_edges(edges: Edges, surfaces: Surfaces, tolerance: Tolerance) -> Touches:
    """Return every stretch where an edge stands against a face within the widest gap. [m]

    A touch at mid-thickness has rank 0, one found only nearer a skin rank 1, and one where an arris
    stands inside the other panel rank 2.
    """
    lower, upper = boxes_around(edges.corners(), tolerance.bridged_gap)
    i, k = near_boxes(lower, upper, surfaces.lower, surfaces.upper)
    starts = range(0, max(len(i), 1), BLOCK)
    return joined(
        [
            rest_pairs(edges, surfaces, i[at : at + BLOCK], k[at : at + BLOCK], tolerance)
            for at in starts
        ]
    )


def rest_pairs(edges: Edges, surfaces: Surfaces, i: Ints, k: Ints, tolerance: Tolerance) -> Touches:
    """Return the touches among the given candidate pairs of edge and surface."""
    foreign = (surfaces.side[k] >= FRONT) | (edges.panel[i] != surfaces.owner[k])
    i, k = i[foreign], k[foreign]
    normal = surfaces.normal[k]
    level = np.abs(_dot(edges.along[i], normal)) < tolerance.angle
    facing = _dot(edges.out[i], normal) < _STEEPEST
    inner, outer = _heights(edges, surfaces, i, k, edges.length[i] / 2.0)
    near = (np.minimum(inner, outer) <= tolerance.bridged_gap + _SLOPE) & (
        np.maximum(inner, outer) >= -_SLOPE
    )
    keep = level & facing & near
    i, k = i[keep], k[keep]
    parts = []
    for rank, share in enumerate(_LEVELS):
        found = _clipped(edges, surfaces, (i, k), share, tolerance)
        parts.append(_measured(edges, surfaces, found, min(rank, 1), tolerance))
        done = np.isin(i * len(surfaces.owner) + k, found[0] * len(surfaces.owner) + found[1])
        i, k = i[~done], k[~done]
    return joined(parts)


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
    row, start, end = _within(edges, surfaces, i, k, share)
    i, k = i[row], k[row]
    start = np.maximum(start, np.minimum(0.0, edges.outer_from[i]))
    end = np.minimum(end, np.maximum(edges.length[i], edges.outer_to[i]))
    keep = end - start >= tolerance.min_length
    return i[keep], k[keep], start[keep], end[keep]


def _within(
    edges: Edges, surfaces: Surfaces, i: Ints, k: Ints, share: float
) -> tuple[Ints, Floats, Floats]:
    """Return where the edge's line, at a share of its thickness, runs inside the outline."""
    offset = edges.start[i] + share * edges.across[i] - surfaces.origin[k]
    point = np.stack((_dot(offset, surfaces.u[k]), _dot(offset, surfaces.v[k])), axis=1)
    run = np.stack((_dot(edges.along[i], surfaces.u[k]), _dot(edges.along[i], surfaces.v[k])), 1)
    run /= np.maximum(np.linalg.norm(run, axis=1), 1e-12)[:, None]
    return clip_to_outlines(point, run, k, surfaces.outlines)


def _on_skin(
    edges: Edges, surfaces: Surfaces, found: tuple[Ints, Ints, Floats, Floats], share: float
) -> tuple[Floats, Floats]:
    """Return the same stretches as they run along one skin, where the outline is cut aslant."""
    i, k, start, end = found
    row, low, high = _within(edges, surfaces, i, k, share)
    common = np.minimum(high, end[row]) - np.maximum(low, start[row])
    best = np.lexsort((common, row))
    best = best[common[best] > 0.0]
    new_start, new_end = start.copy(), end.copy()
    new_start[row[best]], new_end[row[best]] = low[best], high[best]
    return new_start, new_end


def _measured(
    edges: Edges,
    surfaces: Surfaces,
    found: tuple[Ints, Ints, Floats, Floats],
    rank: int,
    tolerance: Tolerance,
) -> Touches:
    """Keep stretches near enough to the face, with the steps at both skins."""
    inner, outer = _heights(edges, surfaces, found[0], found[1], (found[2] + found[3]) / 2.0)
    lowest = np.minimum(inner, outer)
    highest = np.maximum(inner, outer)
    keep = (highest >= -tolerance.gap / 2.0) & (lowest <= tolerance.bridged_gap + tolerance.equal)
    bites = lowest < -tolerance.gap / 2.0
    keep &= ~bites | _crosses(edges, surfaces, found[0], found[1])
    found = (found[0][keep], found[1][keep], found[2][keep], found[3][keep])
    i, k = found[0], found[1]
    inner, outer = inner[keep], outer[keep]
    cosine = np.abs(_dot(edges.out[i], surfaces.normal[k]))
    near, far = _ends(edges, surfaces, found)
    on_inner = near[1] - near[0] >= tolerance.min_length
    n = len(i)
    return Touches(
        edge=i,
        other=np.full(n, -1),
        surface=k,
        start=np.where(on_inner, near[0], far[0]),
        end=np.where(on_inner, near[1], far[1]),
        on_inner=on_inner,
        outer_start=far[0],
        outer_end=far[1],
        gap=np.maximum(np.minimum(inner, outer), 0.0),
        inner_step=np.maximum(inner, 0.0) / cosine,
        outer_step=np.maximum(outer, 0.0) / cosine,
        inner_open=inner,
        outer_open=outer,
        rank=np.where(bites[keep], 2, rank),
        facing=cosine,
        middle=_mid_gap(edges, surfaces, found, inner, outer),
        member=np.full(n, -1),
    ).take(on_inner | (far[1] - far[0] >= tolerance.min_length))


def _crosses(edges: Edges, surfaces: Surfaces, i: Ints, k: Ints) -> NDArray[np.bool_]:
    """Return whether the edge's panel stands across the face, not along it in the next bay."""
    return np.asarray(np.abs(_dot(edges.skin[i], surfaces.normal[k])) < _ALONG)


def _ends(
    edges: Edges, surfaces: Surfaces, found: tuple[Ints, Ints, Floats, Floats]
) -> tuple[tuple[Floats, Floats], tuple[Floats, Floats]]:
    """Return the stretch on the inner and on the outer arris."""
    i = found[0]
    inner = _on_skin(edges, surfaces, found, _SKIN)
    outer = _on_skin(edges, surfaces, found, 1.0 - _SKIN)
    near = np.maximum(inner[0], 0.0), np.minimum(inner[1], edges.length[i])
    far = np.maximum(outer[0], edges.outer_from[i]), np.minimum(outer[1], edges.outer_to[i])
    return near, far


def _mid_gap(
    edges: Edges,
    surfaces: Surfaces,
    found: tuple[Ints, Ints, Floats, Floats],
    inner: Floats,
    outer: Floats,
) -> Floats:
    """Return a point halfway across the gap, near the skin that stands closer to the face."""
    i, k, start, end = found
    share = np.where(outer < inner - 1e-9, 0.8, np.where(inner < outer - 1e-9, 0.2, 0.5))
    height = inner + share * (outer - inner)
    middle = edges.start[i] + edges.along[i] * ((start + end) / 2.0)[:, None]
    middle = middle + share[:, None] * edges.across[i]
    return np.asarray(middle - surfaces.normal[k] * (height / 2.0)[:, None])


def _dot(a: Floats, b: Floats) -> Floats:
    return np.asarray(np.einsum("ij,ij->i", a, b))
