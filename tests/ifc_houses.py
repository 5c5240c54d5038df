"""Invented houses as building models: one gable house in many guises, and odd single elements."""

from __future__ import annotations

import math
from typing import Any

from tests.ifc_models import THICK, Author

LENGTH, WIDTH, HEIGHT, PITCH = 8.0, 6.0, 2.5, 0.5
GABLE_TOP = HEIGHT + PITCH * WIDTH / 2


def gable_house(**guise: Any) -> Author:
    """Return a house of 8 m by 6 m: four walls, two roof slopes, a slab, ridge beam, openings."""
    with_layers = guise.pop("layers", True)
    a = Author(**guise)
    kind = "IfcWallStandardCase" if a.schema == "IFC2X3" else "IfcWall"
    south = a.wall("South", (0, 0), (LENGTH, 0), HEIGHT, kind=kind)
    north = a.wall("North", (LENGTH, WIDTH), (0, WIDTH), HEIGHT, kind=kind)
    inner = WIDTH - 2 * THICK
    low, top = HEIGHT + PITCH * THICK, HEIGHT + PITCH * WIDTH / 2
    pentagon = [(0, 0), (inner, 0), (inner, low), (inner / 2, top), (0, low)]
    east = a.wall(
        "East", (LENGTH, THICK), (LENGTH, WIDTH - THICK), HEIGHT, ring=pentagon, kind=kind
    )
    west = a.wall("West", (0, WIDTH - THICK), (0, THICK), HEIGHT, ring=pentagon, kind=kind)
    roofs = [_slope(a, "Roof south", flip=False), _slope(a, "Roof north", flip=True)]
    if with_layers:
        a.layers([south, north, east, west])
        a.layers(roofs, axis="AXIS3")
    slab = a.plate(
        "IfcSlab", "Ground slab", (0, 0, -0.2), (1, 0, 0), (0, 1, 0),
        [(0, 0), (LENGTH, 0), (LENGTH, WIDTH), (0, WIDTH)], 0.2, PredefinedType="BASESLAB",
    )  # fmt: skip
    a.material(slab, "Concrete")
    a.plate(
        "IfcBeam", "Ridge beam", (0, WIDTH / 2 - 0.045, GABLE_TOP - 0.3), (0, 1, 0), (0, 0, 1),
        [(0, 0), (0.09, 0), (0.09, 0.3), (0, 0.3)], LENGTH,
    )  # fmt: skip
    a.hole(
        south, "Hole 1", (1.0, THICK + 0.05, 0.9), (1, 0, 0), (0, 0, 1),
        [(0, 0), (1.2, 0), (1.2, 1.1), (0, 1.1)], THICK + 0.1, fill="IfcWindow", fill_name="W1",
    )  # fmt: skip
    a.hole(
        south, "Hole 2", (5.0, THICK + 0.05, 0.0), (1, 0, 0), (0, 0, 1),
        [(0, 0), (0.95, 0), (0.95, 2.1), (0, 2.1)], THICK + 0.1, fill="IfcDoor", fill_name="D1",
    )  # fmt: skip
    vent = a.round("IfcOpeningElement", "Vent duct", (3.0, -0.1, 2.2), (0, 1, 0), 0.08, THICK + 0.2)
    a.root("IfcRelVoidsElement", "", RelatingBuildingElement=north, RelatedOpeningElement=vent)
    vent.ObjectPlacement = a.placement(
        (3.0, WIDTH + 0.1, 2.2), (1, 0, 0), (0, -1, 0), a.storey.ObjectPlacement
    )
    return a


def _slope(a: Author, name: str, *, flip: bool) -> Any:
    """Return one roof slope; its underside runs from the outer wall face to the ridge."""
    run = WIDTH / 2
    slope = math.hypot(run, PITCH * run)
    up = (0.0, -run, PITCH * run) if flip else (0.0, run, PITCH * run)
    along = (-1.0, 0.0, 0.0) if flip else (1.0, 0.0, 0.0)
    origin = (LENGTH, WIDTH, HEIGHT) if flip else (0.0, 0.0, HEIGHT)
    ring = [(0, 0), (LENGTH, 0), (LENGTH, slope), (0, slope)]
    plumb = THICK * PITCH  # both ends plumb: the upper face stands straight over the lower
    high = [(0, plumb), (LENGTH, plumb), (LENGTH, slope + plumb), (0, slope + plumb)]
    return a.plate(
        "IfcSlab", name, origin, along, up, ring, THICK, high=high, PredefinedType="ROOF"
    )
