"""The shell as arrays: every panel edge with its side face, every face with its outline.

Panels are taken in the natural order of their ids, so nothing later depends on the order given.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, fields
from functools import lru_cache
from typing import TypeAlias

import numpy as np

from seamwright.geometry.search import Floats, Ints, Outlines
from seamwright.geometry.types import Frame, Ring
from seamwright.shell.types import Panel, Shell

SIDE, INNER, OUTER, FRONT, BACK = -1, 1, 2, 3, 4
"""Which face a surface is: a panel's cut edge or its skins, a support's front or back."""

_Face: TypeAlias = tuple[int, int, Frame, float, float, tuple[Ring, ...]]
"""Owner, side, frame, height above the frame [m], which way the normal points, outlines."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Edges:
    """All straight panel edges, m of them; the body lies to the left seen from outside.

    `start` (m, 3) is the inner arris' start, `along` its unit direction, `length` its length.
    `across` (m, 3) leads square to the edge from the inner to the outer arris. `outer_from` and
    `outer_to` say where along it the outer arris begins and ends. `out` (m, 3) is the unit normal
    of the side face, out of the body, and `skin` (m, 3) that of the panel's outer skin. `index`
    counts a panel's boundary edges, then its holes'. `hole` is the number of the hole, -1 on the
    boundary. [m]
    """

    panel: Ints
    index: Ints
    hole: Ints
    start: Floats
    along: Floats
    length: Floats
    across: Floats
    outer_from: Floats
    outer_to: Floats
    out: Floats
    skin: Floats

    def corners(self) -> Floats:
        """Return the four corners (m, 4, 3) of every side face. [m]"""
        end = self.start + self.along * self.length[:, None]
        first = self.start + self.across + self.along * self.outer_from[:, None]
        last = self.start + self.across + self.along * self.outer_to[:, None]
        return np.stack((self.start, end, first, last), axis=1)


@dataclass(frozen=True, kw_only=True, slots=True)
class Surfaces:
    """All flat faces that an edge may stand against, k of them.

    `owner` is the panel's number (or the support's), `side` one of INNER, OUTER, FRONT, BACK.
    `normal` points out of the body. `lower` and `upper` are the corners of a box around it. [m]
    """

    owner: Ints
    side: Ints
    origin: Floats
    u: Floats
    v: Floats
    normal: Floats
    lower: Floats
    upper: Floats
    outlines: Outlines


@lru_cache(maxsize=1 << 16)
def natural_key(name: str) -> tuple[tuple[int, int, str], ...]:
    """Return a key that sorts A.2 before A.10, and digits before letters."""
    parts = re.findall(r"\d+|\D+", name)
    return tuple((0, int(part), "") if part.isdigit() else (1, 0, part) for part in parts)


def in_natural_order(shell: Shell) -> tuple[Panel, ...]:
    """Return the panels sorted by the natural order of their ids."""
    return tuple(sorted(shell.panels, key=lambda panel: (natural_key(panel.id), panel.id)))


def gather_edges(panels: Sequence[Panel]) -> Edges:
    """Return every boundary and hole edge of `panels` with its side face."""
    rows: list[tuple[int, int, int]] = []
    inner: list[tuple[float, float, float, float]] = []
    outer: list[tuple[float, float, float, float]] = []
    for number, panel in enumerate(panels):
        rings = [(-1, _turned(panel.inner, panel.inner), _turned(panel.outer, panel.inner))]
        for hole, cut in enumerate(panel.holes):
            ring = tuple(reversed(_turned(cut.outline, cut.outline)))
            rings.append((hole, ring, ring))
        at = 0
        for hole, near, far in rings:
            rows += [(number, at + i, hole) for i in range(len(near))]
            at += len(near)
            inner += [(*a, *b) for a, b in zip(near, near[1:] + near[:1], strict=True)]
            outer += [(*a, *b) for a, b in zip(far, far[1:] + far[:1], strict=True)]
    return _lifted(panels, rows, inner, outer)


def gather_surfaces(shell: Shell, panels: Sequence[Panel], margin: float) -> Surfaces:
    """Return both skins of every panel and both sides of every support, boxes grown. [m]"""
    rows: list[_Face] = []
    for number, panel in enumerate(panels):
        holes = tuple(hole.outline for hole in panel.holes)
        near, far = (panel.inner, *holes), (panel.outer, *holes)
        rows.append((number, INNER, panel.frame, 0.0, -1.0, near))
        rows.append((number, OUTER, panel.frame, panel.thickness, 1.0, far))
    for number, support in enumerate(shell.supports):
        ring = (support.outline,)
        rows.append((number, FRONT, support.frame, 0.0, 1.0, ring))
        rows.append((number, BACK, support.frame, -support.thickness, -1.0, ring))
    return _faces(rows, margin)


def side_surfaces(edges: Edges, rows: Ints, margin: float) -> Surfaces:
    """Return the side faces of the chosen edges as surfaces, boxes grown by `margin`. [m]"""
    length, across = edges.length[rows], edges.across[rows]
    depth = np.maximum(np.linalg.norm(across, axis=1), 1e-12)
    zero = np.zeros(len(rows))
    ring = np.stack(
        (
            np.stack((zero, zero), axis=1),
            np.stack((length, zero), axis=1),
            np.stack((edges.outer_to[rows], depth), axis=1),
            np.stack((edges.outer_from[rows], depth), axis=1),
        ),
        axis=1,
    )
    corners = edges.corners()[rows]
    return Surfaces(
        owner=edges.panel[rows],
        side=np.full(len(rows), SIDE),
        origin=edges.start[rows],
        u=edges.along[rows],
        v=across / depth[:, None],
        normal=edges.out[rows],
        lower=corners.min(axis=1) - margin,
        upper=corners.max(axis=1) + margin,
        outlines=Outlines(
            first=4 * np.arange(len(rows)),
            count=np.full(len(rows), 4),
            start=ring.reshape(-1, 2),
            end=np.roll(ring, -1, axis=1).reshape(-1, 2),
        ),
    )


