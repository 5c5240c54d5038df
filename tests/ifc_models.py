"""Building models authored for the tests, entity by entity. Every house here is invented.

All lengths are given in metres and written in the unit of the file; a model may be turned and
moved as a whole through the placement of its building.
"""

from __future__ import annotations

import math
import uuid
from pathlib import Path
from typing import Any

import ifcopenshell
import ifcopenshell.guid
import numpy as np

UNITS = {"mm": 0.001, "m": 1.0, "ft": 0.3048, "in": 0.0254, None: 0.001}
LAYERS = (("OSB", 0.011), ("EPS foam", 0.143), ("OSB", 0.011))
THICK = 0.165
Ring = list[tuple[float, float]]


class Author:
    """Writes one model. `body` chooses how bodies are described."""

    def __init__(
        self,
        *,
        schema: str = "IFC4",
        unit: str | None = "mm",
        origin: tuple[float, float, float] = (0.0, 0.0, 0.0),
        angle_deg: float = 0.0,
        body: str = "extrusion",
    ) -> None:
        self.f = ifcopenshell.file(schema=schema)
        self.schema, self.body, self.scale = schema, body, UNITS[unit]
        self.count = 0
        self.owner = self._owner() if schema == "IFC2X3" else None
        self.context = self._context()
        assigned = self._units(unit)
        self.project = self.root(
            "IfcProject",
            "Test house",
            RepresentationContexts=[self.context],
            UnitsInContext=assigned,
        )
        turn = math.radians(angle_deg)
        self.site = self._spatial("IfcSite", "Plot", self.project, None)
        self.site.RefLatitude, self.site.RefLongitude = (57, 3, 0), (-135, -20, 0)
        self.site.RefElevation = 12.0 / self.scale
        building = self._spatial("IfcBuilding", "House", self.site, None)
        building.ObjectPlacement = self.placement(
            origin, (math.cos(turn), math.sin(turn), 0.0), (0.0, 0.0, 1.0)
        )
        self.building = building
        self.storey = self._spatial("IfcBuildingStorey", "Ground floor", building, None)
        self.storey.ObjectPlacement = self.placement(
            (0, 0, 0), (1, 0, 0), (0, 0, 1), building.ObjectPlacement
        )

    def guid(self) -> str:
        """Return the next GlobalId; the same in every run."""
        self.count += 1
        return ifcopenshell.guid.compress(uuid.UUID(int=self.count * 7919).hex)

    def root(self, kind: str, name: str, **more: Any) -> Any:
        """Return a new rooted entity."""
        return self.f.create_entity(
            kind, GlobalId=self.guid(), OwnerHistory=self.owner, Name=name, **more
        )

    def point(self, p: Any) -> Any:
        """Return a point, from metres."""
        return self.f.createIfcCartesianPoint([float(x) / self.scale for x in p])

    def way(self, d: Any) -> Any:
        """Return a direction."""
        return self.f.createIfcDirection([float(x) for x in d])

    def placement(self, origin: Any, x: Any, z: Any, parent: Any = None) -> Any:
        """Return a local placement with the given origin, x and z directions."""
        axes = self.f.createIfcAxis2Placement3D(self.point(origin), self.way(z), self.way(x))
        return self.f.createIfcLocalPlacement(parent, axes)

    def plate(
        self, kind: str, name: str, origin: Any, u: Any, v: Any, ring: Ring, thick: float,
        *, high: Ring | None = None, parent: Any = None, **more: Any,
    ) -> Any:  # fmt: skip
        """Return an element whose body is `ring` in axes u, v, thick along u × v."""
        u, v = (np.array(x, float) / np.linalg.norm(x) for x in (u, v))
        element = self.root(kind, name, **more)
        element.ObjectPlacement = self.placement(
            origin, u, np.cross(u, v), self.storey.ObjectPlacement
        )
        item, label = self._solid(ring, thick, high)
        if self.body == "mapped":
            item, label = self._mapped(item, label), "MappedRepresentation"
        shape = self.f.createIfcShapeRepresentation(self.context, "Body", label, [item])
        element.Representation = self.f.createIfcProductDefinitionShape(None, None, [shape])
        if parent is None and not kind.startswith("IfcOpening"):
            self.contain(element)
        return element

    def contain(self, element: Any) -> None:
        """Put an element into the storey."""
        self.root(
            "IfcRelContainedInSpatialStructure",
            "",
            RelatedElements=[element],
            RelatingStructure=self.storey,
        )

    def wall(self, name: str, start: Any, end: Any, height: float, **more: Any) -> Any:
        """Return a wall box: `start` to `end` along its outer face, inside to the left."""
        (x0, y0), (x1, y1) = start, end
        length = math.hypot(x1 - x0, y1 - y0)
        ring = more.pop("ring", [(0, 0), (length, 0), (length, height), (0, height)])
        kind = more.pop("kind", "IfcWall")
        thick = more.pop("thick", THICK)
        u = np.array([x1 - x0, y1 - y0, 0.0]) / length
        inward = np.array([-u[1], u[0], 0.0])
        origin = np.array([x0, y0, 0.0]) + inward * thick
        return self.plate(kind, name, origin, u, (0, 0, 1), ring, thick, **more)

    def layers(self, elements: list[Any], layers: Any = LAYERS, axis: str = "AXIS2") -> None:
        """Give elements a layer set."""
        made = []
        for name, size in layers:
            material = self.f.create_entity("IfcMaterial", Name=name)
            made.append(
                self.f.create_entity(
                    "IfcMaterialLayer", Material=material, LayerThickness=size / self.scale
                )
            )
        kind = self.f.create_entity(
            "IfcMaterialLayerSet", MaterialLayers=made, LayerSetName="Panel 165"
        )
        usage = self.f.create_entity(
            "IfcMaterialLayerSetUsage",
            ForLayerSet=kind,
            LayerSetDirection=axis,
            DirectionSense="POSITIVE",
            OffsetFromReferenceLine=0.0,
        )
        self.root("IfcRelAssociatesMaterial", "", RelatedObjects=elements, RelatingMaterial=usage)

    def material(self, element: Any, name: str) -> None:
        """Give an element one plain material."""
        material = self.f.create_entity("IfcMaterial", Name=name)
        self.root(
            "IfcRelAssociatesMaterial", "", RelatedObjects=[element], RelatingMaterial=material
        )

    def hole(
        self, host: Any, name: str, origin: Any, u: Any, v: Any, ring: Ring, thick: float,
        *, fill: str | None = None, fill_name: str = "",
    ) -> Any:  # fmt: skip
        """Return an opening element that voids `host`, filled by an element of class `fill`."""
        void = self.plate("IfcOpeningElement", name, origin, u, v, ring, thick)
        self.root(
            "IfcRelVoidsElement", "", RelatingBuildingElement=host, RelatedOpeningElement=void
        )
        if fill is not None:
            filling = self.root(fill, fill_name or name)
            self.contain(filling)
            self.root(
                "IfcRelFillsElement", "", RelatingOpeningElement=void,
                RelatedBuildingElement=filling,
            )  # fmt: skip
        return void

    def aggregate(self, whole: Any, parts: list[Any]) -> None:
        """Make `parts` the parts of `whole`."""
        self.root("IfcRelAggregates", "", RelatingObject=whole, RelatedObjects=parts)

    def round(
        self, kind: str, name: str, start: Any, axis: Any, radius: float, length: float
    ) -> Any:
        """Return a round bar, pipe or hole."""
        element = self.root(kind, name)
        axis = np.array(axis, float)
        side = np.cross(axis, (0.0, 0.0, 1.0) if abs(axis[2]) < 0.9 else (1.0, 0.0, 0.0))
        element.ObjectPlacement = self.placement(start, side, axis, self.storey.ObjectPlacement)
        place = self.f.createIfcAxis2Placement2D(self.point((0.0, 0.0)), None)
        profile = self.f.createIfcCircleProfileDef("AREA", None, place, radius / self.scale)
        solid = self._extruded(profile, length)
        shape = self.f.createIfcShapeRepresentation(self.context, "Body", "SweptSolid", [solid])
        element.Representation = self.f.createIfcProductDefinitionShape(None, None, [shape])
        if not kind.startswith("IfcOpening"):
            self.contain(element)
        return element

    def save(self, path: Path) -> Path:
        """Write the model."""
        self.f.write(str(path))
        return path

    def _solid(self, ring: Ring, thick: float, high: Ring | None) -> tuple[Any, str]:
        if self.body == "brep" or high is not None:
            return self._brep(ring, thick, high), "Brep"
        if self.body == "faces":
            return self._faces(ring, thick), "Tessellation"
        points = [self.point(p) for p in [*ring, ring[0]]]
        line = self.f.createIfcPolyline(points)
        profile = self.f.createIfcArbitraryClosedProfileDef("AREA", None, line)
        return self._extruded(profile, thick), "SweptSolid"

    def _extruded(self, profile: Any, length: float) -> Any:
        place = self.f.createIfcAxis2Placement3D(self.point((0, 0, 0)), None, None)
        return self.f.createIfcExtrudedAreaSolid(
            profile, place, self.way((0, 0, 1)), length / self.scale
        )

    def _brep(self, ring: Ring, thick: float, high: Ring | None) -> Any:
        low = [self.point((u, v, 0.0)) for u, v in ring]
        top = [self.point((u, v, thick)) for u, v in (high if high is not None else ring)]
        n = len(ring)
        loops = [low[::-1], top]
        loops += [[low[i], low[(i + 1) % n], top[(i + 1) % n], top[i]] for i in range(n)]
        faces = [
            self.f.createIfcFace([
                self.f.createIfcFaceOuterBound(self.f.createIfcPolyLoop(loop), True)
            ])
            for loop in loops
        ]  # fmt: skip
        return self.f.createIfcFacetedBrep(self.f.createIfcClosedShell(faces))

    def _faces(self, ring: Ring, thick: float) -> Any:
        points = [(u, v, w) for w in (0.0, thick) for u, v in ring]
        n = len(ring)
        loops = [list(range(n, 0, -1)), list(range(n + 1, 2 * n + 1))]
        loops += [[i + 1, (i + 1) % n + 1, (i + 1) % n + n + 1, i + n + 1] for i in range(n)]
        listed = self.f.createIfcCartesianPointList3D(
            [[float(x) / self.scale for x in p] for p in points]
        )
        faces = [self.f.createIfcIndexedPolygonalFace(loop) for loop in loops]
        return self.f.createIfcPolygonalFaceSet(listed, True, faces)

    def _mapped(self, item: Any, label: str) -> Any:
        shape = self.f.createIfcShapeRepresentation(self.context, "Body", label, [item])
        origin = self.f.createIfcAxis2Placement3D(self.point((0, 0, 0)), None, None)
        source = self.f.createIfcRepresentationMap(origin, shape)
        target = self.f.createIfcCartesianTransformationOperator3D(
            None, None, self.point((0, 0, 0)), None, None
        )
        return self.f.createIfcMappedItem(source, target)

    def _spatial(self, kind: str, name: str, parent: Any, placement: Any) -> Any:
        made = self.root(kind, name, ObjectPlacement=placement, CompositionType="ELEMENT")
        self.root("IfcRelAggregates", "", RelatingObject=parent, RelatedObjects=[made])
        return made

    def _context(self) -> Any:
        origin = self.f.createIfcAxis2Placement3D(self.point((0, 0, 0)), None, None)
        return self.f.createIfcGeometricRepresentationContext(None, "Model", 3, 1e-6, origin, None)

    def _units(self, unit: str | None) -> Any:
        degree = self.f.createIfcSIUnit(None, "PLANEANGLEUNIT", None, "RADIAN")
        units = [degree]
        if unit in ("m", "mm"):
            prefix = "MILLI" if unit == "mm" else None
            units.append(self.f.createIfcSIUnit(None, "LENGTHUNIT", prefix, "METRE"))
        elif unit is not None:
            metre = self.f.createIfcSIUnit(None, "LENGTHUNIT", None, "METRE")
            factor = self.f.createIfcMeasureWithUnit(
                self.f.create_entity("IfcLengthMeasure", UNITS[unit]), metre
            )
            size = self.f.createIfcDimensionalExponents(1, 0, 0, 0, 0, 0, 0)
            units.append(self.f.createIfcConversionBasedUnit(size, "LENGTHUNIT", unit, factor))
        return self.f.createIfcUnitAssignment(units)

    def _owner(self) -> Any:
        person = self.f.createIfcPerson(None, "Nobody")
        body = self.f.createIfcOrganization(None, "Nowhere")
        both = self.f.createIfcPersonAndOrganization(person, body)
        app = self.f.createIfcApplication(body, "1", "Test", "test")
        return self.f.createIfcOwnerHistory(both, app, None, "ADDED", None, None, None, 0)
