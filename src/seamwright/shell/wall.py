"""Outside walls as surfaces: from the bearing up to a flat top or to the roof's underside."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from seamwright.errors import Problem
from seamwright.geometry.plate import Pair, Plate, loop_of
from seamwright.geometry.types import Vec2
from seamwright.shell.corners import WallRun
from seamwright.shell.envelope import Pitch, Span, Wing, profile
from seamwright.shell.outline import Stretch
from seamwright.shell.types import Member

BARE = 1e-4
"""A wall uncovered for less than this is rounding at the roof's edge. [m]"""


@dataclass(frozen=True, kw_only=True, slots=True)
class Top:
    """One point of a wall's top line: position along the wall and elevation on each face. [m]"""

    inner: Vec2
    outer: Vec2


@dataclass(frozen=True, kw_only=True, slots=True)
class FaceLine:
    """One face of a wall in plan: from `low` to `high` along a line. [m]"""

    start: Vec2
    along: Vec2
    low: float
    high: float


def flat_top(run: WallRun, height: float) -> tuple[Top, ...]:
    """Return a level top at elevation `height`. [m]"""
    return tuple(Top(inner=(run.inner[i], height), outer=(run.outer[i], height)) for i in (0, 1))


def roofed_top(run: WallRun, roof: Sequence[Wing], problems: list[Problem]) -> tuple[Top, ...]:
    """Return the top of a wall cut to the roof's underside on both faces.

    Where the eave carries a plate, the wall stops square below the plate. A wall the roof does not
    cover goes to `problems` and gets no top.
    """
    stretch = run.stretch
    inner = FaceLine(
        start=stretch.at(0.0, stretch.thickness),
        along=stretch.edge.along,
        low=run.inner[0],
        high=run.inner[1],
    )
    outer = FaceLine(
        start=stretch.at(0.0), along=stretch.edge.along, low=run.outer[0], high=run.outer[1]
    )
    bare = uncovered(roof, inner, outer)
    if bare is not None:
        problems.append(_uncovered(run, bare))
        return ()
    if run.outer[0] >= run.outer[1] or run.inner[0] >= run.inner[1]:
        return ()
    spans = [s for s in profile(roof, outer.start, outer.along, outer.low, outer.high) if s.pitch]
    if any(is_stepped(stretch, s.pitch) for s in spans):
        return _plated(run, spans)
    return cut_top(roof, inner, outer)


def uncovered(roof: Sequence[Wing], inner: FaceLine, outer: FaceLine) -> Span | None:
    """Return the first stretch of a wall's faces that no roof covers, if any."""
    for face in (outer, inner):
        for span in profile(roof, face.start, face.along, face.low, face.high):
            if span.pitch is None and span.high - span.low > BARE:
                return span
    return None


def cut_top(roof: Sequence[Wing], inner: FaceLine, outer: FaceLine) -> tuple[Top, ...]:
    """Return the top of a wall cut to the roof's underside, its two faces given as plan lines."""
    placed = [
        [
            (span, face.start, face.along)
            for span in profile(roof, face.start, face.along, face.low, face.high)
            if span.pitch is not None
        ]
        for face in (inner, outer)
    ]
    return _matched(placed[0], placed[1])


def wall_plate(run: WallRun, bearing: float, tops: Sequence[Top]) -> Plate:
    """Return the wall as a plate whose v is the height above elevation `bearing`. [m]"""
    pairs: list[Pair] = [
        ((run.inner[0], 0.0), (run.outer[0], 0.0)),
        ((run.inner[1], 0.0), (run.outer[1], 0.0)),
    ]
    pairs.extend(
        ((x.inner[0], x.inner[1] - bearing), (x.outer[0], x.outer[1] - bearing))
        for x in reversed(tops)
    )
    return Plate(boundary=loop_of(pairs))


