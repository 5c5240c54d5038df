"""What the shell encloses: volume, area and floor area within the inner faces, by a stated rule.

Space around the house is cut along the planes of the inner faces into convex bodies. A body is
indoors when the winding number of the inner faces around its middle says so. The volume is the sum
of those bodies; the area is that of their sides against the outdoors. Planes run on over seams and
plates, so no gap between panels lets the measure leak.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from seamwright.joints.floors import floor_areas
from seamwright.joints.hulls import hulls
from seamwright.joints.partition import (
    boundary_area,
    faces_of,
    indoor_bodies,
    levels_of,
)
from seamwright.joints.types import Register
from seamwright.shell.types import Shell
from seamwright.tolerance import DEFAULT, Tolerance

RULE = (
    "Volume and area within the inner faces of the shell: holes closed in the plane of their wall "
    "or roof, the floor at the top of the slab, stem wall or floor panels, floors between storeys "
    "and partitions counted in, overhangs and all that lies outside the inner faces left out. "
    "Floor area: each floor out to the inner faces, whatever the headroom, stairs not taken off."
)

_OPEN = "{n} breaks in the line of the shell; planes were carried on across them, check the figure"


@dataclass(frozen=True, kw_only=True, slots=True)
class Enclosure:
    """What a fan test divides by. [m³], [m²]

    `area` includes walls, roof and floor with their openings. `floors` are the areas of the single
    floors from the lowest up. `rule` says in words how the figures were measured; `warnings` what
    makes them doubtful.
    """

    volume: float
    area: float
    floor_area: float
    rule: str
    floors: tuple[float, ...] = ()
    warnings: tuple[str, ...] = ()


def measure_enclosure(
    shell: Shell, register: Register, tolerance: Tolerance = DEFAULT
) -> Enclosure:
    """Return the volume, area and floor area that a shell encloses. [m³], [m²]

    The figures do not depend on the order of panels or on where the house stands. A shell with
    breaks still gets a figure, with a warning in `rule`; one that encloses nothing gets zeros.

    Several houses in one shell are measured one by one and added up.

    Source: inside and outside by winding numbers, ``jacobson-2013``; which parts count is our rule,
    close to the internal volume of ISO 9972 with floors and partitions left in (from memory).
    """
    volumes, areas, floors = [], [], []
    for house in hulls(shell, register, tolerance):
        faces = faces_of(house)
        levels = levels_of(faces, tolerance)
        bodies = indoor_bodies(house, faces, levels, tolerance)
        volumes += [body.volume for body in bodies]
        areas.append(boundary_area(bodies, levels))
        floors.append(floor_areas(house, bodies, tolerance))
    most = max((len(f) for f in floors), default=0)
    by_storey = tuple(math.fsum(f[i] for f in floors if len(f) > i) for i in range(most))
    warnings = _warnings(math.fsum(volumes), register)
    return Enclosure(
        volume=math.fsum(volumes),
        area=math.fsum(areas),
        floor_area=math.fsum(by_storey),
        rule=" ".join((RULE, *(f"CAUTION: {w}." for w in warnings))),
        floors=by_storey,
        warnings=warnings,
    )


def with_own_volume(enclosure: Enclosure, volume: float, rule: str) -> Enclosure:
    """Return the enclosure with a volume that somebody else measured, by the rule they state.

    Volume in m³, above zero. The area stays by our rule, and `rule` says so.
    """
    told = f"Volume given by the user: {rule}. Areas: {enclosure.rule}"
    return replace(enclosure, volume=volume, rule=told)


def _warnings(volume: float, register: Register) -> tuple[str, ...]:
    if volume <= 0.0:
        return ("the shell encloses nothing: walls, roof or floor are missing",)
    if register.breaks:
        return (_OPEN.format(n=len(register.breaks)),)
    return ()
