"""The joints of a house gathered into types that get wet alike, with what each leaks."""

from __future__ import annotations

import itertools
import math
from collections.abc import Hashable, Mapping, Sequence
from dataclasses import replace

from seamwright.geometry.types import Segment, Vec3
from seamwright.joints.types import Joint
from seamwright.leakage.combine import TEST_PRESSURE, flow_of_area
from seamwright.leakage.places import Layer, Place
from seamwright.leakage.prior_rows import BARE_LINES, LINE_SEALS, Workmanship
from seamwright.moisture.air_ways import EXPONENT, in_series
from seamwright.report.dryness_types import Asked, DryJoint, JointLines
from seamwright.report.house import SealedHouse
from seamwright.report.joint_cut import JointCut, cut_joint
from seamwright.report.joint_heat import bounds_room, likeness, title_of
from seamwright.report.leak_places import leak_places
from seamwright.report.section_grid import LEFT_OUT, Cutter, cutter_of
from seamwright.report.words import KINDS
from seamwright.seals.types import Dam

OPEN = math.inf
CONTACT = 0.001
"""Width of a channel between parts that touch, or beside foam. [m] common practice, no source"""

_STRIPS: tuple[Layer, ...] = ("strip_inner", "strip_outer")
_BETWEEN: tuple[Layer, ...] = ("beads", "foam", "gasket")
_AT = 0.15
"""How near to a node a dam stops what comes from the seam. [m] common practice, no source"""

_SLOPE = math.radians(30.0)
"""Slope of the roof above a joint without a roof panel: only its sky matters. [rad] common
practice, no source"""

_ROOF_LINES = ("ridge", "hip", "roof_spline", "eave")
MAIN_KINDS = (*_ROOF_LINES, "wall_spline")
"""Kinds among which `main_joints` chooses."""

_TRIES = 3
"""Joints of a type that are tried for a clean cut. [-] common practice, no source"""

_EIGHTH = math.pi / 4
_LEVEL = 0.05
"""Sine of the slope below which a panel looks nowhere but up or down. [-] common practice, no
source"""

COMPASS = ("north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west")
"""Eighths of the compass, clockwise from north."""


def dry_joints(house: SealedHouse, asked: Asked, *, south: bool = False) -> tuple[DryJoint, ...]:
    """Return the types of joint of a house, from the ground up; `south` of the equator the midday
    sun stands in the north.

    Joints are of one type when they conduct alike (see `heat_types`), carry the same seals in
    their channel and, where that is asked for, look the same way. Windows, doors, pipes and flues
    are left out: the plan has no section of them.
    """
    cutter = cutter_of(house.shell, house.register)
    places = {place.id: place for place in leak_places(house)}
    groups: dict[Hashable, list[Joint]] = {}
    for joint in house.register.joints:
        if joint.kind in LEFT_OUT or joint.id not in places or not bounds_room(house.shell, joint):
            continue
        if not asked.kinds or joint.kind in asked.kinds:
            looks = _facing(house, joint, south=south) if asked.facing == "real" else None
            key = (likeness(house.shell, joint), _channel(places[joint.id]), looks)
            groups.setdefault(key, []).append(joint)
    order = {kind: place for place, kind in enumerate(KINDS)}
    ordered = sorted(groups.items(), key=lambda item: (order[item[1][0].kind], repr(item[0])))
    found: list[DryJoint] = []
    for _, joints in ordered:
        joints.sort(key=lambda j: (-j.length, j.id))
        cut = _best_cut(cutter, joints, asked)
        if {"inside", "outside"} <= {e.side for e in cut.plain.exposures}:
            name = f"J{len(found) + 1}"
            made = _dry_joint(house, joints, cut, places, asked, name)
            found.append(_looking(made, _facing(house, joints[0], south=south), asked))
    return tuple(found)


