"""Roof planes lifted into space: edges cut to the planes in which their neighbors meet."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from seamwright.geometry.plane import Flat, miter, slope_frame, upright
from seamwright.geometry.plate import Loop, Plate, from_sides
from seamwright.geometry.types import Frame, Ring, Vec2, cross
from seamwright.shell.envelope import Pitch, Wing, coincide
from seamwright.shell.plan import Plan
from seamwright.shell.roof_cells import Cell
from seamwright.shell.surface import Region, Surface
from seamwright.shell.types import Build


def roof_surfaces(
    plan: Plan, roof: Sequence[Wing], found: Sequence[Cell], builds: Mapping[str, Build]
) -> tuple[Surface, ...]:
    """Return the roof planes R1, R2 ... in the order of the parts and their eaves.

    The inner face is the roof's underside. Ridges, hips and valleys are cut on the plane through
    the line where the undersides meet and the line where the upper faces meet; eaves and rakes
    are cut plumb.
    """
    sides = {wing.part.id: wing.part.layout_from for wing in roof}
    surfaces: list[Surface] = []
    for plane, name in plane_names(roof, found).items():
        pieces = [c for c in found if c.pitch.plane == plane]
        own = pieces[0].pitch
        frame = slope_frame(own.foot, own.along, own.slope)
        side = sides.get(own.part)
        surfaces.append(
            Surface(
                id=name,
                role="roof",
                storey=None,
                frame=frame,
                type_id=own.type_id,
                regions=tuple(Region(plate=cell_plate(frame, c, builds)) for c in pieces),
                layout_from=plan.preferences.layout_from if side is None else side,
            )
        )
    return tuple(surfaces)


def plane_names(roof: Sequence[Wing], found: Sequence[Cell]) -> dict[int, str]:
    """Return R1, R2 ... for the planes that are seen, in the order of the parts and their eaves."""
    seen = {c.pitch.plane for c in found}
    order = dict.fromkeys(
        pitch.plane for wing in roof for pitch in wing.pitches if pitch.plane in seen
    )
    return {plane: f"R{i + 1}" for i, plane in enumerate(order)}


def cell_plate(frame: Frame, c: Cell, builds: Mapping[str, Build]) -> Plate:
    """Return one cell as a plate on its roof plane."""
    loops: list[Loop] = []
    thickness = builds[c.pitch.type_id].thickness
    for ring, across in zip(c.rings, c.across, strict=True):
        sides = [
            side_of(c.pitch, other, ring[i], ring[(i + 1) % len(ring)], builds)
            for i, other in enumerate(across)
        ]
        loops.append(_lifted(frame, c.pitch, ring, sides, thickness))
    return Plate(boundary=loops[0], voids=tuple(loops[1:]))


def side_of(
    pitch: Pitch, other: Pitch | Flat | None, p: Vec2, q: Vec2, builds: Mapping[str, Build]
) -> Flat:
    """Return the plane of the side face over plan edge p-q: mitered, plumb at a border."""
    if other is None:
        return upright(p, q)
    if isinstance(other, Flat):
        return other
    if coincide(pitch, other):
        return _square(pitch, p, q)
    raise_1, raise_2 = builds[pitch.type_id].thickness, builds[other.type_id].thickness
    return miter(p, q, pitch.slope, other.slope, (raise_1, raise_2))


def _square(pitch: Pitch, p: Vec2, q: Vec2) -> Flat:
    """Return the plane square to a slope through its line over p-q: panels of two types meet."""
    a, b = pitch.slope.lifted(p), pitch.slope.lifted(q)
    run = (b[0] - a[0], b[1] - a[1], b[2] - a[2])
    return Flat(point=a, normal=cross(run, (-pitch.slope.a, -pitch.slope.b, 1.0)))


def _lifted(
    frame: Frame, pitch: Pitch, ring: Ring, sides: Sequence[Flat], thickness: float
) -> Loop:
    local = [frame.local(pitch.slope.lifted(p)) for p in ring]
    kept_ring: list[Vec2] = []
    kept_sides: list[Flat] = []
    for i, (u, v, _) in enumerate(local):
        if _one_face(sides[i - 1], sides[i]) and _straight(ring, i):
            continue
        kept_ring.append((u, v))
        kept_sides.append(sides[i])
    return from_sides(frame, kept_ring, kept_sides, thickness)


def _straight(ring: Ring, i: int) -> bool:
    a, b, c = ring[i - 1], ring[i], ring[(i + 1) % len(ring)]
    area = abs((b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]))
    return area <= 1e-6 * math.dist(a, c)


def _one_face(a: Flat, b: Flat) -> bool:
    m, n = a.normal, b.normal
    size = math.sqrt(sum(x * x for x in m) * sum(x * x for x in n))
    return sum(x * y for x, y in zip(m, n, strict=True)) > (1.0 - 1e-9) * size
