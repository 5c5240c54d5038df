"""What the lowest walls stand on: slab, stem wall or floor panels, and the sill plates."""

from __future__ import annotations

import math
from collections.abc import Sequence

from seamwright.geometry.plate import Plate, square_loop
from seamwright.geometry.polygon import without_straights
from seamwright.geometry.types import Frame, Ring, Vec2
from seamwright.shell.corners import WallRun
from seamwright.shell.outline import rings_of, storey_outline
from seamwright.shell.plan import Base, Plan
from seamwright.shell.surface import Region, Surface
from seamwright.shell.types import Member, Support

UP = (0.0, 0.0, 1.0)


def level_frame(z: float) -> Frame:
    """Return the level frame at elevation z, normal up, axes of the plan. [m]"""
    return Frame(origin=(0.0, 0.0, z), u=(1.0, 0.0, 0.0), v=(0.0, 1.0, 0.0))


def base_supports(plan: Plan, base: Base, walls: Sequence[WallRun]) -> tuple[Support, ...]:
    """Return the slab under the whole footprint, or a band of stem wall under each wall."""
    frame, storey = level_frame(float(base.top)), plan.storeys[0].id
    bands: list[tuple[str, Ring]] = []
    if base.kind == "slab":
        outlines = [without_straights(r) for r in outer_rings(plan, 0)]
        single = len(outlines) == 1
        bands = [("slab" if single else f"slab.{i + 1}", r) for i, r in enumerate(outlines)]
    elif base.kind == "stem_wall":
        bands = [(f"stem.{name}", run.band()) for name, run in named(walls)]
    return tuple(
        Support(
            id=name,
            kind="slab" if base.kind == "slab" else "stem_wall",
            frame=frame,
            outline=ring,
            thickness=float(base.thickness),
            storey=storey,
        )
        for name, ring in bands
    )


def outer_rings(plan: Plan, storey: int) -> tuple[Ring, ...]:
    """Return the outlines of a storey on the outer wall face, without courts. [m]"""
    return tuple(
        rings_of(part)[0] for part in _parts(storey_outline(plan, storey)) if rings_of(part)
    )


def sill_plates(base: Base, walls: Sequence[WallRun]) -> tuple[Member, ...]:
    """Return the plates between base and walls; none when the sill has no thickness."""
    if base.sill <= 0:
        return ()
    z = float(base.top + base.sill)
    return tuple(
        band_member(f"{name}.sill", run, z, float(base.sill)) for name, run in named(walls)
    )


def band_member(name: str, run: WallRun, top: float, depth: float) -> Member:
    """Return a plate as wide as a wall, its top at elevation `top`. [m]"""
    s = run.stretch
    low, high = ((run.outer[i] + run.inner[i]) / 2.0 for i in (0, 1))
    a, b = s.at(low, s.thickness / 2.0), s.at(high, s.thickness / 2.0)
    return Member(
        id=name,
        kind="plate",
        start=(a[0], a[1], top),
        end=(b[0], b[1], top),
        up=UP,
        width=s.thickness,
        depth=depth,
    )


def named(walls: Sequence[WallRun]) -> tuple[tuple[str, WallRun], ...]:
    """Return each wall run with a name of its own (a second run of wall A is A:2)."""
    seen: dict[str, int] = {}
    found: list[tuple[str, WallRun]] = []
    for run in walls:
        seen[run.wall] = seen.get(run.wall, 0) + 1
        n = seen[run.wall]
        found.append((run.wall if n == 1 else f"{run.wall}:{n}", run))
    return tuple(found)


def floor_surfaces(plan: Plan, base: Base, type_id: str) -> tuple[Surface, ...]:
    """Return the floor of panels: room side up at the base's top, rim flush with the walls.

    u runs along the outline's first edge, v to its right, so that the normal points down.
    """
    found: list[Surface] = []
    outlines = outer_rings(plan, 0)
    for i, ring in enumerate(outlines):
        u = _direction(ring[0], ring[1])
        frame = Frame(
            origin=(ring[0][0], ring[0][1], float(base.top)),
            u=(u[0], u[1], 0.0),
            v=(u[1], -u[0], 0.0),
        )
        local = [frame.local((x, y, float(base.top))) for x, y in reversed(ring)]
        outline = without_straights([(p[0], p[1]) for p in local])
        found.append(
            Surface(
                id="floor" if len(outlines) == 1 else f"floor{i + 1}",
                role="floor",
                storey=plan.storeys[0].id,
                frame=frame,
                type_id=type_id,
                regions=(Region(plate=Plate(boundary=square_loop(outline))),),
                layout_from=plan.preferences.layout_from,
            )
        )
    return tuple(found)


def _direction(p: Vec2, q: Vec2) -> Vec2:
    length = math.dist(p, q)
    return ((q[0] - p[0]) / length, (q[1] - p[1]) / length)


def _parts(shape: object) -> list[object]:
    return list(getattr(shape, "geoms", [shape]))
