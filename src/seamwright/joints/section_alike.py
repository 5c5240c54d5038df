"""Joints that look alike: the same parts around them in the same places, one cut for all of them.

Two joints are alike when everything that a section looks at lies the same way from the start of
each. What lies far off along a straight part does not count: the part is taken as ending where the
section no longer sees it, but only where the cut runs square to it (or, for what merely stands by,
along it), since only then the far end can change nothing.
"""

from __future__ import annotations

import math
from collections.abc import Hashable, Iterable, Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

from seamwright.geometry.slice import Plate
from seamwright.geometry.types import Frame, Ring, Segment, Vec2, Vec3, dot
from seamwright.joints.section_parts import member_plate, panel_plate, support_plate
from seamwright.joints.section_timber import LET_IN
from seamwright.joints.section_view import farthest_stations
from seamwright.joints.types import Joint, Section, SectionShape
from seamwright.shell.types import Panel, Shell

Stretch: TypeAlias = tuple[float, float]
Box: TypeAlias = tuple[Stretch, Stretch, Stretch]

_DIGITS = 9
"""Places of a metre to which two joints must agree."""
_NEAR = 1e-6
"""A part this near to a cut may still meet it. [m]"""
_SQUARE = 1e-9
"""A direction cosine below this is square, one less than this from 1 is along."""


@dataclass(frozen=True, slots=True)
class Likeness:
    """What a section looks at, seen from the joint, and the names of the parts in that order."""

    key: Hashable
    names: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Body:
    """A part: its axes, the box around it in them, and what it is apart from its place.

    `straight` are the ring of its lower and that of its upper face as boxes, where both are; `bare`
    is then without a size, and else the whole shape seen from `origin`.
    """

    id: str
    frame: Frame
    box: Box
    straight: tuple[Box, Box] | None
    holes: tuple[Ring, ...]
    origin: Vec2
    bare: tuple[Hashable, ...]


class Likenesses:
    """Finds out which joints are alike; keeps what it worked out about each part."""

    def __init__(self) -> None:
        self._bodies: dict[tuple[str, str], _Body] = {}

    def of(self, joint: Joint, near: Shell, reach: float) -> Likeness | None:
        """Return the likeness of a joint with the parts of `near` around it. [m]

        None for a joint that is like no other: one around a service, or without a length.
        """
        if near.penetrations or joint.line.length < 1e-6:
            return None
        seen = _Seen(joint, reach)
        groups = (joint.panels, joint.others, joint.inner.timbers, joint.outer.timbers)
        wanted = {name for group in groups for name in group}
        names: list[str] = []
        keys: list[Hashable] = []
        for body in self._near(near):
            own = body.id in wanted
            key = seen.body(body, own=own, whole=own or body.bare[0] == "panel")
            if key is not None:
                names.append(body.id)
                keys.append(key)
        place = {name: number for number, name in enumerate(names)}
        start = joint.line.start
        return Likeness(
            key=(
                *(joint.kind, joint.contact, tuple(keys)),
                *(_line(line, start) for line in (joint.line, joint.inner.line, joint.outer.line)),
                *(tuple(place[name] for name in g if name in place) for g in groups),
            ),
            names=tuple(names),
        )

    def _near(self, near: Shell) -> list[_Body]:
        """Return the bodies of all parts, panels first; openings are bodies without thickness."""
        known = self._bodies
        for panel in near.panels:
            if ("panel", panel.id) not in known:
                known["panel", panel.id] = _body(panel.id, panel_plate(panel), _layers(panel))
        for support in near.supports:
            if ("body", support.id) not in known:
                bare = ("bearing", support.kind)
                known["body", support.id] = _body(support.id, support_plate(support), bare)
        for member in near.members:
            if ("body", member.id) not in known:
                known["body", member.id] = _body(member.id, member_plate(member), ("timber",))
        for one in near.openings:
            if ("opening", one.id) not in known:
                plate = Plate(frame=one.frame, lower=one.outline, upper=one.outline, thickness=0.0)
                known["opening", one.id] = _body(one.id, plate, ("opening",))
        return [
            *(known["panel", panel.id] for panel in near.panels),
            *(known["body", support.id] for support in near.supports),
            *(known["body", member.id] for member in near.members),
            *(known["opening", one.id] for one in near.openings),
        ]


def moved(section: Section, alike: Likeness, start: Vec3, joint: Joint, own: Likeness) -> Section:
    """Return the section of a joint, from that of one `alike` whose line begins at `start`. [m]"""
    named = dict(zip(alike.names, own.names, strict=True))
    o, by = section.frame.origin, joint.line.start
    origin = (o[0] - start[0] + by[0], o[1] - start[1] + by[1], o[2] - start[2] + by[2])
    return replace(
        section,
        joint_id=joint.id,
        frame=Frame(origin=origin, u=section.frame.u, v=section.frame.v),
        shapes=tuple(_renamed(shape, named) for shape in section.shapes),
    )


