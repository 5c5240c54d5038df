"""The roof in plan: which ground each roof plane is seen over, and what lies across each edge."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import shapely

from seamwright.errors import Problem
from seamwright.geometry.plane import Flat
from seamwright.geometry.polygon import clipped, without_straights
from seamwright.geometry.types import Ring, Vec2
from seamwright.shell.envelope import Pitch, Wing, cells_of, coincide, grounds
from seamwright.shell.outline import rings_of

GRID = 1e-9
"""Plan coordinates are held to this grid while shapes are cut. [m]"""
SAME = 1e-6
"""Corners nearer than this are one corner. [m]"""
SCRAP = 1e-8
"""A shape smaller than this is rounding. [m²]"""


@dataclass(frozen=True, kw_only=True, slots=True)
class Cell:
    """One connected piece of ground under one roof plane: outline and voids, plane to the left.

    `across[k][i]` is the slope on the other side of edge i of ring k, the plane that cuts it, or
    None at the roof's border.
    """

    pitch: Pitch
    rise: int
    rings: tuple[Ring, ...]
    across: tuple[tuple[Pitch | Flat | None, ...], ...] = ()


def settled(roof: Sequence[Wing], problems: list[Problem]) -> tuple[Wing, ...]:
    """Return the wings with open ends reaching exactly as far as they show above the others.

    A wing whose open end meets no other wing, or is never buried, goes to `problems`.
    """
    first = [_reached(wing, roof, problems) for wing in roof]
    return tuple(_reached(wing, first, []) for wing in first)


def cells(roof: Sequence[Wing], taller: dict[int, shapely.Geometry]) -> tuple[Cell, ...]:
    """Return the ground under each roof plane, edges classified.

    Parameters
    ----------
    roof : sequence of Wing
        Wings with their ground settled.
    taller : dict of int to polygon
        Per rise, the ground of footprints that go higher: roofs of that rise end there.
    """
    shapes: dict[tuple[int, int], list[shapely.Geometry]] = {}
    pitches: dict[tuple[int, int], Pitch] = {}
    for i, wing in enumerate(roof):
        for k, pitch in enumerate(wing.pitches):
            seen = _visible(roof, i, k)
            if wing.rise in taller:
                seen = shapely.difference(seen, taller[wing.rise], grid_size=GRID)
            key = (wing.rise, pitch.plane)
            shapes.setdefault(key, []).append(seen)
            pitches.setdefault(key, pitch)
    found: list[Cell] = []
    for key, parts in shapes.items():
        union = shapely.union_all(parts, grid_size=GRID)
        for polygon in shapely.get_parts(union):
            if polygon.geom_type == "Polygon" and polygon.area > SCRAP:
                rings = tuple(without_straights(r, slack=1e-8) for r in rings_of(polygon))
                found.append(Cell(pitch=pitches[key], rise=key[0], rings=rings))
    return classified(found)


def classified(found: Sequence[Cell]) -> tuple[Cell, ...]:
    """Return the cells with common corners made one, edges split at them, and neighbors named."""
    corners: list[Vec2] = []
    snapped = [
        replace(c, rings=tuple(tuple(_snap(p, corners) for p in r) for r in c.rings)) for c in found
    ]
    split = [replace(c, rings=tuple(_split(r, corners) for r in c.rings)) for c in snapped]
    owner: dict[tuple[Vec2, Vec2], Cell] = {}
    for c in split:
        for ring in c.rings:
            for i, p in enumerate(ring):
                owner[p, ring[(i + 1) % len(ring)]] = c
    return tuple(_neighbored(c, owner) for c in split)


def _neighbored(c: Cell, owner: dict[tuple[Vec2, Vec2], Cell]) -> Cell:
    across: list[tuple[Pitch | None, ...]] = []
    for ring in c.rings:
        row: list[Pitch | None] = []
        for i, p in enumerate(ring):
            q = ring[(i + 1) % len(ring)]
            other = owner.get((q, p))
            meets = other is not None and all(
                abs(other.pitch.slope.at(x) - c.pitch.slope.at(x)) < 1e-5 for x in (p, q)
            )
            row.append(other.pitch if other is not None and meets else None)
        across.append(tuple(row))
    return replace(c, across=tuple(across))


def _visible(roof: Sequence[Wing], i: int, k: int) -> shapely.Geometry:
    """Return the ground over which slope `k` of wing `i` is the roof's underside."""
    rings = cells_of(roof[i], k)
    hidden = [
        shapely.Polygon(part)
        for j, other in enumerate(roof)
        if j != i and other.rise == roof[i].rise
        for ring in rings
        for part in _hidden(ring, roof[i].pitches[k], other, earlier=j < i)
    ]
    own = shapely.union_all([shapely.Polygon(ring) for ring in rings], grid_size=GRID)
    return shapely.difference(own, shapely.union_all(hidden, grid_size=GRID), grid_size=GRID)


