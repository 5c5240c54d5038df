"""The roof's underside: every wing's slopes, the ground it covers, and its height along a line.

A wing's underside is the lowest of its slopes; the roof's underside is the highest of its wings.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import shapely

from seamwright.geometry.plane import Slope, slope_over_line
from seamwright.geometry.polygon import clipped, without_repeats
from seamwright.geometry.types import Ring, Vec2
from seamwright.shell.levels import Level, top_index
from seamwright.shell.outline import plan_ring
from seamwright.shell.plan import Plan, RoofPart

LEVEL = 1e-7
"""Two slopes that differ by less than this (in pitch, or in metres of height) are one plane."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Pitch:
    """One slope of a wing: its plane, the plan line it is measured from, and its panels.

    `foot` and `along` are the start and direction of the eave line over the outer wall face.
    `plane` numbers slopes that lie in one plane alike. `eave` is the area edge it rises from.
    """

    slope: Slope
    foot: Vec2
    along: Vec2
    part: str
    type_id: str
    eave: int
    eave_plate: float = 0.0
    plane: int = -1


@dataclass(frozen=True, kw_only=True, slots=True)
class Wing:
    """One roof part: its slopes, its outline over the walls, and the ground it covers. [m]

    `grounds` are convex: the area with its overhangs, then one strip beyond each open end.
    `rise` is the index of the highest storey below it, -1 where no footprint is below.
    """

    part: RoofPart
    rise: int
    area: Ring
    grounds: tuple[Ring, ...]
    pitches: tuple[Pitch, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class Span:
    """A stretch of a line under one roof plane (None: under no roof). [m]"""

    low: float
    high: float
    pitch: Pitch | None


def wings(plan: Plan, floors: Sequence[Level]) -> tuple[Wing, ...]:
    """Return the roof's wings with their slopes; open ends do not reach beyond the area yet."""
    found: list[Wing] = []
    for part in plan.roof:
        area = plan_ring(part.area)
        rise = _rise(plan, area)
        height = _eave_elevation(part, rise, floors)
        pitches = pitches_of(part, area, height)
        found.append(
            Wing(part=part, rise=rise, area=area, grounds=grounds(part, area, {}), pitches=pitches)
        )
    return _numbered(found)


def grounds(part: RoofPart, area: Ring, reach: Mapping[int, float]) -> tuple[Ring, ...]:
    """Return the ground of a wing: with its overhangs, then beyond each open end by `reach`. [m]

    A strip beyond an open end is as wide as the area: overhangs end where the wing runs on.
    """
    out: list[float] = []
    for i in range(len(area)):
        if i in part.open_end:
            out.append(0.0)
        elif i in part.eaves:
            out.append(float(part.overhang_eave))
        else:
            out.append(float(part.overhang_rake))
    found = [offset(area, out)]
    for i, length in reach.items():
        if length <= 0.0:
            continue
        long = offset(area, [length if k == i else 0.0 for k in range(len(area))])
        p, q = area[i], area[(i + 1) % len(area)]
        a, b = q[1] - p[1], p[0] - q[0]
        found.append(clipped(long, a, b, -a * p[0] - b * p[1]))
    return tuple(found)


def offset(area: Ring, out: Sequence[float]) -> Ring:
    """Return a convex outline with edge i moved outward by `out[i]`. [m]"""
    reach = 2.0 * (max(out) + max(math.dist(area[0], p) for p in area)) + 1.0
    x, y = area[0]
    ring: Ring = (
        (x - reach, y - reach),
        (x + reach, y - reach),
        (x + reach, y + reach),
        (x - reach, y + reach),
    )
    for i, p in enumerate(area):
        q = area[(i + 1) % len(area)]
        length = math.dist(p, q)
        a, b = -(q[1] - p[1]) / length, (q[0] - p[0]) / length
        ring = clipped(ring, a, b, out[i] - a * p[0] - b * p[1])
    return without_repeats(ring)


def cells_of(wing: Wing, k: int) -> tuple[Ring, ...]:
    """Return the convex pieces of a wing's ground over which slope `k` is the lowest. [m]"""
    found: list[Ring] = []
    mine = wing.pitches[k].slope
    for piece in wing.grounds:
        ring = piece
        for i, other in enumerate(wing.pitches):
            if i != k and ring:
                o = other.slope
                ring = clipped(ring, o.a - mine.a, o.b - mine.b, o.c - mine.c)
        if ring:
            found.append(ring)
    return tuple(found)


def underside(roof: Sequence[Wing], p: Vec2) -> Pitch | None:
    """Return the slope that is the roof's underside over a plan point; None under no roof."""
    best: tuple[float, Pitch] | None = None
    for wing in roof:
        if not any(_within(ring, p) for ring in wing.grounds):
            continue
        low = min(wing.pitches, key=lambda x: x.slope.at(p))
        height = low.slope.at(p)
        if best is None or height > best[0] + 1e-9:
            best = (height, low)
    return None if best is None else best[1]


def profile(
    roof: Sequence[Wing], start: Vec2, along: Vec2, low: float, high: float
) -> tuple[Span, ...]:
    """Return the roof planes over a plan line, from `low` to `high` along it from `start`. [m]"""
    cuts = {low, high}
    lines = [
        (x.slope.a * along[0] + x.slope.b * along[1], x.slope.at(start))
        for wing in roof
        for x in wing.pitches
    ]
    for i, (m, c) in enumerate(lines):
        for n, d in lines[:i]:
            if abs(m - n) > 1e-12:
                cuts.add((d - c) / (m - n))
    for wing in roof:
        for ring in wing.grounds:
            cuts.update(_ends(ring, start, along))
    ordered = [x for x in sorted(cuts) if low <= x <= high]
    spans: list[Span] = []
    for a, b in pairwise(ordered):
        if b - a < 1e-8:
            continue
        u = (a + b) / 2.0
        pitch = underside(roof, (start[0] + u * along[0], start[1] + u * along[1]))
        if spans and _same(spans[-1].pitch, pitch):
            spans[-1] = replace(spans[-1], high=b)
        else:
            spans.append(Span(low=spans[-1].high if spans else low, high=b, pitch=pitch))
    return (*spans[:-1], replace(spans[-1], high=high)) if spans else ()


def _same(a: Pitch | None, b: Pitch | None) -> bool:
    if a is None or b is None:
        return a is b
    return a.plane == b.plane


def _within(ring: Ring, p: Vec2, slack: float = 1e-6) -> bool:
    for i, b in enumerate(ring):
        a = ring[i - 1]
        side = (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])
        if side < -slack * math.dist(a, b):
            return False
    return True


