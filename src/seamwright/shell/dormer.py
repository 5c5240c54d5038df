"""Dormers: a roof of their own cut into a main roof plane, a front wall and two cheeks on it.

The walls of a dormer stand on the upper face of the main roof's panels. The main roof is cut out
between their inner faces, up to the line where the dormer's underside meets the main one. Over and
beyond the cheeks the dormer's roof ends where its underside meets the main roof's upper face.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

import shapely

from seamwright.errors import Problem
from seamwright.geometry.plane import Flat, Slope
from seamwright.geometry.polygon import clipped, without_straights
from seamwright.geometry.types import Ring, Vec2
from seamwright.shell.dormer_walls import DormerFrame, dormer_walls
from seamwright.shell.envelope import Pitch, Wing, cells_of, grounds, pitches_of
from seamwright.shell.outline import rings_of
from seamwright.shell.plan import Dormer, Plan, RoofPart
from seamwright.shell.roof_cells import GRID, SCRAP, Cell
from seamwright.shell.surface import Surface
from seamwright.shell.types import Build

LEAST_FRONT = 0.10
"""Least height of a dormer's front wall above the main roof; common practice, no source. [m]"""
ON = 1e-6
"""A corner this near a line lies on it. [m]"""

_Reason: TypeAlias = tuple[str, str, tuple[tuple[str, float], ...]]
"""Why a dormer cannot stand: the sentence, the remedy, and the lengths in the sentence. [m]"""


@dataclass(frozen=True, kw_only=True, slots=True)
class Dormers:
    """The roof with its dormers: all cells, the dormers' wings (for names), and their walls."""

    cells: tuple[Cell, ...]
    wings: tuple[Wing, ...]
    walls: tuple[Surface, ...]


def with_dormers(
    plan: Plan,
    roof: Sequence[Wing],
    found: Sequence[Cell],
    builds: Mapping[str, Build],
    *,
    rooms: Mapping[int, shapely.Geometry],
    problems: list[Problem],
) -> Dormers:
    """Return the roof's cells with the dormers cut in; what does not fit goes to `problems`."""
    cells, own_wings, walls = list(found), list[Wing](), list[Surface]()
    own_cells: list[Cell] = []
    plane = 1 + max((p.plane for wing in roof for p in wing.pitches), default=0)
    for dormer in plan.dormers:
        host = next(wing for wing in roof if wing.part.id == dormer.part)
        placed = _frame(dormer, host, builds)
        wing = _wing(dormer, placed, host, plane)
        plane += len(wing.pitches)
        void = _void(placed, wing)
        reason = _misfit(placed, wing, void, rooms.get(host.rise))
        i = next((k for k, c in enumerate(cells) if reason is None and _holds(c, placed, void)), -1)
        if reason is not None or i < 0:
            problems.append(_problem(dormer, reason if reason is not None else OFF_PLANE))
            continue
        across = tuple(_over(void, k, wing, placed.main) for k in range(len(void)))
        cells[i] = replace(
            cells[i], rings=(*cells[i].rings, void), across=(*cells[i].across, across)
        )
        own_cells.extend(_cells(placed, wing, host.rise, shapely.Polygon(void)))
        own_wings.append(wing)
        storey = plan.storeys[host.rise].id if 0 <= host.rise < len(plan.storeys) else None
        walls.extend(dormer_walls(dormer, placed, wing, storey, plan.preferences.layout_from))
    return Dormers(cells=(*cells, *own_cells), wings=tuple(own_wings), walls=tuple(walls))


OFF_PLANE: _Reason = (
    "reaches beyond the roof plane it stands on",
    "move it, make it narrower, or lower its eave so that it ends below the ridge",
    (),
)


