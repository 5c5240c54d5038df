"""Walls inside the shell: trimmed to the outside walls, from the floor to the ceiling or roof."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

import shapely

from seamwright.errors import Problem
from seamwright.geometry.plate import Pair, Plate, loop_of
from seamwright.geometry.types import Frame, Ring, Vec2
from seamwright.shell.envelope import Wing
from seamwright.shell.levels import Level, top_index
from seamwright.shell.outline import plan_ring
from seamwright.shell.plan import InnerWall, Plan
from seamwright.shell.surface import Region, Surface
from seamwright.shell.types import Build
from seamwright.shell.wall import FaceLine, Top, cut_top, uncovered

BOARD = 0.0127
"""Lining on each side of an inner wall, 1/2 in board; common practice, no source. [m]"""
WHOLE = 100.0
"""Inner walls are framed on site, not cut from panels: no largest size. [m]"""


def inner_builds(walls: Sequence[InnerWall]) -> tuple[Build, ...]:
    """Return one build per thickness of inner wall: boards on a frame."""
    found: dict[str, Build] = {}
    for wall in walls:
        thickness = float(wall.thickness)
        board = min(BOARD, thickness / 4.0)
        found[build_id(wall)] = Build(
            id=build_id(wall),
            skin_inner=board,
            core=thickness - 2.0 * board,
            skin_outer=board,
            max_width=WHOLE,
            max_length=WHOLE,
            spline="lumber",
            spline_width=0.0,
            edge_gap=0.0,
            core_material="frame",
        )
    return tuple(found.values())


def build_id(wall: InnerWall) -> str:
    """Return the id of an inner wall's build, after its thickness in millimetres."""
    return f"inner-{float(wall.thickness) * 1000.0:.0f}"


def inner_surfaces(
    plan: Plan,
    floors: Sequence[Level],
    rooms: Mapping[int, shapely.Geometry],
    roof: Sequence[Wing],
    problems: list[Problem],
) -> tuple[Surface, ...]:
    """Return the inner walls, each in one piece between what it runs into.

    The inner face is the left one seen along the wall; ends stop at the inner faces of the
    outside walls and at the faces of inner walls given before. Tops follow the ceiling of a
    storey with another one above, else the roof's underside.
    """
    by_storey = {level.storey.id: level for level in floors}
    found: list[Surface] = []
    bands: dict[str, list[Ring]] = {}
    for wall in plan.inner_walls:
        level = by_storey[wall.storey]
        room = rooms[level.index].difference(
            shapely.union_all([shapely.Polygon(b) for b in bands.get(wall.storey, [])])
        )
        left, right = _faces(wall)
        pieces = _pieces(left, right, room)
        if not pieces:
            problems.append(_nowhere(wall))
            continue
        rising = [wing for wing in roof if wing.rise == _rise(plan, level, pieces[0][0])]
        regions = [_region(level, piece, rising, wall, problems) for piece in pieces]
        found.append(
            Surface(
                id=wall.id,
                role="partition",
                storey=wall.storey,
                frame=Frame(
                    origin=(*left.start, level.floor),
                    u=(*left.along, 0.0),
                    v=(0.0, 0.0, 1.0),
                ),
                type_id=build_id(wall),
                regions=tuple(r for r in regions if r is not None),
                whole=True,
            )
        )
        bands.setdefault(wall.storey, []).append(_band(left, right))
    return tuple(found)


def _faces(wall: InnerWall) -> tuple[FaceLine, FaceLine]:
    start, end = plan_ring((wall.start, wall.end))
    length = math.dist(start, end)
    d = ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
    half = float(wall.thickness) / 2.0
    left = (start[0] - half * d[1], start[1] + half * d[0])
    right = (start[0] + half * d[1], start[1] - half * d[0])
    return (
        FaceLine(start=left, along=d, low=0.0, high=length),
        FaceLine(start=right, along=d, low=0.0, high=length),
    )


def _pieces(
    left: FaceLine, right: FaceLine, room: shapely.Geometry
) -> list[tuple[FaceLine, FaceLine]]:
    inner, outer = _trimmed(left, room), _trimmed(right, room)
    if len(inner) != len(outer):
        inner = outer = max(inner, outer, key=len)
    return [
        (
            FaceLine(start=left.start, along=left.along, low=a[0], high=a[1]),
            FaceLine(start=right.start, along=right.along, low=b[0], high=b[1]),
        )
        for a, b in zip(inner, outer, strict=True)
    ]


def _trimmed(face: FaceLine, room: shapely.Geometry) -> list[tuple[float, float]]:
    s, d = face.start, face.along

    def at(u: float) -> Vec2:
        return (s[0] + u * d[0], s[1] + u * d[1])

    line = shapely.LineString([at(face.low), at(face.high)]).intersection(room)
    found: list[tuple[float, float]] = []
    for piece in shapely.get_parts(line):
        if piece.geom_type == "LineString" and piece.length > 0.01:
            ends = [(x - s[0]) * d[0] + (y - s[1]) * d[1] for x, y in piece.coords]
            found.append((min(ends), max(ends)))
    return sorted(found)


def _rise(plan: Plan, level: Level, face: FaceLine) -> int:
    """Return the storey whose roof is above a face, -2 where another storey is above."""
    middle = (face.low + face.high) / 2.0
    s, d = face.start, face.along
    at = shapely.Point(s[0] + middle * d[0], s[1] + middle * d[1])
    over = [f for f in plan.footprints if shapely.Polygon(plan_ring(f.corners)).covers(at)]
    rise = max((top_index(plan, f) for f in over), default=level.index)
    return rise if rise == level.index else -2


def _region(
    level: Level,
    faces: tuple[FaceLine, FaceLine],
    over: Sequence[Wing],
    wall: InnerWall,
    problems: list[Problem],
) -> Region | None:
    inner, outer = faces
    if not over:
        tops = tuple(
            Top(inner=(a, level.ceiling), outer=(b, level.ceiling))
            for a, b in ((inner.low, outer.low), (inner.high, outer.high))
        )
    elif uncovered(over, inner, outer) is not None:
        problems.append(_open(wall))
        return None
    else:
        tops = cut_top(over, inner, outer)
    pairs: list[Pair] = [
        ((inner.low, 0.0), (outer.low, 0.0)),
        ((inner.high, 0.0), (outer.high, 0.0)),
    ]
    pairs.extend(
        ((t.inner[0], t.inner[1] - level.floor), (t.outer[0], t.outer[1] - level.floor))
        for t in reversed(tops)
    )
    return Region(plate=Plate(boundary=loop_of(pairs)))


def _band(left: FaceLine, right: FaceLine) -> Ring:
    def at(face: FaceLine, u: float) -> Vec2:
        return (face.start[0] + u * face.along[0], face.start[1] + u * face.along[1])

    return (at(right, right.low), at(right, right.high), at(left, left.high), at(left, left.low))


def _nowhere(wall: InnerWall) -> Problem:
    return Problem(
        subject=f"inner wall {wall.id}",
        sentence=f"inner wall {wall.id} lies outside the rooms of storey {wall.storey}",
        remedy="move its ends inside the outside walls",
    )


def _open(wall: InnerWall) -> Problem:
    return Problem(
        subject=f"inner wall {wall.id}",
        sentence=f"no roof covers the whole of inner wall {wall.id}",
        remedy="extend a roof part over it or shorten it",
    )
