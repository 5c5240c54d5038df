"""Write entities of IFC4: one class that knows how placements, bodies and properties are spelled.

The file is in metres and degrees. Every rooted entity gets a GlobalId made from its id.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import TypeAlias

from seamwright.geometry.types import Ring, Vec3, cross
from seamwright.io.ifc.ids import global_id
from seamwright.io.ifc.types import Entity

Value: TypeAlias = str | float | int | bool | None
Quad: TypeAlias = Sequence[Vec3]
Color: TypeAlias = tuple[float, float, float]

LENGTHS = frozenset({"Length", "Gap", "Width", "Lap", "Span", "Skin", "Offset", "Height", "Area"})


class Author:
    """Creates the entities of one model; rooted ones by kind and id."""

    def __init__(self, model: Entity, project_name: str) -> None:
        self.model = model
        self._project = project_name
        self._styles: dict[tuple[Color, float], Entity] = {}
        self._axes: dict[Vec3, Entity] = {}
        self._base: Entity | None = None
        self.context = self._new_context()

    def root(self, entity: str, kind: str, name: str, **more: Entity) -> Entity:
        """Return a rooted entity whose GlobalId follows from `kind` and `name`."""
        more.setdefault("Name", name)
        return self.model.create_entity(
            entity, GlobalId=global_id(self._project, kind, name), **more
        )

    def point(self, at: Sequence[float]) -> Entity:
        """Return a point. [m]"""
        return self.model.createIfcCartesianPoint([float(x) + 0.0 for x in at])

    def direction(self, way: Vec3) -> Entity:
        """Return a direction; equal ones are written once."""
        if way not in self._axes:
            self._axes[way] = self.model.createIfcDirection([float(x) + 0.0 for x in way])
        return self._axes[way]

    def placement(self, at: Vec3, x: Vec3, z: Vec3) -> Entity:
        """Return a placement in the shell's axes with the given origin, x and z directions."""
        axes = self.model.createIfcAxis2Placement3D(
            self.point(at), self.direction(z), self.direction(x)
        )
        return self.model.createIfcLocalPlacement(self._base, axes)

    def stand_at(self, shift: Vec3) -> Entity:
        """Place everything that follows relative to `shift` in the model; return that place."""
        self._base = self.placement(shift, (1.0, 0.0, 0.0), (0.0, 0.0, 1.0))
        return self._base

    def plate(self, low: Ring, high: Ring, thickness: float) -> Entity:
        """Return a solid between two outlines with matching corners, `thickness` apart in z."""
        n = len(low)
        bottom = [self.point((u, v, 0.0)) for u, v in low]
        top = [self.point((u, v, thickness)) for u, v in high]
        loops = [bottom[::-1], top]
        loops += [[bottom[i], bottom[(i + 1) % n], top[(i + 1) % n], top[i]] for i in range(n)]
        return self._brep(loops)

    def box(self, quad: Quad, offset: Vec3) -> Entity:
        """Return a flat box standing on a quadrilateral, its other face moved by `offset`."""
        far = [(p[0] + offset[0], p[1] + offset[1], p[2] + offset[2]) for p in quad]
        low, top = [self.point(p) for p in quad], [self.point(p) for p in far]
        a, b = (tuple(quad[i][k] - quad[0][k] for k in range(3)) for i in (1, 3))
        up = cross((a[0], a[1], a[2]), (b[0], b[1], b[2]))
        if sum(up[k] * offset[k] for k in range(3)) < 0:
            low, top = low[::-1], top[::-1]
        loops = [low[::-1], top]
        loops += [[low[i], low[(i + 1) % 4], top[(i + 1) % 4], top[i]] for i in range(4)]
        return self._brep(loops)

    def bar(self, width: float, depth: float, length: float, *, top: bool = False) -> Entity:
        """Return a rectangle `width` (x) by `depth` (y) run along z; `top`: y goes down from 0."""
        middle = self.model.createIfcAxis2Placement2D(
            self.point((0.0, -depth / 2 if top else 0.0)), None
        )
        profile = self.model.createIfcRectangleProfileDef("AREA", None, middle, width, depth)
        return self.model.createIfcExtrudedAreaSolid(
            profile, None, self.direction((0.0, 0.0, 1.0)), length
        )

    def rod(self, radius: float, length: float) -> Entity:
        """Return a round bar along z."""
        profile = self.model.createIfcCircleProfileDef("AREA", None, None, radius)
        return self.model.createIfcExtrudedAreaSolid(
            profile, None, self.direction((0.0, 0.0, 1.0)), length
        )

    def shape(self, solids: list[Entity], *, color: Color | None, clear: float = 0.0) -> Entity:
        """Return the shape of an element made of `solids`, colored; `clear` 1 is glass."""
        for solid in solids:
            if color is not None:
                self.model.createIfcStyledItem(solid, [self._style(color, clear)], None)
        swept = solids[0].is_a("IfcExtrudedAreaSolid")
        body = self.model.createIfcShapeRepresentation(
            self.context, "Body", "SweptSolid" if swept else "Brep", solids
        )
        return self.model.createIfcProductDefinitionShape(None, None, [body])

    def properties(
        self, element: Entity, kind: str, name: str, values: Mapping[str, Value]
    ) -> None:
        """Give an element a property set `name`; values of None are left out."""
        rows = [
            self.model.createIfcPropertySingleValue(key, None, self._measure(key, value), None)
            for key, value in values.items()
            if value is not None
        ]
        owner = str(element.Name)
        pset = self.root("IfcPropertySet", f"{kind} {name}", owner, Name=name, HasProperties=rows)
        self.relate(
            "IfcRelDefinesByProperties", f"{kind} {name} of", owner,
            RelatedObjects=[element], RelatingPropertyDefinition=pset,
        )  # fmt: skip

    def relate(self, entity: str, kind: str, name: str, **ends: Entity) -> Entity:
        """Return a relationship with a GlobalId of its own and no name."""
        return self.root(entity, kind, name, **{"Name": None, **ends})

    def layer(self, name: str, shapes: Iterable[Entity]) -> None:
        """Put shapes on a named layer, which a viewer can switch off."""
        items = [body for shape in shapes for body in shape.Representations]
        if items:
            self.model.createIfcPresentationLayerAssignment(name, None, items, None)

    def _measure(self, key: str, value: Value) -> Entity:
        if isinstance(value, bool):
            return self.model.create_entity("IfcBoolean", value)
        if isinstance(value, int):
            return self.model.create_entity("IfcInteger", value)
        if isinstance(value, float):
            return self.model.create_entity(_measure_type(key), value)
        text = str(value)
        return self.model.create_entity("IfcLabel" if len(text) <= 255 else "IfcText", text)

    def _brep(self, loops: list[list[Entity]]) -> Entity:
        make = self.model
        faces = [
            make.createIfcFace([make.createIfcFaceOuterBound(make.createIfcPolyLoop(loop), True)])
            for loop in loops
        ]
        return make.createIfcFacetedBrep(make.createIfcClosedShell(faces))

    def _style(self, color: Color, clear: float) -> Entity:
        if (color, clear) not in self._styles:
            make = self.model
            shade = make.createIfcSurfaceStyleShading(make.createIfcColourRgb(None, *color), clear)
            self._styles[color, clear] = make.createIfcSurfaceStyle(None, "BOTH", [shade])
        return self._styles[color, clear]

    def _new_context(self) -> Entity:
        make = self.model
        origin = make.createIfcAxis2Placement3D(self.point((0.0, 0.0, 0.0)), None, None)
        whole = make.createIfcGeometricRepresentationContext(None, "Model", 3, 1e-6, origin, None)
        self.whole = whole
        return make.createIfcGeometricRepresentationSubContext(
            "Body", "Model", None, None, None, None, whole, None, "MODEL_VIEW", None
        )

    def units(self) -> Entity:
        """Return metres, square and cubic metres, and degrees."""
        make = self.model
        named = [
            make.createIfcSIUnit(None, kind, None, name)
            for kind, name in (
                ("LENGTHUNIT", "METRE"),
                ("AREAUNIT", "SQUARE_METRE"),
                ("VOLUMEUNIT", "CUBIC_METRE"),
            )
        ]
        radian = make.createIfcSIUnit(None, "PLANEANGLEUNIT", None, "RADIAN")
        size = make.createIfcMeasureWithUnit(
            make.create_entity("IfcPlaneAngleMeasure", 0.017453292519943295), radian
        )
        none = make.createIfcDimensionalExponents(0, 0, 0, 0, 0, 0, 0)
        degree = make.createIfcConversionBasedUnit(none, "PLANEANGLEUNIT", "DEGREE", size)
        return make.createIfcUnitAssignment([*named, degree])


def _measure_type(key: str) -> str:
    if key.startswith("Dihedral"):
        return "IfcPlaneAngleMeasure"
    if key.endswith("Volume"):
        return "IfcVolumeMeasure"
    return "IfcLengthMeasure" if any(word in key for word in LENGTHS) else "IfcReal"