def main_joints(joints: Sequence[DryJoint]) -> list[DryJoint]:
    """Return the type that matters most, where room air leaves: the highest roof line (of those as
    high the ridge, then hip, roof spline, eave), without any the highest wall spline.
    """

    def rank(one: DryJoint) -> tuple[float, int]:
        kind = one.joint.kind
        return (round(one.heights[1], 1), -_ROOF_LINES.index(kind) if kind in _ROOF_LINES else 0)

    roofs = [one for one in joints if one.joint.kind in _ROOF_LINES]
    walls = [one for one in joints if one.joint.kind == "wall_spline"]
    return [max(found, key=rank) for found in (roofs, walls) if found][:1]


def lines_of(place: Place, workmanship: Workmanship) -> JointLines:
    """Return what the parts of a joint leak alone. [m³/(h·m) at 50 Pa]

    The bare contact of the table is that of the whole joint; it is taken as two like cracks, one
    on each face (common practice, no source).
    """

    def leak(area: float) -> float:
        return 3600.0 * flow_of_area(area, TEST_PRESSURE, EXPONENT)

    crack = leak(BARE_LINES[place.kind].area(workmanship)) * 2.0**EXPONENT
    inner, outer = (leak(LINE_SEALS[key].area(workmanship)) for key in _STRIPS)
    between = [leak(LINE_SEALS[key].area(workmanship)) for key in _channel(place)]
    return JointLines(
        crack=crack,
        strip_inner=inner,
        strip_outer=outer,
        between=in_series((OPEN, *between), EXPONENT),
    )


def _channel(place: Place) -> tuple[Layer, ...]:
    return tuple(layer for layer in place.layers if layer in _BETWEEN)


def _looking(joint: DryJoint, facing: float, asked: Asked) -> DryJoint:
    """Return a joint with the way it looks, where that is asked for."""
    if asked.facing != "real":
        return joint
    word = COMPASS[round(facing / _EIGHTH) % 8]
    return replace(joint, facing=facing, title=f"{joint.title}, facing {word}")


def _facing(house: SealedHouse, joint: Joint, *, south: bool) -> float:
    """Return the eighth of the compass a joint looks to, clockwise from north: of its panels' that
    which is farthest from the midday sun. [rad]
    """
    normals = [p.frame.n for p in house.shell.panels if p.id in joint.panels]
    away = math.pi if south else 0.0
    found = [
        _EIGHTH * round(math.atan2(n[0], n[1]) / _EIGHTH) % math.tau
        for n in normals
        if math.hypot(n[0], n[1]) > _LEVEL
    ]
    return min(found, key=lambda way: abs(math.remainder(way - away, math.tau)), default=away)


def _best_cut(cutter: Cutter, joints: Sequence[Joint], asked: Asked) -> JointCut:
    """Return the cut of the first of the longest joints that no other joint comes close to."""
    first = cut_joint(cutter, joints[0], fine=asked.fine, parts=asked.parts)
    cut = first
    for joint in joints[1:_TRIES]:
        if cut.seam is not None and not any("another joint" in note for note in cut.plain.notes):
            return cut
        cut = cut_joint(cutter, joint, fine=asked.fine, parts=asked.parts)
    clean = cut.seam is not None and not any("another joint" in note for note in cut.plain.notes)
    return cut if clean else first


def _dry_joint(  # noqa: PLR0917 one record from all that is known
    house: SealedHouse, joints: Sequence[Joint], cut: JointCut, places: Mapping[str, Place],
    asked: Asked, name: str,
) -> DryJoint:  # fmt: skip
    joint = cut.joint
    ground = _ground(house)
    ends = [end[2] - ground for j in joints for end in _ends(j)]
    filled = {fill.joint_id for fill in house.schedule.fills}
    widths = {
        face: max([s.width for s in house.schedule.strips
                   if s.joint_id == joint.id and s.face == face and s.width is not None],
                  default=asked.strip_width)
        for face in ("inner", "outer")
    }  # fmt: skip
    dams = house.schedule.dams if asked.dams else ()
    return DryJoint(
        name=name,
        title=title_of(joint),
        joint=joint,
        joint_ids=tuple(j.id for j in joints),
        length=math.fsum(j.length for j in joints),
        cut=cut,
        lines=lines_of(places[joint.id], asked.workmanship),
        heights=(min(ends), max(ends)),
        run=max(_run(joint, dams), _own_rise(cut)),
        feeders=_feeders(house, joint, dams),
        feeder_run=_feeder_run(house, joint, dams),
        gap=CONTACT if joint.id in filled else max(joint.gap, CONTACT),
        tilt=_tilt(house, joint),
        strip_inner=widths["inner"],
        strip_outer=widths["outer"],
        why_not=_why_not(cut),
    )


