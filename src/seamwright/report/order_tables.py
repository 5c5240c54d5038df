"""The order, the cutting plan and the time it takes, as tables."""

from __future__ import annotations

import math
from collections import Counter

from seamwright.report.types import Cell, Dimension, Quantity, Table
from seamwright.report.words import listed
from seamwright.seals.types import Sentence
from seamwright.takeoff.types import CuttingPlan, Order, OrderLine, Piece

_UNITS: dict[str, Dimension] = {"m": "length", "m3": "sealant_volume", "piece": "count"}


def order_table(order: Order) -> Table:
    """Return what to buy: what the house takes, the reserve, whole packs and whole cartons."""
    money = f"Cost {order.currency}" if order.currency else "Cost"
    priced = order.cost is not None
    columns = ("Item", "What", "House takes", "Reserve", "Pack", "Packs", "Per carton", "Cartons")
    without = f", without {', '.join(order.unpriced)}" if order.unpriced else ""
    total: tuple[Cell, ...] = (
        "Cost",
        f"of whole cartons{without}",
        *(None,) * 8,
        _money(order.cost),
    )
    return Table(
        columns=(*columns, "For", "Note and source", *((money,) if priced else ())),
        rows=tuple(_line_row(line, priced=priced) for line in order.lines),
        widths=(2, 2.6, 1.9, 1.7, 1.6, 1.0, 1.0, 1.1, 1.3, 4.6, *((1.5,) if priced else ())),
        right=(2, 3, 4, 5, 6, 7, 10),
        caption="Order",
        total=total if priced else None,
    )


def left_out_table(order: Order) -> Table:
    """Return what the order could not count: buying its lines alone leaves these unsealed."""
    return Table(
        columns=("Joint or node", "What it needs", "Why it is not in the order"),
        rows=tuple((item.ref, item.what, item.why) for item in order.left_out),
        widths=(3, 4, 6),
        caption="NOT IN THE ORDER: settle these before buying",
        marks=("NOT IN THE ORDER",),
    )


def piece_totals(order: Order) -> Table:
    """Return how many pieces of each stock are cut, and how many metres they are."""
    stocks = tuple(dict.fromkeys(piece.stock_id for piece in order.pieces))
    return Table(
        columns=("Stock", "Pieces", "Runs", "Folds", "Patches", "Length"),
        rows=tuple(_stock_row(stock, order.pieces) for stock in stocks),
        widths=(3, 1, 1, 1, 1, 2),
        right=(1, 2, 3, 4, 5),
        caption="Pieces to cut",
        total=_stock_row(None, order.pieces),
    )


def piece_table(order: Order) -> Table:
    """Return every piece to cut, and the joints it is for."""
    return Table(
        columns=("Piece", "Stock", "Length", "For", "Joints or node"),
        rows=tuple(
            (
                piece.id,
                piece.stock_id,
                Quantity(value=piece.length, dimension="length"),
                piece.purpose,
                listed(piece.joint_ids),
            )
            for piece in order.pieces
        ),
        widths=(1.4, 1.6, 1.6, 1.2, 6),
        right=(2,),
        caption="Pieces",
    )


def cutting_table(plan: CuttingPlan, pieces: tuple[Piece, ...]) -> Table:
    """Return the rolls of one stock: which pieces come from each, and what is left.

    Patches of one size are all alike and stand as one entry with their number.
    """
    known = {piece.id: piece for piece in pieces}
    rows: list[tuple[Cell, ...]] = []
    for cut in plan.cuts:
        cuts = [known[name] for name in cut.piece_ids]
        rows.append(
            (
                str(cut.roll),
                _cut_sentence(cuts),
                Quantity(value=math.fsum(piece.length for piece in cuts), dimension="length"),
                Quantity(value=cut.left, dimension="length"),
            )
        )
    return Table(
        columns=("Roll", "Pieces, in order", "Cut", "Left"),
        rows=tuple(rows),
        widths=(0.8, 13, 1.8, 1.8),
        right=(0, 2, 3),
        caption=f"Cutting plan: {plan.stock_id}",
    )


