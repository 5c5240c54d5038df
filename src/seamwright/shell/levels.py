"""Elevations of the storeys, and lookups of the plan's records by id."""

from __future__ import annotations

from dataclasses import dataclass

from seamwright.shell.plan import Footprint, PanelType, Plan, Storey
from seamwright.shell.types import Build


@dataclass(frozen=True, kw_only=True, slots=True)
class Level:
    """One storey in elevation. [m]

    `floor` is the walking surface, `bearing` the bottom of its walls, `top` the top of the walls
    on the outer face, `ceiling` the underside of the floor above (the same as `top` where the
    roof is above).
    """

    index: int
    storey: Storey
    floor: float
    bearing: float
    top: float
    ceiling: float


def levels(plan: Plan) -> tuple[Level, ...]:
    """Return the storeys in elevation, lowest first."""
    base = plan.base
    floor = 0.0 if base is None else float(base.top)
    bearing = floor if base is None else float(base.top + base.sill)
    found: list[Level] = []
    for i, storey in enumerate(plan.storeys):
        above = plan.storeys[i + 1] if i + 1 < len(plan.storeys) else None
        top = bearing + float(storey.height)
        ceiling, next_bearing = top, top
        if above is not None and above.floor == "hanging":
            ceiling = top - float(above.floor_depth)
        elif above is not None:
            next_bearing = top + float(above.floor_depth)
        found.append(
            Level(index=i, storey=storey, floor=floor, bearing=bearing, top=top, ceiling=ceiling)
        )
        floor = bearing = next_bearing
    return tuple(found)


def top_index(plan: Plan, footprint: Footprint) -> int:
    """Return the index of the highest storey a footprint rises to."""
    order = [storey.id for storey in plan.storeys]
    return max((order.index(s) for s in footprint.storeys), default=-1)


def letters(number: int) -> str:
    """Return A, B ... Z, AA, AB ... for 0, 1 ... 25, 26, 27 ...

    Examples
    --------
    >>> letters(0), letters(25), letters(26)
    ('A', 'Z', 'AA')
    """
    text = ""
    number += 1
    while number > 0:
        number, rest = divmod(number - 1, 26)
        text = chr(65 + rest) + text
    return text


def wall_id(letter: str, storey: int) -> str:
    """Return the id of a wall: its letter, with the storey's number in front from the second up."""
    return letter if storey == 0 else f"{storey + 1}{letter}"


def build_of(kind: PanelType) -> Build:
    """Return a panel type with its lengths as floats. [m]"""
    return Build(
        id=kind.id,
        skin_inner=float(kind.skin_inner),
        core=float(kind.core),
        skin_outer=float(kind.skin_outer),
        max_width=float(kind.max_width),
        max_length=float(kind.max_length),
        spline=kind.spline,
        spline_width=float(kind.spline_width),
        edge_gap=float(kind.edge_gap),
        core_material=kind.core_material,
    )
