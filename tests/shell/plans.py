"""Small invented plans for the tests of the shell."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

from seamwright.shell.plan import (
    Base,
    Footprint,
    PanelType,
    Plan,
    Preferences,
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


def gapless(plan: Plan) -> Plan:
    """Return the plan with panels that touch at their seams, so that a closed shell is closed."""
    return replace(plan, panel_types=tuple(replace(t, edge_gap=F(0)) for t in plan.panel_types))


def hip(**changes: object) -> RoofPart:
    """Return a hip roof over 8 by 6 m, 8 in 12."""
    return gable(**{"kind": "hip", "eaves": (0, 1, 2, 3), "pitch": F(2, 3)} | changes)


def wing(**changes: object) -> RoofPart:
    """Return a gable wing of 4 m that leaves a 12 by 6 m house toward the south."""
    part = gable(
        id="wing",
        area=rectangle(4, 3, 4, -3),
        eaves=(1, 3),
        open_end=(2,),
        pitch=F(1),
    )
    return replace(part, **changes)


def tee(main: RoofPart | None = None, side: RoofPart | None = None, **changes: object) -> Plan:
    """Return a T-shaped house: 12 by 6 m with a wing of 4 by 3 m on its south side."""
    long = gable(area=rectangle(12, 6)) if main is None else main
    plan = box(
        footprints=(
            Footprint(id="main", corners=rectangle(12, 6), storeys=("ground",)),
            Footprint(id="wing", corners=rectangle(4, 3, 4, -3), storeys=("ground",)),
        ),
        roof=(long, wing() if side is None else side),
    )
    return replace(plan, **changes)
