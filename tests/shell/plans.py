"""Small invented plans for the tests of the shell."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

from seamwright.shell.plan import (
    Base,
    Footprint,
    PanelType,
    Plan,
    RoofPart,
    Site,
    Storey,
)

WALL = PanelType(
    id="W6",
    skin_inner=F(111, 10000),
    core=F(1397, 10000),
    skin_outer=F(111, 10000),
    max_width=F(12192, 10000),
    max_length=F(73152, 10000),
    spline="surface",
    spline_width=F(762, 10000),
    edge_gap=F(3, 1000),
)
ROOF = replace(WALL, id="R10", core=F(2350, 10000))
JUMBO = replace(WALL, id="J6", max_width=F(73152, 10000), max_length=F(24384, 10000))


def rectangle(x: object, y: object, x0: object = 0, y0: object = 0) -> tuple:
    """Return the corners of a rectangle of size x by y at (x0, y0), counter-clockwise."""
    a, b, c, d = F(x0), F(y0), F(x0) + F(x), F(y0) + F(y)
    return ((a, b), (c, b), (c, d), (a, d))


def gable(**changes: object) -> RoofPart:
    """Return a gable roof over 8 by 6 m, eaves on the long sides, 12 in 12."""
    part = RoofPart(
        id="main",
        kind="gable",
        area=rectangle(8, 6),
        eaves=(0, 2),
        pitch=F(1),
        panel_type="R10",
        overhang_eave=F(4, 10),
        overhang_rake=F(3, 10),
    )
    return replace(part, **changes)


def box(**changes: object) -> Plan:
    """Return a house of 8 by 6 m, one storey of 2.4 m, on a slab, under a gable roof."""
    plan = Plan(
        site=Site(name="test house"),
        panel_types=(WALL, ROOF, JUMBO),
        base=Base(kind="slab", top=F(0), thickness=F(1, 10)),
        storeys=(Storey(id="ground", height=F(24, 10), panel_type="W6"),),
        footprints=(Footprint(id="house", corners=rectangle(8, 6), storeys=("ground",)),),
        roof=(gable(),),
    )
    return replace(plan, **changes)
