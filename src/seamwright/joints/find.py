"""Find where parts meet: candidates by place, then contact, then one contact per stretch."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import fields

import numpy as np

from seamwright.geometry.search import Floats, boxes_around, clip_to_outlines, near_boxes
from seamwright.geometry.types import Segment, Vec3, cross
from seamwright.joints.draft import Draft
from seamwright.joints.fill import Boxes, fill_gaps
from seamwright.joints.gather import INNER, Edges, Surfaces, joined_surfaces, side_surfaces
from seamwright.joints.meet import meet_edges
from seamwright.joints.rest import rest_edges, rest_pairs
from seamwright.joints.settle import Flags, settle
from seamwright.joints.touch import Touches, joined
from seamwright.shell.types import Member, Panel
from seamwright.tolerance import Tolerance


def find_touches(edges: Edges, surfaces: Surfaces, boxes: Boxes, tolerance: Tolerance) -> Touches:
    """Return every contact of a panel's edge, each stretch once."""
    found = joined([meet_edges(edges, tolerance), rest_edges(edges, surfaces, tolerance)])
    return settle(edges, fill_gaps(found, boxes, tolerance), tolerance)


def find_on_cut_edges(
    edges: Edges, touches: Touches, surfaces: Surfaces, chosen: Flags, tolerance: Tolerance
) -> tuple[Touches, Surfaces]:
    """Return the touches with those of edges against cut edges that run another way.

    Where a dormer's roof passes through the hole in the main roof, its edge stands against the side
    face of that hole. Only edges of the `chosen` panels that are still loose take part.
    """
    used = np.zeros(len(edges.panel))
    np.add.at(used, touches.edge, touches.end - touches.start)
    paired = touches.other >= 0
    np.add.at(used, touches.other[paired], (touches.end - touches.start)[paired])
    loose = np.flatnonzero(chosen[edges.panel] & (edges.length - used > tolerance.node))
    sides = side_surfaces(edges, loose, tolerance.equal)
    lower, upper = boxes_around(edges.corners()[loose], tolerance.gap)
    i, k = near_boxes(lower, upper, sides.lower, sides.upper)
    skew = np.linalg.norm(np.cross(edges.along[loose[i]], sides.u[k]), axis=1) > tolerance.angle
    found = rest_pairs(edges, sides, loose[i[skew]], k[skew], tolerance)
    found = found.take(found.gap <= tolerance.gap)
    last = len(surfaces.owner)
    moved = {f.name: getattr(found, f.name) for f in fields(Touches)}
    moved |= {"surface": found.surface + last, "rank": np.full(len(found), 2)}
    both = joined([touches, Touches(**moved)])
    return settle(edges, both, tolerance), joined_surfaces(surfaces, sides)


def draft_ledgers(
    members: Sequence[Member],
    panels: Sequence[Panel],
    boxes: Boxes,
    surfaces: Surfaces,
    tolerance: Tolerance,
) -> list[Draft]:
    """Return one draft for each stretch of a ledger that lies against a wall's inner face."""
    ledgers = np.array([i for i, m in enumerate(members) if m.kind == "ledger"], dtype=np.int64)
    walls = np.array([panel.role in ("wall", "rim") for panel in panels], dtype=bool)
    if len(ledgers) == 0 or not walls.any():
        return []
    m, k = near_boxes(boxes.lower[ledgers], boxes.upper[ledgers], surfaces.lower, surfaces.upper)
    m = ledgers[m]
    keep = surfaces.side[k] == INNER
    m, k = m[keep], k[keep]
    keep = walls[surfaces.owner[k]]
    m, k = m[keep], k[keep]
    corners = boxes.corners()[m] - surfaces.origin[k][:, None]
    height = np.einsum("ijk,ik->ij", corners, surfaces.normal[k]).min(axis=1)
    level = np.abs(np.einsum("ij,ij->i", boxes.along[m], surfaces.normal[k])) < tolerance.angle
    keep = level & (np.abs(height) <= tolerance.gap)
    m, k, height = m[keep], k[keep], height[keep]
    offset = boxes.middle[m] - surfaces.origin[k]
    u, v = surfaces.u[k], surfaces.v[k]
    point = np.stack([np.einsum("ij,ij->i", offset, axis) for axis in (u, v)], axis=1)
    run = np.stack([np.einsum("ij,ij->i", boxes.along[m], axis) for axis in (u, v)], axis=1)
    row, start, end = clip_to_outlines(point, run, k, surfaces.outlines)
    half = boxes.half[m[row], 0]
    start, end = np.maximum(start, -half), np.minimum(end, half)
    lift = (
        boxes.middle[m]
        - surfaces.normal[k]
        * np.einsum("ij,ij->i", boxes.middle[m] - surfaces.origin[k], surfaces.normal[k])[:, None]
    )
    first = lift[row] + boxes.along[m[row]] * start[:, None]
    last = lift[row] + boxes.along[m[row]] * end[:, None]
    return [
        _ledger(
            panels,
            members[int(m[r])],
            Segment(start=_vec(a), end=_vec(b)),
            (int(surfaces.owner[k[r]]), int(m[r]), float(height[r])),
        )
        for r, a, b in zip(row.tolist(), first, last, strict=True)
        if math.dist(a, b) >= tolerance.min_length and float((b - a) @ boxes.along[m[r]]) > 0.0
    ]


def _ledger(
    panels: Sequence[Panel], member: Member, line: Segment, place: tuple[int, int, float]
) -> Draft:
    """Return the draft of a ledger: `place` is the panel's and member's number and the gap."""
    number, member_number, height = place
    n = panels[number].frame.n
    run = [(b - a) / line.length for a, b in zip(line.start, line.end, strict=True)]
    along: Vec3 = (run[0], run[1], run[2])
    return Draft(
        panels=(number,),
        surface=None,
        members=(member_number,),
        uses=(),
        along=along,
        room=(-n[0], -n[1], -n[2]),
        into=cross(n, along),
        line=line,
        inner=line,
        outer=None,
        dihedral=math.pi / 2.0,
        gap=max(height, 0.0),
        inner_step=0.0,
        outer_step=0.0,
        inner_open=0.0,
        outer_open=0.0,
        contact="edge_support",
        label=member.id,
    )


def _vec(a: Floats) -> Vec3:
    return (float(a[0]), float(a[1]), float(a[2]))