def cutting_sentence(plan: CuttingPlan) -> Sentence:
    """Return how good a cutting plan is: proven least, or the bound beside it."""
    if plan.optimal:
        return Sentence(
            text=f"{plan.stock_id}: {plan.rolls} rolls of {{roll}}; fewer is proven impossible.",
            lengths={"roll": plan.roll_length},
        )
    return Sentence(
        text=f"{plan.stock_id}: {plan.rolls} rolls of {{roll}}; at least {plan.bound} are needed.",
        lengths={"roll": plan.roll_length},
    )


def labor_table(order: Order) -> Table:
    """Return the time of each kind of work, where a rate was given, and its cost with a wage."""
    money = f"Cost {order.currency}" if order.currency else "Cost"
    return Table(
        columns=("Work", "Amount", "Time", money),
        rows=tuple(
            (
                labor.work,
                Quantity(value=labor.amount, dimension=_UNITS[labor.unit]),
                None if labor.time is None else Quantity(value=labor.time, dimension="time"),
                _money(labor.cost),
            )
            for labor in order.labor
        ),
        widths=(4, 2, 2, 2),
        right=(1, 2, 3),
        caption="Time, from the rates in the catalog",
    )


def _cut_sentence(pieces: list[Piece]) -> Sentence:
    patches = Counter(piece.length for piece in pieces if piece.purpose == "patch")
    entries = [(piece.id, piece.length) for piece in pieces if piece.purpose != "patch"]
    entries += [(f"{count} × patch", length) for length, count in patches.items()]
    return Sentence(
        text=" · ".join(f"{words} {{p{i}}}" for i, (words, _) in enumerate(entries)),
        lengths={f"p{i}": length for i, (_, length) in enumerate(entries)},
    )


def _line_row(line: OrderLine, *, priced: bool) -> tuple[Cell, ...]:
    dimension = _UNITS[line.unit]
    width = "" if line.width is None else ", {width} wide"
    row: tuple[Cell, ...] = (
        line.item,
        Sentence(
            text=f"{line.description}{width}",
            lengths={} if line.width is None else {"width": line.width},
        ),
        Quantity(value=line.net, dimension=dimension),
        Quantity(value=line.reserve, dimension=dimension),
        Quantity(value=line.pack_size, dimension=dimension) if line.packs else None,
        _whole(line.packs),
        _whole(line.per_carton),
        _whole(line.cartons),
        _places(line.refs),
        f"{line.note}; {line.source}" if line.note else line.source,
    )
    return (*row, _money(line.cost)) if priced else row


def _places(refs: tuple[str, ...]) -> str:
    """Return how many joints and nodes a line serves."""
    nodes = sum(ref.startswith("N-") for ref in refs)
    counts = ((len(refs) - nodes, "joint"), (nodes, "node"))
    return listed(tuple(f"{n} {word}{'' if n == 1 else 's'}" for n, word in counts if n))


def _stock_row(stock: str | None, pieces: tuple[Piece, ...]) -> tuple[Cell, ...]:
    chosen = [p for p in pieces if stock is None or p.stock_id == stock]
    counts = [
        Quantity(value=float(sum(p.purpose == purpose for p in chosen)), dimension="count")
        for purpose in ("run", "fold", "patch")
    ]
    return (
        "All stock" if stock is None else stock,
        Quantity(value=float(len(chosen)), dimension="count"),
        *counts,
        Quantity(value=math.fsum(p.length for p in chosen), dimension="length"),
    )


def _whole(number: int) -> Quantity | None:
    """Return a count; 0 is nothing to count (sold by length, or cut from other rolls)."""
    return Quantity(value=float(number), dimension="count") if number else None


def _money(amount: float | None) -> Quantity | None:
    return None if amount is None else Quantity(value=amount, dimension="money")
