"""``seamwright joints``: the joint register."""

from __future__ import annotations

import typer

from seamwright.cli.options import Json, PanelTypes, PlanName, Units
from seamwright.cli.say import say, say_json, show_table
from seamwright.cli.source import read_source
from seamwright.cli.status import status_of
from seamwright.io.register_json import register_document
from seamwright.report.register_tables import (
    break_table,
    joint_table,
    joint_totals,
    kinds_present,
    ledger_table,
    node_table,
)
from seamwright.workflow import register_joints


def run(
    plan: PlanName,
    *,
    units: Units = "us",
    types: PanelTypes = None,
    as_json: Json = False,
) -> None:
    """List every joint and node of a house."""
    source = read_source(plan, types=types)
    with source.placed(units):
        _, register = register_joints(source.plan)
    if as_json:
        say_json(register_document(register))
        raise typer.Exit(status_of(register))
    say(f"{source.plan.site.name}: joint register")
    say()
    for kind in kinds_present(register):
        show_table(joint_table(register, kind), units)
    show_table(node_table(register), units)
    show_table(joint_totals(register), units)
    show_table(ledger_table(register), units)
    show_table(break_table(register.breaks), units)
    for lost in register.lost_overrides:
        say(f"LOOK  The correction of {lost} has no joint any more; take it out or name another.")
    raise typer.Exit(status_of(register))
