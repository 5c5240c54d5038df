"""Joints of openings, services and ledgers: one per side of an opening and panel."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Sequence
from typing import TypeAlias

import numpy as np

from seamwright.geometry.search import Floats, Ints, boxes_around, near_boxes
from seamwright.geometry.types import Frame, Segment, Vec3, cross, dot
from seamwright.joints.draft import Contact, Draft, Use
from seamwright.joints.gather import Edges
from seamwright.shell.types import Panel, Penetration, Shell
from seamwright.tolerance import Tolerance

_SQUARE = math.sqrt(0.5)

_Side: TypeAlias = tuple[str, float, float]
"""An opening's id and the stretch of a panel edge that forms its side. [m]"""


def draft_openings(
    shell: Shell, panels: Sequence[Panel], edges: Edges, tolerance: Tolerance
) -> list[Draft]:
    """Return one draft for each side of an opening that a panel's edge or hole forms.

    One edge may form a side of several: a door's jamb below, a window's above.
    """
    found: dict[int, list[_Side]] = defaultdict(list)
    sides = _sides(shell)
    i, k = _near_sides(edges, sides, tolerance)
    for edge, side in zip(i.tolist(), k.tolist(), strict=True):
        stretch = _shared(edges, edge, sides[side], tolerance)
        if stretch is not None:
            found[edge].append((sides[side][0], *stretch))
    for edge in np.flatnonzero(edges.hole >= 0).tolist():
        if edge not in found and edges.length[edge] >= tolerance.min_length:
            hole = panels[int(edges.panel[edge])].holes[int(edges.hole[edge])]
            found[edge] = [(hole.opening_id, 0.0, float(edges.length[edge]))]
    return [
        _opening(panels, edges, edge, side)
        for edge in sorted(found)
        for side in sorted(found[edge], key=lambda side: (side[1], side[0]))
    ]


def draft_penetrations(shell: Shell, panels: Sequence[Panel]) -> list[tuple[Draft, Penetration]]:
    """Return one draft for each service, at the panel it goes through."""
    if not shell.penetrations or not panels:
        return []
    corners = [[panel.frame.point(uv) for uv in panel.inner] for panel in panels]
    lower = np.array([np.min(c, axis=0) for c in corners]) - 0.5
    upper = np.array([np.max(c, axis=0) for c in corners]) + 0.5
    at = np.array([service.at for service in shell.penetrations], dtype=float)
    i, p = near_boxes(at, at, lower, upper)
    hosts: dict[int, list[int]] = {}
    for service, panel in zip(i.tolist(), p.tolist(), strict=True):
        hosts.setdefault(service, []).append(panel)
    drafts = []
    for number, service in enumerate(shell.penetrations):
        host = _host(service, hosts.get(number, []), panels)
        if host is not None:
            drafts.append((_penetration(service, host, panels[host]), service))
    return drafts


def _sides(shell: Shell) -> list[tuple[str, Vec3, Vec3, Vec3]]:
    """Return every side of every opening: its id, both ends in space, the plane's normal."""
    sides = []
    for opening in shell.openings:
        ring = [opening.frame.point(uv) for uv in opening.outline]
        for a, b in zip(ring, ring[1:] + ring[:1], strict=True):
            sides.append((opening.id, a, b, opening.frame.n))
    return sides


def _near_sides(
    edges: Edges, sides: Sequence[tuple[str, Vec3, Vec3, Vec3]], tolerance: Tolerance
) -> tuple[Ints, Ints]:
    ends = np.array([(a, b) for _, a, b, _ in sides], dtype=float).reshape(-1, 2, 3)
    if len(ends) == 0:
        return np.empty(0, dtype=np.int64), np.empty(0, dtype=np.int64)
    lower, upper = boxes_around(edges.corners(), tolerance.gap)
    return near_boxes(lower, upper, ends.min(axis=1), ends.max(axis=1))


def _shared(
    edges: Edges, edge: int, side: tuple[str, Vec3, Vec3, Vec3], tolerance: Tolerance
) -> tuple[float, float] | None:
    """Return the stretch of the edge that forms this side of the opening, None for none."""
    _, a, b, normal = side
    start, along = edges.start[edge], edges.along[edge]
    out: Floats = edges.out[edge]
    if abs(float(out @ np.array(normal))) > _SQUARE:
        return None
    first, last = float((np.array(a) - start) @ along), float((np.array(b) - start) @ along)
    run = math.dist(a, b)
    if abs(abs(last - first) - run) > tolerance.angle * run:
        return None
    off = np.array(a) - start - along * first
    height = abs(float(off @ np.array(normal)))
    across = abs(float(off @ out))
    thick = float(np.linalg.norm(edges.across[edge]))
    if across > tolerance.gap or height > thick + tolerance.gap:
        return None
    low, high = max(0.0, min(first, last)), min(float(edges.length[edge]), max(first, last))
    return (low, high) if high - low >= tolerance.min_length else None


