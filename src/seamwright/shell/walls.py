"""All outside walls of the house: every storey's runs, their tops, and their surfaces."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from seamwright.errors import Problem
from seamwright.geometry.plate import Plate, extent, kept_above, kept_below
from seamwright.geometry.types import Ring, Vec2
from seamwright.shell.corners import RoofAbove, WallRun, room_ring, rule_for, runs
from seamwright.shell.envelope import Wing, underside
from seamwright.shell.levels import Level
from seamwright.shell.outline import Stretch, stretches
from seamwright.shell.plan import Plan
from seamwright.shell.surface import Region, Surface
from seamwright.shell.types import Build
from seamwright.shell.wall import Top, flat_top, is_stepped, roofed_top, wall_plate


@dataclass(frozen=True, kw_only=True, slots=True)
class StoreyWalls:
    """The outside walls of one storey, and the closed lines of their inner faces. [m]"""

    level: Level
    walls: tuple[WallRun, ...]
    rooms: tuple[Ring, ...]


def storey_walls(
    plan: Plan,
    floors: Sequence[Level],
    roof: Sequence[Wing],
    builds: Mapping[str, Build],
    problems: list[Problem],
) -> tuple[StoreyWalls, ...]:
    """Return the walls of every storey, lowest first."""
    found: list[StoreyWalls] = []
    for level in floors:
        loops = stretches(plan, level.index, builds)
        over = [wing for wing in roof if wing.rise == level.index]
        roof_above = _above_corners(over)
        settled = [r for loop in loops for r in runs(plan, loop, roof_above, problems)]
        settled.sort(key=lambda run: (run.stretch.edge.order, run.outer[0]))
        found.append(
            StoreyWalls(
                level=level,
                walls=tuple(settled),
                rooms=tuple(room_ring(loop) for loop in loops),
            )
        )
    return tuple(found)


def _above_corners(over: Sequence[Wing]) -> RoofAbove:
    def height(p: Vec2) -> float | None:
        pitch = underside(over, p)
        return None if pitch is None else pitch.slope.at(p)

    def stepped(stretch: Stretch) -> bool:
        return is_stepped(stretch, underside(over, stretch.at((stretch.low + stretch.high) / 2.0)))

    return RoofAbove(height=height, stepped=stepped)


@dataclass(frozen=True, kw_only=True, slots=True)
class WallPlanes:
    """Wall surfaces, and where the zero of a wall that is part of another one lies.

    `hosts` maps the id of an upper wall that runs on from the wall below to that wall's surface
    and the height of its own bearing above that surface's zero. [m]
    """

    surfaces: tuple[Surface, ...]
    hosts: Mapping[str, tuple[str, float]]


def wall_planes(
    plan: Plan,
    storeys: Sequence[StoreyWalls],
    roof: Sequence[Wing],
    builds: Mapping[str, Build],
    problems: list[Problem],
) -> WallPlanes:
    """Return the wall surfaces of all storeys, cut to the roof where nothing stands above.

    Walls that run past a hanging floor stay in one piece where the panel's length allows;
    otherwise they end at the floor level, half the edge gap short on each side.
    """
    surfaces: list[Surface] = []
    hosts: dict[str, tuple[str, float]] = {}
    for storey in storeys:
        for wall in _walls_of(storey):
            if wall[0].wall in hosts:
                continue
            stack = _stack(storeys, storey, wall)
            regions = _stacked(plan, stack, roof, builds, problems)
            for level, runs_above in stack[1:] if regions is not None else ():
                up = level.bearing - storey.level.bearing
                hosts[runs_above[0].wall] = (wall[0].wall, up)
            if regions is None:
                both = (storey.level, _above(storeys, storey.level))
                regions = _alone(plan, both, wall, roof, builds=builds, problems=problems)
            if regions:
                surface = _surface(plan, storey.level, wall[0], regions)
                problems.extend(_width_problems(surface, builds[surface.type_id]))
                surfaces.append(surface)
    return WallPlanes(surfaces=tuple(surfaces), hosts=hosts)


_Stack = list[tuple[Level, tuple[WallRun, ...]]]


def _walls_of(storey: StoreyWalls) -> list[tuple[WallRun, ...]]:
    names = dict.fromkeys(run.wall for run in storey.walls)
    return [tuple(run for run in storey.walls if run.wall == name) for name in names]


def _stack(
    storeys: Sequence[StoreyWalls],
    storey: StoreyWalls,
    wall: tuple[WallRun, ...],
) -> _Stack:
    """Return a wall and the same wall of the storeys above it, past hanging floors only."""
    found: _Stack = [(storey.level, wall)]
    for above in storeys[storey.level.index + 1 :]:
        if above.level.storey.floor != "hanging":
            break
        letter = wall[0].stretch.edge.letter
        runs_above = tuple(r for r in above.walls if r.stretch.edge.letter == letter)
        if [_ends(r) for r in runs_above] != [_ends(r) for r in wall]:
            break
        found.append((above.level, runs_above))
    return found


def _ends(run: WallRun) -> tuple[object, ...]:
    ends = (*run.outer, *run.inner)
    return (*(round(u, 6) for u in ends), run.stretch.type_id)


def _stacked(
    plan: Plan,
    stack: _Stack,
    roof: Sequence[Wing],
    builds: Mapping[str, Build],
    problems: list[Problem],
) -> tuple[Region, ...] | None:
    """Return a wall over several storeys in one piece; None when it is too tall or only one."""
    if len(stack) == 1:
        return None
    (low, wall), (high, above) = stack[0], stack[-1]
    found: list[Region] = []
    for run, top_run in zip(wall, above, strict=True):
        tops = wall_top(plan, high, top_run, roof, problems)
        if not tops:
            continue
        plate = wall_plate(run, low.bearing, tops)
        if extent(plate, 1)[1] > builds[run.stretch.type_id].max_length + 1e-6:
            return None
        found.append(Region(plate=plate, clear=run.clear))
    return tuple(found)


def _above(storeys: Sequence[StoreyWalls], level: Level) -> Level | None:
    return storeys[level.index + 1].level if level.index + 1 < len(storeys) else None


def _alone(
    plan: Plan,
    levels: tuple[Level, Level | None],
    wall: tuple[WallRun, ...],
    roof: Sequence[Wing],
    *,
    builds: Mapping[str, Build],
    problems: list[Problem],
) -> tuple[Region, ...]:
    level, above = levels
    found: list[Region] = []
    for run in wall:
        tops = wall_top(plan, level, run, roof, problems)
        if not tops:
            continue
        plate = wall_plate(run, level.bearing, tops)
        half = builds[run.stretch.type_id].edge_gap / 2.0
        pieces: tuple[Plate, ...] = (plate,)
        if level.storey.floor == "hanging":
            pieces = tuple(x for p in pieces for x in kept_above(p, 1, half))
        if (
            above is not None
            and above.storey.floor == "hanging"
            and run.stretch.edge.rise > level.index
        ):
            end = level.top - level.bearing - half
            pieces = tuple(x for p in pieces for x in kept_below(p, 1, end))
        found.extend(Region(plate=p, clear=run.clear) for p in pieces)
    return tuple(found)


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
                sentence=f"the roof comes down below the bottom of wall {run.wall} ({{bearing}})",
                remedy="raise the roof part's eave_height or lower its pitch",
                lengths=(("bearing", level.bearing),),
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


def _width_problems(surface: Surface, build: Build) -> list[Problem]:
    """Return what is wrong with panel widths given for a wall."""
    widths = surface.fixed_widths
    if not widths:
        return []
    low = min(extent(r.plate, 0)[0] for r in surface.regions)
    high = max(extent(r.plate, 0)[1] for r in surface.regions)
    rest = high - low - sum(widths)
    if max(widths) > build.max_width + 1e-6:
        return [
            Problem(
                subject=f"wall {surface.id}",
                sentence=f"a panel of {{width}} is wanted on wall {surface.id}, but {build.id} "
                "goes to {most}",
                remedy="give smaller widths, or the wall another panel type",
                lengths=(("width", max(widths)), ("most", build.max_width)),
            )
        ]
    if rest < -1e-3:
        return [
            Problem(
                subject=f"wall {surface.id}",
                sentence=f"the widths given for wall {surface.id} add up to {{sum}}, more than its "
                "{length}",
                remedy="give fewer or smaller widths",
                lengths=(("sum", sum(widths)), ("length", high - low)),
            )
        ]
    return []
