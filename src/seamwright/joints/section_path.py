"""The way a strip takes on one face of a cut joint, from sound skin to sound skin.

Three cases. Edge to edge: straight from one skin's end to the other's. Edge to face: from the
skin's end straight on to the face it stands against; the lap lies there when that face runs on far
enough, otherwise the way goes on around the end of the panel to its other skin. Over a timber that
lies along the line: out to both sides of the timber, over its top.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from seamwright.geometry.slice import Span
from seamwright.geometry.types import Vec2
from seamwright.joints.section_parts import BodyCut, PanelCut
from seamwright.joints.types import FaceName, SkinPath

RUN_ON = 0.0508
"""Least length of face beyond a joint that can take a lap. [m] 2 in, common practice, no source."""

BESIDE = 0.10
"""A timber whose top is farther than this below the skin does not hide it. [m] Common practice, no
source."""

_SAME = 1e-6
_FLAT = 0.25
_OPPOSED = -0.5
_CLEARANCE = 0.01
_IN_LINE = 0.003
_NEXT = 0.020


def edge_to_edge(a: PanelCut, b: PanelCut, face: FaceName) -> SkinPath | None:
    """Return the path from the end of one skin straight to the end of the other.

    None where the same face lies on opposite sides of the two panels: no strip runs through them.
    """
    if _dot(a.out, b.out) < _OPPOSED:
        return None
    (end_a, land_a), (end_b, land_b) = near_end(a.face(face)), near_end(b.face(face))
    return _path([end_a, end_b], land_a, land_b)


def edge_to_face(
    butting: PanelCut, through: PanelCut, face: FaceName, around: Sequence[PanelCut] = ()
) -> SkinPath | None:
    """Return the path from a panel's skin to the panel it stands against.

    `around` are the other panels of the cut: a neighbor that carries the face on, in line or at an
    angle, takes the lap as well; one that blocks the end of the through panel otherwise leaves no
    way around it, and the answer is None.
    """
    end, land = near_end(butting.face(face))
    contact, other = _contact(butting, through)
    side = _times(butting.out, -1.0 if face == "inner" else 1.0)
    start, stop = _toward(_carried_on(through.face(contact), around), side)
    foot = _clamp(_meet(end, land, start, stop), start, stop)
    if math.dist(foot, stop) >= RUN_ON:
        return _path([end, foot], land, _unit(_minus(stop, start)))
    beyond = _turning_on(stop, side, contact, around)
    if beyond is not None:
        return _path([end, foot, stop], land, beyond)
    far_start, far_stop = _toward(through.face(other), side)
    middle = _times(_plus(stop, far_stop), 0.5)
    if any(_holds(cut, _plus(middle, _times(side, _CLEARANCE))) for cut in around):
        return None
    back = _unit(_minus(far_start, far_stop))
    return _path([end, foot, stop, far_stop], land, back)


def edge_to_body(butting: PanelCut, body: BodyCut, face: FaceName) -> SkinPath:
    """Return the path from a panel's skin to the bearing it meets, from above or from below.

    Beyond an edge of the bearing too close for a lap the way turns down its side; where that side
    is too thin as well (a deck) it goes on across to what stands on the other side.
    """
    end, land = near_end(butting.face(face))
    above = _dot(land, body.up) >= 0
    side = _times(butting.out, -1.0 if face == "inner" else 1.0)
    start, stop = _toward(body.top if above else body.bottom, side)
    foot = _clamp(_meet(end, land, start, stop), start, stop)
    if math.dist(foot, stop) >= RUN_ON:
        return _path([end, foot], land, _unit(_minus(stop, start)))
    _, far = _toward(body.bottom if above else body.top, side)
    along_side = _times(body.up, -1.0 if above else 1.0)
    if math.dist(stop, far) >= RUN_ON:
        return _path([end, foot, stop], land, along_side)
    return _path([end, foot, stop, far], land, along_side)


def around_hole(panel: PanelCut, face: FaceName, *, inward: bool) -> SkinPath:
    """Return the path at the rim of a hole: one point, a lap on the skin and one on the filling.

    `inward` lays the second lap into the depth of the hole (a buck), otherwise along the service
    that stands out of it.
    """
    end, land = near_end(panel.face(face))
    into = panel.out if (face == "inner") == inward else _times(panel.out, -1.0)
    return _path([end], land, into)


def behind(low: Vec2, high: Vec2) -> SkinPath:
    """Return the path on a face behind something that stands against it between two feet."""
    along = _unit(_minus(high, low))
    return _path([low, high], _times(along, -1.0), along)


def draped(path: SkinPath, timber: BodyCut) -> SkinPath:
    """Return `path` led out to both sides of a timber that lies along it, over the timber's top.

    Where the timber's top stands into the skins (a beam backed to the slopes) the way follows the
    skins; where it lies below them it goes down to the timber's edge and across. A timber that is
    not under the skins leaves the path as it is.
    """
    up = timber.up
    across = (up[1], -up[0])
    places = sorted(_dot(p, across) for p in timber.outline)
    top = max(_dot(p, up) for p in timber.outline)
    ends = [(path.path[0], path.lands[0]), (path.path[-1], path.lands[1])]
    outs, drops, corners = [], [], []
    for end, land in ends:
        way = _dot(land, across)
        if abs(way) < _FLAT:
            return path
        edge = places[-1] if way > 0 else places[0]
        t = (edge - _dot(end, across)) / way
        out = _plus(end, _times(land, t))
        drops.append(_dot(out, up) - top)
        outs.append(out)
        corners.append(_plus(_times(across, edge), _times(up, top)))
        if t < -_SAME or drops[-1] > BESIDE:
            return path
    backed = min(drops) < -_SAME
    middle = list(path.path) if backed else corners
    return _path([outs[0], *middle, outs[1]], *path.lands)


def near_end(span: Span) -> tuple[Vec2, Vec2]:
    """Return the end of a stretch nearer the joint, and the direction away from it."""
    a, b = span
    if math.hypot(*b) < math.hypot(*a):
        a, b = b, a
    return a, _unit(_minus(b, a))


def contact_error(butting: PanelCut, through: PanelCut) -> float:
    """Return how far the near edge of `butting` stands off a face of `through`. [m]"""
    return min(_edge_error(butting, through.inner), _edge_error(butting, through.outer))


def feet(panel: PanelCut, through: PanelCut) -> tuple[Vec2, Vec2]:
    """Return where both faces of `panel` meet the face of `through` they stand against."""
    contact, _ = _contact(panel, through)
    start, stop = through.face(contact)
    low, high = (
        _clamp(_meet(end, land, start, stop), start, stop)
        for end, land in (near_end(panel.inner), near_end(panel.outer))
    )
    return low, high


def foot_on(span: Span, point: Vec2) -> Vec2:
    """Return the point of a stretch nearest to `point`."""
    return _clamp(point, *span)


def _carried_on(span: Span, around: Sequence[PanelCut]) -> Span:
    """Return a stretch of a face with those that carry it on in line."""
    start, stop = span
    along = _unit(_minus(stop, start))
    size = math.dist(start, stop)
    low, high = 0.0, size
    faces = [cut.face(name) for cut in around for name in ("inner", "outer")]
    for _ in faces:
        for a, b in faces:
            off = [_minus(p, start) for p in (a, b)]
            if max(abs(x * along[1] - y * along[0]) for x, y in off) > _IN_LINE:
                continue
            near, far = sorted(_dot(d, along) for d in off)
            if near <= high + _NEXT and far >= low - _NEXT:
                low, high = min(low, near), max(high, far)
    return (_plus(start, _times(along, low)), _plus(start, _times(along, high)))


def _turning_on(stop: Vec2, side: Vec2, face: FaceName, around: Sequence[PanelCut]) -> Vec2 | None:
    """Return the direction in which another panel carries a face on from its end at an angle."""
    for cut in around:
        for a, b in (cut.face(face), cut.face(face)[::-1]):
            way = _unit(_minus(b, a))
            if math.dist(a, stop) <= _NEXT and math.dist(a, b) >= RUN_ON and _dot(way, side) > 0:
                return way
    return None


def _holds(cut: PanelCut, point: Vec2) -> bool:
    """Return whether a point lies within a panel of the cut."""
    (a, b), (c, d) = cut.inner, cut.outer
    if _dot(_minus(b, a), _minus(d, c)) < 0:
        c, d = d, c
    ring = (a, b, d, c)
    turns = [
        (q[0] - p[0]) * (point[1] - p[1]) - (q[1] - p[1]) * (point[0] - p[0])
        for p, q in zip(ring, (*ring[1:], ring[0]), strict=True)
    ]
    return all(t > 0 for t in turns) or all(t < 0 for t in turns)


def _contact(butting: PanelCut, through: PanelCut) -> tuple[FaceName, FaceName]:
    """Return the face of `through` that `butting` stands against, and the other one."""
    inner = _edge_error(butting, through.face("inner"))
    outer = _edge_error(butting, through.face("outer"))
    return ("inner", "outer") if inner <= outer else ("outer", "inner")


def _edge_error(butting: PanelCut, span: Span) -> float:
    ends = (near_end(butting.inner)[0], near_end(butting.outer)[0])
    return math.fsum(math.dist(end, _clamp(end, *span)) for end in ends)


def _path(points: list[Vec2], land_a: Vec2, land_b: Vec2) -> SkinPath:
    kept = [points[0]]
    for point in points[1:]:
        if len(kept) > 1 and _turns_back(kept[-2], kept[-1], point):
            kept.pop()
        if math.dist(point, kept[-1]) > _SAME:
            kept.append(point)
    return SkinPath(path=tuple(kept), lands=(land_a, land_b))


def _turns_back(a: Vec2, b: Vec2, c: Vec2) -> bool:
    """Tell whether the way from `a` over `b` to `c` runs back on itself: no strip does."""
    there, back = _minus(b, a), _minus(c, b)
    size = math.hypot(*there) * math.hypot(*back)
    return size > 0.0 and _dot(there, back) < -0.999 * size


def _meet(point: Vec2, way: Vec2, start: Vec2, stop: Vec2) -> Vec2:
    """Return where the line through `point` meets the line of a stretch; its foot if too flat."""
    along = _unit(_minus(stop, start))
    turn = way[0] * along[1] - way[1] * along[0]
    to = _minus(start, point)
    if abs(turn) < _FLAT:
        return _plus(start, _times(along, _dot(_minus(point, start), along)))
    t = (to[0] * along[1] - to[1] * along[0]) / turn
    return _plus(point, _times(way, t))


def _toward(span: Span, side: Vec2) -> Span:
    """Return the stretch turned so that it runs to `side`."""
    a, b = span
    return (a, b) if _dot(_minus(b, a), side) >= 0 else (b, a)


def _clamp(point: Vec2, start: Vec2, stop: Vec2) -> Vec2:
    size = math.dist(start, stop)
    along = _times(_minus(stop, start), 1.0 / size)
    t = min(size, max(0.0, _dot(_minus(point, start), along)))
    return _plus(start, _times(along, t))


def _minus(a: Vec2, b: Vec2) -> Vec2:
    return (a[0] - b[0], a[1] - b[1])


def _plus(a: Vec2, b: Vec2) -> Vec2:
    return (a[0] + b[0], a[1] + b[1])


def _times(a: Vec2, t: float) -> Vec2:
    return (a[0] * t, a[1] * t)


def _dot(a: Vec2, b: Vec2) -> float:
    return a[0] * b[0] + a[1] * b[1]


def _unit(a: Vec2) -> Vec2:
    return _times(a, 1.0 / math.hypot(*a))