def eave_plates(run: WallRun, roof: Sequence[Wing]) -> tuple[Member, ...]:
    """Return the plates that lie between a square wall top and the roof's underside."""
    stretch = run.stretch
    found: list[Member] = []
    middle = stretch.thickness / 2.0
    for span in profile(roof, stretch.at(0.0), stretch.edge.along, *run.outer):
        if span.pitch is None or not is_stepped(stretch, span.pitch):
            continue
        z = span.pitch.slope.at(stretch.at(span.low))
        a, b = stretch.at(span.low, middle), stretch.at(span.high, middle)
        found.append(
            Member(
                id=f"{run.wall}.eave_plate" + (f".{len(found) + 1}" if found else ""),
                kind="plate",
                start=(a[0], a[1], z),
                end=(b[0], b[1], z),
                up=(0.0, 0.0, 1.0),
                width=stretch.thickness,
                depth=span.pitch.eave_plate,
            )
        )
    return tuple(found)


def is_stepped(stretch: Stretch, pitch: Pitch | None) -> bool:
    """Return whether a slope rises inward from this very wall and rests on an eave plate."""
    if pitch is None or pitch.eave_plate <= 0.0:
        return False
    a, p = stretch.edge.along, pitch.along
    level = abs(a[0] * p[1] - a[1] * p[0]) < 1e-6 and a[0] * p[0] + a[1] * p[1] > 0.0
    return level and abs(pitch.slope.at(stretch.at(0.0)) - pitch.slope.at(pitch.foot)) < 1e-6


def _plated(run: WallRun, outer: Sequence[Span]) -> tuple[Top, ...]:
    stretch = run.stretch
    tops: list[Top] = []
    for i, span in enumerate(outer):
        if span.pitch is None:
            continue
        drop = span.pitch.eave_plate if is_stepped(stretch, span.pitch) else 0.0
        for u, end in ((span.low, i == 0), (span.high, i == len(outer) - 1)):
            z = span.pitch.slope.at(stretch.at(u)) - drop
            face = run.inner[0 if u == span.low else 1] if end else u
            tops.append(Top(inner=(face, z), outer=(u, z)))
    return tuple(tops)


_Placed = tuple[Span, Vec2, Vec2]


def _matched(inner: Sequence[_Placed], outer: Sequence[_Placed]) -> tuple[Top, ...]:
    """Return the two top lines with their vertices paired plane by plane.

    A plane that reaches only one face gets a point on the other, where its neighbors meet.
    """
    i = j = 0
    tops = [Top(inner=_height(inner[0], low=True), outer=_height(outer[0], low=True))]
    while i < len(inner) or j < len(outer):
        last = tops[-1]
        if i < len(inner) and j < len(outer) and _plane(inner[i]) == _plane(outer[j]):
            tops.append(Top(inner=_height(inner[i]), outer=_height(outer[j])))
            i, j = i + 1, j + 1
        elif i < len(inner) and _plane(inner[i]) not in [_plane(x) for x in outer[j:]]:
            tops.append(Top(inner=_height(inner[i]), outer=last.outer))
            i += 1
        else:
            tops.append(Top(inner=last.inner, outer=_height(outer[j])))
            j += 1
    return tuple(tops)


def _plane(placed: _Placed) -> int:
    pitch = placed[0].pitch
    return -1 if pitch is None else pitch.plane


def _height(placed: _Placed, *, low: bool = False) -> Vec2:
    span, start, along = placed
    u = span.low if low else span.high
    z = (
        0.0
        if span.pitch is None
        else span.pitch.slope.at((start[0] + u * along[0], start[1] + u * along[1]))
    )
    return (u, z)


def _uncovered(run: WallRun, bare: Span) -> Problem:
    return Problem(
        subject=f"wall {run.wall}",
        sentence=f"no roof covers wall {run.wall} from {{low}} to {{high}} along it",
        remedy="extend a roof part's area over it, or add a roof part",
        lengths=(("low", bare.low), ("high", bare.high)),
    )