def _frame(dormer: Dormer, host: Wing, builds: Mapping[str, Build]) -> DormerFrame:
    """Return where a dormer stands: its front left corner, directions, and the main roof there."""
    area = host.area
    p, q = area[dormer.eave], area[(dormer.eave + 1) % len(area)]
    length = math.dist(p, q)
    along = ((q[0] - p[0]) / length, (q[1] - p[1]) / length)
    u, v = float(dormer.along), float(dormer.back)
    corner = (p[0] + u * along[0] - v * along[1], p[1] + u * along[1] + v * along[0])
    half = float(dormer.width) / 2.0
    middle = (corner[0] + half * along[0], corner[1] + half * along[1])
    main = min((x for x in host.pitches if x.eave == dormer.eave), key=lambda x: x.slope.at(middle))
    return DormerFrame(
        corner=corner,
        along=along,
        width=float(dormer.width),
        wall=builds[dormer.wall_panel_type].thickness,
        main=main,
        upper=main.slope.raised(builds[main.type_id].thickness),
    )


def _wing(dormer: Dormer, placed: DormerFrame, host: Wing, plane: int) -> Wing:
    """Return the dormer's roof as a wing that runs back far enough to be buried."""
    deep = _depth(dormer, placed)
    area: Ring = tuple(
        placed.at(x, y)
        for x, y in ((0.0, 0.0), (placed.width, 0.0), (placed.width, deep), (0.0, deep))
    )
    part = RoofPart(
        id=dormer.id,
        kind=dormer.kind,
        area=host.part.area,
        eaves=(3, 1) if dormer.kind == "gable" else (0,),
        pitch=dormer.pitch,
        panel_type=dormer.panel_type,
        overhang_eave=dormer.overhang_eave,
        overhang_rake=dormer.overhang_rake,
    )
    pitches = pitches_of(part, area, float(dormer.eave_height))
    numbered = tuple(replace(x, plane=plane + k) for k, x in enumerate(pitches))
    return Wing(
        part=part, rise=host.rise, area=area, grounds=grounds(part, area, {}), pitches=numbered
    )


def _depth(dormer: Dormer, placed: DormerFrame) -> float:
    """Return how far back the dormer's roof can show at most. [m]"""
    low = placed.main.slope.at(placed.corner)
    pitch = placed.main_pitch
    rise = float(dormer.eave_height) - low
    if dormer.kind == "gable":
        return 1.0 + max(0.0, rise + float(dormer.pitch) * placed.width / 2.0) / pitch
    gain = pitch - float(dormer.pitch)
    return 1.0 + (max(0.0, rise) / gain if gain > 1e-3 else 0.0)


def _void(placed: DormerFrame, wing: Wing) -> Ring:
    """Return the ground cut out of the main roof, clockwise; empty when there is none."""
    t = placed.wall
    deep = math.dist(wing.area[1], wing.area[2])
    ring: Ring = tuple(
        placed.at(x, y)
        for x, y in ((t, t), (placed.width - t, t), (placed.width - t, deep), (t, deep))
    )
    if placed.width <= 2.0 * t:
        return ()
    for pitch in wing.pitches:
        ring = _where_above(ring, pitch.slope, placed.main.slope)
    return tuple(reversed(without_straights(ring))) if ring else ()


def _cells(placed: DormerFrame, wing: Wing, rise: int, void: shapely.Geometry) -> list[Cell]:
    found: list[Cell] = []
    t, wide = placed.wall, 1000.0
    room = shapely.Polygon(
        [
            placed.at(x, y)
            for x, y in ((t, t), (placed.width - t, t), (placed.width - t, wide), (t, wide))
        ]
    )
    for k, pitch in enumerate(wing.pitches):
        for ground in cells_of(wing, k):
            above = _where_above(ground, pitch.slope, placed.upper)
            outside = shapely.difference(shapely.Polygon(above), room, grid_size=GRID)
            inside = shapely.intersection(shapely.Polygon(ground), void, grid_size=GRID)
            shape = shapely.union(outside, inside, grid_size=GRID)
            for ring in rings_of(shape):
                clean = without_straights(ring, slack=1e-8)
                if abs(shapely.Polygon(clean).area) > SCRAP:
                    across = tuple(_beside(clean, i, k, wing, placed) for i in range(len(clean)))
                    found.append(Cell(pitch=pitch, rise=rise, rings=(clean,), across=(across,)))
    return found


