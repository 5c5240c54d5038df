"""``seamwright order``: what to buy, and how to cut it."""

from __future__ import annotations

import typer

from seamwright.cli.options import CatalogFile, Json, PanelTypes, PlanName, Units
from seamwright.cli.say import cell_text, say, say_json, show_table
from seamwright.cli.source import read_source, shelf
from seamwright.cli.status import status_of
from seamwright.io.register_json import order_document
from seamwright.report.order_tables import (
    cutting_sentence,
    cutting_table,
    labor_table,
    left_out_table,
    order_table,
    piece_totals,
)
from seamwright.workflow import seal_house


def run(
    plan: PlanName,
    *,
    units: Units = "us",
    catalog: CatalogFile = None,
    types: PanelTypes = None,
    as_json: Json = False,
) -> None:
    """Say what to buy and how to cut it."""
    source = read_source(plan, types=types)
    with source.placed(units):
        house = seal_house(source.plan, shelf(source, catalog))
    order = house.order
    status = status_of(house.register, house.schedule.findings)
    if as_json:
        say_json(order_document(order))
        raise typer.Exit(status)
    say(f"{source.plan.site.name}: order")
    say()
    show_table(order_table(order), units)
    show_table(left_out_table(order), units)
    show_table(piece_totals(order), units)
    for plan_of_stock in order.cutting:
        show_table(cutting_table(plan_of_stock, order.pieces), units)
        say(cell_text(cutting_sentence(plan_of_stock), units))
        say()
    if any(labor.time is not None for labor in order.labor):
        show_table(labor_table(order), units)
    raise typer.Exit(status)
