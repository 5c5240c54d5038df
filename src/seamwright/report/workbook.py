"""The sheets of the order workbook, by name."""

from __future__ import annotations

from collections.abc import Mapping

from seamwright.report.cover import findings_table, unsigned_table
from seamwright.report.dryness_marks import DryMark
from seamwright.report.house import SealedHouse
from seamwright.report.order_tables import (
    cutting_table,
    labor_table,
    left_out_table,
    order_table,
    piece_table,
)
from seamwright.report.register_tables import joint_table, joint_totals, kinds_present, node_table
from seamwright.report.schedule_tables import (
    NOT_RUN,
    patch_table,
    schedule_table,
    seal_type_table,
)
from seamwright.report.seal_types import joint_seals, seal_types
from seamwright.report.types import Table
from seamwright.report.words import kind_word


def workbook_tables(
    house: SealedHouse,
    dry: Mapping[str, DryMark] = NOT_RUN,
    dryness: Table | None = None,
) -> tuple[tuple[str, Table], ...]:
    """Return the tables of the workbook: order first, then cutting, schedule, register, findings.

    Empty tables are left out. `dry` and `dryness` are what is known of how dry the joints stay.
    """
    seals = joint_seals(house.register, house.schedule)
    types = seal_types(seals)
    kinds = kinds_present(house.register)
    order = house.order
    sheets = {
        "Order": order_table(order),
        "Not in the order": left_out_table(order),
        "Time": labor_table(order),
        "Pieces": piece_table(order),
        **{f"Cut {p.stock_id}": cutting_table(p, order.pieces) for p in order.cutting},
        "Seal types": seal_type_table(types),
        **{f"Seal {kind_word(k)}": schedule_table(seals, types, k, dry) for k in kinds},
        "Node patches": patch_table(house.schedule),
        **({} if dryness is None else {"Dryness": dryness}),
        "Joint totals": joint_totals(house.register),
        **{f"Joint {kind_word(k)}": joint_table(house.register, k) for k in kinds},
        "Nodes": node_table(house.register),
        "Findings": findings_table(house.schedule.findings),
        "Unsigned": unsigned_table(house),
    }
    return tuple((name, table) for name, table in sheets.items() if table.rows)
