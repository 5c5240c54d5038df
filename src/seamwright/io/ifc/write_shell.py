"""Panels, timbers, bearings, openings and services of a shell as elements of a building model."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from seamwright.geometry.types import Vec3, cross, dot
from seamwright.io.ifc.author import Author, Color
from seamwright.io.ifc.types import Entity
from seamwright.shell.types import (
    Build,
    Member,
    Opening,
    Panel,
    Penetration,
    Shell,
    Support,
)

PANEL: Color = (0.86, 0.74, 0.55)
TIMBER: Color = (0.62, 0.42, 0.22)
BASE: Color = (0.72, 0.72, 0.72)
THROUGH = 0.05
"""How far the body of a hole reaches beyond both faces, so that it surely cuts. [m]"""

_PLANE = MappingProxyType({
    "wall": ("IfcWall", "ELEMENTEDWALL"),
    "rim": ("IfcWall", "ELEMENTEDWALL"),
    "partition": ("IfcWall", "PARTITIONING"),
    "roof": ("IfcSlab", "ROOF"),
    "floor": ("IfcSlab", "FLOOR"),
})  # fmt: skip
_MEMBER = MappingProxyType({
    "purlin": ("IfcMember", "PURLIN"),
    "rafter": ("IfcMember", "RAFTER"),
    "plate": ("IfcMember", "PLATE"),
    "post": ("IfcColumn", "COLUMN"),
})  # fmt: skip
_FILL = MappingProxyType({
    "window": ("IfcWindow", "WINDOW"),
    "skylight": ("IfcWindow", "SKYLIGHT"),
    "door": ("IfcDoor", "DOOR"),
    "hatch": ("IfcDoor", "TRAPDOOR"),
})  # fmt: skip
_BASE = MappingProxyType({
    "slab": ("IfcSlab", "BASESLAB", "concrete"),
    "stem_wall": ("IfcFooting", "STRIP_FOOTING", "concrete"),
    "deck": ("IfcSlab", "FLOOR", "deck boards"),
    "other_wall": ("IfcBuildingElementProxy", "NOTDEFINED", "other"),
})  # fmt: skip


class ShellWriter:
    """Writes a shell; `placed` collects elements by storey, `elements` by the shell's ids."""

    def __init__(self, author: Author, shell: Shell) -> None:
        self._author, self._shell = author, shell
        self.placed: dict[str | None, list[Entity]] = {}
        self.elements: dict[str, Entity] = {}
        self._planes: dict[str, Entity] = {}

    def write(self) -> None:
        """Write everything that stands in space."""
        planes: dict[str, list[Panel]] = {}
        for panel in self._shell.panels:
            planes.setdefault(panel.plane_id, []).append(panel)
        for plane_id, panels in planes.items():
            self._write_plane(plane_id, panels)
        for build in self._shell.builds:
            self._layers(build)
        for member in self._shell.members:
            self._write_member(member)
        for support in self._shell.supports:
            self._write_support(support)
        for opening in self._shell.openings:
            self._write_opening(opening)
        for service in self._shell.penetrations:
            self._write_service(service)

    def _write_plane(self, plane_id: str, panels: list[Panel]) -> None:
        entity, kind = _PLANE[panels[0].role]
        if [panel.id for panel in panels] == [plane_id]:
            whole = self._write_panel(panels[0], entity, kind)
        else:
            whole = self._author.root(entity, "plane", plane_id, PredefinedType=kind)
            whole.ObjectPlacement = self._author.placement(
                (0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0)
            )
            parts = [self._write_panel(panel, "IfcPlate", "SHEET") for panel in panels]
            self._author.relate(
                "IfcRelAggregates", "parts of plane", plane_id,
                RelatingObject=whole, RelatedObjects=parts,
            )  # fmt: skip
        self._planes[plane_id] = whole
        self.placed.setdefault(panels[0].storey, []).append(whole)
        if entity == "IfcWall":
            external = panels[0].role != "partition"
            self._author.properties(whole, "plane", "Pset_WallCommon", {"IsExternal": external})

    def _write_panel(self, panel: Panel, entity: str, kind: str) -> Entity:
        author, frame = self._author, panel.frame
        element = author.root(
            entity, "panel", panel.id, PredefinedType=kind, Tag=panel.id, ObjectType="Panel"
        )
        element.ObjectPlacement = author.placement(frame.origin, frame.u, frame.n)
        element.Representation = author.shape(
            [author.plate(panel.inner, panel.outer, panel.thickness)], color=PANEL
        )
        self.elements[panel.id] = element
        build = next(b for b in self._shell.builds if b.id == panel.build_id)
        author.properties(element, "panel", "Seamwright_Panel", _panel_values(panel, build))
        return element

    def _layers(self, build: Build) -> None:
        make, panels = self._author.model, self._shell.panels
        users = [self.elements[p.id] for p in panels if p.build_id == build.id]
        if not users:
            return
        skin, core = make.createIfcMaterial("OSB"), make.createIfcMaterial(build.core_material)
        rows = (
            ("Inner skin", skin, build.skin_inner),
            ("Core", core, build.core),
            ("Outer skin", skin, build.skin_outer),
        )
        layers = [make.createIfcMaterialLayer(m, size, None, name) for name, m, size in rows]
        usage = make.createIfcMaterialLayerSetUsage(
            make.createIfcMaterialLayerSet(layers, build.id), "AXIS3", "POSITIVE", 0.0
        )
        self._author.relate(
            "IfcRelAssociatesMaterial", "layers", build.id,
            RelatedObjects=users, RelatingMaterial=usage,
        )  # fmt: skip

    def _write_member(self, member: Member) -> None:
        entity, kind = _MEMBER.get(member.kind, ("IfcBeam", "BEAM"))
        author = self._author
        element = author.root(
            entity, "member", member.id, PredefinedType=kind, Tag=member.id,
            ObjectType=member.kind.replace("_", " "),
        )  # fmt: skip
        way: Vec3 = _unit(member.start, member.end)
        across = cross(member.up, way)
        length = dot(way, _minus(member.end, member.start))
        element.ObjectPlacement = author.placement(member.start, across, way)
        solid = author.bar(member.width, member.depth, length, top=True)
        element.Representation = author.shape([solid], color=TIMBER)
        author.properties(
            element, "member", "Seamwright_Timber", {"Id": member.id, "Kind": member.kind}
        )
        self.elements[member.id] = element
        self.placed.setdefault(None, []).append(element)

    def _write_support(self, support: Support) -> None:
        entity, kind, material = _BASE[support.kind]
        author, frame = self._author, support.frame
        element = author.root(
            entity, "support", support.id, PredefinedType=kind, Tag=support.id,
            ObjectType=support.kind.replace("_", " "),
        )  # fmt: skip
        bottom = frame.point((0.0, 0.0), -support.thickness)
        element.ObjectPlacement = author.placement(bottom, frame.u, frame.n)
        solid = author.plate(support.outline, support.outline, support.thickness)
        element.Representation = author.shape([solid], color=BASE)
        author.relate(
            "IfcRelAssociatesMaterial", "material", support.id,
            RelatedObjects=[element], RelatingMaterial=author.model.createIfcMaterial(material),
        )  # fmt: skip
        self.elements[support.id] = element
        self.placed.setdefault(support.storey, []).append(element)

    def _write_opening(self, opening: Opening) -> None:
        owner = self._owner_of(opening)
        if owner is None:
            return
        author, frame = self._author, opening.frame
        thick = max(p.thickness for p in self._shell.panels if p.plane_id == opening.plane_id)
        void = author.root("IfcOpeningElement", "hole", opening.id, PredefinedType="OPENING")
        start = frame.point((0.0, 0.0), -THROUGH)
        void.ObjectPlacement = author.placement(start, frame.u, frame.n)
        solid = author.plate(opening.outline, opening.outline, thick + 2 * THROUGH)
        void.Representation = author.shape([solid], color=None)
        self._void(owner, void, opening.id)
        entity, kind = _FILL[opening.kind]
        fill = author.root(
            entity, "opening", opening.id, PredefinedType=kind, Tag=opening.id,
            OverallHeight=_extent(opening, 1), OverallWidth=_extent(opening, 0),
        )  # fmt: skip
        fill.ObjectPlacement = author.placement(frame.origin, frame.u, frame.n)
        author.relate(
            "IfcRelFillsElement", "fills", opening.id,
            RelatingOpeningElement=void, RelatedBuildingElement=fill,
        )  # fmt: skip
        self.elements[opening.id] = fill
        self.placed.setdefault(opening.storey, []).append(fill)

    def _owner_of(self, opening: Opening) -> Entity | None:
        holed = [p.id for p in self._shell.panels if opening.id in {h.opening_id for h in p.holes}]
        if len(holed) == 1:
            return self.elements[holed[0]]
        return self._planes.get(opening.plane_id, self.elements.get(opening.plane_id))

    def _write_service(self, service: Penetration) -> None:
        panel = next((p for p in self._shell.panels if p.id == service.panel_id), None)
        owner = self.elements.get(service.panel_id or "", self._planes.get(service.plane_id))
        if owner is None:
            return
        author = self._author
        thick = panel.thickness if panel is not None else 0.3
        u = panel.frame.u if panel is not None else _square_to(service.axis)
        axis = service.axis
        start = (
            service.at[0] - THROUGH * axis[0],
            service.at[1] - THROUGH * axis[1],
            service.at[2] - THROUGH * axis[2],
        )
        void = author.root(
            "IfcOpeningElement", "service", service.id, PredefinedType="OPENING",
            Tag=service.id, ObjectType=f"Service ({service.kind})",
        )  # fmt: skip
        void.ObjectPlacement = author.placement(start, u, axis)
        length = thick + 2 * THROUGH
        if service.diameter is not None:
            solid = author.rod(service.diameter / 2, length)
        else:
            solid = author.bar(service.width or 0.01, service.height or 0.01, length)
        void.Representation = author.shape([solid], color=None)
        self._void(owner, void, service.id)
        self.elements[service.id] = void

    def _void(self, owner: Entity, void: Entity, name: str) -> None:
        self._author.relate(
            "IfcRelVoidsElement", "voids", name,
            RelatingBuildingElement=owner, RelatedOpeningElement=void,
        )  # fmt: skip


def _panel_values(panel: Panel, build: Build) -> Mapping[str, str | float]:
    return {
        "Id": panel.id,
        "Role": panel.role,
        "PanelType": build.id,
        "SkinInner": panel.skin_inner,
        "SkinOuter": panel.skin_outer,
        "CoreMaterial": build.core_material,
        "MaxWidth": build.max_width,
        "MaxLength": build.max_length,
        "Spline": build.spline,
        "SplineWidth": build.spline_width,
        "EdgeGap": build.edge_gap,
    }


def _extent(opening: Opening, axis: int) -> float:
    values = [point[axis] for point in opening.outline]
    return max(values) - min(values)


def _minus(a: Vec3, b: Vec3) -> Vec3:
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


def _unit(start: Vec3, end: Vec3) -> Vec3:
    d = _minus(end, start)
    size = dot(d, d) ** 0.5
    return (d[0] / size, d[1] / size, d[2] / size)


def _square_to(axis: Vec3) -> Vec3:
    spare: Vec3 = (0.0, 0.0, 1.0) if abs(axis[2]) < 0.9 else (1.0, 0.0, 0.0)
    return _unit((0.0, 0.0, 0.0), cross(spare, axis))
