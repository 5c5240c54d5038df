"""The places where a sealed house can leak: its joints, nodes, services and window units."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Mapping
from itertools import pairwise
from types import MappingProxyType

from seamwright.geometry.types import Ring, Segment
from seamwright.joints.types import FaceLine, Joint, JointKind, Node
from seamwright.leakage.places import Layer, Place
from seamwright.report.house import SealedHouse
from seamwright.shell.types import Opening, Shell

CONSEQUENCE: Mapping[JointKind, float] = MappingProxyType(
    {
        "ridge": 5.0,
        "hip": 5.0,
        "valley": 5.0,
        "roof_spline": 5.0,
        "eave": 5.0,
        "rake": 5.0,
        "roof_step": 5.0,
        "sill": 4.0,
        "opening": 3.0,
    }
)
"""What a leak does to the wood, from 1 (a door sweep) to 5 (roof, where indoor air condenses in
hidden wood): `common practice, no source`; joints that are not named weigh 2."""

_LAYERS: tuple[Layer, ...] = ("strip_inner", "strip_outer", "beads", "foam", "gasket", "patch",
                              "collar")  # fmt: skip


def leak_places(house: SealedHouse, *, crew: str = "") -> tuple[Place, ...]:
    """Return every place of a house that may leak, with the seals planned there.

    A joint leaks along its inner line, the part within the air boundary; a penetration is one
    place by the kind of its service; every window, door, skylight and hatch adds its own unit
    (``<opening>/unit``), which no seal of this schedule reaches. Joints that the plan ignores are
    left out. Heights are above the lowest panel. `crew` is who makes all of it, until records say
    otherwise.
    """
    ignored = {o.joint for o in house.plan.overrides if o.ignore}
    joints = [joint for joint in house.register.joints if joint.id not in ignored]
    layers = _layers(house)
    ground = _ground(house.shell)
    services = {service.id: service.kind for service in house.shell.penetrations}
    weight = {joint.id: CONSEQUENCE.get(joint.kind, 2.0) for joint in joints}
    patched: dict[str, tuple[Layer, ...]] = {p.node_id: ("patch",) for p in house.schedule.patches}
    lines = [
        _joint_place(
            joint,
            layers=layers[joint.id],
            ground=ground,
            services=services,
            weight=weight[joint.id],
            crew=crew,
        )
        for joint in joints
    ]
    nodes = [
        _node_place(node, patched.get(node.id, ()), ground, weight, crew)
        for node in house.register.nodes
        if any(joint_id in weight for joint_id in node.joints)
    ]
    units = [_unit_place(opening, ground, crew) for opening in house.shell.openings]
    return (*lines, *nodes, *units)


def _joint_place(
    joint: Joint,
    *,
    layers: tuple[Layer, ...],
    ground: float,
    services: Mapping[str, str],
    weight: float,
    crew: str,
) -> Place:
    service = next((services[i] for i in joint.others if i in services), None)
    is_service = joint.kind == "penetration"
    return Place(
        id=joint.id,
        sort="penetration" if is_service else "joint",
        kind=service if is_service and service is not None else joint.kind,
        length=joint.length if is_service else _leak_length(joint),
        layers=layers,
        height=_middle(joint.line) - ground,
        reachable=_can_be_reached(joint.inner),
        crew=crew,
        consequence=weight,
    )


def _node_place(
    node: Node, layers: tuple[Layer, ...], ground: float, weight: Mapping[str, float], crew: str
) -> Place:
    return Place(
        id=node.id,
        sort="node",
        kind=node.kind,
        length=0.0,
        layers=layers,
        height=node.at[2] - ground,
        crew=crew,
        consequence=max(weight.get(joint_id, 1.0) for joint_id in node.joints),
    )


def _unit_place(opening: Opening, ground: float, crew: str) -> Place:
    kind = "door_unit" if opening.kind == "door" else "window_unit"
    v = [opening.frame.origin[2] + y * opening.frame.v[2] for _, y in opening.outline]
    return Place(
        id=f"{opening.id}/unit",
        sort="penetration",
        kind=kind,
        length=_perimeter(opening.outline),
        layers=(),
        height=math.fsum(v) / len(v) - ground,
        crew=crew,
    )


def _layers(house: SealedHouse) -> defaultdict[str, tuple[Layer, ...]]:
    """Return the seals planned at each joint, in one fixed order."""
    found: defaultdict[str, set[Layer]] = defaultdict(set)
    services = {j.id for j in house.register.joints if j.kind == "penetration"}
    for strip in house.schedule.strips:
        if strip.stock_id is not None:
            found[strip.joint_id].add("strip_inner" if strip.face == "inner" else "strip_outer")
            if strip.joint_id in services:
                found[strip.joint_id].add("collar")
    for bead in house.schedule.beads:
        found[bead.joint_id].add("beads")
    for fill in house.schedule.fills:
        found[fill.joint_id].add("foam")
    for gasket in house.schedule.gaskets:
        found[gasket.joint_id].add("gasket")
    ordered: defaultdict[str, tuple[Layer, ...]] = defaultdict(tuple)
    for joint_id, seals in found.items():
        ordered[joint_id] = tuple(layer for layer in _LAYERS if layer in seals)
    return ordered


def _leak_length(joint: Joint) -> float:
    return joint.length if joint.inner.line is None else joint.inner.length


def _can_be_reached(face: FaceLine) -> bool:
    return face.line is not None and face.reach == "until_hidden"


def _middle(line: Segment) -> float:
    return (line.start[2] + line.end[2]) / 2


def _ground(shell: Shell) -> float:
    """Return the height of the lowest inner corner of any panel. [m]"""
    return min(
        panel.frame.origin[2] + u * panel.frame.u[2] + v * panel.frame.v[2]
        for panel in shell.panels
        for u, v in panel.inner
    )


def _perimeter(outline: Ring) -> float:
    closed = (*outline, outline[0])
    return math.fsum(math.dist(a, b) for a, b in pairwise(closed))
