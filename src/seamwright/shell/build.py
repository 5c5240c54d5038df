"""From the plan to the shell: every panel, timber, bearing and hole in space."""

from __future__ import annotations

from collections import Counter
from collections.abc import Container, Mapping, Sequence
from dataclasses import replace

import shapely

from seamwright.errors import GeometryError, InputError, Problem
from seamwright.geometry.types import Ring
from seamwright.shell.assumptions import assumptions
from seamwright.shell.base import base_supports, floor_surfaces, sill_plates
from seamwright.shell.check import check_plan
from seamwright.shell.closure import closure_problems
from seamwright.shell.dormer import with_dormers
from seamwright.shell.envelope import Wing, wings
from seamwright.shell.floors import deck_supports, ledgers, rims
from seamwright.shell.given import given_supports, given_surfaces
from seamwright.shell.inner_wall import inner_builds, inner_surfaces
from seamwright.shell.levels import build_of, levels, top_index
from seamwright.shell.openings import Host, penetrations, with_openings
from seamwright.shell.outline import plan_ring
from seamwright.shell.plan import OpeningSpec, PenetrationSpec, Plan
from seamwright.shell.roof import plane_names, roof_surfaces
from seamwright.shell.roof_cells import cells, settled
from seamwright.shell.split import panels_of
from seamwright.shell.surface import Surface
from seamwright.shell.timbers import given_timbers, roof_timbers
from seamwright.shell.types import Member, Panel, Shell, Support
from seamwright.shell.wall import eave_plates
from seamwright.shell.walls import StoreyWalls, storey_walls, wall_planes


def build_shell(plan: Plan) -> Shell:
    """Return the house of a plan as panels, members, supports and openings in space.

    Parameters
    ----------
    plan : Plan
        What the user described; lengths are exact fractions and become floats here. [m]

    Returns
    -------
    Shell
        Panels in the order floor, walls from the lowest storey up, roof, inner walls, given ones.

    Raises
    ------
    InputError
        With every problem found; `subject` names the thing in the user's words.
    """
    found = check_plan(plan)
    if found:
        raise InputError(found)
    problems: list[Problem] = []
    try:
        shell = _built(plan, problems)
    except GeometryError as error:
        problems.append(Problem(subject="plan", sentence=str(error), remedy=""))
    if problems:
        raise InputError(problems)
    return shell


def _built(plan: Plan, problems: list[Problem]) -> Shell:
    builds = {kind.id: build_of(kind) for kind in plan.panel_types}
    builds |= {build.id: build for build in inner_builds(plan.inner_walls)}
    floors = levels(plan)
    roof = settled(wings(plan, floors), problems)
    storeys = storey_walls(plan, floors, roof, builds, problems)
    walls = wall_planes(plan, storeys, roof, builds, problems)
    rooms = {s.level.index: shapely.union_all([_room(r) for r in s.rooms]) for s in storeys}
    plain = cells(roof, _taller(plan, roof))
    problems.extend(closure_problems(plan, plain))
    dormers = with_dormers(plan, roof, plain, builds, rooms=rooms, problems=problems)
    over = (*roof, *dormers.wings)
    surfaces = (
        *_base_floor(plan),
        *walls.surfaces,
        *rims(storeys),
        *dormers.walls,
        *roof_surfaces(plan, over, dormers.cells, builds),
        *inner_surfaces(plan, floors, rooms, roof, problems),
        *given_surfaces(plan.panels, builds, plan.preferences.layout_from, problems),
    )
    timbers = roof_timbers(
        {part.id: part for part in plan.roof},
        roof,
        dormers.cells,
        rooms,
        plane_names(over, dormers.cells),
    )
    shell = Shell(
        builds=tuple(builds.values()),
        panels=(),
        members=(*_members(plan, storeys, roof), *timbers, *given_timbers(plan.timbers)),
        supports=(*_supports(plan, storeys), *given_supports(plan.supports)),
        assumptions=assumptions(plan),
    )
    return _with_panels(plan, shell, surfaces, walls.hosts, problems)


def _with_panels(
    plan: Plan,
    shell: Shell,
    surfaces: Sequence[Surface],
    hosts: Mapping[str, Host],
    problems: list[Problem],
) -> Shell:
    """Return the shell with openings cut, surfaces split into panels, and services placed."""
    builds = {build.id: build for build in shell.builds}
    floors = {surface.id for surface in _base_floor(plan)}
    hatches, drains = _seen_from_above(plan, floors)
    cut, openings = with_openings(surfaces, hatches, hosts, problems)
    panels = tuple(
        panel
        for surface in cut
        for panel in panels_of(surface, builds[surface.type_id], plan.preferences)
    )
    problems.extend(_named_twice(panels))
    services = penetrations(cut, panels, drains, hosts, problems)
    return replace(shell, panels=panels, openings=openings, penetrations=services)


def _named_twice(panels: Sequence[Panel]) -> list[Problem]:
    """Return a problem for each id that two panels carry: joints are named after them."""
    counts = Counter(panel.id for panel in panels)
    return [
        Problem(
            subject=f"panel {name}",
            sentence=f"two panels are called {name}: a given one and one laid out by the tool",
            remedy="give the given panel an id of its own",
        )
        for name, count in counts.items()
        if count > 1
    ]


def _room(ring: Ring) -> shapely.Geometry:
    return shapely.Polygon(ring)


def _base_floor(plan: Plan) -> tuple[Surface, ...]:
    base = plan.base
    if base is None or base.kind != "floor_panels" or base.panel_type is None:
        return ()
    return floor_surfaces(plan, base, base.panel_type)


def _seen_from_above(
    plan: Plan, floors: Container[str]
) -> tuple[tuple[OpeningSpec, ...], tuple[PenetrationSpec, ...]]:
    """Return openings and services, those of a floor turned into its axes, whose v runs outdoors:
    the user measures from the first side of the outline into the house.
    """
    return (
        tuple(
            replace(spec, up=-spec.up - spec.height) if spec.host in floors else spec
            for spec in plan.openings
        ),
        tuple(
            replace(spec, up=-spec.up) if spec.host in floors else spec
            for spec in plan.penetrations
        ),
    )


def _taller(plan: Plan, roof: Sequence[Wing]) -> dict[int, shapely.Geometry]:
    """Return per rise of a roof the ground of the footprints that go higher."""
    found: dict[int, shapely.Geometry] = {}
    for rise in {wing.rise for wing in roof}:
        higher = [
            shapely.Polygon(plan_ring(f.corners))
            for f in plan.footprints
            if top_index(plan, f) > rise >= 0
        ]
        if higher:
            found[rise] = shapely.union_all(higher)
    return found


def _members(
    plan: Plan, storeys: Sequence[StoreyWalls], roof: Sequence[Wing]
) -> tuple[Member, ...]:
    found: list[Member] = []
    if plan.base is not None and storeys:
        found.extend(sill_plates(plan.base, storeys[0].walls))
    for storey in storeys:
        if storey.level.storey.floor == "hanging":
            found.extend(ledgers(storey))
        for run in storey.walls:
            if run.stretch.edge.rise == storey.level.index:
                over = [wing for wing in roof if wing.rise == run.stretch.edge.rise]
                found.extend(eave_plates(run, over))
    return tuple(found)


def _supports(plan: Plan, storeys: Sequence[StoreyWalls]) -> tuple[Support, ...]:
    found: list[Support] = []
    if plan.base is not None and storeys:
        found.extend(base_supports(plan, plan.base, storeys[0].walls))
    for storey in storeys:
        if storey.level.storey.floor == "platform":
            found.extend(deck_supports(plan, storey))
    return tuple(found)
