"""The order: what to buy for the sealed house, with its cutting plans and the time it takes."""

from __future__ import annotations

from seamwright.joints.types import Register
from seamwright.seals.types import Catalog, SealSchedule
from seamwright.takeoff.cutting import plan_cuts
from seamwright.takeoff.labor import work_times
from seamwright.takeoff.lines import (
    bead_line,
    corner_line,
    foam_line,
    gasket_line,
    patch_line,
    roller_line,
    strip_line,
)
from seamwright.takeoff.pieces import cut_pieces, is_cut_from_strip
from seamwright.takeoff.types import CuttingPlan, LeftOut, Order, OrderLine
from seamwright.tolerance import DEFAULT, Tolerance


def make_order(
    schedule: SealSchedule,
    register: Register,
    catalog: Catalog,
    *,
    tolerance: Tolerance = DEFAULT,
) -> Order:
    """Return everything to buy, how to cut it, and the time it takes where rates are given.

    Lengths are summed before anything is rounded: the net of a strip's line is the exact sum of
    its pieces. Reserve is kept apart. Packs and cartons are whole.

    Raises
    ------
    InputError
        If a piece cannot be cut from its stock.
    """
    pieces = cut_pieces(schedule, register, catalog, tolerance)
    plans: list[CuttingPlan] = []
    lines: list[OrderLine] = []
    for stock in sorted(catalog.strips, key=lambda stock: (stock.width, stock.id)):
        own = [piece for piece in pieces if piece.stock_id == stock.id]
        if own:
            plan = plan_cuts(own, stock)
            plans.append(plan)
            lines.append(strip_line(own, plan, stock, catalog.reserve_strip))
    others = (
        patch_line(schedule.patches),
        corner_line(schedule.patches),
        bead_line(schedule.beads, catalog),
        foam_line(schedule.fills, schedule.dams, catalog),
        gasket_line(schedule.gaskets, catalog.reserve_strip),
        roller_line(schedule.strips, register),
    )
    return Order(
        pieces=pieces,
        cutting=tuple(plans),
        lines=(*lines, *(line for line in others if line is not None)),
        labor=work_times(schedule, register, catalog.rates),
        currency=catalog.rates.currency,
        left_out=_left_out(schedule, catalog),
    )


def _left_out(schedule: SealSchedule, catalog: Catalog) -> tuple[LeftOut, ...]:
    """Return the strips and patches without a stock and the beads without a size."""
    stocks = {stock.id for stock in catalog.strips}
    strips = [
        LeftOut(ref=s.joint_id, what=f"strip, {s.face} face", why="no stock strip is wide enough")
        for s in schedule.strips
        if s.stock_id not in stocks
    ]
    beads = [
        LeftOut(ref=b.joint_id, what=f"beads, {b.place}", why="the bead has no diameter")
        for b in schedule.beads
        if b.diameter is None and b.count > 0
    ]
    patches = [
        LeftOut(ref=p.node_id, what=f"node patch, {p.face} face", why="no strip in the catalog")
        for p in schedule.patches
        if not stocks and is_cut_from_strip(p)
    ]
    return (*strips, *beads, *patches)