def joined_surfaces(first: Surfaces, second: Surfaces) -> Surfaces:
    """Return both sets of surfaces as one, the second after the first."""
    a, b = first.outlines, second.outlines
    outlines = Outlines(
        first=np.concatenate((a.first, b.first + len(a.start))),
        count=np.concatenate((a.count, b.count)),
        start=np.concatenate((a.start, b.start)),
        end=np.concatenate((a.end, b.end)),
    )
    names = [f.name for f in fields(Surfaces) if f.name != "outlines"]
    parts = {name: np.concatenate((getattr(first, name), getattr(second, name))) for name in names}
    return Surfaces(outlines=outlines, **parts)


def _faces(rows: list[_Face], margin: float) -> Surfaces:
    u = np.array([row[2].u for row in rows], dtype=float).reshape(-1, 3)
    v = np.array([row[2].v for row in rows], dtype=float).reshape(-1, 3)
    n = np.cross(u, v)
    origin = np.array([row[2].origin for row in rows], dtype=float).reshape(-1, 3)
    origin = origin + n * np.array([row[3] for row in rows], dtype=float)[:, None]
    outlines = _outlines([row[5] for row in rows])
    owner = np.repeat(np.arange(len(rows)), outlines.count)
    s = outlines.start
    points = origin[owner] + s[:, :1] * u[owner] + s[:, 1:] * v[owner]
    lower = np.minimum.reduceat(points, outlines.first) if rows else origin
    upper = np.maximum.reduceat(points, outlines.first) if rows else origin
    return Surfaces(
        owner=np.array([row[0] for row in rows], dtype=np.int64),
        side=np.array([row[1] for row in rows], dtype=np.int64),
        origin=origin,
        u=u,
        v=v,
        normal=n * np.array([row[4] for row in rows], dtype=float)[:, None],
        lower=lower - margin,
        upper=upper + margin,
        outlines=outlines,
    )


def _outlines(rings: list[tuple[Ring, ...]]) -> Outlines:
    sides = [
        (*a, *b)
        for group in rings
        for ring in group
        for a, b in zip(ring, ring[1:] + ring[:1], strict=True)
    ]
    table = np.array(sides, dtype=float).reshape(-1, 4)
    count = np.array([sum(len(ring) for ring in group) for group in rings], dtype=np.int64)
    first = np.cumsum(count) - count
    return Outlines(first=first, count=count, start=table[:, :2], end=table[:, 2:])


def _turned(ring: Ring, reference: Ring) -> Ring:
    """Return `ring` counter-clockwise, judged by `reference` (its twin on the other face)."""
    pairs = zip(reference, reference[1:] + reference[:1], strict=True)
    area = sum(a[0] * b[1] - a[1] * b[0] for a, b in pairs)
    return ring if area >= 0.0 else tuple(reversed(ring))


def _lifted(
    panels: Sequence[Panel],
    rows: list[tuple[int, int, int]],
    inner: list[tuple[float, float, float, float]],
    outer: list[tuple[float, float, float, float]],
) -> Edges:
    table = np.array(rows, dtype=np.int64).reshape(-1, 3)
    panel = table[:, 0]
    origin, u, v = (
        np.array([getattr(p.frame, part) for p in panels], dtype=float).reshape(-1, 3)[panel]
        for part in ("origin", "u", "v")
    )
    n = np.cross(u, v)
    thickness = np.array([p.thickness for p in panels], dtype=float)[panel]
    near = np.array(inner, dtype=float).reshape(-1, 4)
    far = np.array(outer, dtype=float).reshape(-1, 4)
    a, b = _space(origin, u, v, near[:, :2]), _space(origin, u, v, near[:, 2:])
    lift = n * thickness[:, None]
    c, d = _space(origin, u, v, far[:, :2]) + lift, _space(origin, u, v, far[:, 2:]) + lift
    length = np.linalg.norm(b - a, axis=1)
    outer_length = np.linalg.norm(d - c, axis=1)
    longer = np.where((length >= outer_length)[:, None], b - a, d - c)
    along = longer / np.maximum(np.linalg.norm(longer, axis=1), 1e-12)[:, None]
    outer_from = np.einsum("ij,ij->i", c - a, along)
    across = c - a - along * outer_from[:, None]
    out = np.cross(along, across)
    out /= np.maximum(np.linalg.norm(out, axis=1), 1e-12)[:, None]
    return Edges(
        panel=panel,
        index=table[:, 1],
        hole=table[:, 2],
        start=a,
        along=along,
        length=length,
        across=across,
        outer_from=outer_from,
        outer_to=outer_from + outer_length,
        out=out,
        skin=n,
    )


def _space(origin: Floats, u: Floats, v: Floats, uv: Floats) -> Floats:
    return np.asarray(origin + uv[:, :1] * u + uv[:, 1:] * v)
