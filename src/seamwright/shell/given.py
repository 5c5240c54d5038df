"""Panels, planes and bearings given one by one instead of laid out from a footprint."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from seamwright.errors import GeometryError, Problem
from seamwright.geometry.plane import Flat, unit
from seamwright.geometry.plate import Loop, Plate, from_sides, loop_of
from seamwright.geometry.polygon import is_simple, signed_area
from seamwright.geometry.types import Frame, Vec2, Vec3, cross, dot
from seamwright.shell.base import level_frame
from seamwright.shell.outline import plan_ring
from seamwright.shell.plan import End, GivenPanel, GivenSupport, Point2
from seamwright.shell.surface import Region, Surface
from seamwright.shell.types import Build, Support


def given_surfaces(
    panels: Sequence[GivenPanel],
    builds: Mapping[str, Build],
    layout_from: End,
    problems: list[Problem],
) -> tuple[Surface, ...]:
    """Return given panels and planes as surfaces; whole unless `lay_out` asks to split them.

    Edge bevels become side faces: a positive angle makes the outer face larger; an outer outline
    is taken as it is. An outline given clockwise is turned around, its angles with it.
    """
    found: list[Surface] = []
    for panel in panels:
        try:
            frame = _frame(panel)
        except GeometryError:
            problems.append(_directionless(panel))
            continue
        ring = list(plan_ring(panel.outline))
        angles = [0.0] * len(ring) if panel.bevels_deg is None else list(panel.bevels_deg)
        if not is_simple(ring) or len(angles) != len(ring):
            problems.append(_misshapen(panel, len(ring), len(angles)))
            continue
        if signed_area(ring) < 0.0:
            ring.reverse()
            angles = [*reversed(angles[:-1]), angles[-1]]
        thickness = builds[panel.panel_type].thickness
        given = panel.outer_outline
        boundary = (
            _beveled(frame, ring, angles, thickness) if given is None else _between(panel, given)
        )
        if boundary is None:
            problems.append(_unmatched(panel))
            continue
        found.append(
            Surface(
                id=panel.id,
                role=panel.role,
                storey=panel.storey,
                frame=frame,
                type_id=panel.panel_type,
                regions=(Region(plate=Plate(boundary=boundary)),),
                plane=panel.plane,
                layout_from=layout_from,
                whole=not panel.lay_out,
            )
        )
    return tuple(found)


def given_supports(supports: Sequence[GivenSupport]) -> tuple[Support, ...]:
    """Return given bearing faces, level, normal up."""
    found: list[Support] = []
    for support in supports:
        ring = plan_ring(support.outline)
        if signed_area(ring) < 0.0:
            ring = tuple(reversed(ring))
        found.append(
            Support(
                id=support.id,
                kind=support.kind,
                frame=level_frame(float(support.top)),
                outline=ring,
                thickness=float(support.thickness),
            )
        )
    return tuple(found)


def _frame(panel: GivenPanel) -> Frame:
    u = unit(panel.along)
    lean = dot(panel.up, u)
    v = unit((panel.up[0] - lean * u[0], panel.up[1] - lean * u[1], panel.up[2] - lean * u[2]))
    x, y, z = (float(c) for c in panel.origin)
    return Frame(origin=(x, y, z), u=u, v=v)


def _side(frame: Frame, p: Vec2, q: Vec2, bevel: float) -> Flat:
    a, b = frame.point(p), frame.point(q)
    run: Vec3 = (b[0] - a[0], b[1] - a[1], b[2] - a[2])
    away = unit(cross(run, frame.n))
    n, t = frame.n, math.tan(bevel)
    rise = (n[0] + t * away[0], n[1] + t * away[1], n[2] + t * away[2])
    return Flat(point=a, normal=cross(run, rise))


def _beveled(frame: Frame, ring: Sequence[Vec2], angles: Sequence[float], thickness: float) -> Loop:
    sides = [
        _side(frame, ring[i], ring[(i + 1) % len(ring)], math.radians(angle))
        for i, angle in enumerate(angles)
    ]
    return from_sides(frame, ring, sides, thickness)


def _between(panel: GivenPanel, outer_outline: Sequence[Point2]) -> Loop | None:
    """Return the loop between both outlines of a panel, None when they do not match."""
    inner, outer = plan_ring(panel.outline), plan_ring(outer_outline)
    if len(inner) != len(outer) or not is_simple(list(outer)):
        return None
    pairs = list(zip(inner, outer, strict=True))
    return loop_of(pairs if signed_area(inner) > 0.0 else pairs[::-1])


def _unmatched(panel: GivenPanel) -> Problem:
    return Problem(
        subject=f"panel {panel.id}",
        sentence=f"the outer outline of panel {panel.id} does not match its inner "
        "outline, or crosses itself",
        remedy="give as many corners on both faces, each beside its partner",
    )


def _directionless(panel: GivenPanel) -> Problem:
    return Problem(
        subject=f"panel {panel.id}",
        sentence=f"panel {panel.id} has `along` and `up` in one line, or one of them has no length",
        remedy="give two directions that differ",
    )


def _misshapen(panel: GivenPanel, corners: int, angles: int) -> Problem:
    if corners != angles:
        return Problem(
            subject=f"panel {panel.id}",
            sentence=f"panel {panel.id} has {corners} edges but {angles} bevel angles",
            remedy="give one angle per edge, 0 for a square edge",
        )
    return Problem(
        subject=f"panel {panel.id}",
        sentence=f"the outline of panel {panel.id} crosses itself, repeats a corner or has no area",
        remedy="list its corners once, in order around the panel",
    )
