"""What comes back from a building model, and the records passed between the reading steps."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from seamwright.shell.plan import Plan, Point3
from seamwright.shell.types import PanelRole, SplineKind

Floats: TypeAlias = NDArray[np.float64]
Ints: TypeAlias = NDArray[np.int64]
Mask: TypeAlias = NDArray[np.bool_]
Entity: TypeAlias = Any
"""An entity, model or module of the optional library, which has no types of its own."""

PER_METRE = 1_000_000
"""Coordinates read from a model are held to 1/1000 mm, far below any tolerance of the trade."""


@dataclass(frozen=True, kw_only=True, slots=True)
class PanelDefaults:
    """What to assume where the model is silent. Lengths exact, in metres.

    All values are `common practice, no source`: 7/16 in skins, panels up to 8 ft by 24 ft, a
    surface spline 3 in across, 1/8 in between skins; plates thinner than 50 mm or thicker than
    600 mm are not panels; an unfilled hole up to 400 mm across is a service, not a window.
    """

    skin: Fraction = Fraction(7, 16) * Fraction(127, 5000)
    max_width: Fraction = Fraction(96 * 127, 5000)
    max_length: Fraction = Fraction(288 * 127, 5000)
    spline: SplineKind = "surface"
    spline_width: Fraction = Fraction(3 * 127, 5000)
    edge_gap: Fraction = Fraction(1, 8) * Fraction(127, 5000)
    core_material: str = "EPS"
    least_thickness: Fraction = Fraction(50, 1000)
    most_thickness: Fraction = Fraction(600, 1000)
    most_service: Fraction = Fraction(400, 1000)


DEFAULTS = PanelDefaults()


@dataclass(frozen=True, kw_only=True, slots=True)
class IfcReading:
    """A plan read from a building model, and in plain words how it was come by.

    `used`, `guessed` and `left_out` are sentences naming each element with its GlobalId. `shift`
    was taken off every coordinate of the model [m], so model = plan + shift. `global_ids` pairs
    each id of the plan with the GlobalId of the element it came from.
    """

    plan: Plan
    used: tuple[str, ...]
    guessed: tuple[str, ...]
    left_out: tuple[str, ...]
    shift: Point3
    schema: str
    global_ids: tuple[tuple[str, str], ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class Body:
    """The triangles of one element's body in model coordinates [m], and its placement (4, 4)."""

    points: Floats
    triangles: Ints
    placement: Floats


@dataclass(frozen=True, kw_only=True, slots=True)
class Plate:
    """A flat plate found in a body: two parallel faces and what runs round them.

    `normal` points from the `low` face to the `high` face; outlines and `holes` are (n, 3) points,
    counter-clockwise seen against `normal`; vertex i of `low` belongs to vertex i of `high`.
    `steps` are the heights of all faces parallel to the plate above the low one, 0 first. [m]
    `doubts` say what was not exactly as a plate should be.
    """

    normal: Floats
    low: Floats
    high: Floats
    holes: tuple[Floats, ...]
    thickness: float
    steps: tuple[float, ...]
    doubts: tuple[str, ...] = ()

    @property
    def middle(self) -> Floats:
        """Mean of all corners. [m]"""
        return np.asarray(np.vstack([self.low, self.high]).mean(axis=0), dtype=float)


@dataclass(frozen=True, kw_only=True, slots=True)
class Layered:
    """Layers of an element along its layer axis: names, thicknesses [m], axis in the model."""

    name: str
    names: tuple[str, ...]
    thicknesses: tuple[float, ...]
    axis: Floats


@dataclass(kw_only=True, slots=True)
class Piece:
    """One element on its way to becoming a panel (the only record here that is filled in)."""

    element: Entity
    id: str
    plate: Plate
    role: PanelRole
    plane: str
    host: Entity
    storey: str | None
    layers: Layered | None
    material: str
    outward: int = 0
    lay_out: bool = False
    own: dict[str, Entity] = field(default_factory=dict)