def _over(void: Ring, i: int, wing: Wing, main: Pitch) -> Pitch | None:
    """Return the dormer's slope across edge i of the void; None where a wall stands."""
    ends = (void[i], void[(i + 1) % len(void)])
    return next((x for x in wing.pitches if _on(ends, x.slope, main.slope)), None)


def _beside(ring: Ring, i: int, k: int, wing: Wing, placed: DormerFrame) -> Pitch | Flat | None:
    """Return what lies across edge i of a dormer's slope: a slope, the main roof's top, nothing."""
    ends = (ring[i], ring[(i + 1) % len(ring)])
    mine = wing.pitches[k].slope
    for j, other in enumerate(wing.pitches):
        if j != k and _on(ends, mine, other.slope):
            return other
    if _on(ends, mine, placed.main.slope):
        return placed.main
    if _on(ends, mine, placed.upper):
        top = placed.upper
        return Flat(point=top.lifted(ends[0]), normal=(-top.a, -top.b, 1.0))
    return None


def _on(ends: tuple[Vec2, Vec2], one: Slope, two: Slope) -> bool:
    return all(abs(one.at(p) - two.at(p)) < ON for p in ends)


def _where_above(ring: Ring, one: Slope, two: Slope) -> Ring:
    return clipped(ring, one.a - two.a, one.b - two.b, one.c - two.c) if ring else ()


def _holds(c: Cell, placed: DormerFrame, void: Ring) -> bool:
    """Return whether a cell is the main roof's and carries the whole dormer."""
    if c.pitch.plane != placed.main.plane or len(void) < 3:
        return False
    base = shapely.Polygon(
        [placed.at(x, y) for x, y in ((0.0, 0.0), (placed.width, 0.0))] + list(void)
    ).convex_hull
    return bool(shapely.Polygon(c.rings[0], c.rings[1:]).buffer(-ON).covers(base))


def _misfit(
    placed: DormerFrame, wing: Wing, void: Ring, room: shapely.Geometry | None
) -> _Reason | None:
    front = min(x.slope.at(placed.at(s * placed.width, 0.0)) for x in wing.pitches for s in (0, 1))
    if front < placed.upper.at(placed.at(0.0, placed.wall)) + LEAST_FRONT:
        foot = placed.upper.at(placed.at(0.0, placed.wall))
        sentence = (
            "has its eave at {front}, less than {least} above the main roof's upper face at its "
            "front wall ({foot})"
        )
        return (
            sentence,
            "raise its eave_height or move it toward the eave (smaller `back`)",
            (("front", front), ("least", LEAST_FRONT), ("foot", foot)),
        )
    if wing.part.kind == "shed" and float(wing.part.pitch) >= placed.main_pitch - 1e-3:
        sentence = (
            f"falls to the front at {12 * float(wing.part.pitch):.4g}/12, as steep as the main "
            f"roof's {12 * placed.main_pitch:.4g}/12, so the two never meet"
        )
        return (sentence, "give it a flatter pitch", ())
    if len(void) < 3:
        return ("leaves no opening between its walls", "make it wider", ())
    if room is not None and not room.buffer(ON).covers(shapely.Polygon(void)):
        remedy = "move it back from the eave or toward the middle"
        return ("opens over an outside wall", remedy, ())
    return None


def _problem(dormer: Dormer, reason: _Reason) -> Problem:
    sentence, remedy, lengths = reason
    return Problem(
        subject=f"dormer {dormer.id}",
        sentence=f"dormer {dormer.id} {sentence}",
        remedy=remedy,
        lengths=lengths,
    )
