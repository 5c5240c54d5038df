"""Order lines: net, reserve, whole packs and whole cartons of one thing, with its joints."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from seamwright.joints.types import Register
from seamwright.seals.types import (
    COMMON_PRACTICE,
    Bead,
    Catalog,
    Dam,
    Fill,
    FoamStock,
    Gasket,
    NodePatch,
    SealantStock,
    Strip,
    StripStock,
)
from seamwright.takeoff.pieces import is_cut_from_strip
from seamwright.takeoff.types import CuttingPlan, OrderLine, Piece

_NOISE = 1e-9
"""Share of a pack by which rounding noise may pass a whole number of packs."""


def strip_line(
    pieces: Sequence[Piece], plan: CuttingPlan, stock: StripStock, reserve: float
) -> OrderLine:
    """Return the line of one strip: the rolls of the cutting plan and rolls for the reserve.

    `reserve` is a share of the net length. An offcut counts toward it only when the longest piece
    could be cut from it, because a spoiled piece must be replaced in one.
    """
    net = math.fsum(piece.length for piece in pieces)
    longest = max(piece.length for piece in pieces)
    spare = math.fsum(cut.left for cut in plan.cuts if cut.left >= longest)
    extra = _packs(max(0.0, net * reserve - spare), stock.roll_length)
    packs = plan.rolls + extra
    return OrderLine(
        item=stock.id,
        description="strip, rolls",
        unit="m",
        net=net,
        reserve=net * reserve,
        pack_size=stock.roll_length,
        packs=packs,
        per_carton=stock.per_carton,
        cartons=_packs(packs, stock.per_carton),
        source=stock.source,
        refs=_refs(joint for piece in pieces for joint in piece.joint_ids),
        cost=_cost(packs, stock.per_carton, stock.price),
        width=stock.width,
        note=f"{plan.rolls} cut into, {extra} for the reserve",
    )


def bead_line(beads: Sequence[Bead], catalog: Catalog) -> OrderLine | None:
    """Return the line of the sealant: the volume of all beads with a size, in the first pack of
    the catalog. None without beads.

    A bead of diameter d takes π d²/4 for each metre.
    """
    sized = [bead for bead in beads if bead.diameter is not None and bead.count > 0]
    if not sized:
        return None
    net = math.fsum(bead_volume(bead) for bead in sized)
    stock = catalog.sealants[0] if catalog.sealants else None
    word = "sealant" if stock is None else f"sealant, {stock.pack}s"
    return _volume_line(
        item="sealant",
        description=word,
        net=net,
        reserve=catalog.reserve_sealant,
        stock=stock,
        refs=_refs(bead.joint_id for bead in sized),
    )


def bead_volume(bead: Bead) -> float:
    """Return the sealant in the beads of one row, 0 when they have no size. [m³]"""
    diameter = 0.0 if bead.diameter is None else bead.diameter
    return math.pi * diameter**2 / 4 * bead.length * bead.count


def foam_line(fills: Sequence[Fill], dams: Sequence[Dam], catalog: Catalog) -> OrderLine | None:
    """Return the line of the foam: the voids of all fills and dams. None without any."""
    if not fills and not dams:
        return None
    net = math.fsum([*(fill.volume for fill in fills), *(dam.volume for dam in dams)])
    return _volume_line(
        item="foam",
        description="foam, cans",
        net=net,
        reserve=catalog.reserve_foam,
        stock=catalog.foams[0] if catalog.foams else None,
        refs=_refs([*(fill.joint_id for fill in fills), *(dam.joint_id for dam in dams)]),
    )


def patch_line(patches: Sequence[NodePatch]) -> OrderLine | None:
    """Return the count of node patches, cut from rolls that are ordered with the strips."""
    cut = [patch for patch in patches if is_cut_from_strip(patch)]
    return _node_line(
        cut,
        item="node-patch",
        description="node patches",
        note="cut from the strips above, nothing more to buy",
        included=True,
    )


def corner_line(patches: Sequence[NodePatch]) -> OrderLine | None:
    """Return the count of nodes that take liquid flashing or a preformed boot."""
    return _node_line(
        [patch for patch in patches if not is_cut_from_strip(patch)],
        item="corner",
        description="corners of three planes",
        note="no product in the catalog: a preformed boot for each, or liquid flashing",
        included=False,
    )


def gasket_line(gaskets: Sequence[Gasket], reserve: float) -> OrderLine | None:
    """Return the length of gasket, with the reserve of strips; it is ordered by length."""
    if not gaskets:
        return None
    net = math.fsum(gasket.length for gasket in gaskets)
    return OrderLine(
        item="gasket",
        description="gasket, by length",
        unit="m",
        net=net,
        reserve=net * reserve,
        pack_size=0.0,
        packs=0,
        per_carton=0,
        cartons=0,
        source=COMMON_PRACTICE,
        refs=_refs(gasket.joint_id for gasket in gaskets),
        note="no roll length in the catalog: order net and reserve together",
    )


def roller_line(strips: Sequence[Strip], register: Register) -> OrderLine | None:
    """Return soft rubber rollers: one for the sealing pair of each storey, and one spare."""
    taped = {strip.joint_id for strip in strips}
    if not taped:
        return None
    storeys = {joint.storey for joint in register.joints if joint.storey is not None}
    net = max(1, len(storeys))
    return OrderLine(
        item="roller",
        description="hand rollers, soft rubber",
        unit="piece",
        net=float(net),
        reserve=1.0,
        pack_size=1.0,
        packs=net + 1,
        per_carton=1,
        cartons=net + 1,
        source=COMMON_PRACTICE,
        refs=_refs(taped),
        note="one for the sealing pair of each storey, one spare",
    )


def _node_line(
    patches: Sequence[NodePatch], *, item: str, description: str, note: str, included: bool
) -> OrderLine | None:
    """Return a line that counts nodes and holds no packs, None without any."""
    if not patches:
        return None
    return OrderLine(
        item=item,
        description=description,
        unit="piece",
        net=float(len(patches)),
        reserve=0.0,
        pack_size=1.0,
        packs=0,
        per_carton=0,
        cartons=0,
        source=COMMON_PRACTICE,
        refs=_refs(patch.node_id for patch in patches),
        note=note,
        included=included,
    )


def _volume_line(
    *,
    item: str,
    description: str,
    net: float,
    reserve: float,
    stock: SealantStock | FoamStock | None,
    refs: tuple[str, ...],
) -> OrderLine:
    """Return a line bought by volume, in packs of `stock` when there is one."""
    size = 0.0 if stock is None else stock.volume
    packs = 0 if stock is None else _packs(net * (1 + reserve), size)
    per_carton = 0 if stock is None else stock.per_carton
    return OrderLine(
        item=item if stock is None else stock.id,
        description=description,
        unit="m3",
        net=net,
        reserve=net * reserve,
        pack_size=size,
        packs=packs,
        per_carton=per_carton,
        cartons=_packs(packs, per_carton) if per_carton else 0,
        source=COMMON_PRACTICE if stock is None else stock.source,
        refs=refs,
        cost=None if stock is None else _cost(packs, per_carton, stock.price),
        note="no pack in the catalog: order by volume" if stock is None else "",
    )


def _packs(amount: float, size: float) -> int:
    """Return the whole packs that hold an amount."""
    return math.ceil(amount / size - _NOISE)


def _cost(packs: int, per_carton: int, price: float | None) -> float | None:
    """Return the cost of whole cartons at a price for each pack, None without a price."""
    return None if price is None else _packs(packs, per_carton) * per_carton * price


def _refs(ids: Iterable[str]) -> tuple[str, ...]:
    """Return each id once, in one order however they come."""
    return tuple(sorted(set(ids)))
