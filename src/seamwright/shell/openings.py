"""Rough openings and penetrations: found on their surface, checked, and cut."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

import shapely

from seamwright.errors import Problem
from seamwright.geometry.plate import Loop, Pair, Plate, loop_of
from seamwright.geometry.polygon import covers, distance_to_segment
from seamwright.geometry.types import Ring, Vec2, Vec3
from seamwright.shell.plan import OpeningSpec, PenetrationSpec
from seamwright.shell.surface import Cut, Region, Surface
from seamwright.shell.types import Opening, Panel, Penetration

ON = 1e-6
"""An opening's side this near an edge lies on it. [m]"""

HAIR = 1e-4
"""Notches cut in given panels may differ from their opening by this much. [m]"""

Host = tuple[str, float]
"""A surface's id, and how far up it the host's own zero lies. [m]"""


def with_openings(
    surfaces: Sequence[Surface],
    specs: Sequence[OpeningSpec],
    hosts: Mapping[str, Host],
    problems: list[Problem],
) -> tuple[tuple[Surface, ...], tuple[Opening, ...]]:
    """Return the surfaces with their openings cut, and the openings in space.

    An opening whose lower edge lies on the surface's edge becomes a notch, any other a hole. One
    that stands free between the given panels of a plane cuts nothing. One that reaches outside its
    surface, or into another opening, goes to `problems`.
    """
    by_id = {surface.id: surface for surface in surfaces}
    found: list[Opening] = []
    for spec in specs:
        name, base = hosts.get(spec.host, (spec.host, 0.0))
        on = _surfaces_on(name, by_id)
        if not on:
            problems.append(_unknown("opening", spec.id, spec.host, by_id))
            continue
        ring = _rectangle(spec, base)
        placed = _placed(on, Cut(opening=spec.id, kind=spec.kind, ring=ring), problems)
        if placed is None:
            continue
        by_id[placed.id] = placed
        found.append(
            Opening(
                id=spec.id,
                kind=spec.kind,
                plane_id=placed.id if placed.plane is None else placed.plane,
                frame=on[0].frame,
                outline=ring,
                storey=on[0].storey,
            )
        )
    return tuple(by_id[surface.id] for surface in surfaces), tuple(found)


def penetrations(
    surfaces: Sequence[Surface],
    panels: Sequence[Panel],
    specs: Sequence[PenetrationSpec],
    hosts: Mapping[str, Host],
    problems: list[Problem],
) -> tuple[Penetration, ...]:
    """Return the services in space, each with the panel it passes through (None: in a seam)."""
    by_id = {surface.id: surface for surface in surfaces}
    found: list[Penetration] = []
    for spec in specs:
        name, base = hosts.get(spec.host, (spec.host, 0.0))
        on = _surfaces_on(name, by_id)
        if not on:
            problems.append(_unknown("penetration", spec.id, spec.host, by_id))
            continue
        surface = on[0]
        at = (float(spec.along), float(spec.up) + base)
        point = surface.frame.point(at)
        if not any(_holds(s, r, point) for s in on for r in s.regions):
            problems.append(_outside("penetration", spec.id, spec.host, at))
            continue
        plane = surface.id if surface.plane is None else surface.plane
        near = [p for p in panels if p.plane_id == plane]
        through = next((p.id for p in near if _in_panel(p, point)), None)
        found.append(
            Penetration(
                id=spec.id,
                kind=spec.kind,
                plane_id=plane,
                panel_id=through,
                at=point,
                axis=surface.frame.n,
                diameter=None if spec.diameter is None else float(spec.diameter),
                width=None if spec.width is None else float(spec.width),
                height=None if spec.height is None else float(spec.height),
                storey=surface.storey,
            )
        )
    return tuple(found)


def cut_into(plate: Plate, ring: Ring) -> Plate:
    """Return a plate with a rectangle cut out: a notch at a square edge, else a void."""
    bottom = (ring[0], ring[1])
    pairs = plate.boundary.pairs
    for i, (a, outer_a) in enumerate(pairs):
        b, outer_b = pairs[(i + 1) % len(pairs)]
        on_both = all(
            distance_to_segment(p, *edge) < ON
            for p in bottom
            for edge in ((a, b), (outer_a, outer_b))
        )
        if on_both:
            notch: list[Pair] = [(p, p) for p in (ring[0], ring[3], ring[2], ring[1])]
            return replace(plate, boundary=loop_of([*pairs[: i + 1], *notch, *pairs[i + 1 :]]))
    clockwise = (ring[0], ring[3], ring[2], ring[1])
    return replace(plate, voids=(*plate.voids, Loop(inner=clockwise, outer=clockwise)))


def _rectangle(spec: OpeningSpec, base: float) -> Ring:
    u, v = float(spec.along), float(spec.up) + base
    w, h = float(spec.along + spec.width), float(spec.up + spec.height) + base
    return ((u, v), (w, v), (w, h), (u, h))


def _surfaces_on(name: str, by_id: Mapping[str, Surface]) -> list[Surface]:
    """Return the surface of that id, or all given panels of the plane of that id."""
    if name in by_id:
        return [by_id[name]]
    return [surface for surface in by_id.values() if surface.plane == name]