def _why_not(cut: JointCut) -> str:
    if cut.seam is not None:
        return ""
    if cut.section.inner is None:
        return "one skin runs by on both faces: no way for air between its parts"
    if cut.section.outer is None:
        return "the outer skin runs by: no way for air through it"
    return "its section shows no way for air between its parts"


def _ends(joint: Joint) -> tuple[Vec3, Vec3]:
    line: Segment = joint.line if joint.inner.line is None else joint.inner.line
    return line.start, line.end


def _ground(house: SealedHouse) -> float:
    return min(
        p.frame.origin[2] + u * p.frame.u[2] + v * p.frame.v[2]
        for p in house.shell.panels
        for u, v in p.inner
    )


def house_height(house: SealedHouse) -> float:
    """Return the height of the rooms, from the lowest to the highest inner corner. [m]"""
    top = max(
        p.frame.origin[2] + u * p.frame.u[2] + v * p.frame.v[2]
        for p in house.shell.panels
        for u, v in p.inner
    )
    return top - _ground(house)


def _run(joint: Joint, dams: Sequence[Dam]) -> float:
    """Return the greatest rise of a joint between two dams or ends. [m]"""
    start, end = _ends(joint)
    low, high = sorted((start[2], end[2]))
    stops = sorted(min(max(d.at[2], low), high) for d in dams if d.joint_id == joint.id)
    marks = [low, *stops, high]
    return max(b - a for a, b in itertools.pairwise(marks))


def _own_rise(cut: JointCut) -> float:
    """Return how far the way of the air rises within the section. [m]"""
    if cut.seam is None:
        return 0.0
    frame = cut.section.frame
    rise = cut.grid.points[cut.seam.cells] @ [frame.u[2], frame.v[2]]
    return float(rise.max() - rise.min())


def _fed_by(house: SealedHouse, joint: Joint, dams: Sequence[Dam]) -> list[Joint]:
    """Return the roof seams that run into a ridge or hip without a dam before it."""
    if joint.kind not in {"ridge", "hip"}:
        return []
    by_id = {j.id: j for j in house.register.joints}
    found = {}
    for node in house.register.nodes:
        if joint.id not in node.joints:
            continue
        for other in (by_id[i] for i in node.joints if i in by_id):
            near = [d for d in dams if d.joint_id == other.id and math.dist(d.at, node.at) < _AT]
            if other.kind == "roof_spline" and not near:
                found[other.id] = other
    return list(found.values())


def _feeders(house: SealedHouse, joint: Joint, dams: Sequence[Dam]) -> float:
    return len(_fed_by(house, joint, dams)) / max(joint.length, 0.1)


def _feeder_run(house: SealedHouse, joint: Joint, dams: Sequence[Dam]) -> float:
    return max((_run(seam, dams) for seam in _fed_by(house, joint, dams)), default=0.0)


def _tilt(house: SealedHouse, joint: Joint) -> float:
    roofs = [p for p in house.shell.panels if p.id in joint.panels and p.role == "roof"]
    if not roofs:
        return _SLOPE
    slope = math.acos(min(1.0, max(p.frame.n[2] for p in roofs)))
    return math.radians(5.0 * round(math.degrees(slope) / 5.0))