def _ends(ring: Ring, start: Vec2, along: Vec2) -> list[float]:
    found: list[float] = []
    for i, b in enumerate(ring):
        a = ring[i - 1]
        n = (-(b[1] - a[1]), b[0] - a[0])
        speed = n[0] * along[0] + n[1] * along[1]
        if abs(speed) > 1e-9 * math.dist(a, b):
            found.append(-(n[0] * (start[0] - a[0]) + n[1] * (start[1] - a[1])) / speed)
    return found


def _rise(plan: Plan, area: Ring) -> int:
    shape = shapely.Polygon(area)
    found = [
        top_index(plan, footprint)
        for footprint in plan.footprints
        if shape.intersection(shapely.Polygon(plan_ring(footprint.corners))).area > 1e-6
    ]
    return max(found, default=-1)


def _eave_elevation(part: RoofPart, rise: int, floors: Sequence[Level]) -> float:
    plate = float(part.eave_plate)
    if part.eave_height is not None:
        return float(part.eave_height) + plate
    return (floors[rise].top if 0 <= rise < len(floors) else 0.0) + plate


def pitches_of(part: RoofPart, area: Ring, height: float) -> tuple[Pitch, ...]:
    """Return the slopes of a roof part over `area`, its eaves at elevation `height`. [m]"""
    found: list[Pitch] = []
    for order, i in enumerate(part.eaves):
        p, q = area[i], area[(i + 1) % len(area)]
        length = math.dist(p, q)
        along = ((q[0] - p[0]) / length, (q[1] - p[1]) / length)
        pitch = float(part.pitch)
        if part.kind == "saltbox" and order == 1 and part.second_pitch is not None:
            pitch = float(part.second_pitch)
        found.append(_pitch(part, i, p, along, height=height, pitch=pitch))
        if part.kind == "gambrel" and part.second_pitch is not None and part.break_run is not None:
            run = float(part.break_run)
            foot = (p[0] - run * along[1], p[1] + run * along[0])
            upper = float(part.second_pitch)
            found.append(_pitch(part, i, foot, along, height=height + run * pitch, pitch=upper))
    return tuple(found)


def _pitch(
    part: RoofPart, eave: int, foot: Vec2, along: Vec2, *, height: float, pitch: float
) -> Pitch:
    return Pitch(
        slope=slope_over_line(foot, along, height, pitch),
        foot=foot,
        along=along,
        part=part.id,
        type_id=part.panel_type,
        eave=eave,
        eave_plate=float(part.eave_plate),
    )


def _numbered(found: Sequence[Wing]) -> tuple[Wing, ...]:
    """Return the wings with slopes that lie in one plane numbered alike."""
    seen: list[tuple[int, Pitch]] = []
    result: list[Wing] = []
    for wing in found:
        pitches: list[Pitch] = []
        for pitch in wing.pitches:
            n = next(
                (i for i, (r, x) in enumerate(seen) if _carried_alike(r, x, wing.rise, pitch)),
                len(seen),
            )
            if n == len(seen):
                seen.append((wing.rise, pitch))
            pitches.append(replace(pitch, plane=n))
        result.append(replace(wing, pitches=tuple(pitches)))
    return tuple(result)


def _carried_alike(rise: int, x: Pitch, other_rise: int, y: Pitch) -> bool:
    return rise == other_rise and x.type_id == y.type_id and coincide(x, y)


def coincide(x: Pitch, y: Pitch) -> bool:
    """Return whether two slopes lie in one plane, whatever panels they carry."""
    s, t = x.slope, y.slope
    return (
        abs(s.a - t.a) < LEVEL
        and abs(s.b - t.b) < LEVEL
        and abs(s.at(y.foot) - t.at(y.foot)) < LEVEL
    )
