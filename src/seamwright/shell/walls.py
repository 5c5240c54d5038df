"""All outside walls of the house: every storey's runs, their tops, and their surfaces."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from seamwright.errors import Problem
from seamwright.geometry.types import Ring
from seamwright.shell.corners import WallRun, room_ring, rule_for, runs
from seamwright.shell.envelope import Wing
from seamwright.shell.levels import Level
from seamwright.shell.outline import stretches
from seamwright.shell.plan import Plan
from seamwright.shell.surface import Region, Surface
from seamwright.shell.types import Build
from seamwright.shell.wall import Top, flat_top, roofed_top, wall_plate


@dataclass(frozen=True, kw_only=True, slots=True)
class StoreyWalls:
    """The outside walls of one storey, and the closed lines of their inner faces. [m]"""

    level: Level
    walls: tuple[WallRun, ...]
    rooms: tuple[Ring, ...]


def storey_walls(
    plan: Plan, floors: Sequence[Level], builds: Mapping[str, Build], problems: list[Problem]
) -> tuple[StoreyWalls, ...]:
    """Return the walls of every storey, lowest first."""
    found: list[StoreyWalls] = []
    for level in floors:
        loops = stretches(plan, level.index, builds)
        settled = [run for loop in loops for run in runs(plan, loop, problems)]
        settled.sort(key=lambda run: (run.stretch.edge.order, run.outer[0]))
        found.append(
            StoreyWalls(
                level=level,
                walls=tuple(settled),
                rooms=tuple(room_ring(loop) for loop in loops),
            )
        )
    return tuple(found)


def wall_surfaces(
    plan: Plan, storey: StoreyWalls, roof: Sequence[Wing], problems: list[Problem]
) -> tuple[Surface, ...]:
    """Return one surface per wall of a storey, cut to the roof where nothing stands above."""
    found: dict[str, list[Region]] = {}
    first: dict[str, WallRun] = {}
    for run in storey.walls:
        tops = wall_top(plan, storey.level, run, roof, problems)
        if not tops:
            continue
        plate = wall_plate(run, storey.level.bearing, tops)
        found.setdefault(run.wall, []).append(Region(plate=plate, clear=run.clear))
        first.setdefault(run.wall, run)
    return tuple(
        _surface(plan, storey.level, run, tuple(found[wall])) for wall, run in first.items()
    )


def wall_top(
    plan: Plan, level: Level, run: WallRun, roof: Sequence[Wing], problems: list[Problem]
) -> tuple[Top, ...]:
    """Return the top line of a wall: level below another storey or without a roof, else cut."""
    if not plan.roof or run.stretch.edge.rise > level.index:
        return flat_top(run, level.top)
    over = [wing for wing in roof if wing.rise == run.stretch.edge.rise]
    tops = roofed_top(run, over, problems)
    if tops and min(z for top in tops for z in (top.inner[1], top.outer[1])) < level.bearing:
        problems.append(
            Problem(
                subject=f"wall {run.wall}",
                sentence=f"the roof comes down below the bottom of wall {run.wall} "
                f"({level.bearing:.3f} m)",
                remedy="raise the roof part's eave_height or lower its pitch",
            )
        )
        return ()
    return tops


def _surface(plan: Plan, level: Level, run: WallRun, regions: tuple[Region, ...]) -> Surface:
    rule = rule_for(plan, run.wall)
    side = plan.preferences.layout_from
    widths: tuple[float, ...] = ()
    if rule is not None:
        side = side if rule.layout_from is None else rule.layout_from
        widths = () if rule.widths is None else tuple(float(w) for w in rule.widths)
    return Surface(
        id=run.wall,
        role="wall",
        storey=level.storey.id,
        frame=run.frame(level.bearing),
        type_id=run.stretch.type_id,
        regions=regions,
        layout_from=side,
        fixed_widths=widths,
    )
