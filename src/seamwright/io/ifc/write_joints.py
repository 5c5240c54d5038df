"""Joints, strips and nodes as elements that a designer's viewer shows and can click on.

A joint is a thin bar along its line (IfcBuildingElementProxy), a strip a film on the skins at its
line (IfcCovering, MEMBRANE), a node a small cube. What they are is told in the property sets
Seamwright_Joint, Seamwright_Seal, Seamwright_Strip and Seamwright_Node.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from types import MappingProxyType

from seamwright.geometry.types import Segment, Vec3, cross, dot
from seamwright.io.ifc.author import Author, Color
from seamwright.io.ifc.seal_values import joint_values, seal_values, strip_values
from seamwright.io.ifc.types import Entity
from seamwright.joints.types import Joint, Node, Register
from seamwright.seals.types import SealSchedule, Strip
from seamwright.shell.types import Panel, Shell

BAR = 0.012
"""Side of the bar that marks a joint: thick enough to click on, thinner than any skin pair. [m]"""

CUBE = 0.040
"""Side of the cube that marks a node. [m]"""

FILM = 0.001
"""Thickness a strip is drawn with. [m]"""

SIGNED: Color = (0.20, 0.55, 0.30)
UNSIGNED: Color = (0.90, 0.45, 0.10)
NODE: Color = (0.75, 0.10, 0.15)
_KINDS: Mapping[str, Color] = MappingProxyType({
    "ridge": (0.70, 0.10, 0.10),
    "hip": (0.75, 0.20, 0.35),
    "valley": (0.45, 0.15, 0.60),
    "eave": (0.85, 0.55, 0.10),
    "rake": (0.85, 0.70, 0.15),
    "sill": (0.35, 0.30, 0.25),
    "opening": (0.10, 0.55, 0.65),
    "penetration": (0.10, 0.40, 0.80),
})  # fmt: skip
_OTHER: Color = (0.25, 0.30, 0.70)


class JointWriter:
    """Writes the register and the schedule onto the elements of a shell already written."""

    def __init__(
        self,
        author: Author,
        shell: Shell,
        elements: Mapping[str, Entity],
        *,
        placed: dict[str | None, list[Entity]],
        schedule: SealSchedule,
    ) -> None:
        self._author, self._elements, self._placed = author, elements, placed
        self._schedule = schedule
        self._signed = {side.joint_id for side in schedule.sides if side.signed}
        self._panels = {panel.id: panel for panel in shell.panels}
        self._marks: dict[str, list[Entity]] = {"joints": [], "strips": [], "nodes": []}

    def write(self, register: Register) -> None:
        """Write every joint, strip and node, and put each kind on a layer of its own."""
        storeys: dict[str, str | None] = {}
        kinds: dict[str, list[Entity]] = {}
        for joint in register.joints:
            element = self._write_joint(joint)
            storeys[joint.id] = joint.storey
            kinds.setdefault(joint.kind, []).append(element)
        for kind, members in kinds.items():
            group = self._author.root("IfcGroup", "group", f"Joints: {kind.replace('_', ' ')}")
            self._author.relate(
                "IfcRelAssignsToGroup", "group of", kind,
                RelatedObjects=members, RelatingGroup=group,
            )  # fmt: skip
        joints = {joint.id: joint for joint in register.joints}
        for strip in self._schedule.strips:
            if strip.joint_id in joints:
                self._write_strip(strip, joints[strip.joint_id])
        for node in register.nodes:
            self._write_node(node, storeys)
        for name, shapes in self._marks.items():
            self._author.layer(f"Seamwright {name}", shapes)

    def _write_joint(self, joint: Joint) -> Entity:
        author, line = self._author, joint.line
        element = author.root(
            "IfcBuildingElementProxy", "joint", joint.id, PredefinedType="NOTDEFINED",
            ObjectType=f"Seamwright joint: {joint.kind.replace('_', ' ')}", Tag=joint.id,
        )  # fmt: skip
        if line.length > 1e-6:
            way = _between(line.start, line.end)
            start, solid = line.start, author.bar(BAR, BAR, line.length)
        else:
            way = (0.0, 0.0, 1.0)
            start = (line.start[0], line.start[1], line.start[2] - CUBE / 2)
            solid = author.bar(CUBE, CUBE, CUBE)
        element.ObjectPlacement = author.placement(start, _square_to(way), way)
        color = _KINDS.get(joint.kind, _OTHER)
        self._finish(element, [solid], "joints", color=color, storey=joint.storey)
        author.properties(element, "joint", "Seamwright_Joint", joint_values(joint))
        author.properties(element, "joint", "Seamwright_Seal", seal_values(joint, self._schedule))
        self._connect(joint, element)
        return element

    def _connect(self, joint: Joint, element: Entity) -> None:
        ends = [
            self._elements[name]
            for name in (*joint.panels, *joint.others)
            if name in self._elements and not self._elements[name].is_a("IfcFeatureElement")
        ]
        if len(ends) >= 2:
            self._author.relate(
                "IfcRelConnectsWithRealizingElements", "connects", joint.id,
                RelatingElement=ends[0], RelatedElement=ends[1],
                RealizingElements=[element], ConnectionType=joint.kind,
            )  # fmt: skip

    def _write_strip(self, strip: Strip, joint: Joint) -> None:
        line = (joint.inner if strip.face == "inner" else joint.outer).line
        width = strip.width if strip.width is not None else strip.required
        if line is None or line.length < 1e-6:
            return
        wings = [
            self._wing(line, self._panels[name], width, inner=strip.face == "inner")
            for name in joint.panels[:2]
            if name in self._panels
        ]
        name = f"{strip.joint_id} {strip.face}"
        signed = joint.id in self._signed
        element = self._author.root(
            "IfcCovering", "strip", name, PredefinedType="MEMBRANE",
            ObjectType="Seamwright strip", Tag=name,
        )  # fmt: skip
        element.ObjectPlacement = self._author.placement(
            (0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0)
        )
        color = SIGNED if signed else UNSIGNED
        self._finish(element, wings, "strips", color=color, storey=joint.storey)
        values = {**strip_values(strip), "Signed": "signed" if signed else "UNSIGNED"}
        self._author.properties(element, "strip", "Seamwright_Strip", values)

    def _wing(self, line: Segment, panel: Panel, width: float, *, inner: bool) -> Entity:
        """Return the half of a strip that lies on one panel's skin."""
        frame, ring = panel.frame, panel.inner if inner else panel.outer
        normal = frame.n
        height = 0.0 if inner else panel.thickness
        middle = frame.point(
            (
                math.fsum(p[0] for p in ring) / len(ring),
                math.fsum(p[1] for p in ring) / len(ring),
            ),
            height,
        )
        way = _between(line.start, line.end)
        side = cross(normal, way)
        toward = dot(side, _minus(middle, line.middle))
        half = math.copysign(width / 2, toward)
        step: Vec3 = (side[0] * half, side[1] * half, side[2] * half)
        quad = (line.start, line.end, _plus(line.end, step), _plus(line.start, step))
        out = -FILM if inner else FILM
        return self._author.box(quad, (normal[0] * out, normal[1] * out, normal[2] * out))

    def _write_node(self, node: Node, storeys: Mapping[str, str | None]) -> None:
        author = self._author
        element = author.root(
            "IfcBuildingElementProxy", "node", node.id, PredefinedType="NOTDEFINED",
            ObjectType=f"Seamwright node: {node.kind}"[:255], Tag=node.id,
        )  # fmt: skip
        at = node.at
        element.ObjectPlacement = author.placement(
            (at[0], at[1], at[2] - CUBE / 2), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0)
        )
        storey = next((storeys[j] for j in node.joints if storeys.get(j) is not None), None)
        self._finish(element, [author.bar(CUBE, CUBE, CUBE)], "nodes", color=NODE, storey=storey)
        patch = next((p for p in self._schedule.patches if p.node_id == node.id), None)
        author.properties(
            element,
            "node",
            "Seamwright_Node",
            {
                "Id": node.id,
                "Kind": node.kind,
                "Joints": ", ".join(node.joints),
                "PatchWidth": patch.side if patch is not None else None,
                "PatchFace": patch.face if patch is not None else None,
                "PatchHow": patch.how if patch is not None else None,
                "PatchStage": patch.stage if patch is not None else None,
            },
        )

    def _finish(
        self,
        element: Entity,
        solids: list[Entity],
        mark: str,
        *,
        color: Color,
        storey: str | None,
    ) -> None:
        if solids:
            element.Representation = self._author.shape(solids, color=color)
            self._marks[mark].append(element.Representation)
        self._placed.setdefault(storey, []).append(element)


def _minus(a: Vec3, b: Vec3) -> Vec3:
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


def _plus(a: Vec3, b: Vec3) -> Vec3:
    return (a[0] + b[0], a[1] + b[1], a[2] + b[2])


def _between(start: Vec3, end: Vec3) -> Vec3:
    d = _minus(end, start)
    size = math.sqrt(dot(d, d))
    return (d[0] / size, d[1] / size, d[2] / size)


def _square_to(way: Vec3) -> Vec3:
    spare: Vec3 = (0.0, 0.0, 1.0) if abs(way[2]) < 0.9 else (1.0, 0.0, 0.0)
    return _between((0.0, 0.0, 0.0), cross(spare, way))
