"""Sort the elements of a model: panels and planes, timbers, bearings, and what is none of them."""

from __future__ import annotations

from dataclasses import dataclass, field

from seamwright.io.ifc.bodies import has_curves, merged
from seamwright.io.ifc.layers import identifier, is_concrete, is_foam, material_words, read_layers
from seamwright.io.ifc.notes import plain
from seamwright.io.ifc.plates import fit_plate
from seamwright.io.ifc.source import Source
from seamwright.io.ifc.types import Body, Entity, Piece, Plate
from seamwright.shell.types import PanelRole

_PLATES = ("IfcWall", "IfcSlab", "IfcRoof", "IfcPlate", "IfcElementAssembly")
_STICKS = ("IfcBeam", "IfcMember", "IfcColumn")
_BASES = ("IfcFooting", "IfcPile", "IfcDeepFoundation")
_LATER = ("IfcWindow", "IfcDoor", "IfcFlowSegment", "IfcDistributionElement", "IfcChimney")
_FEATURES = ("IfcFeatureElement", "IfcVirtualElement")
OWN_MARK = "Seamwright"
OWN_LENGTHS = ("SkinInner", "SkinOuter", "MaxWidth", "MaxLength", "SplineWidth", "EdgeGap")
_ROLES = ("wall", "roof", "floor", "rim", "partition")


@dataclass(kw_only=True, slots=True)
class Sorted:
    """The elements of a model by what they are to the shell; filled while sorting."""

    pieces: list[Piece] = field(default_factory=list)
    sticks: list[Entity] = field(default_factory=list)
    bases: list[Entity] = field(default_factory=list)
    services: list[Entity] = field(default_factory=list)
    containers: dict[int, str] = field(default_factory=dict)


