"""Floor panels on stem walls: the rim of the lower skin where it bears, all around the floor."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from seamwright.joints.draft import Draft, draft_joints
from seamwright.joints.gather import FRONT, Edges, Surfaces
from seamwright.joints.rest import rest_edges
from seamwright.joints.settle import settle
from seamwright.joints.touch import Touches
from seamwright.shell.types import Panel
from seamwright.tolerance import Tolerance

_BEARING = 0.080
"""Width of lower skin, in from the rim, that must find a bearing. [m] (common practice, no
source)"""

_SHORTEST = 0.3
"""A rim that only crosses the width of a wall bears less than this. [m] (common practice, no
source)"""


def draft_bearings(
    panels: Sequence[Panel],
    edges: Edges,
    touches: Touches,
    surfaces: Surfaces,
    tolerance: Tolerance,
) -> list[Draft]:
    """Return one draft for each stretch of a floor's rim whose lower skin bears on a support.

    Rims that meet a neighboring floor panel are seams, not rims, and are left out.
    """
    floors = np.array([panel.role == "floor" for panel in panels], dtype=bool)
    joined = np.zeros(len(edges.panel), dtype=bool)
    joined[touches.edge] = True
    joined[touches.other[touches.other >= 0]] = True
    rows = np.flatnonzero(floors[edges.panel] & ~joined & (edges.hole < 0))
    if len(rows) == 0 or not (surfaces.side >= FRONT).any():
        return []
    rims = _lower_rims(edges, rows)
    found = rest_edges(rims, surfaces, tolerance)
    bears = (surfaces.side[found.surface] == FRONT) & (found.gap <= tolerance.gap)
    found = found.take(bears & (found.end - found.start >= _SHORTEST))
    drafts = draft_joints(panels, rims, surfaces, settle(rims, found, tolerance))
    return [replace(draft, uses=(), inner=None, outer=draft.line) for draft in drafts]


def _lower_rims(edges: Edges, rows: np.ndarray[tuple[int], np.dtype[np.int64]]) -> Edges:
    """Return the lower arrises as edges that face down, with the bearing as their thickness."""
    skin = edges.skin[rows]
    start = edges.start[rows] + edges.across[rows]
    start = start + edges.along[rows] * edges.outer_from[rows][:, None]
    length = edges.outer_to[rows] - edges.outer_from[rows]
    inward = np.cross(skin, edges.along[rows])
    return Edges(
        panel=edges.panel[rows],
        index=edges.index[rows],
        hole=edges.hole[rows],
        start=start,
        along=edges.along[rows],
        length=length,
        across=inward * _BEARING,
        outer_from=np.zeros(len(rows)),
        outer_to=length,
        out=skin,
        skin=-inward,
    )
