"""The floors inside a house, each out to the inner faces of the walls around it."""

from __future__ import annotations

from collections.abc import Sequence

import shapely

from seamwright.geometry.convex import Body, Level, section
from seamwright.geometry.types import Vec3
from seamwright.joints.hulls import House
from seamwright.tolerance import Tolerance

_OVER = 0.01
"""How far above a floor its outline is taken. [m]"""

_SAME = 0.30
"""Floors nearer than this in height, one beside another, are one storey. Our own choice. [m]"""


def floor_areas(house: House, bodies: Sequence[Body], tolerance: Tolerance) -> tuple[float, ...]:
    """Return the area of each floor within a house's indoor bodies, from the lowest up. [m²]

    A floor is the top of a base, the room side of floor panels, a deck, or what hangs between
    ledgers; it reaches out to the inner faces at its own height.
    """
    storeys: list[tuple[float, float]] = []
    for height, shape in sorted(_floors(house, tolerance), key=lambda floor: floor[0]):
        area = _section_at(bodies, height + _OVER, tolerance).intersection(shape).area
        if storeys and height - storeys[-1][0] < _SAME:
            storeys[-1] = (storeys[-1][0], storeys[-1][1] + area)
        else:
            storeys.append((height, area))
    return tuple(area for _, area in storeys if area > 0.0)


def _floors(house: House, tolerance: Tolerance) -> list[tuple[float, shapely.Geometry]]:
    """Return height and outline in plan of every floor."""
    level = [p for p in house.panels if p.role == "floor" and p.frame.n[2] < -0.99]
    flats = [tuple(p.frame.point(uv) for uv in p.inner) for p in level]
    flats += house.bases
    flats += [tuple(d.frame.point(uv) for uv in d.outline) for d in house.decks]
    by_height: dict[float, list[shapely.Geometry]] = {}
    for loop in flats:
        by_height.setdefault(round(loop[0][2], 2), []).append(_plan(loop))
    floors = [
        (height, shapely.union_all(shapes).buffer(0.01, join_style=2))
        for height, shapes in by_height.items()
    ]
    hung: dict[float, list[Vec3]] = {}
    for ledger in house.ledgers:
        hung.setdefault(round(ledger.start[2], 2), []).extend((ledger.start, ledger.end))
    for height, ends in hung.items():
        hull = shapely.MultiPoint([(p[0], p[1]) for p in ends]).convex_hull
        floors.append(
            (height, hull.buffer(house.ledgers[0].width / 2.0 + tolerance.step, join_style=2))
        )
    return floors


def _section_at(bodies: Sequence[Body], height: float, tolerance: Tolerance) -> shapely.Geometry:
    """Return the outline of the bodies at a height, in plan."""
    level = Level(normal=(0.0, 0.0, 1.0), offset=height)
    loops = [section(body, level, tolerance.equal) for body in bodies]
    return shapely.union_all([_plan(loop) for loop in loops if len(loop) >= 3])


def _plan(loop: Sequence[Vec3]) -> shapely.Geometry:
    return shapely.make_valid(shapely.Polygon([(p[0], p[1]) for p in loop]))
