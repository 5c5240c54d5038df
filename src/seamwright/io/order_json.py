"""The order as JSON: amounts carry their unit in the key."""

from __future__ import annotations

from seamwright.io.json_text import Json
from seamwright.takeoff.types import CuttingPlan, Order, OrderLine

_SUFFIX = {"m": "m", "m3": "m3", "piece": "count"}


def order_document(order: Order) -> Json:
    """Return the order: lines, pieces, the cutting plan of each stock, time, and what is left out.

    Amounts carry their unit in the key: ``net_m``, ``net_m3`` or ``net_count``.
    """
    return {
        "lines": [_line(line) for line in order.lines],
        "pieces": [
            {
                "id": piece.id,
                "stock": piece.stock_id,
                "length_m": piece.length,
                "purpose": piece.purpose,
                "refs": list(piece.joint_ids),
            }
            for piece in order.pieces
        ],
        "cutting": [_cutting(plan) for plan in order.cutting],
        "labor": [
            {
                "id": work.work.replace(" ", "-"),
                "work": work.work,
                f"amount_{_SUFFIX[work.unit]}": work.amount,
                "time_s": work.time,
                "cost": work.cost,
            }
            for work in order.labor
        ],
        "left_out": [
            {"id": f"left-out-{k}", "ref": item.ref, "what": item.what, "why": item.why}
            for k, item in enumerate(order.left_out, start=1)
        ],
        "cost": order.cost,
        "currency": order.currency,
        "unpriced": list(order.unpriced),
    }


def _line(line: OrderLine) -> Json:
    unit = _SUFFIX[line.unit]
    return {
        "id": line.item,
        "description": line.description,
        "width_m": line.width,
        f"net_{unit}": line.net,
        f"reserve_{unit}": line.reserve,
        f"pack_size_{unit}": line.pack_size,
        "packs": line.packs,
        "per_carton": line.per_carton,
        "cartons": line.cartons,
        "included_in_other_lines": line.included,
        "cost": line.cost,
        "source": line.source,
        "note": line.note,
        "refs": list(line.refs),
    }


def _cutting(plan: CuttingPlan) -> Json:
    return {
        "id": plan.stock_id,
        "roll_length_m": plan.roll_length,
        "rolls": plan.rolls,
        "lp_bound_rolls": plan.lp_bound,
        "bound_rolls": plan.bound,
        "optimal": plan.optimal,
        "cuts": [
            {
                "id": f"{cut.stock_id}/{cut.roll}",
                "roll": cut.roll,
                "pieces": list(cut.piece_ids),
                "left_m": cut.left,
            }
            for cut in plan.cuts
        ],
    }
