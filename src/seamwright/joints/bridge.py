"""Line ends on faces where nothing goes on, and the breaks that join them: a panel is missing.

A missing wall leaves no edge on the slab or under the roof, only two lines that stop. They are
taken in pairs, and the break runs the short way over the faces between them: straight in one
plane, over the fold where the two faces meet in a ridge, hip or valley.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

from seamwright.geometry.types import Segment, Vec3, dot
from seamwright.joints.account import Corner
from seamwright.joints.draft import Draft
from seamwright.joints.gather import INNER
from seamwright.joints.types import Break

Plane: TypeAlias = tuple[int, ...]
Folds: TypeAlias = Mapping[frozenset[Plane], Sequence[Segment]]

_NOTHING = 0.001
"""A piece of a break shorter than this is its end on the fold. [m]"""


@dataclass(frozen=True, kw_only=True, slots=True)
class OpenEnd:
    """The end of a line on a face where no other line goes on.

    `way` leads onward along the line. `panel` is the face's panel number, -1 for a support, and
    `house` any number shared by all that joints connect. `plane` is equal for faces in one plane.
    """

    joint_id: str
    draft: Draft
    host: str
    panel: int
    house: int
    plane: Plane
    at: Vec3
    way: Vec3


@dataclass(frozen=True, kw_only=True, slots=True)
class Bridge:
    """One straight piece of a break on one face, from the line end `end` or the fold. [m]"""

    end: OpenEnd
    other: OpenEnd
    line: Segment


def bridge_open_ends(ends: Sequence[OpenEnd], folds: Folds) -> list[Bridge]:
    """Return the pieces of the breaks between line ends: pairs in one plane before others.

    `folds` gives the lines in which panels of two planes meet. An end without a
    partner keeps a piece of no length, so that its place is still told. [m]
    """
    houses: dict[int, list[OpenEnd]] = defaultdict(list)
    for end in sorted(ends, key=lambda end: (end.joint_id, end.at)):
        houses[end.house].append(end)
    bridges = []
    for group in houses.values():
        left = list(range(len(group)))
        for same_plane in (True, False):
            for a, b in _pairs(group, left, same_plane=same_plane):
                if a in left and b in left:
                    left.remove(a)
                    left.remove(b)
                    bridges += _pieces(group[a], group[b], folds)
        for at in left:
            end = group[at]
            bridges.append(Bridge(end=end, other=end, line=Segment(start=end.at, end=end.at)))
    return bridges


def as_breaks(bridges: Sequence[Bridge]) -> list[Break]:
    """Return the bridges as breaks of the inner line."""
    return [
        Break(
            face="inner",
            panel_id=bridge.end.host,
            line=bridge.line,
            reason=_reason(bridge),
            remedy="set the missing panel, or carry the line on to the next joint",
        )
        for bridge in bridges
    ]


def as_bounds(
    bridges: Sequence[Bridge], planes: Mapping[tuple[int, Plane], Sequence[int]]
) -> dict[int, list[Corner]]:
    """Return the bridges on panels as lines that bound the room, like the joints they replace.

    `planes` lists the panels of one house in one plane: a break may run over several of them.
    """
    found: dict[int, list[Corner]] = defaultdict(list)
    for bridge in bridges:
        if bridge.line.length <= 0.0:
            continue
        along = _unit(_minus(bridge.line.end, bridge.line.start))
        stand_in = replace(
            bridge.end.draft,
            inner=bridge.line,
            along=along,
            room=_room(bridge.end, along),
            surface=(INNER, bridge.end.panel),
        )
        corner = Corner(draft=stand_in, joint_id=f"the break past {bridge.end.joint_id}")
        for panel in planes.get((bridge.end.house, bridge.end.plane), ()):
            found[panel].append(corner)
    return found


def _pairs(
    group: Sequence[OpenEnd], left: Sequence[int], *, same_plane: bool
) -> list[tuple[int, int]]:
    """Return pairs of ends, the nearest first, without those that look away from each other."""
    rows = [
        (math.dist(group[a].at, group[b].at), a, b)
        for a in left
        for b in left
        if a < b
        and (not same_plane or group[a].plane == group[b].plane)
        and not _look_away(group[a], group[b])
    ]
    return [(a, b) for _, a, b in sorted(rows)]


def _look_away(a: OpenEnd, b: OpenEnd) -> bool:
    step = _minus(b.at, a.at)
    slack = 0.01 * math.dist(a.at, b.at)
    return dot(step, a.way) < -slack and dot(step, b.way) > slack


def _pieces(a: OpenEnd, b: OpenEnd, folds: Folds) -> list[Bridge]:
    known = folds.get(frozenset((a.plane, b.plane)), ())
    if a.plane == b.plane or not known:
        return [Bridge(end=a, other=b, line=Segment(start=a.at, end=b.at))]
    fold = min(known, key=lambda line: math.dist(line.middle, a.at) + math.dist(line.middle, b.at))
    top = _over(a.at, b.at, fold)
    pieces = [
        Bridge(end=a, other=b, line=Segment(start=a.at, end=top)),
        Bridge(end=b, other=a, line=Segment(start=b.at, end=top)),
    ]
    return [piece for piece in pieces if piece.line.length > _NOTHING]


def _over(a: Vec3, b: Vec3, fold: Segment) -> Vec3:
    """Return where the shortest way from `a` to `b` over a fold crosses it."""
    along = _unit(_minus(fold.end, fold.start))
    off_a, off_b = _minus(a, fold.start), _minus(b, fold.start)
    foot_a, foot_b = dot(off_a, along), dot(off_b, along)
    far_a = math.sqrt(max(dot(off_a, off_a) - foot_a**2, 0.0))
    far_b = math.sqrt(max(dot(off_b, off_b) - foot_b**2, 0.0))
    whole = far_a + far_b
    place = foot_a if whole <= 0.0 else (foot_a * far_b + foot_b * far_a) / whole
    s = fold.start
    return (s[0] + place * along[0], s[1] + place * along[1], s[2] + place * along[2])


def _room(end: OpenEnd, along: Vec3) -> Vec3:
    """Return the direction to the room, square to a break that goes on from a line end.

    Where the break turns off the line, the room lies on the side the line came from.
    """
    back = (-end.way[0], -end.way[1], -end.way[2])
    lean = dot(back, along)
    across = tuple(x - lean * y for x, y in zip(back, along, strict=True))
    if math.sqrt(sum(x * x for x in across)) > 0.5:
        return _unit((across[0], across[1], across[2]))
    return end.draft.room


def _reason(bridge: Bridge) -> str:
    end, other = bridge.end, bridge.other
    where = f"past {end.joint_id}"
    if other is not end:
        where = f"between {end.joint_id} and {other.joint_id}"
    return f"nothing stands against {end.host} {where}"


def _minus(a: Vec3, b: Vec3) -> Vec3:
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


def _unit(a: Vec3) -> Vec3:
    size = math.sqrt(dot(a, a))
    return a if size <= 0.0 else (a[0] / size, a[1] / size, a[2] / size)
