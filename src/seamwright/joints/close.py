"""Continuity: the stretches where the line of a face does not close around the shell."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from scipy.spatial import cKDTree

from seamwright.geometry.types import Vec3
from seamwright.joints.account import Loose
from seamwright.joints.enclose import (
    INSIDE,
    INSIDE_ROOF,
    hull_triangles,
    winding_numbers,
)
from seamwright.joints.types import Break, EdgeFate, EdgeUse
from seamwright.shell.types import Opening, Panel, Support
from seamwright.tolerance import Tolerance

OVERHANG = "overhang, outside the air boundary"
STEP = "short step at a node, under its patch"
INDOORS = "stands in the room: both its faces are indoors"

_IN, _OFF = 0.05, 0.02
"""How far from a loose edge, into its panel and off its face, the view is taken. [m]"""


@dataclass(frozen=True, kw_only=True, slots=True)
class Company:
    """Panels, supports and openings that belong to one house: one closed hull to look at."""

    panels: tuple[int, ...]
    supports: tuple[int, ...]


def judge_loose(
    loose: Sequence[Loose],
    panels: Sequence[Panel],
    supports: Sequence[Support],
    openings: Sequence[Opening],
    company: Mapping[int, Company],
) -> tuple[list[EdgeUse], list[Break]]:
    """Return the ledger entries and breaks of edge stretches that no joint takes up.

    A stretch seen from indoors is a break; a roof edge outdoors is an overhang; any other edge
    outdoors is free.
    """
    winding = _winding(loose, panels, supports, openings, company)
    uses, breaks = [], []
    for stretch, (inside, behind) in zip(loose, winding, strict=True):
        panel = panels[stretch.panel]
        limit = INSIDE_ROOF if panel.role == "roof" else INSIDE
        fate, reason = _fate(panel.role, indoors=inside > limit, through=behind > limit)
        uses.append(entry_of(panel.id, stretch, fate, reason))
        if fate == "free" and inside > limit:
            breaks += _edge_breaks(panel.id, stretch)
    return uses, breaks


def steps_at_nodes(
    loose: Sequence[Loose], panels: Sequence[Panel], nodes: Sequence[Vec3], tolerance: Tolerance
) -> tuple[list[EdgeUse], list[Loose]]:
    """Return the ledger entries of short steps that a node's patch covers, and what is left.

    Beside a plate, an edge passes the end of a timber on its way to the next joint: no longer than
    the widest gap a timber fills, with a node in reach of its middle.
    """
    if not nodes or not loose:
        return [], list(loose)
    middles = np.array([stretch.line.middle for stretch in loose], dtype=float)
    away = cKDTree(np.array(nodes, dtype=float)).query(middles)[0]
    steps, left = [], []
    for stretch, distance in zip(loose, away.tolist(), strict=True):
        half = (stretch.end - stretch.start) / 2.0
        if 2.0 * half <= tolerance.bridged_gap and distance <= half + tolerance.node:
            steps.append(entry_of(panels[stretch.panel].id, stretch, "explained", STEP))
        else:
            left.append(stretch)
    return steps, left


def entry_of(panel_id: str, stretch: Loose, fate: EdgeFate, reason: str) -> EdgeUse:
    """Return the ledger entry of a stretch that no joint takes up."""
    return EdgeUse(
        panel_id=panel_id,
        edge=stretch.edge,
        start=stretch.start,
        end=stretch.end,
        fate=fate,
        ref="",
        reason=reason,
    )


def _fate(role: str, *, indoors: bool, through: bool) -> tuple[EdgeFate, str]:
    if indoors and through:
        return "explained", INDOORS
    if not indoors and role == "roof":
        return "explained", OVERHANG
    return "free", "meets nothing"


def _winding(
    loose: Sequence[Loose],
    panels: Sequence[Panel],
    supports: Sequence[Support],
    openings: Sequence[Opening],
    company: Mapping[int, Company],
) -> list[tuple[float, float]]:
    """Return how enclosed each stretch is on its room side and behind its outer skin."""
    result = [(0.0, 0.0)] * len(loose)
    groups: dict[int, list[int]] = defaultdict(list)
    for at, stretch in enumerate(loose):
        groups[id(company[stretch.panel])].append(at)
    held = {hole.opening_id for panel in panels for hole in panel.holes}
    by_plane: dict[str, list[Opening]] = defaultdict(list)
    for opening in openings:
        if opening.id not in held:
            by_plane[opening.plane_id].append(opening)
    for rows in groups.values():
        group = company[loose[rows[0]].panel]
        triangles = hull_triangles(
            [panels[p] for p in group.panels if panels[p].role != "partition"],
            _bases(group, panels, supports, by_plane),
        )
        views = np.array([view for at in rows for view in _views(loose[at])], dtype=float)
        numbers = np.median(winding_numbers(views, triangles).reshape(-1, 2, 3), axis=2)
        for at, (inside, behind) in zip(rows, numbers.tolist(), strict=True):
            result[at] = (inside, behind)
    return result


def _bases(
    group: Company,
    panels: Sequence[Panel],
    supports: Sequence[Support],
    by_plane: Mapping[str, Sequence[Opening]],
) -> list[list[Vec3]]:
    bases = []
    for number in group.supports:
        frame = supports[number].frame
        bases.append([frame.point(uv) for uv in reversed(supports[number].outline)])
    for plane in sorted({panels[p].plane_id for p in group.panels}):
        bases += [
            [opening.frame.point(uv) for uv in opening.outline]
            for opening in by_plane.get(plane, ())
        ]
    return bases


def _views(stretch: Loose) -> list[Vec3]:
    """Return three points just off the inner skin and three just off the outer skin."""
    i, r = stretch.into, stretch.room
    return [
        (
            a[0] + t * (b[0] - a[0]) + _IN * i[0] + off * r[0],
            a[1] + t * (b[1] - a[1]) + _IN * i[1] + off * r[1],
            a[2] + t * (b[2] - a[2]) + _IN * i[2] + off * r[2],
        )
        for a, b, off in (
            (stretch.line.start, stretch.line.end, _OFF),
            (stretch.far.start, stretch.far.end, -_OFF),
        )
        for t in (0.25, 0.5, 0.75)
    ]


def _edge_breaks(panel_id: str, stretch: Loose) -> list[Break]:
    sides = (("inner", stretch.line), ("outer", stretch.far))
    return [
        Break(
            face="inner" if face == "inner" else "outer",
            panel_id=panel_id,
            line=line,
            reason=f"the edge of {panel_id} meets nothing",
            remedy="set the missing panel against it, or close the gap to its neighbor",
        )
        for face, line in sides
    ]
