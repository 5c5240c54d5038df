"""Timbers let into a panel's edge: plates, end timbers, bucks, as every approved detail shows them.

The plan does not give them. They are drawn 1-1/2 in deep and as wide as the core (common practice,
no source); the panel supplier's details outrank that.
"""

from __future__ import annotations

import math

from seamwright.geometry.types import Vec2
from seamwright.joints.section_parts import PanelCut
from seamwright.joints.section_path import RUN_ON, near_end
from seamwright.joints.types import Joint, SectionShape

DEPTH = 0.0381
"""Depth of a timber let into a panel's edge. [m] 1-1/2 in, common practice, no source."""

LET_IN = " let-in timber"
"""What follows a panel's id in the name of a timber let into its edge."""

FRAMED = frozenset({"sill", "floor_line", "eave", "rake", "wall_corner", "roof_step", "opening"})
"""Kinds of joint at which a panel's edge has a timber let in."""


def let_in_timbers(joint: Joint, butting: PanelCut, other: PanelCut | None) -> list[SectionShape]:
    """Return the timbers in the edges that meet at a joint.

    Always in the edge of the butting panel; in the other one where its edge ends there too (the
    through wall of a corner, a rim on a wall).
    """
    if joint.kind not in FRAMED:
        return []
    shapes = [edge_timber(butting)]
    if other is not None and (joint.contact == "edge_edge" or _ends_at(butting, other)):
        shapes.append(edge_timber(other))
    return shapes


def edge_timber(cut: PanelCut) -> SectionShape:
    """Return the timber let into the near edge of a panel, between its skins."""
    panel = cut.panel
    (low, way), (high, _) = near_end(cut.inner), near_end(cut.outer)
    share = (panel.skin_inner / panel.thickness, 1.0 - panel.skin_outer / panel.thickness)
    p, q = (_between(low, high, s) for s in share)
    far = [(r[0] + DEPTH * way[0], r[1] + DEPTH * way[1]) for r in (q, p)]
    ring = (p, q, *far)
    pairs = zip(ring, ring[1:] + ring[:1], strict=True)
    twice = math.fsum(a[0] * b[1] - b[0] * a[1] for a, b in pairs)
    return SectionShape(
        outline=ring if twice > 0 else ring[::-1],
        material="timber",
        owner=f"{panel.id}{LET_IN}",
    )


def _ends_at(butting: PanelCut, through: PanelCut) -> bool:
    """Return whether the through panel ends at the butting one instead of running on."""
    edges = [near_end(through.inner)[0], near_end(through.outer)[0]]
    mine = [near_end(butting.inner)[0], near_end(butting.outer)[0]]
    return min(math.dist(a, b) for a in edges for b in mine) < RUN_ON


def _between(a: Vec2, b: Vec2, share: float) -> Vec2:
    return (a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1]))
