"""The built-in model `wren_house.ifc`: an invented cabin as a designer might export it.

Run ``python -m tests.ifc_wren`` in the repository's root to write it again.
"""

from __future__ import annotations

import itertools
import math
from pathlib import Path
from typing import Any

from tests.ifc_models import THICK, Author, Ring

FILE = Path(__file__).parents[1] / "src" / "seamwright" / "data" / "houses" / "wren_house.ifc"
LENGTH, WIDTH, HEIGHT, PITCH = 9.6, 6.6, 2.6, 0.5
EAVE, RAKE, GAP = 0.45, 0.30, 0.003
RIDGE = HEIGHT + PITCH * WIDTH / 2


def wren_house() -> Author:
    """Return the model: planes to lay out, a wall of given plates, beam, openings, clutter."""
    a = Author(unit="mm", origin=(412_300.0, 5_310_450.0, 18.0), angle_deg=20.0)
    a.project.Name, a.site.Name, a.building.Name = "Wren house", "Invented plot", "Wren house"
    a.site.RefLatitude, a.site.RefLongitude = (48, 30, 0), (-123, -15, 0)
    a.body = "brep"
    walls = [_eave_wall(a, "South", (0, 0), (LENGTH, 0))]
    walls.append(_eave_wall(a, "North", (LENGTH, WIDTH), (0, WIDTH)))
    far, clear = WIDTH - THICK, WIDTH - 2 * THICK
    walls.append(
        a.wall("East", (LENGTH, THICK), (LENGTH, far), HEIGHT, ring=_gable(0.0, clear, clear))
    )
    plates = _west_plates(a, clear)
    roofs = [_slope(a, "Roof south", flip=False), _slope(a, "Roof north", flip=True)]
    a.layers([*walls, *plates])
    a.layers(roofs, axis="AXIS3")
    a.body = "extrusion"
    _inside(a)
    _openings(a, walls[0], walls[1], walls[2], roofs)
    _clutter(a)
    a.f.header.file_name.time_stamp = "2026-01-01T00:00:00"
    a.f.header.file_name.name = FILE.name
    return a


def _eave_wall(a: Author, name: str, start: Any, end: Any) -> Any:
    """Return a wall whose top is beveled to the roof: higher on its inner face."""
    low = HEIGHT + PITCH * THICK
    ring = [(0, 0), (LENGTH, 0), (LENGTH, low), (0, low)]
    high = [(0, 0), (LENGTH, 0), (LENGTH, HEIGHT), (0, HEIGHT)]
    return a.wall(name, start, end, HEIGHT, ring=ring, high=high)


def _gable(start: float, end: float, clear: float) -> Ring:
    """Return the piece of a gable wall from `start` to `end`, from its own lower corner."""

    def top(x: float) -> float:
        return HEIGHT + PITCH * (THICK + min(x, clear - x))

    ring = [(0.0, 0.0), (end - start, 0.0), (end - start, top(end))]
    if start < clear / 2 < end:
        ring.append((clear / 2 - start, top(clear / 2)))
    return [*ring, (0.0, top(start))]


def _west_plates(a: Author, clear: float) -> list[Any]:
    whole = a.root("IfcElementAssembly", "West")
    a.contain(whole)
    cuts = [0.0, 2.1, 4.2, clear]
    plates = []
    for index, (start, end) in enumerate(itertools.pairwise(cuts)):
        left = start + (GAP / 2 if index > 0 else 0.0)
        right = end - (GAP / 2 if index < 2 else 0.0)
        ring = _gable(left, right, clear)
        origin = (THICK, WIDTH - THICK - left, 0.0)
        plates.append(
            a.plate("IfcPlate", f"West.{index + 1}", origin, (0, -1, 0), (0, 0, 1), ring, THICK,
                    parent=whole)
        )  # fmt: skip
    a.aggregate(whole, plates)
    return plates


def _slope(a: Author, name: str, *, flip: bool) -> Any:
    run = WIDTH / 2 + EAVE
    slope, plumb = math.hypot(run, PITCH * run), THICK * PITCH
    way = -1.0 if flip else 1.0
    origin = (
        LENGTH + RAKE if flip else -RAKE,
        WIDTH + EAVE if flip else -EAVE,
        HEIGHT - PITCH * EAVE,
    )
    wide = LENGTH + 2 * RAKE
    ring = [(0, 0), (wide, 0), (wide, slope), (0, slope)]
    high = [(0, plumb), (wide, plumb), (wide, slope + plumb), (0, slope + plumb)]
    return a.plate(
        "IfcSlab", name, origin, (way, 0, 0), (0, way * run, PITCH * run), ring, THICK,
        high=high, PredefinedType="ROOF",
    )  # fmt: skip


