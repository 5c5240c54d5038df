"""``seamwright check``: is this a house, and do its joints close?"""

from __future__ import annotations

import typer

from seamwright.cli.options import Json, PanelTypes, PlanName, Units
from seamwright.cli.say import cell_text, say, say_json, show_table
from seamwright.cli.source import Source, read_source
from seamwright.cli.status import status_of
from seamwright.errors import InputError, Problem
from seamwright.io.site_zone import site_zones, zone_warning
from seamwright.joints.types import Register
from seamwright.report.register_tables import break_table, joint_totals, ledger_table
from seamwright.shell.types import Shell
from seamwright.units import fill
from seamwright.workflow import register_joints


def run(
    plan: PlanName,
    *,
    units: Units = "us",
    types: PanelTypes = None,
    as_json: Json = False,
) -> None:
    """Read a plan and say whether its panels and joints close."""
    try:
        source = read_source(plan, types=types)
        with source.placed(units):
            shell, register = register_joints(source.plan)
    except InputError as error:
        if as_json:
            say_json({"usable": False, "problems": [_problem(p) for p in error.problems]})
        raise
    if as_json:
        say_json(_document(source, shell, register))
    else:
        _show(source, shell, register, units)
    raise typer.Exit(status_of(register))


def _show(source: Source, shell: Shell, register: Register, units: Units) -> None:
    site = source.plan.site
    say(f"{site.name}: {len(shell.panels)} panels, {len(register.joints)} joints, "
        f"{len(register.nodes)} nodes.")  # fmt: skip
    notes = [cell_text(note, units) for note in (*source.used, *source.assumed)]
    for note in (*notes, *shell.assumptions):
        say(f"  {note}")
    say()
    show_table(joint_totals(register), units)
    show_table(ledger_table(register), units)
    if register.breaks:
        show_table(break_table(register.breaks), units)
    for lost in register.lost_overrides:
        say(f"LOOK  The correction of {lost} has no joint any more; take it out or name another.")
    signed = "signed in part" if source.plan.decisions else "UNSIGNED"
    say(f"Air-seal decisions: {signed}.")
    if site.county is not None:
        warning = zone_warning(site, site_zones(site))
        if warning is not None:
            say(f"LOOK  {warning}")
    say("Both lines close." if not register.breaks else "The line does not close; see above.")


def _document(source: Source, shell: Shell, register: Register) -> dict[str, object]:
    return {
        "usable": True,
        "project": source.plan.site.name,
        "panels": len(shell.panels),
        "joints": len(register.joints),
        "nodes": len(register.nodes),
        "closes": not register.breaks,
        "breaks": [
            {
                "face": b.face,
                "panel": b.panel_id,
                "start_m": list(b.line.start),
                "end_m": list(b.line.end),
                "length_m": b.line.length,
                "reason": b.reason,
                "remedy": b.remedy,
            }
            for b in register.breaks
        ],
        "lost_overrides": list(register.lost_overrides),
        "laid_out_with": list(shell.assumptions),
        "used": [fill(note, "metric") for note in source.used],
        "assumed": [fill(note, "metric") for note in source.assumed],
        "problems": [],
    }


def _problem(problem: Problem) -> dict[str, object]:
    return {
        "subject": problem.subject,
        "sentence": problem.sentence,
        "remedy": problem.remedy,
        "file": problem.file,
        "line": problem.line,
        "column": problem.column,
    }
