"""Thresholds: sides of openings that no panel edge forms, such as a door on its floor."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from seamwright.geometry.search import Floats
from seamwright.geometry.types import Vec3, cross
from seamwright.joints.draft import Draft, draft_joints
from seamwright.joints.gather import Edges, Surfaces
from seamwright.joints.openings import side_name
from seamwright.joints.rest import rest_edges
from seamwright.joints.settle import settle
from seamwright.shell.types import Opening, Panel, Shell
from seamwright.tolerance import Tolerance


@dataclass(frozen=True, kw_only=True, slots=True)
class _Side:
    """A bare side of an opening, in the face of the wall panel `panel`; `out` leads out of it."""

    opening: str
    panel: int
    start: Vec3
    end: Vec3
    out: Vec3


def draft_thresholds(
    shell: Shell,
    panels: Sequence[Panel],
    surfaces: Surfaces,
    formed: Sequence[Draft],
    tolerance: Tolerance,
) -> list[Draft]:
    """Return a draft for each side of an opening that lies on a floor or bearing.

    `formed` are the drafts of the sides that panel edges form; a bare side is held against floors
    and bearings as if it were an edge of the wall beside it.
    """
    rows = list(_bare_sides(shell.openings, panels, formed, tolerance))
    if not rows:
        return []
    sides = _as_edges(rows, panels)
    touches = settle(sides, rest_edges(sides, surfaces, tolerance), tolerance)
    drafts = draft_joints(panels, sides, surfaces, touches)
    return [
        _threshold(rows[at], draft, panels)
        for at, draft in zip(touches.edge.tolist(), drafts, strict=True)
    ]


def _threshold(side: _Side, draft: Draft, panels: Sequence[Panel]) -> Draft:
    inward = (-side.out[0], -side.out[1], -side.out[2])
    name = side_name(inward, panels[side.panel].frame)
    return replace(
        draft,
        uses=(),
        contact="opening",
        label=f"{side.opening}.{name}",
        others=(side.opening,),
        gap=0.0,
        inner_open=0.0,
        outer_open=0.0,
    )


def _bare_sides(
    openings: Sequence[Opening],
    panels: Sequence[Panel],
    formed: Sequence[Draft],
    tolerance: Tolerance,
) -> Iterator[_Side]:
    """Yield the sides of openings along which no panel edge runs."""
    by_opening: dict[str, list[Draft]] = defaultdict(list)
    for draft in formed:
        by_opening[draft.others[0]].append(draft)
    for opening in openings:
        beside = by_opening.get(opening.id, [])
        if not beside:
            continue
        host = min(draft.panels[0] for draft in beside)
        n = panels[host].frame.n
        ring = [opening.frame.point(uv) for uv in opening.outline]
        for a, b in zip(ring, (*ring[1:], ring[0]), strict=True):
            if not any(_runs_along(draft, a, b, tolerance) for draft in beside):
                out = cross(_unit(a, b), n)
                yield _Side(opening=opening.id, panel=host, start=a, end=b, out=out)


def _runs_along(draft: Draft, a: Vec3, b: Vec3, tolerance: Tolerance) -> bool:
    """Return whether the middle of a draft's line lies on the side from `a` to `b`."""
    run, middle = _unit(a, b), draft.line.middle
    off = tuple(m - p for m, p in zip(middle, a, strict=True))
    place = sum(o * r for o, r in zip(off, run, strict=True))
    away = sum((o - place * r) ** 2 for o, r in zip(off, run, strict=True))
    length = sum((q - p) ** 2 for p, q in zip(a, b, strict=True)) ** 0.5
    parallel = abs(sum(x * y for x, y in zip(run, draft.along, strict=True))) > 0.99
    reach = tolerance.gap + tolerance.node
    return parallel and 0.0 <= place <= length and away <= reach**2


def _as_edges(rows: Sequence[_Side], panels: Sequence[Panel]) -> Edges:
    start = np.array([row.start for row in rows], dtype=float)
    end = np.array([row.end for row in rows], dtype=float)
    length: Floats = np.asarray(np.linalg.norm(end - start, axis=1))
    thick = [[panels[row.panel].thickness * x for x in panels[row.panel].frame.n] for row in rows]
    return Edges(
        panel=np.array([row.panel for row in rows], dtype=np.int64),
        index=np.full(len(rows), -1),
        hole=np.full(len(rows), -1),
        start=start,
        along=(end - start) / np.maximum(length, 1e-12)[:, None],
        length=length,
        across=np.array(thick, dtype=float),
        outer_from=np.zeros(len(rows)),
        outer_to=length,
        out=np.array([row.out for row in rows], dtype=float),
        skin=np.array([panels[row.panel].frame.n for row in rows], dtype=float),
    )


def _unit(a: Vec3, b: Vec3) -> Vec3:
    run = [q - p for p, q in zip(a, b, strict=True)]
    size = max(sum(x * x for x in run) ** 0.5, 1e-12)
    return (run[0] / size, run[1] / size, run[2] / size)