def _inside(a: Author) -> None:
    slab = a.plate(
        "IfcSlab", "Ground slab", (0, 0, -0.15), (1, 0, 0), (0, 1, 0),
        [(0, 0), (LENGTH, 0), (LENGTH, WIDTH), (0, WIDTH)], 0.15, PredefinedType="BASESLAB",
    )  # fmt: skip
    a.material(slab, "Concrete")
    top = RIDGE - PITCH * 0.045
    beam = a.plate(
        "IfcBeam", "Ridge beam", (THICK, WIDTH / 2 - 0.045, top - 0.36), (0, 1, 0), (0, 0, 1),
        [(0, 0), (0.09, 0), (0.09, 0.36), (0, 0.36)], LENGTH - 2 * THICK,
    )  # fmt: skip
    a.material(beam, "Glued laminated timber")
    inner = a.wall("Bedroom wall", (6.0, THICK), (6.0, WIDTH - THICK), 2.4, thick=0.114)
    flag = a.f.create_entity(
        "IfcPropertySingleValue", "IsExternal", None, a.f.create_entity("IfcBoolean", False)
    )
    pset = a.root("IfcPropertySet", "Pset_WallCommon", HasProperties=[flag])
    a.root("IfcRelDefinesByProperties", "", RelatedObjects=[inner], RelatingPropertyDefinition=pset)


def _openings(a: Author, south: Any, north: Any, east: Any, roofs: list[Any]) -> None:
    def box(width: float, height: float) -> Ring:
        return [(0, 0), (width, 0), (width, height), (0, height)]

    deep, back = THICK + 0.1, THICK + 0.05
    for host, name, fill, at, size in (
        (south, "W1", "IfcWindow", (1.2, 0.9), (1.5, 1.2)),
        (south, "D1", "IfcDoor", (4.4, 0.0), (0.95, 2.1)),
        (south, "W2", "IfcWindow", (7.0, 0.9), (1.5, 1.2)),
    ):
        a.hole(host, f"Hole {name}", (at[0], back, at[1]), (1, 0, 0), (0, 0, 1), box(*size), deep,
               fill=fill, fill_name=name)  # fmt: skip
    a.hole(north, "Hole W3", (3.2, WIDTH - back, 1.1), (-1, 0, 0), (0, 0, 1), box(0.9, 0.9), deep,
           fill="IfcWindow", fill_name="W3")  # fmt: skip
    a.hole(east, "Hole W4", (LENGTH - back, 2.4, 0.9), (0, 1, 0), (0, 0, 1), box(1.8, 1.3), deep,
           fill="IfcWindow", fill_name="W4")  # fmt: skip
    vent = a.round("IfcOpeningElement", "Vent duct", (8.2, WIDTH + 0.1, 2.3), (0, -1, 0), 0.08,
                   THICK + 0.2)  # fmt: skip
    a.root("IfcRelVoidsElement", "", RelatingBuildingElement=north, RelatedOpeningElement=vent)
    stack = a.round("IfcPipeSegment", "Vent pipe", (7.3, 5.0, 2.0), (0, 0, 1), 0.055, 2.6)
    a.material(stack, "PVC")
    slope = math.hypot(1.0, PITCH)
    up = (0.0, 1.0 / slope, PITCH / slope)
    normal = (0.0, -PITCH / slope, 1.0 / slope)
    y = 1.4
    origin = [2.0, y, HEIGHT + PITCH * y]
    low = [o - 0.05 * n for o, n in zip(origin, normal, strict=True)]
    a.hole(roofs[0], "Hole S1", low, (1, 0, 0), up, box(0.78, 1.18), deep, fill="IfcWindow",
           fill_name="S1")  # fmt: skip


def _clutter(a: Author) -> None:
    """Add what a designer's model holds besides the shell; all of it is left out, and said so."""
    a.plate("IfcRailing", "Porch rail", (1, -2, 0), (1, 0, 0), (0, 0, 1),
            [(0, 0), (3, 0), (3, 1), (0, 1)], 0.04)  # fmt: skip
    a.contain(a.root("IfcStair", "Porch steps"))
    a.plate("IfcWall", "Garden wall facing", (0, -6, 0), (1, 0, 0), (0, 0, 1),
            [(0, 0), (4, 0), (4, 1.2), (0, 1.2)], 0.03)  # fmt: skip


if __name__ == "__main__":
    wren_house().save(FILE)