def _placed(on: Sequence[Surface], cut: Cut, problems: list[Problem]) -> Surface | None:
    """Return the surface that takes the cut, changed; None after a problem."""
    free = len(on) > 1 or on[0].whole
    for surface in on:
        local = replace(cut, ring=_moved(cut.ring, on[0], surface))
        for i, region in enumerate(surface.regions):
            outline = region.plate.boundary.inner
            free = free and not _overlap(outline, _shrunk(local.ring))
            if not _fits(region, local.ring):
                continue
            other = next((c for c in region.cuts if _overlap(c.ring, local.ring)), None)
            if other is not None:
                problems.append(_clash(cut, other, surface))
                return None
            changed = replace(
                region, plate=cut_into(region.plate, local.ring), cuts=(*region.cuts, local)
            )
            regions = (*surface.regions[:i], changed, *surface.regions[i + 1 :])
            return replace(surface, regions=regions)
    if free and _is_between(on, cut.ring):
        return on[0]
    problems.append(_misfit(on[0], cut))
    return None


def _moved(ring: Ring, first: Surface, surface: Surface) -> Ring:
    """Return an outline in the axes of another surface of the same plane."""
    if surface is first:
        return ring
    local = [surface.frame.local(first.frame.point(p)) for p in ring]
    return tuple((p[0], p[1]) for p in local)


def _is_between(on: Sequence[Surface], ring: Ring) -> bool:
    """Return whether a rectangle lies within the outline drawn round all panels of a plane."""
    back = [
        _moved(region.plate.boundary.inner, surface, on[0])
        for surface in on
        for region in surface.regions
    ]
    hull = shapely.MultiPoint([p for outline in back for p in outline]).convex_hull
    return bool(hull.buffer(HAIR).covers(shapely.Polygon(ring)))


def _shrunk(ring: Ring) -> Ring:
    """Return a rectangle less a hair all round: a panel notched for it is not in its way."""
    (u, v), (w, h) = (min(ring), max(ring))
    return ((u + HAIR, v + HAIR), (w - HAIR, v + HAIR), (w - HAIR, h - HAIR), (u + HAIR, h - HAIR))


def _clash(cut: Cut, other: Cut, surface: Surface) -> Problem:
    return Problem(
        subject=f"opening {cut.opening}",
        sentence=f"opening {cut.opening} overlaps opening {other.opening} on {surface.id}",
        remedy="move one of them or make it smaller",
    )


def _fits(region: Region, ring: Ring) -> bool:
    if region.clear is not None and not (
        region.clear[0] - ON <= ring[0][0] and ring[1][0] <= region.clear[1] + ON
    ):
        return False
    whole = region.plate.boundary
    near = [cut for cut in region.cuts if _boxes_meet(cut.ring, ring)]
    return all(covers(_unnotched(face, near), ring) for face in (whole.inner, whole.outer))


def _unnotched(face: Ring, cuts: Sequence[Cut]) -> Ring:
    """Return a face's outline with notches already cut filled in, so overlaps are named as such."""
    shape = shapely.Polygon(face)
    for cut in cuts:
        joined = shape.union(shapely.Polygon(cut.ring).buffer(ON, join_style="mitre"))
        if joined.geom_type == "Polygon":
            shape = joined
    return tuple((float(x), float(y)) for x, y in shape.exterior.coords[:-1])


def _overlap(a: Ring, b: Ring) -> bool:
    return _boxes_meet(a, b) and bool(shapely.Polygon(a).intersection(shapely.Polygon(b)).area > ON)


def _boxes_meet(a: Ring, b: Ring) -> bool:
    """Return whether the boxes around two outlines come within a hair of each other."""
    return all(
        min(p[k] for p in a) - HAIR <= max(p[k] for p in b)
        and min(p[k] for p in b) - HAIR <= max(p[k] for p in a)
        for k in (0, 1)
    )


def _holds(surface: Surface, region: Region, point: Vec3) -> bool:
    u, v, _ = surface.frame.local(point)
    return bool(shapely.Polygon(region.plate.boundary.inner).covers(shapely.Point(u, v)))


def _in_panel(panel: Panel, point: Vec3) -> bool:
    u, v, _ = panel.frame.local(point)
    return bool(shapely.Polygon(panel.inner).covers(shapely.Point(u, v)))


def _misfit(surface: Surface, cut: Cut) -> Problem:
    (u, v), (w, h) = cut.low, cut.high
    lows = [r.clear[0] if r.clear is not None else _reach(r, 0)[0] for r in surface.regions]
    highs = [r.clear[1] if r.clear is not None else _reach(r, 0)[1] for r in surface.regions]
    top = max(_reach(r, 1)[1] for r in surface.regions)
    return Problem(
        subject=f"opening {cut.opening}",
        sentence=f"opening {cut.opening} spans {{left}} to {{right}} along and {{low}} to {{high}} "
        f"up, outside {surface.id}, which is free from {{first}} to {{last}} along and rises to "
        "{top} at its highest",
        remedy="move the opening or make it smaller",
        lengths=(
            *(("left", u), ("right", w), ("low", v), ("high", h)),
            *(("first", min(lows)), ("last", max(highs)), ("top", top)),
        ),
    )


def _reach(region: Region, axis: int) -> tuple[float, float]:
    values = [p[axis] for p in region.plate.boundary.inner]
    return min(values), max(values)


def _unknown(what: str, name: str, host: str, known: Mapping[str, Surface]) -> Problem:
    return Problem(
        subject=f"{what} {name}",
        sentence=f"{what} {name} names {host} as its wall, roof plane or panel, and there is none",
        remedy=f"use one of {', '.join(sorted(known))}",
    )


def _outside(what: str, name: str, host: str, at: Vec2) -> Problem:
    return Problem(
        subject=f"{what} {name}",
        sentence=f"{what} {name} at {{along}} along and {{up}} up lies outside {host}",
        remedy="move it onto the panel surface",
        lengths=(("along", at[0]), ("up", at[1])),
    )