def _hidden(ring: Ring, mine: Pitch, other: Wing, *, earlier: bool) -> list[Ring]:
    found: list[Ring] = []
    for m, pitch in enumerate(other.pitches):
        for piece in cells_of(other, m):
            part = _intersection(ring, piece)
            if not part:
                continue
            if coincide(pitch, mine):
                above = part if earlier else ()
            else:
                s, t = pitch.slope, mine.slope
                above = clipped(part, s.a - t.a, s.b - t.b, s.c - t.c)
            if above:
                found.append(above)
    return found


def _intersection(ring: Ring, other: Ring) -> Ring:
    for i, q in enumerate(other):
        p = other[i - 1]
        a, b = -(q[1] - p[1]), q[0] - p[0]
        ring = clipped(ring, a, b, -a * p[0] - b * p[1]) if ring else ring
    return ring


def _reached(wing: Wing, roof: Sequence[Wing], problems: list[Problem]) -> Wing:
    if not wing.part.open_end:
        return wing
    points = [p for other in roof for ring in other.grounds for p in ring]
    far = 1.0 + max(math.dist(p, q) for p in points for q in wing.area)
    ends = dict.fromkeys(wing.part.open_end, far)
    long = replace(wing, grounds=grounds(wing.part, wing.area, ends))
    others = [long if w.part.id == wing.part.id else w for w in roof]
    here = next(i for i, w in enumerate(others) if w is long)
    seen = shapely.union_all(
        [_visible(others, here, k) for k in range(len(long.pitches))], grid_size=GRID
    )
    area = shapely.Polygon(wing.area)
    shown = shapely.union_all([seen, area], grid_size=GRID).buffer(-SAME)
    own = [p for p in shapely.get_parts(shown) if p.intersection(area).area > SCRAP]
    body = shapely.union_all(own).buffer(10 * SAME)
    points = [(x, y) for x, y in shapely.get_coordinates(seen) if body.covers(shapely.Point(x, y))]
    reach = {i: max([0.0, *(_beyond(wing.area, i, p) for p in points)]) for i in ends}
    for i, length in reach.items():
        if length > far - 0.5:
            problems.append(_unburied(wing))
            reach[i] = 0.0
    return replace(wing, grounds=grounds(wing.part, wing.area, reach))


def _beyond(area: Ring, i: int, p: Vec2) -> float:
    """Return how far a point lies outside edge i of an outline. [m]"""
    a, b = area[i], area[(i + 1) % len(area)]
    return ((p[0] - a[0]) * (b[1] - a[1]) - (p[1] - a[1]) * (b[0] - a[0])) / math.dist(a, b)


def _unburied(wing: Wing) -> Problem:
    return Problem(
        subject=f"roof part {wing.part.id}",
        sentence=f"roof part {wing.part.id} runs on from its open end without ever meeting "
        "another roof surface",
        remedy="make the other part's ridge at least as high, or close this end with a rake or "
        "an eave",
    )


def _snap(p: Vec2, corners: list[Vec2]) -> Vec2:
    for q in corners:
        if abs(p[0] - q[0]) < SAME and abs(p[1] - q[1]) < SAME:
            return q
    corners.append(p)
    return p


def _split(ring: Ring, corners: Sequence[Vec2]) -> Ring:
    """Return the ring with every known corner on one of its edges inserted."""
    result: list[Vec2] = []
    for i, p in enumerate(ring):
        q = ring[(i + 1) % len(ring)]
        length = math.dist(p, q)
        if length < SAME:
            continue
        d = ((q[0] - p[0]) / length, (q[1] - p[1]) / length)
        on = []
        for c in corners:
            u = (c[0] - p[0]) * d[0] + (c[1] - p[1]) * d[1]
            aside = abs((c[0] - p[0]) * d[1] - (c[1] - p[1]) * d[0])
            if aside < SAME < u < length - SAME:
                on.append((u, c))
        result.append(p)
        result.extend(c for _, c in sorted(on))
    return tuple(result)
