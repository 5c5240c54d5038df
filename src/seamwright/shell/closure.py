"""Does the roof close over the house: no ground without a roof, no upright hole between parts."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import shapely

from seamwright.errors import Problem
from seamwright.shell.levels import top_index
from seamwright.shell.outline import plan_ring
from seamwright.shell.plan import Plan
from seamwright.shell.roof_cells import Cell

BARE = 1e-4
"""Uncovered ground smaller than this is rounding. [m²]"""
INSIDE = 1e-3
"""An edge this far inside the outer wall face is inside the house. [m]"""


def closure_problems(plan: Plan, found: Sequence[Cell]) -> Iterator[Problem]:
    """Yield where the roof leaves the house open, once per roof part.

    Two planes that meet at different heights inside the house leave an upright hole; ground of a
    footprint under no plane is open to the sky.
    """
    if not plan.roof:
        return
    for rise in range(len(plan.storeys)):
        topped = [f for f in plan.footprints if top_index(plan, f) == rise]
        if not topped:
            continue
        house = shapely.union_all([shapely.Polygon(plan_ring(f.corners)) for f in topped])
        under = [c for c in found if c.rise == rise]
        covered = shapely.union_all(
            [shapely.Polygon(c.rings[0], c.rings[1:]).buffer(1e-6) for c in under]
        )
        bare = house.difference(covered).area
        if bare > BARE:
            names = " and ".join(f.id for f in topped)
            yield Problem(
                subject=f"footprint {topped[0].id}",
                sentence=f"{bare:.2f} m² of footprint {names} lie under no roof",
                remedy="extend a roof part's area over them, or add a roof part",
            )
        yield from _steps(under, house.buffer(-INSIDE))


def _steps(under: Sequence[Cell], inside: shapely.Geometry) -> Iterator[Problem]:
    told: set[str] = set()
    for c in under:
        for ring, across in zip(c.rings, c.across, strict=True):
            for i, other in enumerate(across):
                p, q = ring[i], ring[(i + 1) % len(ring)]
                middle = shapely.Point((p[0] + q[0]) / 2.0, (p[1] + q[1]) / 2.0)
                if other is not None or c.pitch.part in told or not inside.covers(middle):
                    continue
                told.add(c.pitch.part)
                yield Problem(
                    subject=f"roof part {c.pitch.part}",
                    sentence=f"roof part {c.pitch.part} does not close: inside the house it ends "
                    "above or below its neighbor for {length} from ({x0}, {y0}) to ({x1}, {y1})",
                    remedy="give the parts eaves of one height, or let the higher part rise "
                    "through another storey so that a wall closes the step",
                    lengths=(
                        *(("length", math.dist(p, q)), ("x0", p[0]), ("y0", p[1])),
                        *(("x1", q[0]), ("y1", q[1])),
                    ),
                )
