"""From the plan to the shell: every panel, timber, bearing and hole in space."""

from __future__ import annotations

from collections.abc import Sequence

import shapely

from seamwright.errors import InputError, Problem
from seamwright.shell.base import base_supports, floor_surfaces, sill_plates
from seamwright.shell.check import check_plan
from seamwright.shell.envelope import Wing, wings
from seamwright.shell.floors import deck_supports, ledgers, rims
from seamwright.shell.levels import build_of, levels, top_index
from seamwright.shell.openings import penetrations, with_openings
from seamwright.shell.outline import plan_ring
from seamwright.shell.plan import Plan
from seamwright.shell.roof import roof_surfaces
from seamwright.shell.roof_cells import cells, settled
from seamwright.shell.split import panels_of
from seamwright.shell.surface import Surface
from seamwright.shell.types import Member, Shell, Support
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
    builds = {kind.id: build_of(kind) for kind in plan.panel_types}
    floors = levels(plan)
    roof = settled(wings(plan, floors), problems)
    storeys = storey_walls(plan, floors, builds, problems)
    walls = wall_planes(plan, storeys, roof, builds, problems)
    surfaces = (
        *_base_floor(plan),
        *walls.surfaces,
        *rims(storeys),
        *roof_surfaces(plan, roof, cells(roof, _taller(plan, roof)), builds),
    )
    cut, openings = with_openings(surfaces, plan.openings, walls.hosts, problems)
    panels = tuple(
        panel
        for surface in cut
        for panel in panels_of(surface, builds[surface.type_id], plan.preferences)
    )
    services = penetrations(cut, panels, plan.penetrations, walls.hosts, problems)
    if problems:
        raise InputError(problems)
    return Shell(
        builds=tuple(builds.values()),
        panels=panels,
        members=_members(plan, storeys, roof),
        supports=_supports(plan, storeys),
        openings=openings,
        penetrations=services,
        assumptions=(),
    )


def _base_floor(plan: Plan) -> tuple[Surface, ...]:
    base = plan.base
    if base is None or base.kind != "floor_panels" or base.panel_type is None:
        return ()
    return floor_surfaces(plan, base, base.panel_type)


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


