"""From seals to pieces, cuts and an order; every line points to its parts.

Strips become runs (:mod:`runs`), runs and patches become pieces (:mod:`pieces`), pieces are cut
from rolls (:mod:`cutting`), and everything to buy is summed into lines (:mod:`lines`).

>>> from seamwright.seals.types import StripStock
>>> stock = StripStock(id="strip-4", width=0.1016, roll_length=22.86, per_carton=8)
>>> lengths = [12.0, 11.0, 10.5, 6.0, 5.0]
>>> pieces = [
...     Piece(id=f"P{k}", stock_id="strip-4", length=length, joint_ids=(f"J{k}",))
...     for k, length in enumerate(lengths)
... ]
>>> plan = plan_cuts(pieces, stock)
>>> plan.rolls, plan.bound, plan.optimal
(2, 2, True)
>>> [cut.piece_ids for cut in plan.cuts]
[('P0', 'P2'), ('P1', 'P3', 'P4')]
"""

from __future__ import annotations

from seamwright.takeoff.cutting import pattern_bound, plan_cuts
from seamwright.takeoff.order import make_order
from seamwright.takeoff.pieces import cut_pieces
from seamwright.takeoff.types import (
    CuttingPlan,
    Labor,
    LeftOut,
    Order,
    OrderLine,
    Piece,
    RollCut,
)

__all__ = [
    "CuttingPlan",
    "Labor",
    "LeftOut",
    "Order",
    "OrderLine",
    "Piece",
    "RollCut",
    "cut_pieces",
    "make_order",
    "pattern_bound",
    "plan_cuts",
]
