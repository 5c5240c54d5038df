"""The order of a house as the pages take it, and as files."""

from __future__ import annotations

from pathlib import Path
from tempfile import TemporaryDirectory

from seamwright.app.built import Built
from seamwright.app.contract import order as out
from seamwright.io.spreadsheet import write_workbook
from seamwright.io.tables import table_text
from seamwright.report.order_tables import order_table
from seamwright.report.workbook import workbook_tables
from seamwright.takeoff.types import CuttingPlan, OrderLine
from seamwright.units import System


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


def order_csv(built: Built, units: System) -> bytes:
    """Return the order as a CSV file, with the mark that makes spreadsheets read it as UTF-8."""
    return table_text(order_table(built.house.order), units).encode("utf-8-sig")


def order_workbook(built: Built, units: System) -> bytes:
    """Return order, cutting, schedule and register as a workbook."""
    with TemporaryDirectory() as folder:
        path = Path(folder) / "order.xlsx"
        write_workbook(path, workbook_tables(built.house), units)
        return path.read_bytes()


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
