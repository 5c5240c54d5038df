"""A generated estate of houses, all different, for measuring the search for joints.

Sizes are drawn from a seeded generator; the houses, the street and the sizes are invented.
"""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np

from seamwright.geometry.types import Frame, Ring, Vec3
from seamwright.shell.types import Build, Hole, Member, Opening, Panel, PanelRole, Shell, Support

THICK, SKIN, GAP = 0.165, 0.011, 0.003
WIDTH = 1.2
UP: Vec3 = (0.0, 0.0, 1.0)


def estate(n_panels: int, seed: int = 7) -> Shell:
    """Return houses on a square grid with `n_panels` panels or a few more.

    Every house has its own size, pitch and turn about the vertical; the order of the panels is
    shuffled, so nothing can lean on it.
    """
    rng = np.random.default_rng(seed)
    panels: list[Panel] = []
    members: list[Member] = []
    supports: list[Support] = []
    openings: list[Opening] = []
    houses: list[Shell] = []
    while sum(len(house.panels) for house in houses) < n_panels:
        houses.append(house_at(rng, len(houses)))
    side = math.ceil(math.sqrt(len(houses)))
    for number, house in enumerate(houses):
        angle = float(rng.uniform(0.0, 2.0 * math.pi))
        move = (40.0 * (number % side), 40.0 * (number // side), 0.0)
        panels += [replace(p, frame=_turned(p.frame, angle, move)) for p in house.panels]
        supports += [replace(s, frame=_turned(s.frame, angle, move)) for s in house.supports]
        openings += [replace(o, frame=_turned(o.frame, angle, move)) for o in house.openings]
        members += [
            replace(m, start=_moved(m.start, angle, move), end=_moved(m.end, angle, move))
            for m in house.members
        ]
    order = rng.permutation(len(panels))
    return Shell(
        builds=(BUILD,),
        panels=tuple(panels[i] for i in order),
        members=tuple(members),
        supports=tuple(supports),
        openings=tuple(openings),
    )


BUILD = Build(
    id="P",
    skin_inner=SKIN,
    core=THICK - 2 * SKIN,
    skin_outer=SKIN,
    max_width=WIDTH,
    max_length=7.3,
    spline="surface",
    spline_width=0.076,
    edge_gap=GAP,
)


def house_at(rng: np.random.Generator, number: int) -> Shell:
    """Return one gable house of random size at the origin, its ids starting with its number."""
    long = float(rng.integers(5, 12)) * WIDTH
    wide = float(rng.integers(4, 7)) * WIDTH
    high = float(rng.uniform(2.3, 3.0))
    pitch = float(rng.uniform(0.3, 1.1))
    name = f"H{number}."
    slab = Support(
        id=f"{name}slab",
        kind="slab",
        frame=Frame(origin=(0.0, 0.0, 0.0), u=(1.0, 0.0, 0.0), v=(0.0, 1.0, 0.0)),
        outline=_rectangle(0.0, long, 0.0, wide),
        thickness=0.1,
    )
    ridge_z = high + pitch * wide / 2
    beam = Member(
        id=f"{name}ridge",
        kind="ridge_beam",
        start=(THICK, wide / 2, ridge_z),
        end=(long - THICK, wide / 2, ridge_z),
        up=UP,
        width=0.13,
        depth=0.3,
    )
    walls, window = _eave_walls(name, long, wide, high, pitch)
    panels = walls + _gables(name, long, wide, high, pitch) + _roof(name, long, wide, high, pitch)
    return Shell(
        builds=(BUILD,),
        panels=tuple(panels),
        members=(beam,),
        supports=(slab,),
        openings=(window,),
    )


def _rectangle(u0: float, u1: float, v0: float, v1: float) -> Ring:
    return ((u0, v0), (u1, v0), (u1, v1), (u0, v1))


def _strips(start: float, end: float) -> list[tuple[float, float]]:
    """Return strips of panel width between two ends, with a gap between neighbors."""
    count = max(1, round((end - start) / WIDTH))
    step = (end - start) / count
    return [
        (
            start + i * step + (GAP / 2 if i else 0.0),
            start + (i + 1) * step - (GAP / 2 if i < count - 1 else 0.0),
        )
        for i in range(count)
    ]


def _eave_walls(
    name: str, long: float, wide: float, high: float, pitch: float
) -> tuple[list[Panel], Opening]:
    inner_top = high + pitch * THICK
    frames = {
        "A": Frame(origin=(0.0, THICK, 0.0), u=(1.0, 0.0, 0.0), v=UP),
        "C": Frame(origin=(long, wide - THICK, 0.0), u=(-1.0, 0.0, 0.0), v=UP),
    }
    panels = []
    outline = _rectangle(WIDTH + 0.2, 2 * WIDTH - 0.2, 0.9, 2.0)
    window = Opening(
        id=f"{name}W1", kind="window", plane_id=f"{name}A", frame=frames["A"], outline=outline
    )
    for wall, frame in frames.items():
        for i, (a, b) in enumerate(_strips(0.0, long), start=1):
            holes = (Hole(opening_id=window.id, outline=outline),) if (wall, i) == ("A", 2) else ()
            rings = _rectangle(a, b, 0.0, inner_top), _rectangle(a, b, 0.0, high)
            panels.append(_panel(f"{name}{wall}.{i}", "wall", frame, rings, *holes))
    return panels, window


def _gables(name: str, long: float, wide: float, high: float, pitch: float) -> list[Panel]:
    frames = {
        "B": Frame(origin=(long - THICK, 0.0, 0.0), u=(0.0, 1.0, 0.0), v=UP),
        "D": Frame(origin=(THICK, wide, 0.0), u=(0.0, -1.0, 0.0), v=UP),
    }

    def top(u: float) -> float:
        return high + pitch * min(u, wide - u)

    panels = []
    for wall, frame in frames.items():
        for i, (a, b) in enumerate(_strips(THICK, wide - THICK), start=1):
            peak = ((wide / 2, top(wide / 2)),) if a < wide / 2 < b else ()
            ring = ((a, 0.0), (b, 0.0), (b, top(b)), *peak, (a, top(a)))
            panels.append(_panel(f"{name}{wall}.{i}", "wall", frame, (ring, ring)))
    return panels


def _roof(name: str, long: float, wide: float, high: float, pitch: float) -> list[Panel]:
    theta = math.atan(pitch)
    c, s = math.cos(theta), math.sin(theta)
    eave, rake = 0.4, 0.3
    slope, rise = (wide / 2 + eave) / c, THICK * math.tan(theta)
    low = high - pitch * eave
    frames = {
        "R1": Frame(origin=(-rake, -eave, low), u=(1.0, 0.0, 0.0), v=(0.0, c, s)),
        "R2": Frame(origin=(long + rake, wide + eave, low), u=(-1.0, 0.0, 0.0), v=(0.0, -c, s)),
    }
    panels = []
    for plane, frame in frames.items():
        for i, (a, b) in enumerate(_strips(0.0, long + 2 * rake), start=1):
            rings = _rectangle(a, b, 0.0, slope), _rectangle(a, b, rise, slope + rise)
            panels.append(_panel(f"{name}{plane}.{i}", "roof", frame, rings))
    return panels


def _panel(
    panel_id: str, role: PanelRole, frame: Frame, rings: tuple[Ring, Ring], *holes: Hole
) -> Panel:
    inner, outer = rings
    return Panel(
        id=panel_id,
        build_id=BUILD.id,
        role=role,
        plane_id=panel_id.rsplit(".", maxsplit=1)[0],
        storey="1" if role == "wall" else None,
        frame=frame,
        inner=inner,
        outer=outer,
        thickness=THICK,
        skin_inner=SKIN,
        skin_outer=SKIN,
        holes=holes,
    )


def _spun(a: Vec3, angle: float) -> Vec3:
    c, s = math.cos(angle), math.sin(angle)
    return (c * a[0] - s * a[1], s * a[0] + c * a[1], a[2])


def _moved(a: Vec3, angle: float, move: Vec3) -> Vec3:
    b = _spun(a, angle)
    return (b[0] + move[0], b[1] + move[1], b[2] + move[2])


def _turned(frame: Frame, angle: float, move: Vec3) -> Frame:
    return Frame(
        origin=_moved(frame.origin, angle, move), u=_spun(frame.u, angle), v=_spun(frame.v, angle)
    )
