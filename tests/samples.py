"""Small hand-made shells that tests share. Every number here is invented for the tests.

Axes: x east, y north, z up; metres. See `seamwright.shell.types` for what a panel's frame means.
"""

from __future__ import annotations

import math

from seamwright.geometry.types import Frame, Ring, Vec3
from seamwright.shell.types import (
    Build,
    Hole,
    Member,
    Opening,
    Panel,
    Penetration,
    Shell,
    SplineKind,
    Support,
)

SKIN = 0.0111125  # 7/16 in
CORE = 0.1428750  # 5-5/8 in
THICK = 2 * SKIN + CORE  # 6-1/2 in
GAP = 0.003175  # 1/8 in
UP: Vec3 = (0.0, 0.0, 1.0)


def build(spline: SplineKind = "surface", build_id: str = "P6") -> Build:
    """Return a 6-1/2 in panel build."""
    return Build(
        id=build_id,
        skin_inner=SKIN,
        core=CORE,
        skin_outer=SKIN,
        max_width=1.2192,
        max_length=7.3152,
        spline=spline,
        spline_width=0.0762,
        edge_gap=GAP,
    )


def rectangle(width: float, height: float, u0: float = 0.0, v0: float = 0.0) -> Ring:
    """Return a counter-clockwise rectangle with its lower start corner at (u0, v0)."""
    return ((u0, v0), (u0 + width, v0), (u0 + width, v0 + height), (u0, v0 + height))


def plate(
    panel_id: str,
    role: str,
    frame: Frame,
    inner: Ring,
    outer: Ring | None = None,
    *,
    storey: str | None = "1",
    holes: tuple[Hole, ...] = (),
) -> Panel:
    """Return a panel of the sample build; square edges unless `outer` is given."""
    return Panel(
        id=panel_id,
        build_id="P6",
        role=role,  # type: ignore[arg-type]
        plane_id=panel_id.split(".", maxsplit=1)[0],
        storey=storey,
        frame=frame,
        inner=inner,
        outer=inner if outer is None else outer,
        thickness=THICK,
        skin_inner=SKIN,
        skin_outer=SKIN,
        holes=holes,
    )


def rect_panel(
    panel_id: str,
    role: str,
    origin: Vec3,
    u: Vec3,
    v: Vec3,
    width: float,
    height: float,
    storey: str | None = "1",
) -> Panel:
    """Return a rectangular panel with square edges, lower start corner of the inner face given."""
    frame = Frame(origin=origin, u=u, v=v)
    return plate(panel_id, role, frame, rectangle(width, height), storey=storey)


def flush_pair(gap: float = GAP, spline: SplineKind = "surface") -> Shell:
    """Return two wall panels 1.2 m wide and 2.4 m tall side by side: one spline joint."""
    south: Vec3 = (1.0, 0.0, 0.0)
    return Shell(
        builds=(build(spline),),
        panels=(
            rect_panel("A.1", "wall", (0.0, THICK, 0.0), south, UP, 1.2, 2.4),
            rect_panel("A.2", "wall", (1.2 + gap, THICK, 0.0), south, UP, 1.2, 2.4),
        ),
    )


def corner_pair() -> Shell:
    """Return two walls at a right angle: A runs through along x, B butts against it along y."""
    return Shell(
        builds=(build(),),
        panels=(
            rect_panel("A.1", "wall", (0.0, THICK, 0.0), (1.0, 0.0, 0.0), UP, 1.2, 2.4),
            rect_panel("B.1", "wall", (1.2 - THICK, THICK, 0.0), (0.0, 1.0, 0.0), UP, 1.2, 2.4),
        ),
    )


LENGTH, WIDTH, HEIGHT, PITCH = 4.8, 3.6, 2.4, 8 / 12
EAVE, RAKE = 0.4, 0.3