class _Seen:
    """How far the cuts of a joint see, and what they see of a part."""

    def __init__(self, joint: Joint, reach: float) -> None:
        a, b = joint.line.start, joint.line.end
        size = joint.line.length
        self._along = ((b[0] - a[0]) / size, (b[1] - a[1]) / size, (b[2] - a[2]) / size)
        self._ends = farthest_stations(joint)
        self._wide = reach * math.sqrt(2)

    def body(self, body: _Body, *, own: bool, whole: bool) -> Hashable | None:
        """Return where a part lies, seen from the joint; None where no cut comes near it.

        `own` is a part that the joint joins; of one that is `whole` the full breadth counts.
        """
        frame, wide = body.frame, self._wide
        a, b = frame.local(self._ends[0]), frame.local(self._ends[1])
        first = (min(a[0], b[0]) - wide, min(a[1], b[1]) - wide, min(a[2], b[2]) - wide)
        last = (max(a[0], b[0]) + wide, max(a[1], b[1]) + wide, max(a[2], b[2]) + wide)
        if not own and any(
            high < first[k] or low > last[k] for k, (low, high) in enumerate(body.box)
        ):
            return None
        cosines = [dot(axis, self._along) for axis in (frame.u, frame.v, frame.n)]
        if not own and body.bare[0] != "opening" and self._is_missed(body.box, a, cosines):
            return None
        if body.straight is None:
            x, y = body.origin
            return (body.bare, _rounded((a[0] - x, a[1] - y, a[2])))
        square = [abs(part) < _SQUARE for part in cosines]
        along = [abs(part) > 1.0 - _SQUARE for part in cosines]
        spans: list[float] = []
        for face in body.straight:
            for k, (low, high) in enumerate(face):
                ends = along[k] or (square[k] and not whole)
                near, far = (max(low, first[k]), min(high, last[k])) if ends else (low, high)
                spans += (round(near - a[k], _DIGITS), round(far - a[k], _DIGITS))
        runs = next((k for k in (0, 1) if along[k]), None)
        holes = [
            _ring(hole, (a[0], a[1]))
            for hole in body.holes
            if runs is None
            or (
                min(p[runs] for p in hole) < last[runs] and max(p[runs] for p in hole) > first[runs]
            )
        ]
        return (body.bare, tuple(spans), tuple(holes))

    def _is_missed(self, box: Box, a: Vec3, cosines: Sequence[float]) -> bool:
        """Return whether no cut, however wide, can meet a box: it lies beyond the last of them."""
        nearest = farthest = 0.0
        for (low, high), at, part in zip(box, a, cosines, strict=True):
            ends = ((low - at) * part, (high - at) * part)
            nearest += min(ends)
            farthest += max(ends)
        return farthest < -_NEAR or nearest > math.dist(*self._ends) + _NEAR


def _meets(places: Sequence[float], window: Stretch) -> bool:
    return min(places) < window[1] and max(places) > window[0]


def _layers(panel: Panel) -> tuple[Hashable, ...]:
    layers = (panel.thickness, panel.skin_inner, panel.skin_outer)
    return ("panel", panel.build_id, panel.role == "partition", layers)


def _body(name: str, plate: Plate, sort: tuple[Hashable, ...]) -> _Body:
    """Return a part as the cuts see it; `sort` says what it is, whatever its size."""
    corners = plate.lower + plate.upper
    us, vs = [p[0] for p in corners], [p[1] for p in corners]
    turn = _rounded(plate.frame.u), _rounded(plate.frame.v)
    low, high = _box(plate.lower, plate.thickness), _box(plate.upper, plate.thickness)
    straight = None if low is None or high is None else (low, high)
    first = plate.lower[0]
    rings = (plate.lower, plate.upper, *plate.holes)
    size = (plate.thickness, *(_ring(ring, first) for ring in rings)) if straight is None else ()
    begins = () if straight is None else (_begin(plate.lower), _begin(plate.upper))
    return _Body(
        id=name,
        frame=plate.frame,
        box=((min(us), max(us)), (min(vs), max(vs)), (0.0, plate.thickness)),
        straight=straight,
        holes=plate.holes,
        origin=first,
        bare=(*sort, turn, begins, size),
    )


def _box(ring: Ring, thickness: float) -> Box | None:
    """Return a ring with four corners and sides along the axes as a box, or None."""
    us, vs = sorted({p[0] for p in ring}), sorted({p[1] for p in ring})
    if len(ring) != 4 or len(us) != 2 or len(vs) != 2:
        return None
    return ((us[0], us[1]), (vs[0], vs[1]), (0.0, thickness))


def _begin(ring: Ring) -> tuple[Vec2, ...]:
    """Return at which corners of its box a ring begins, which tells its way around too."""
    us, vs = sorted({p[0] for p in ring}), sorted({p[1] for p in ring})
    return tuple((float(us.index(p[0])), float(vs.index(p[1]))) for p in ring)


def _renamed(shape: SectionShape, named: dict[str, str]) -> SectionShape:
    owner = named.get(shape.owner)
    if owner is None:
        panel = shape.owner.removesuffix(LET_IN)
        owner = named.get(panel, panel) + shape.owner[len(panel) :]
    return SectionShape(outline=shape.outline, material=shape.material, owner=owner)


def _line(line: Segment | None, start: Vec3) -> Hashable:
    if line is None:
        return None
    ends = (line.start, line.end)
    return tuple(_rounded((p[0] - start[0], p[1] - start[1], p[2] - start[2])) for p in ends)


def _ring(ring: Sequence[Vec2], origin: Vec2) -> Hashable:
    return tuple(_rounded((p[0] - origin[0], p[1] - origin[1])) for p in ring)


def _rounded(values: Iterable[float]) -> tuple[float, ...]:
    return tuple(round(value, _DIGITS) for value in values)
