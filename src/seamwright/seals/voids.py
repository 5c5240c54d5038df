"""What fills a joint's channel: foam along it, dams across it.

Air runs along the void between two faces as well as through it. Foam fills wedges and slots; a dam
stops the channel where it would lead outdoors or from one joint into the next.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from seamwright.geometry.types import Segment, Vec3, dot
from seamwright.joints.types import Joint, Node, SectionShape
from seamwright.seals.facts import SEAM_KINDS, Facts
from seamwright.seals.types import Dam, Fill
from seamwright.shell.types import Build

DAM = 0.10
"""Length of a dam along its channel. [m] 4 in, common practice, no source."""

LEAST_SLOT = 0.006
"""Width at which a slot is counted for a dam when the parts close tighter. [m] Common practice, no
source: foam cannot be shot into less."""

RUNS_OUT = 0.020
"""A joint that goes on this far past the wall line runs out under the overhang. [m] Common
practice, no source."""

_LEAST_AREA = 1e-5
_WEDGES = frozenset({"ridge", "hip", "valley"})
_OPEN_CHANNEL = frozenset({"surface", "block", "i_joist"})
_RUNNERS = frozenset({"roof_spline", "ridge", "hip", "valley", "end_joint"})


def plan_fills(facts: Facts, joint: Joint) -> tuple[Fill, ...]:
    """Return the foam of a joint: the slot between cores, or the wedge between two edges.

    Measured on the section where it shows; for a seam without section, from the build's sizes.
    Solid and block splines leave no slot to foam, and the web of an I-joist is packed with rigid
    foam before the next panel, which is no can foam.
    """
    if joint.kind in _WEDGES:
        area, stage = _measured(facts, joint), "same_day"
    elif joint.kind in SEAM_KINDS and joint.spline == "surface":
        area, stage = _slot(facts, joint), "weathered_in"
    else:
        return ()
    if area < _LEAST_AREA:
        return ()
    return (Fill(joint_id=joint.id, area=area, length=joint.length, stage=stage),)  # type: ignore[arg-type]


def plan_dams(facts: Facts, joint: Joint) -> tuple[Dam, ...]:
    """Return the dams of a joint, in order along it.

    At both ends of a seam with an open channel; where a chase leaves its panel through a seam; and
    over the wall line wherever a roof joint runs on under an overhang.
    """
    volume = _channel(facts, joint) * DAM
    found: list[tuple[Vec3, str]] = []
    if joint.kind in SEAM_KINDS and joint.spline in _OPEN_CHANNEL:
        found += [(joint.line.start, "panel_end"), (joint.line.end, "panel_end")]
    if joint.kind in SEAM_KINDS:
        found += [(at, "chase_crossing") for at in _chases(facts, joint)]
    if joint.kind in _RUNNERS:
        found += [(at, "wall_line") for at in _wall_lines(facts, joint)]
    found.sort(key=lambda item: (math.dist(item[0], joint.line.start), item[1]))
    return tuple(
        Dam(joint_id=joint.id, at=at, why=why, volume=volume, stage="at_setting")  # type: ignore[arg-type]
        for at, why in found
    )


def _measured(facts: Facts, joint: Joint) -> float:
    """Return the area of the void that the section shows. [m²]"""
    return math.fsum(_voids(facts, joint))


def _voids(facts: Facts, joint: Joint) -> list[float]:
    """Return the areas of the voids in the section, apart. [m²]"""
    section = facts.sections.get(joint.id)
    shapes: tuple[SectionShape, ...] = () if section is None else section.shapes
    return [_area(s) for s in shapes if s.material == "gap" and s.owner == "void"]


def _slot(facts: Facts, joint: Joint) -> float:
    """Return the area of the slot between the cores, behind both spline strips. [m²]"""
    build = _build(facts, joint)
    if build is None:
        return 0.0
    deep = build.core - build.skin_inner - build.skin_outer
    voids = _voids(facts, joint)
    return max(voids) if voids else build.edge_gap * deep


def _channel(facts: Facts, joint: Joint) -> float:
    """Return the area that a dam must close. [m²]"""
    build = _build(facts, joint)
    if build is None:
        return 0.0
    width = max(joint.gap, LEAST_SLOT)
    if joint.kind in _WEDGES:
        return max(_measured(facts, joint), LEAST_SLOT * build.thickness)
    return (2 if joint.spline == "block" else 1) * width * build.core


def _build(facts: Facts, joint: Joint) -> Build | None:
    panel = next((facts.panels[p] for p in joint.panels if p in facts.panels), None)
    return None if panel is None else facts.builds.get(panel.build_id)


def _chases(facts: Facts, joint: Joint) -> Iterator[Vec3]:
    """Yield where chases in the joint's panels pass it: at their own height, or nearest."""
    for service in facts.shell.penetrations:
        if service.kind == "chase" and service.panel_id in joint.panels:
            yield _nearest(joint.line, service.at)


def _wall_lines(facts: Facts, joint: Joint) -> list[Vec3]:
    """Return where the joint passes over the wall line and runs on outside, each place once.

    A place is where the inner line ends short of the joint, or a node with an eave or a rake.
    """
    places = []
    if joint.inner.line is not None:
        places += [joint.inner.line.start, joint.inner.line.end]
    places += [node.at for node in facts.nodes_of.get(joint.id, ()) if _is_wall_node(facts, node)]
    found: list[Vec3] = []
    for place in places:
        at = _nearest(joint.line, place)
        inside = min(math.dist(at, joint.line.start), math.dist(at, joint.line.end)) > RUNS_OUT
        if inside and all(math.dist(at, other) > DAM for other in found):
            found.append(at)
    return found


def _is_wall_node(facts: Facts, node: Node) -> bool:
    kinds = {facts.by_id[i].kind for i in node.joints if i in facts.by_id}
    return bool(kinds & {"eave", "rake"})


def _nearest(line: Segment, point: Vec3) -> Vec3:
    a, b = line.start, line.end
    way = (b[0] - a[0], b[1] - a[1], b[2] - a[2])
    size = dot(way, way)
    to = (point[0] - a[0], point[1] - a[1], point[2] - a[2])
    t = 0.0 if size == 0 else min(1.0, max(0.0, dot(to, way) / size))
    return (a[0] + t * way[0], a[1] + t * way[1], a[2] + t * way[2])


def _area(shape: SectionShape) -> float:
    ring = shape.outline
    pairs = zip(ring, ring[1:] + ring[:1], strict=True)
    return abs(math.fsum(p[0] * q[1] - q[0] * p[1] for p, q in pairs)) / 2