def _walls(hole: Hole) -> tuple[Panel, ...]:
    top = HEIGHT + PITCH * THICK
    half = LENGTH / 2
    left, right = half - GAP / 2, half + GAP / 2
    frames = {
        "A": Frame(origin=(0.0, THICK, 0.0), u=(1.0, 0.0, 0.0), v=UP),
        "B": Frame(origin=(LENGTH - THICK, THICK, 0.0), u=(0.0, 1.0, 0.0), v=UP),
        "C": Frame(origin=(LENGTH, WIDTH - THICK, 0.0), u=(-1.0, 0.0, 0.0), v=UP),
        "D": Frame(origin=(THICK, WIDTH - THICK, 0.0), u=(0.0, -1.0, 0.0), v=UP),
    }
    clear = WIDTH - 2 * THICK
    gable: Ring = (
        (0.0, 0.0),
        (clear, 0.0),
        (clear, top),
        (clear / 2, HEIGHT + PITCH * WIDTH / 2),
        (0.0, top),
    )
    panels = []
    for wall in "AC":
        for number, (start, end) in enumerate(((0.0, left), (right, LENGTH)), start=1):
            panels.append(
                plate(
                    f"{wall}.{number}",
                    "wall",
                    frames[wall],
                    rectangle(end - start, top, start),
                    rectangle(end - start, HEIGHT, start),
                    holes=(hole,) if (wall, number) == ("A", 1) else (),
                )
            )
    panels += [plate(f"{wall}.1", "wall", frames[wall], gable) for wall in "BD"]
    return tuple(panels)


def _roof() -> tuple[Panel, ...]:
    theta = math.atan(PITCH)
    c, s = math.cos(theta), math.sin(theta)
    rise = THICK * math.tan(theta)
    slope = (WIDTH / 2 + EAVE) / c
    eave_z = HEIGHT - PITCH * EAVE
    south = Frame(origin=(-RAKE, -EAVE, eave_z), u=(1.0, 0.0, 0.0), v=(0.0, c, s))
    north = Frame(origin=(LENGTH + RAKE, WIDTH + EAVE, eave_z), u=(-1.0, 0.0, 0.0), v=(0.0, -c, s))
    whole = LENGTH + 2 * RAKE
    panels = []
    for name, frame in (("R1", south), ("R2", north)):
        for number, (start, end) in enumerate(
            ((0.0, whole / 2 - GAP / 2), (whole / 2 + GAP / 2, whole)), start=1
        ):
            panels.append(
                plate(
                    f"{name}.{number}",
                    "roof",
                    frame,
                    rectangle(end - start, slope, start),
                    rectangle(end - start, slope, start, rise),
                    storey=None,
                )
            )
    return tuple(panels)


def gable_box(*, beam: bool = True) -> Shell:
    """Return a closed one-room house: 6 wall panels, 4 roof panels, slab, ridge beam, window, pipe.

    Walls A (south) and C (north) run through; B (east) and D (west) are gables that butt. The roof
    underside passes through the outer wall face at the plate height; ridge and eaves are plumb
    cut; wall tops are beveled to the roof.
    """
    outline = rectangle(0.9, 1.2, 0.75, 0.9)
    window = Opening(
        id="W1",
        kind="window",
        plane_id="A",
        frame=Frame(origin=(0.0, THICK, 0.0), u=(1.0, 0.0, 0.0), v=UP),
        outline=outline,
        storey="1",
    )
    slab = Support(
        id="slab",
        kind="slab",
        frame=Frame(origin=(0.0, 0.0, 0.0), u=(1.0, 0.0, 0.0), v=(0.0, 1.0, 0.0)),
        outline=rectangle(LENGTH, WIDTH),
        thickness=0.1,
        storey="1",
    )
    ridge_z = HEIGHT + PITCH * WIDTH / 2
    ridge = Member(
        id="ridge-beam",
        kind="ridge_beam",
        start=(THICK, WIDTH / 2, ridge_z),
        end=(LENGTH - THICK, WIDTH / 2, ridge_z),
        up=UP,
        width=0.1334,
        depth=0.3048,
    )
    roof = _roof()
    pipe_v = 1.4
    pipe = Penetration(
        id="P1",
        kind="pipe",
        plane_id="R1",
        panel_id="R1.1",
        at=roof[0].frame.point((1.2, pipe_v)),
        axis=roof[0].frame.n,
        diameter=0.11,
    )
    return Shell(
        builds=(build(),),
        panels=_walls(Hole(opening_id="W1", outline=outline)) + roof,
        members=(ridge,) if beam else (),
        supports=(slab,),
        openings=(window,),
        penetrations=(pipe,),
    )