def _opening(panels: Sequence[Panel], edges: Edges, edge: int, found: _Side) -> Draft:
    opening, start, end = found
    number = int(edges.panel[edge])
    panel = panels[number]
    side = side_name(_vec(edges.out[edge]), panel.frame)
    inner = _segment(edges.start[edge], edges.along[edge], start, end)
    outer = _segment(
        edges.start[edge] + edges.across[edge],
        edges.along[edge],
        max(start, float(edges.outer_from[edge])),
        min(end, float(edges.outer_to[edge])),
    )
    return _draft(
        panel=number,
        frame=panel.frame,
        along=_vec(edges.along[edge]),
        inner=inner,
        outer=outer,
        contact="opening",
        label=f"{opening}.{side}",
        other=opening,
        uses=(Use(panel=number, edge=int(edges.index[edge]), start=start, end=end),),
    )


def side_name(out: Vec3, frame: Frame) -> str:
    """Return sill, head, left or right, seen from outside; up the slope counts as up.

    `out` leads from the panel that forms the side into the opening.
    """
    n = frame.n
    rise = math.hypot(n[0], n[1])
    up = frame.v
    if rise > 0.02:
        up = (-n[2] * n[0] / rise, -n[2] * n[1] / rise, (1.0 - n[2] * n[2]) / rise)
    level = dot(out, up)
    if abs(level) >= _SQUARE - 1e-9:
        return "sill" if level > 0.0 else "head"
    return "left" if dot(out, cross(up, n)) > 0.0 else "right"


def _host(service: Penetration, near: Sequence[int], panels: Sequence[Panel]) -> int | None:
    """Return the panel whose outline holds the service; failing that, the one it names."""
    best: list[tuple[float, int]] = []
    for number in near:
        panel = panels[number]
        u, v, w = panel.frame.local(service.at)
        if -0.05 <= w <= panel.thickness + 0.05 and _inside(u, v, panel):
            best.append((abs(w), number))
    if best:
        return min(best)[1]
    named = [i for i in near if panels[i].id == service.panel_id]
    return named[0] if named else None


def _inside(u: float, v: float, panel: Panel) -> bool:
    crossed = False
    ring = panel.inner
    for a, b in zip(ring, ring[1:] + ring[:1], strict=True):
        if (a[1] > v) != (b[1] > v):
            crossed ^= u < a[0] + (b[0] - a[0]) * (v - a[1]) / (b[1] - a[1])
    return crossed


def _penetration(service: Penetration, host: int, panel: Panel) -> Draft:
    through = panel.thickness / max(abs(dot(service.axis, panel.frame.n)), 0.2)
    far = _moved(service.at, service.axis, through)
    return _draft(
        panel=host,
        frame=panel.frame,
        along=panel.frame.u,
        inner=Segment(start=service.at, end=service.at),
        outer=Segment(start=far, end=far),
        contact="penetration",
        label=service.id,
        other=service.id,
        uses=(),
    )


def _draft(
    *,
    panel: int,
    frame: Frame,
    along: Vec3,
    inner: Segment,
    outer: Segment,
    contact: Contact,
    label: str,
    other: str,
    uses: tuple[Use, ...],
) -> Draft:
    n = frame.n
    return Draft(
        panels=(panel,),
        surface=None,
        members=(),
        uses=uses,
        along=along,
        room=(-n[0], -n[1], -n[2]),
        into=cross(n, along),
        line=inner,
        inner=inner,
        outer=outer,
        dihedral=math.pi,
        gap=0.0,
        inner_step=0.0,
        outer_step=0.0,
        inner_open=0.0,
        outer_open=0.0,
        contact=contact,
        label=label,
        others=(other,),
    )


def _segment(start: Floats, along: Floats, a: float, b: float) -> Segment:
    return Segment(start=_vec(start + along * a), end=_vec(start + along * b))


def _moved(point: Vec3, way: Vec3, by: float) -> Vec3:
    return (point[0] + by * way[0], point[1] + by * way[1], point[2] + by * way[2])


def _vec(a: Floats) -> Vec3:
    return (float(a[0]), float(a[1]), float(a[2]))
