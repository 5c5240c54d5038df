"""The order of a house as the pages take it, and as files."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from tempfile import TemporaryDirectory

from seamwright.app.built import Built
from seamwright.app.contract import order as out
from seamwright.io.spreadsheet import write_workbook
from seamwright.io.tables import table_text
from seamwright.report.order_tables import order_table
from seamwright.report.types import Cell, Quantity, Table
from seamwright.report.workbook import workbook_tables
from seamwright.seals.types import Sentence
from seamwright.takeoff.types import CuttingPlan, OrderLine
from seamwright.units import System
from seamwright.words import Language, translate


def order_out(built: Built, revision: int) -> out.OrderOut:
    """Return what to buy and how to cut it."""
    order = built.house.order
    return out.OrderOut(
        revision=revision,
        currency=order.currency,
        cost=order.cost,
        unpriced=list(order.unpriced),
        lines=[_line(line) for line in order.lines],
        cutting=[_cutting(plan) for plan in order.cutting],
        pieces=[
            out.PieceOut(
                id=p.id, stock=p.stock_id, length_m=p.length, purpose=p.purpose,
                refs=list(p.joint_ids),
            )
            for p in order.pieces
        ],
        labor=[
            out.LaborOut(work=w.work, unit=w.unit, amount=w.amount, time_s=w.time, cost=w.cost)
            for w in order.labor
        ],
        left_out=[
            out.LeftOutOut(ref=one.ref, what=one.what, why=one.why) for one in order.left_out
        ],
    )  # fmt: skip


def order_csv(built: Built, units: System, language: Language) -> bytes:
    """Return the order as a CSV file, with the mark that makes spreadsheets read it as UTF-8."""
    return table_text(in_words(order_table(built.house.order), language), units).encode("utf-8-sig")


def order_workbook(built: Built, units: System, language: Language) -> bytes:
    """Return order, cutting, schedule and register as a workbook."""
    with TemporaryDirectory() as folder:
        path = Path(folder) / "order.xlsx"
        tables = [
            (translate(name, language), in_words(table, language))
            for name, table in workbook_tables(built.house)
        ]
        write_workbook(path, tables, units)
        return path.read_bytes()


def in_words(table: Table, language: Language) -> Table:
    """Return a table with its titles and texts in a language."""

    def row(cells: Sequence[Cell]) -> tuple[Cell, ...]:
        return tuple(_cell(cell, language) for cell in cells)

    return replace(
        table,
        columns=tuple(translate(title, language) for title in table.columns),
        rows=tuple(row(cells) for cells in table.rows),
        caption=translate(table.caption, language),
        total=None if table.total is None else row(table.total),
        marks=tuple({*table.marks, *(translate(mark, language) for mark in table.marks)}),
    )


def _cell(cell: Cell, language: Language) -> Cell:
    if isinstance(cell, str):
        return translate(cell, language)
    if isinstance(cell, Sentence):
        return replace(cell, text=translate(cell.text, language))
    if isinstance(cell, Quantity) and cell.before:
        return replace(cell, before=translate(cell.before, language))
    return cell


def _line(line: OrderLine) -> out.OrderLineOut:
    return out.OrderLineOut(
        id=line.item, description=line.description, unit=line.unit, width_m=line.width,
        net=line.net, reserve=line.reserve, pack_size=line.pack_size, packs=line.packs,
        per_carton=line.per_carton, cartons=line.cartons, included_in_other_lines=line.included,
        cost=line.cost, source=line.source, note=line.note, refs=list(line.refs),
    )  # fmt: skip


def _cutting(plan: CuttingPlan) -> out.CuttingOut:
    return out.CuttingOut(
        stock=plan.stock_id, roll_length_m=plan.roll_length, rolls=plan.rolls,
        bound_rolls=plan.bound, optimal=plan.optimal,
        cuts=[
            out.CutOut(roll=cut.roll, pieces=list(cut.piece_ids), left_m=cut.left)
            for cut in plan.cuts
        ],
    )  # fmt: skip
