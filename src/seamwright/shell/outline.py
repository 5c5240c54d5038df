"""The walls of one storey in plan: which stretches of the footprints' edges stand outside."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

import shapely

from seamwright.geometry.types import Ring, Vec2
from seamwright.shell.levels import letters, top_index, wall_id
from seamwright.shell.plan import Plan, Point2
from seamwright.shell.types import Build

NEAR = 1e-6
"""Plan points nearer than this are the same. [m]"""


@dataclass(frozen=True, kw_only=True, slots=True)
class Edge:
    """One footprint edge: its letter, the unit vector along it, its length. [m]"""

    letter: str
    order: int
    footprint: str
    rise: int
    start: Vec2
    along: Vec2
    length: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Stretch:
    """A stretch of a footprint edge that carries an outside wall, from `low` to `high` along it.

    `low` and `high` are on the outer face, measured from the footprint corner. [m]
    """

    edge: Edge
    wall: str
    storey: int
    type_id: str
    thickness: float
    low: float
    high: float

    def at(self, u: float, depth: float = 0.0) -> Vec2:
        """Return the plan point `u` along the edge and `depth` into the house. [m]"""
        s, a = self.edge.start, self.edge.along
        return (s[0] + u * a[0] - depth * a[1], s[1] + u * a[1] + depth * a[0])


def edges(plan: Plan) -> tuple[Edge, ...]:
    """Return every footprint edge in order, lettered over all footprints."""
    found: list[Edge] = []
    for footprint in plan.footprints:
        ring = plan_ring(footprint.corners)
        rise = top_index(plan, footprint)
        for p, q in zip(ring, (*ring[1:], ring[0]), strict=True):
            length = math.dist(p, q)
            found.append(
                Edge(
                    letter=letters(len(found)),
                    order=len(found),
                    footprint=footprint.id,
                    rise=rise,
                    start=p,
                    along=((q[0] - p[0]) / length, (q[1] - p[1]) / length),
                    length=length,
                )
            )
    return tuple(found)


def plan_ring(corners: Iterable[Point2]) -> Ring:
    """Return exact plan points as floats. [m]"""
    return tuple((float(x), float(y)) for x, y in corners)


def storey_outline(plan: Plan, storey: int) -> shapely.Geometry:
    """Return the union in plan of the footprints that rise through a storey."""
    name = plan.storeys[storey].id
    parts = [shapely.Polygon(plan_ring(f.corners)) for f in plan.footprints if name in f.storeys]
    return shapely.union_all(parts, grid_size=NEAR / 1000)


def rings_of(shape: shapely.Geometry) -> tuple[Ring, ...]:
    """Return every ring of a shape with its inside to the left: outlines first, then courts."""
    found: list[Ring] = []
    for part in shapely.get_parts(shape):
        if part.geom_type != "Polygon" or part.is_empty:
            continue
        for i, ring in enumerate((part.exterior, *part.interiors)):
            points = [(float(x), float(y)) for x, y in ring.coords[:-1]]
            if ring.is_ccw == (i > 0):
                points.reverse()
            found.append(tuple(points))
    return tuple(found)


def stretches(
    plan: Plan, storey: int, builds: Mapping[str, Build]
) -> tuple[tuple[Stretch, ...], ...]:
    """Return the outside walls of a storey, one tuple per closed line, house to the left."""
    lines = edges(plan)
    name = plan.storeys[storey].id
    rising = {f.id for f in plan.footprints if name in f.storeys}
    own = [edge for edge in lines if edge.footprint in rising]
    loops: list[tuple[Stretch, ...]] = []
    for ring in rings_of(storey_outline(plan, storey)):
        walked: list[Stretch] = []
        for p, q in zip(ring, (*ring[1:], ring[0]), strict=True):
            for edge, low, high in _carriers(p, q, own):
                _append(walked, _stretch(plan, edge, storey, (low, high), builds))
        if len(walked) > 1 and _continues(walked[-1], walked[0]):
            last = walked.pop()
            walked[0] = _stretch(plan, last.edge, storey, (last.low, walked[0].high), builds)
        first = min(range(len(walked)), key=lambda i: (walked[i].edge.order, walked[i].low))
        loops.append((*walked[first:], *walked[:first]))
    return tuple(loops)


def _carriers(p: Vec2, q: Vec2, lines: list[Edge]) -> list[tuple[Edge, float, float]]:
    """Return the footprint edges under the ring edge p-q, in its order, each with its stretch."""
    reach = math.dist(p, q)
    done, found = 0.0, []
    spans = []
    for edge in lines:
        a = edge.along
        off = [(x[0] - edge.start[0], x[1] - edge.start[1]) for x in (p, q)]
        aside = [abs(a[0] * d[1] - a[1] * d[0]) for d in off]
        u0, u1 = (a[0] * d[0] + a[1] * d[1] for d in off)
        if max(aside) < NEAR and u1 > u0:
            low, high = max(0.0, u0), min(edge.length, u1)
            if high - low > NEAR:
                spans.append((low - u0, high - u0, edge, u0))
    for first, end, edge, u0 in sorted(spans, key=lambda s: (s[0], -s[1])):
        begin = max(first, done)
        if end - begin > NEAR:
            found.append((edge, begin + u0, min(end, reach) + u0))
            done = end
    return found


def _stretch(
    plan: Plan, edge: Edge, storey: int, ends: tuple[float, float], builds: Mapping[str, Build]
) -> Stretch:
    wall = wall_id(edge.letter, storey)
    named = [rule.panel_type for rule in plan.wall_rules if rule.wall == wall]
    type_id = next((t for t in named if t is not None), plan.storeys[storey].panel_type)
    return Stretch(
        edge=edge,
        wall=wall,
        storey=storey,
        type_id=type_id,
        thickness=builds[type_id].thickness,
        low=ends[0],
        high=ends[1],
    )


def _append(walked: list[Stretch], new: Stretch) -> None:
    if walked and _continues(walked[-1], new):
        old = walked.pop()
        new = Stretch(
            edge=old.edge,
            wall=old.wall,
            storey=old.storey,
            type_id=old.type_id,
            thickness=old.thickness,
            low=old.low,
            high=new.high,
        )
    walked.append(new)


def _continues(old: Stretch, new: Stretch) -> bool:
    return old.wall == new.wall and abs(old.high - new.low) < NEAR
