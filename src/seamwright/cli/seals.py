"""``seamwright seals``: the seal schedule."""

from __future__ import annotations

import typer

from seamwright.cli.options import CatalogFile, Json, PanelTypes, PlanName, Units
from seamwright.cli.say import say, say_json, show_findings, show_table
from seamwright.cli.source import read_source, shelf
from seamwright.cli.status import status_of
from seamwright.io.register_json import seals_document
from seamwright.report.cover import unsigned_table
from seamwright.report.register_tables import kinds_present
from seamwright.report.schedule_tables import patch_table, schedule_table, seal_type_table
from seamwright.report.seal_types import joint_seals, seal_types
from seamwright.workflow import seal_house


def run(
    plan: PlanName,
    *,
    units: Units = "us",
    catalog: CatalogFile = None,
    types: PanelTypes = None,
    as_json: Json = False,
) -> None:
    """List the seal of every joint, with its arithmetic."""
    source = read_source(plan, types=types)
    with source.placed(units):
        house = seal_house(source.plan, shelf(source, catalog))
    status = status_of(house.register, house.schedule.findings)
    if as_json:
        say_json(seals_document(house.schedule))
        raise typer.Exit(status)
    seals = joint_seals(house.register, house.schedule)
    kinds = seal_types(seals)
    say(f"{source.plan.site.name}: seal schedule")
    say()
    show_table(seal_type_table(kinds), units)
    for kind in kinds_present(house.register):
        show_table(schedule_table(seals, kinds, kind), units)
    show_table(patch_table(house.schedule), units)
    show_table(unsigned_table(house), units)
    show_findings(house.schedule.findings, units)
    raise typer.Exit(status)
