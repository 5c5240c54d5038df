"""Timbers of the roof: ridge, hip and valley beams, purlins, rafters; and those given one by one.

All stop at the inner faces of the outside walls. Beam tops lie on the line where the undersides
meet, bevelled to both (a top left square would stand clear of the panels beside the line).
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import shapely

from seamwright.geometry.plane import slope_frame, unit
from seamwright.geometry.types import Vec2, Vec3, dot
from seamwright.shell.envelope import Pitch, Wing
from seamwright.shell.plan import RoofPart, Spaced, Timber, TimberSize
from seamwright.shell.roof_cells import Cell
from seamwright.shell.types import Member, MemberKind

STUB = 0.3
"""A purlin or rafter shorter than this is left out; common practice, no source. [m]"""


@dataclass(frozen=True, kw_only=True, slots=True)
class Crease:
    """A line where two roof planes meet. [m]"""

    kind: MemberKind
    start: Vec2
    end: Vec2
    pitch: Pitch
    other: Pitch
    rise: int


def roof_timbers(
    parts: Mapping[str, RoofPart],
    roof: Sequence[Wing],
    found: Sequence[Cell],
    rooms: Mapping[int, shapely.Geometry],
    names: Mapping[int, str],
) -> tuple[Member, ...]:
    """Return all timbers under the roof.

    Parameters
    ----------
    rooms : dict of int to polygon
        Per storey index, the plan inside the inner faces of its outside walls.
    names : dict of int to str
        The surface id of each roof plane.
    """
    members: list[Member] = []
    taken: dict[int, list[shapely.Geometry]] = {}
    count: dict[str, int] = {}
    for crease in creases(found):
        size, owner = _size_for(crease, parts)
        if size is None:
            continue
        line = shapely.LineString([crease.start, crease.end])
        for start, end in _inside(line, rooms.get(crease.rise)):
            name = f"{owner}.{crease.kind.removesuffix('_beam')}"
            count[name] = count.get(name, 0) + 1
            tail = "" if count[name] == 1 else f".{count[name]}"
            members.append(_beam(f"{name}{tail}", crease, start, end, size))
        wide = line.buffer(float(size.width) / 2.0, cap_style="flat")
        taken.setdefault(crease.rise, []).append(wide)
    for wing in roof:
        beams = shapely.union_all(taken.get(wing.rise, []))
        members.extend(_spaced(wing, found, rooms.get(wing.rise), beams, names))
    return tuple(members)


def creases(found: Sequence[Cell]) -> tuple[Crease, ...]:
    """Return ridges, hips and valleys once each, straight ones joined."""
    lines: dict[tuple[int, int, int, MemberKind], list[tuple[Vec2, Vec2]]] = {}
    what: dict[tuple[int, int, int, MemberKind], Crease] = {}
    for c in found:
        for ring, across in zip(c.rings, c.across, strict=True):
            for i, other in enumerate(across):
                if not isinstance(other, Pitch) or other.plane < c.pitch.plane:
                    continue
                p, q = ring[i], ring[(i + 1) % len(ring)]
                kind = _kind(c.pitch, other, p, q)
                if kind is None:
                    continue
                key = (c.rise, c.pitch.plane, other.plane, kind)
                lines.setdefault(key, []).append((p, q))
                what.setdefault(
                    key,
                    Crease(kind=kind, start=p, end=q, pitch=c.pitch, other=other, rise=c.rise),
                )
    result: list[Crease] = []
    for key, pieces in lines.items():
        w = what[key]
        for start, end in _joined(pieces):
            result.append(
                Crease(kind=w.kind, start=start, end=end, pitch=w.pitch, other=w.other, rise=w.rise)
            )
    return tuple(result)


def given_timbers(timbers: Iterable[Timber]) -> tuple[Member, ...]:
    """Return the timbers of the plan as members; upright ones face along x."""
    found: list[Member] = []
    for timber in timbers:
        a, b, c = (float(x) for x in timber.start)
        d, e, f = (float(x) for x in timber.end)
        found.append(
            Member(
                id=timber.id,
                kind=timber.kind,
                start=(a, b, c),
                end=(d, e, f),
                up=_upward((a, b, c), (d, e, f)),
                width=float(timber.size.width),
                depth=float(timber.size.depth),
            )
        )
    return tuple(found)


def _kind(pitch: Pitch, other: Pitch, p: Vec2, q: Vec2) -> MemberKind | None:
    """Return which timber belongs under a crease; None under a change of pitch."""
    s, t = pitch.slope, other.slope
    length = math.dist(p, q)
    left = (-(q[1] - p[1]) / length, (q[0] - p[0]) / length)
    folds_down = (s.a - t.a) * left[0] + (s.b - t.b) * left[1] < 0.0
    level = abs(s.at(q) - s.at(p)) < 1e-6 * length
    opposed = s.a * t.a + s.b * t.b < 0.0
    if level and (not folds_down or not opposed):
        return None
    if not folds_down:
        return "valley_beam"
    return "ridge_beam" if level else "hip_beam"


def _size_for(crease: Crease, parts: Mapping[str, RoofPart]) -> tuple[TimberSize | None, str]:
    names = sorted({crease.pitch.part, crease.other.part}, reverse=crease.kind == "valley_beam")
    for name in names:
        part = parts.get(name)
        if part is None:
            continue
        size = {
            "ridge_beam": part.ridge_beam,
            "hip_beam": part.hip_beams,
            "valley_beam": part.valley_beams,
        }.get(crease.kind)
        if size is not None:
            return size, name
    return None, ""


def _beam(name: str, crease: Crease, start: Vec2, end: Vec2, size: TimberSize) -> Member:
    a, b = crease.pitch.slope.lifted(start), crease.pitch.slope.lifted(end)
    return Member(
        id=name,
        kind=crease.kind,
        start=a,
        end=b,
        up=_upward(a, b),
        width=float(size.width),
        depth=float(size.depth),
    )


def _spaced(
    wing: Wing,
    found: Sequence[Cell],
    room: shapely.Geometry | None,
    beams: shapely.Geometry,
    names: Mapping[int, str],
) -> list[Member]:
    members: list[Member] = []
    part = wing.part
    mine = {pitch.plane: pitch for pitch in wing.pitches}
    for plane, pitch in mine.items():
        ground = [
            shapely.Polygon(c.rings[0], c.rings[1:]).difference(beams)
            for c in found
            if c.pitch.plane == plane and c.pitch.part == part.id
        ]
        if room is not None:
            ground = [g.intersection(room) for g in ground]
        area = shapely.union_all(ground)
        if area.is_empty:
            continue
        drop = 0.0 if part.rafters is None else float(part.rafters.size.depth)
        name = names[plane]
        if part.purlins is not None:
            members += _rows(f"{name}.purlin", pitch, part.purlins, area, drop=drop)
        if part.rafters is not None:
            members += _rows(f"{name}.rafter", pitch, part.rafters, area, drop=None)
    return members


def _rows(
    name: str, pitch: Pitch, spaced: Spaced, area: shapely.Geometry, *, drop: float | None
) -> list[Member]:
    """Return evenly spaced timbers: rafters (`drop` None), or purlins `drop` below the roof."""
    frame = slope_frame(pitch.foot, pitch.along, pitch.slope)
    n = frame.n
    kind: MemberKind = "rafter" if drop is None else "purlin"
    corners = shapely.get_coordinates(area)
    local = [frame.local(pitch.slope.lifted((float(x), float(y)))) for x, y in corners]
    axis = 1 if kind == "purlin" else 0
    low, high = min(p[axis] for p in local), max(p[axis] for p in local)
    far = 1.0 + max(abs(p[1 - axis]) for p in local)
    step = float(spaced.spacing)
    members: list[Member] = []
    for k in range(math.ceil((low + 1e-6) / step), math.floor((high - 1e-6) / step) + 1):
        ends = [(-far, k * step), (far, k * step)]
        lifted = [frame.point(p if kind == "purlin" else (p[1], p[0])) for p in ends]
        line = shapely.LineString([(p[0], p[1]) for p in lifted])
        for start, end in _inside(line, area):
            a, b = pitch.slope.lifted(start), pitch.slope.lifted(end)
            if math.dist(a, b) < STUB:
                continue
            members.append(
                Member(
                    id=f"{name}.{len(members) + 1}",
                    kind=kind,
                    start=_lowered(a, n, 0.0 if drop is None else drop),
                    end=_lowered(b, n, 0.0 if drop is None else drop),
                    up=n,
                    width=float(spaced.size.width),
                    depth=float(spaced.size.depth),
                )
            )
    return members


def _lowered(p: Vec3, n: Vec3, drop: float) -> Vec3:
    return (p[0] - drop * n[0], p[1] - drop * n[1], p[2] - drop * n[2])


def _upward(a: Vec3, b: Vec3) -> Vec3:
    d = unit((b[0] - a[0], b[1] - a[1], b[2] - a[2]))
    if abs(d[2]) > 1.0 - 1e-9:
        return (1.0, 0.0, 0.0)
    lean = dot((0.0, 0.0, 1.0), d)
    return unit((-lean * d[0], -lean * d[1], 1.0 - lean * d[2]))


def _inside(line: shapely.Geometry, area: shapely.Geometry | None) -> list[tuple[Vec2, Vec2]]:
    cut = line if area is None else line.intersection(area)
    found: list[tuple[Vec2, Vec2]] = []
    for piece in shapely.get_parts(cut):
        if piece.geom_type == "LineString" and piece.length > 1e-3:
            (a, b), (c, d) = piece.coords[0], piece.coords[-1]
            found.append(((float(a), float(b)), (float(c), float(d))))
    return found


def _joined(pieces: Sequence[tuple[Vec2, Vec2]]) -> list[tuple[Vec2, Vec2]]:
    """Return straight pieces of one line, those that touch joined."""
    p, q = pieces[0]
    length = math.dist(p, q)
    d = ((q[0] - p[0]) / length, (q[1] - p[1]) / length)

    def along(x: Vec2) -> float:
        return (x[0] - p[0]) * d[0] + (x[1] - p[1]) * d[1]

    spans = sorted(sorted((along(a), along(b))) for a, b in pieces)
    joined: list[list[float]] = []
    for low, high in spans:
        if joined and low <= joined[-1][1] + 1e-6:
            joined[-1][1] = max(joined[-1][1], high)
        else:
            joined.append([low, high])
    return [
        ((p[0] + a * d[0], p[1] + a * d[1]), (p[0] + b * d[0], p[1] + b * d[1])) for a, b in joined
    ]
