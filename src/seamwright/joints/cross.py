"""Edges that end under (or against) a panel that crosses them: covered, though no edges run along.

Where a wall of an upper storey stands across the end of the wall below, the square they share is
covered by the upper wall's end. No line of a joint runs there; the lines turn at the node.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from shapely import Point, Polygon

from seamwright.geometry.search import near_boxes
from seamwright.geometry.types import Vec3
from seamwright.joints.account import Loose
from seamwright.joints.close import entry_of
from seamwright.joints.types import EdgeUse
from seamwright.shell.types import Panel
from seamwright.tolerance import Tolerance

_WIDEST = 0.5
"""A stretch longer than this lies beside a panel, not across its end. [m]"""

_PLACES = (0.1, 0.5, 0.9)


def crossed(
    loose: Sequence[Loose], panels: Sequence[Panel], tolerance: Tolerance
) -> tuple[list[EdgeUse], list[Loose]]:
    """Return the ledger entries of short stretches wholly covered by a panel across them, and
    what is left.

    Nine points of the stretch's side face, moved off it by half the gap tolerance, must all lie in
    the body of one other panel, give or take that tolerance.
    """
    short = [at for at, s in enumerate(loose) if s.end - s.start <= _WIDEST]
    if not short:
        return [], list(loose)
    probes = [_probes(loose[at], tolerance.gap / 2.0) for at in short]
    spots = np.array(probes, dtype=float)
    corners = [_corners(panel) for panel in panels]
    lower = np.array([np.min(c, axis=0) for c in corners]) - tolerance.gap
    upper = np.array([np.max(c, axis=0) for c in corners]) + tolerance.gap
    by: dict[int, str] = {}
    pairs = near_boxes(spots.min(axis=1), spots.max(axis=1), lower, upper)
    for row, number in sorted(zip(*(side.tolist() for side in pairs), strict=True)):
        panel = panels[number]
        if number == loose[short[row]].panel or panel.role == "partition" or short[row] in by:
            continue
        if all(_holds(panel, spot, tolerance.gap) for spot in probes[row]):
            by[short[row]] = panel.id
    uses = [
        entry_of(
            panels[loose[at].panel].id,
            loose[at],
            "explained",
            f"covered by {name}, which stands across it",
        )
        for at, name in by.items()
    ]
    return uses, [stretch for at, stretch in enumerate(loose) if at not in by]


def _probes(stretch: Loose, off: float) -> list[Vec3]:
    """Return nine points just off the side face of an edge stretch. [m]"""
    near, far, into = stretch.line, stretch.far, stretch.into
    spots = []
    for t in _PLACES:
        inner = _between(near.start, near.end, t)
        outer = _between(far.start, far.end, t)
        for s in _PLACES:
            x, y, z = _between(inner, outer, s)
            spots.append((x - off * into[0], y - off * into[1], z - off * into[2]))
    return spots


def _between(a: Vec3, b: Vec3, t: float) -> Vec3:
    return (a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1]), a[2] + t * (b[2] - a[2]))


def _corners(panel: Panel) -> list[Vec3]:
    inner = [panel.frame.point(uv) for uv in panel.inner]
    return inner + [panel.frame.point(uv, panel.thickness) for uv in panel.outer]


def _holds(panel: Panel, spot: Vec3, slack: float) -> bool:
    """Tell whether a point lies in the panel's body: between its skins and within its outline."""
    u, v, w = panel.frame.local(spot)
    if not -slack <= w <= panel.thickness + slack:
        return False
    return float(Polygon(panel.inner).distance(Point(u, v))) <= slack
