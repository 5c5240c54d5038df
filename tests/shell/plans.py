"""Small invented plans for the tests of the shell."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F  # noqa: N817 (a plan is full of fractions)

from seamwright.shell.plan import (
    Base,
    Dormer,
    Footprint,
    OpeningSpec,
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


def octagon() -> Plan:
    """Return a house with eight walls and mitered corners under a hip."""
    points = ((2, 0), (6, 0), (8, 2), (8, 4), (6, 6), (2, 6), (0, 4), (0, 2))
    corners = tuple((F(x), F(y)) for x, y in points)
    return box(
        roof=(hip(area=corners, eaves=tuple(range(8))),),
        footprints=(Footprint(id="house", corners=corners, storeys=("ground",)),),
    )


def gambrel() -> RoofPart:
    """Return a gambrel, 24 in 12 below and 6 in 12 above a break 1 m in."""
    return gable(kind="gambrel", pitch=F(2), second_pitch=F(1, 2), break_run=F(1))


def equal_tee() -> Plan:
    """Return a T whose wing is as wide as the main part, so that the ridges meet in one point."""
    return tee(
        side=wing(area=rectangle(6, 3, 4, -3)),
        footprints=(
            Footprint(id="main", corners=rectangle(12, 6), storeys=("ground",)),
            Footprint(id="wing", corners=rectangle(6, 3, 4, -3), storeys=("ground",)),
        ),
    )


def ell(main: RoofPart | None = None, side: RoofPart | None = None) -> Plan:
    """Return an L: 12 by 6 m, with a wing of 6 by 5 m flush with its east end."""
    return tee(
        main=main,
        side=wing(area=rectangle(6, 5, 6, -5)) if side is None else side,
        footprints=(
            Footprint(id="main", corners=rectangle(12, 6), storeys=("ground",)),
            Footprint(id="wing", corners=rectangle(6, 5, 6, -5), storeys=("ground",)),
        ),
    )


def hipped_ell() -> Plan:
    """Return the L with hips on all free ends; the east planes of both parts lie in one plane."""
    side = hip(id="wing", area=rectangle(6, 5, 6, -5), eaves=(0, 1, 3), open_end=(2,))
    return ell(main=hip(area=rectangle(12, 6)), side=side)


def two_storeys(floor: str, **changes: object) -> Plan:
    """Return the house of 8 by 6 m with a second storey on a platform or a hanging floor."""
    ground = Storey(id="ground", height=F(24, 10), panel_type="W6")
    upper = Storey(
        id="upper",
        height=F(22, 10),
        panel_type="W6",
        floor=floor,
        floor_depth=F(3, 10),
        deck=F(2, 100),
    )
    plan = box(
        storeys=(ground, upper),
        footprints=(Footprint(id="house", corners=rectangle(8, 6), storeys=("ground", "upper")),),
    )
    return replace(plan, **changes)


def with_entry(floor: str) -> Plan:
    """Return two storeys with a one-storey entry of 3 by 2 m under a shed roof on the north."""
    plan = two_storeys(floor)
    entry = Footprint(id="entry", corners=rectangle(3, 2, 2, 6), storeys=("ground",))
    porch = RoofPart(
        id="porch",
        kind="shed",
        area=rectangle(3, 2, 2, 6),
        eaves=(2,),
        pitch=F(1, 4),
        panel_type="R10",
        eave_plate=F(4, 100),
        overhang_eave=F(3, 10),
        overhang_rake=F(2, 10),
    )
    return replace(plan, footprints=(*plan.footprints, entry), roof=(*plan.roof, porch))


def dormer(**changes: object) -> Dormer:
    """Return a gable dormer of 2 m on the south slope."""
    one = Dormer(
        id="D1",
        part="main",
        eave=0,
        along=F(3),
        back=F(1, 2),
        width=F(2),
        eave_height=F(44, 10),
        kind="gable",
        pitch=F(2, 3),
        panel_type="R10",
        wall_panel_type="W6",
        overhang_eave=F(2, 10),
        overhang_rake=F(2, 10),
    )
    return replace(one, **changes)


def with_dormer(**changes: object) -> Plan:
    """Return the gable house, 15 in 12, with one dormer."""
    return box(roof=(gable(pitch=F(5, 4)),), dormers=(dormer(**changes),))


def window(name: str = "W1", **changes: object) -> OpeningSpec:
    """Return a window of 0.6 by 1.0 m in wall A, 0.3 m from its start and 0.9 m up."""
    one = OpeningSpec(
        id=name,
        kind="window",
        host="A",
        along=F(3, 10),
        up=F(9, 10),
        width=F(6, 10),
        height=F(1),
    )
    return replace(one, **changes)