class Sorter:
    """Walks the elements of one model and sorts them."""

    def __init__(self, source: Source) -> None:
        self._ifc, self._model, self._bodies = source.ifc, source.model, source.bodies
        self._defaults, self._notes, self._scale = source.defaults, source.notes, source.scale
        self._names = source.names
        self.found = Sorted()
        self._done: set[int] = set()

    def sort(self) -> Sorted:
        """Return every element sorted, containers before their parts."""
        elements = sorted(self._model.by_type("IfcElement"), key=lambda e: int(e.id()))
        inside = {int(p.id()) for e in elements for p in self._parts(e)}
        for element in elements:
            if int(element.id()) not in inside:
                self._take(element)
        return self.found

    def _take(self, element: Entity) -> None:
        if int(element.id()) in self._done:
            return
        self._done.add(int(element.id()))
        if plain(getattr(element, "ObjectType", None)).startswith(OWN_MARK):
            self._notes.leave(
                "Joints, strips and nodes of an earlier export of this tool were passed over; "
                "they are worked out again"
            )
        elif any(element.is_a(name) for name in _FEATURES):
            return
        elif any(element.is_a(name) for name in _STICKS):
            self.found.sticks.append(element)
        elif any(element.is_a(name) for name in _BASES):
            self.found.bases.append(element)
        elif any(element.is_a(name) for name in _LATER):
            self.found.services.append(element)
        elif any(element.is_a(name) for name in _PLATES):
            self._take_plate(element)
        elif element.is_a("IfcBuildingElementProxy"):
            self._take_proxy(element)
        else:
            self._notes.leave(f"{element.is_a()} is no part of the shell", element)

    def _parts(self, element: Entity) -> list[Entity]:
        relations = getattr(element, "IsDecomposedBy", None) or ()
        return [
            part
            for relation in relations
            for part in relation.RelatedObjects
            if part.is_a("IfcElement")
        ]

    def _take_plate(self, element: Entity) -> None:
        parts = self._parts(element)
        plates = [p for p in parts if not any(p.is_a(n) for n in (*_STICKS, *_FEATURES))]
        for part in parts:
            if part not in plates:
                self._take(part)
        solid = [p for p in plates if self._bodies.of(p) is not None or self._parts(p)]
        if not solid:
            self._take_whole(element, self._bodies.of(element), element)
            return
        self._done.update(int(p.id()) for p in plates)
        thin = [p for p in solid if self._is_thin(p)]
        if thin and len(solid) - len(thin) <= 1:
            bodies = [b for b in (self._bodies.of(p) for p in solid) if b is not None]
            self._notes.use("Taken as one panel put together from its parts", element)
            self._take_whole(element, merged(bodies), element)
            return
        plane = self._names.of(element, "Plane", self._own(element).get("Id"))
        self.found.containers[int(element.id())] = plane
        self._notes.use("Taken through its parts", element)
        first = len(self.found.pieces)
        for part in solid:
            if self._parts(part):
                self._take_plate(part)
            else:
                self._take_whole(part, self._bodies.of(part), element, plane=plane)
        _name_planes([p for p in self.found.pieces[first:] if p.host == element], plane)

    def _is_thin(self, part: Entity) -> bool:
        body = self._bodies.of(part)
        plate = fit_plate(body) if body is not None else "no body"
        return isinstance(plate, Plate) and plate.thickness < float(self._defaults.least_thickness)

    def _take_whole(
        self,
        element: Entity,
        body: Body | None,
        host: Entity,
        *,
        plane: str | None = None,
    ) -> None:
        if body is None:
            self._notes.leave(
                "No body that can be used (none drawn, or one without volume)",
                element,
            )
            return
        words = material_words(self._ifc, element)
        if self._is_base(element, words):
            self.found.bases.append(element)
            return
        plate = fit_plate(body)
        reason = plate if isinstance(plate, str) else self._unfit(plate)
        if reason is not None:
            if has_curves(self._model, element):
                reason = f"it is curved: {reason}"
            self._notes.leave(f"{reason[0].upper()}{reason[1:]}", element)
            return
        if isinstance(plate, Plate):
            self._add(element, plate, host, body=body, words=words, plane=plane)

    def _add(
        self,
        element: Entity,
        plate: Plate,
        host: Entity,
        *,
        body: Body,
        words: str,
        plane: str | None,
    ) -> None:
        own = self._own(element)
        for doubt in plate.doubts:
            self._notes.guess(f"Not quite a flat plate; {doubt}", element)
        own_id = self._names.of(element, "Panel", own.get("Id"))
        self.found.pieces.append(
            Piece(
                element=element,
                id=own_id,
                plate=plate,
                role=own["Role"] if own.get("Role") in _ROLES else self._role(element, host, plate),
                plane=own_id if plane is None else plane,
                host=host,
                storey=self._storey(element),
                layers=read_layers(self._ifc, element, body, plate.normal, scale=self._scale),
                material=words,
                own=own,
            )
        )

    def _unfit(self, plate: Plate) -> str | None:
        least, most = self._defaults.least_thickness, self._defaults.most_thickness
        shown = f"it is {plate.thickness * 1000:.1f} mm thick"
        if plate.thickness < float(least):
            return f"{shown} and a panel is at least {float(least) * 1000:.0f} mm"
        if plate.thickness > float(most):
            return f"{shown} and a panel is at most {float(most) * 1000:.0f} mm"
        return None

    def _is_base(self, element: Entity, words: str) -> bool:
        if element.is_a("IfcSlab") and getattr(element, "PredefinedType", None) == "BASESLAB":
            return not is_foam(words)
        return is_concrete(words)

    def _role(self, element: Entity, host: Entity, plate: Plate) -> PanelRole:
        level = abs(float(plate.normal[2]))
        name = plain(element.Name).lower()
        if "rim" in name.split() and level < 0.1:
            return "rim"
        if level < 0.2:
            external = self._ifc.util.element.get_pset(host, "Pset_WallCommon", "IsExternal")
            inner = external is False or getattr(host, "PredefinedType", "") == "PARTITIONING"
            if inner:
                self._notes.use("Taken as an inside wall, as the model says", element)
            return "partition" if inner else "wall"
        types = {getattr(e, "PredefinedType", None) for e in (element, host)}
        if "FLOOR" in types or "BASESLAB" in types:
            return "floor"
        roof = "ROOF" in types or host.is_a("IfcRoof") or self._in_roof(host) or level < 0.995
        if not roof:
            self._notes.guess("A level plate with no stated use was taken as a floor", element)
        return "roof" if roof else "floor"

    def _in_roof(self, element: Entity) -> bool:
        parent = self._ifc.util.element.get_aggregate(element)
        return parent is not None and bool(parent.is_a("IfcRoof"))

    def _storey(self, element: Entity) -> str | None:
        place = self._ifc.util.element.get_container(element)
        while place is not None and not place.is_a("IfcBuildingStorey"):
            place = self._ifc.util.element.get_aggregate(place)
        return identifier(plain(place.Name)) or None if place is not None else None

    def _own(self, element: Entity) -> dict[str, Entity]:
        """Return what an earlier export of this tool said about a panel, lengths in metres."""
        stated = dict(self._ifc.util.element.get_pset(element, "Seamwright_Panel") or {})
        for name in OWN_LENGTHS:
            if isinstance(stated.get(name), float):
                stated[name] *= self._scale
            else:
                stated.pop(name, None)
        return stated

    def _take_proxy(self, element: Entity) -> None:
        words = material_words(self._ifc, element)
        if is_foam(words):
            self._notes.guess("An element of no stated class was taken as a panel", element)
            self._take_whole(element, self._bodies.of(element), element)
            return
        self._notes.leave(
            "It has no stated class and no foam core to tell it for a panel",
            element,
        )


def _name_planes(pieces: list[Piece], name: str) -> None:
    """Name the planes that the parts of one element lie in: its own name if there is only one.

    A part alone in its plane gives the plane its own id; others are numbered after the element.
    """
    planes: list[list[Piece]] = []
    for piece in pieces:
        group = next((g for g in planes if _is_coplanar(g[0].plate, piece.plate)), None)
        if group is None:
            planes.append([piece])
        else:
            group.append(piece)
    for number, group in enumerate(planes, start=1):
        for piece in group:
            alone = len(group) == 1 and len(planes) > 1
            piece.plane = name if len(planes) == 1 else piece.id if alone else f"{name}_{number}"


def _is_coplanar(a: Plate, b: Plate) -> bool:
    across = (b.middle - a.middle) @ a.normal
    return abs(float(a.normal @ b.normal)) > 1 - 1e-6 and abs(float(across)) < 0.005
