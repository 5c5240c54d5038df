"""Panel types from material layers, and from what a body shows when the model names none."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import TypeAlias

import numpy as np

from seamwright.io.ifc.notes import Notes, plain
from seamwright.io.ifc.types import PER_METRE, Body, Entity, Floats, Layered, PanelDefaults, Piece
from seamwright.shell.plan import PanelType

_Key: TypeAlias = tuple[str, Fraction, Fraction, Fraction, str]
"""Name, inner skin, core, outer skin, core material."""

_SPLINES = ("surface", "block", "lumber", "i_joist", "cam_lock")
_FOAM = ("eps", "xps", "pur", "pir", "foam", "core", "polystyren", "polyurethan", "insulation")
_CONCRETE = ("concrete", "masonry", "block", "brick", "stone", "cement", "beton")


def exact(value: float) -> Fraction:
    """Return a length held to 1/1000 mm. [m]"""
    return Fraction(round(value * PER_METRE), PER_METRE)


def read_layers(
    ifc: Entity, element: Entity, body: Body, normal: Floats, *, scale: float
) -> Layered | None:
    """Return the layers of an element in the order of its layer axis, or None without any.

    Where the stated axis does not run through the plate, the one that does is taken.
    """
    material = ifc.util.element.get_material(element, should_skip_usage=False)
    if material is None:
        return None
    sense, direction = 1.0, "AXIS3" if element.is_a("IfcSlab") else "AXIS2"
    if material.is_a("IfcMaterialLayerSetUsage"):
        direction = material.LayerSetDirection
        sense = -1.0 if material.DirectionSense == "NEGATIVE" else 1.0
        material = material.ForLayerSet
    if material is None or not material.is_a("IfcMaterialLayerSet"):
        return None
    layers = [layer for layer in material.MaterialLayers or () if layer.LayerThickness]
    if not layers:
        return None
    axes: Floats = body.placement[:3, :3]
    column = {"AXIS1": 0, "AXIS2": 1, "AXIS3": 2}.get(direction, 1)
    if abs(float(axes[:, column] @ normal)) < 0.7:
        column = int(np.argmax(np.abs(normal @ axes)))
    return Layered(
        name=plain(material.LayerSetName),
        names=tuple(_layer_name(layer) for layer in layers),
        thicknesses=tuple(float(layer.LayerThickness) * scale for layer in layers),
        axis=axes[:, column] * sense,
    )


def material_words(ifc: Entity, element: Entity) -> str:
    """Return the names of all materials of an element in lower case."""
    found = ifc.util.element.get_materials(element, should_inherit=True)
    return " ".join(plain(material.Name).lower() for material in found if material is not None)


def is_concrete(words: str) -> bool:
    """Return whether material names speak of concrete or masonry."""
    return any(word in words for word in _CONCRETE) and not is_foam(words)


def is_foam(words: str) -> bool:
    """Return whether material names speak of a foam core."""
    return any(re.search(rf"\b{word}", words) for word in _FOAM)


class PanelTypes:
    """Gives every piece its panel type, making each kind once."""

    def __init__(self, defaults: PanelDefaults, notes: Notes) -> None:
        self._defaults = defaults
        self._notes = notes
        self._made: dict[_Key, PanelType] = {}

    @property
    def all(self) -> tuple[PanelType, ...]:
        """Every panel type met so far."""
        return tuple(self._made.values())

    def of(self, piece: Piece) -> PanelType:
        """Return the panel type of a piece, its layers from inside out."""
        skins = _stated(piece) or self._from_layers(piece) or self._from_steps(piece)
        name = skins[3]
        whole = exact(piece.plate.thickness)
        inner, outer = exact(skins[0]), exact(skins[2])
        core = whole - inner - outer
        key = (name, inner, core, outer, skins[4])
        if key not in self._made:
            self._made[key] = self._new(key, piece.own)
        return self._made[key]

    def _new(self, key: _Key, own: dict[str, Entity]) -> PanelType:
        d = self._defaults
        name, inner, core, outer, foam = key
        taken = {kind.id for kind in self._made.values()}
        base = identifier(name) or f"P{round(float(inner + core + outer) * 1000)}"
        count, kind_id = 1, base
        while kind_id in taken:
            count += 1
            kind_id = f"{base}_{count}"
        return PanelType(
            id=kind_id,
            skin_inner=inner,
            core=core,
            skin_outer=outer,
            max_width=exact(own["MaxWidth"]) if "MaxWidth" in own else d.max_width,
            max_length=exact(own["MaxLength"]) if "MaxLength" in own else d.max_length,
            spline=own["Spline"] if own.get("Spline") in _SPLINES else d.spline,
            spline_width=exact(own["SplineWidth"]) if "SplineWidth" in own else d.spline_width,
            edge_gap=exact(own["EdgeGap"]) if "EdgeGap" in own else d.edge_gap,
            core_material=foam or d.core_material,
        )

    def _from_layers(self, piece: Piece) -> tuple[float, float, float, str, str] | None:
        layers = piece.layers
        if layers is None or len(layers.names) < 3:
            return None
        along = float(layers.axis @ piece.plate.normal) * piece.outward
        order = 1 if along >= 0 else -1
        sizes, names = layers.thicknesses[::order], layers.names[::order]
        core = _core(sizes, names)
        if core == 0 or core == len(sizes) - 1:
            return None
        inner, outer = sizes[core - 1], sizes[core + 1]
        rest = piece.plate.thickness - inner - outer
        if rest <= 0:
            return None
        if len(sizes) > 3:
            self._notes.guess(
                "Layers beyond the two skins and the core (linings, claddings) were counted "
                "with the core, so the panel is as thick as the body",
                piece.element,
            )
        elif abs(rest - sizes[core]) > 1e-3:
            self._notes.guess(
                "Its layers do not add up to the thickness of its body; the body was believed "
                "and the core adjusted",
                piece.element,
            )
        self._notes.use("Skins and core taken from the material layers", piece.element)
        return inner, rest, outer, layers.name, names[core]

    def _from_steps(self, piece: Piece) -> tuple[float, float, float, str, str]:
        steps, whole = piece.plate.steps, piece.plate.thickness
        if len(steps) >= 4 and steps[1] < 0.03 and whole - steps[-2] < 0.03:
            ends = (steps[1], whole - steps[-2])
            inner, outer = ends if piece.outward > 0 else ends[::-1]
            self._notes.use("Skins and core measured on the body, which shows them", piece.element)
            return inner, whole - inner - outer, outer, "", ""
        skin = float(self._defaults.skin)
        if piece.role != "partition":
            self._notes.guess(
                f"The model names no layers; skins of {skin * 1000:.1f} mm were assumed",
                piece.element,
            )
        return skin, whole - 2 * skin, skin, "", ""


def _stated(piece: Piece) -> tuple[float, float, float, str, str] | None:
    own = piece.own
    if not {"SkinInner", "SkinOuter", "PanelType"} <= set(own):
        return None
    inner, outer = float(own["SkinInner"]), float(own["SkinOuter"])
    rest = piece.plate.thickness - inner - outer
    if inner <= 0 or outer <= 0 or rest <= 0:
        return None
    return inner, rest, outer, str(own["PanelType"]), str(own.get("CoreMaterial", ""))


def identifier(name: str) -> str:
    """Return a name as an id: letters, digits, dot, dash and underscore only."""
    return re.sub(r"[^0-9A-Za-z._-]+", "_", name).strip("_")[:40]


def _layer_name(layer: Entity) -> str:
    material = layer.Material
    words = [plain(material.Name) if material is not None else ""]
    words += [plain(getattr(layer, "Name", None)), plain(getattr(layer, "Category", None))]
    return " ".join(word for word in words if word)


def _core(sizes: tuple[float, ...], names: tuple[str, ...]) -> int:
    """Return the index of the core: a foam by name, else the thickest layer."""
    foams = [i for i, name in enumerate(names) if is_foam(name.lower())]
    candidates = foams or list(range(len(sizes)))
    return max(candidates, key=lambda i: sizes[i])
