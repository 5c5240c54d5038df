"""``seamwright report``: the whole packet of a plan."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from seamwright.cli.inventory import told
from seamwright.cli.options import (
    CatalogFile,
    Day,
    FiguresFile,
    PanelTypes,
    Paper,
    PlanName,
    Units,
    day_of,
)
from seamwright.cli.packet import Manner, write_packet
from seamwright.cli.packet_dryness import DrynessOrFile, extent_of
from seamwright.cli.say import say
from seamwright.cli.source import read_source, shelf
from seamwright.cli.stage import stage
from seamwright.cli.status import status_of
from seamwright.io.leak_figures import read_figures
from seamwright.workflow import seal_house


def run(
    plan: PlanName,
    *,
    out: Annotated[Path, typer.Option("--out", help="The folder to write into.")] = Path("packet"),
    units: Units = "us",
    paper: Paper = "letter",
    dryness: DrynessOrFile = "main",
    catalog: CatalogFile = None,
    types: PanelTypes = None,
    figures: FiguresFile = None,
    date: Day = None,
) -> None:
    """Write the whole packet: PDF, drawings, order, data."""
    source = read_source(plan, types=types)
    stage("1 of 7: finding the joints")
    with source.placed(units):
        house = seal_house(source.plan, shelf(source, catalog))
    own = None if figures is None else read_figures(figures)
    manner = Manner(units=units, paper=paper, date=day_of(date), figures=own,
                    dryness=extent_of(dryness))  # fmt: skip
    files = write_packet(source, house, out, manner)
    say(f"{source.plan.site.name}: packet in {out}")
    say("\n".join(told(out, files)))
    say(f"Open first: {files[0].path}")
    raise typer.Exit(status_of(house.register, house.schedule.findings))
