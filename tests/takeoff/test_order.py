"""The order: lines, packs, cartons, cost, time, and what could not be counted."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from tests.takeoff.house_kit import CATALOG, register, schedule, strip, wall_line

from seamwright.seals.types import (
    Bead,
    Catalog,
    Dam,
    Fill,
    Gasket,
    NodePatch,
    Rates,
    SealSchedule,
)
from seamwright.takeoff.order import make_order
from seamwright.takeoff.types import Order, OrderLine

JOINTS, NODES = wall_line(5, 1.2)
REGISTER = register(JOINTS, NODES)


def bead(joint_id: str, length: float, diameter: float | None = 0.006) -> Bead:
    """Return two beads along a joint."""
    return Bead(
        joint_id=joint_id,
        place="under the sill",
        count=2,
        diameter=diameter,
        length=length,
        stage="at_setting",
        source="test",
    )


def sealed() -> SealSchedule:
    """Return a schedule with some of everything."""
    return schedule(
        tuple(strip(j) for j in JOINTS),
        beads=(bead("A.0-slab", 1.2), bead("A.1-slab", 1.2)),
        fills=(Fill(joint_id="A.0-A.1", area=0.004, length=2.5, stage="at_setting"),),
        dams=(
            Dam(
                joint_id="A.1-A.2",
                at=(2.4, 0.0, 0.0),
                why="panel_end",
                volume=0.0005,
                stage="at_setting",
            ),
        ),
        gaskets=(Gasket(joint_id="A.0-slab", place="sill", length=6.0, stage="before_setting"),),
        patches=(
            NodePatch(
                node_id="N1", kind="k", face="inner", side=0.15, how="", stage="weathered_in"
            ),
        ),
    )


def order(catalog: Catalog = CATALOG, what: SealSchedule | None = None) -> Order:
    """Return the order of the sample schedule."""
    return make_order(sealed() if what is None else what, REGISTER, catalog)


def line(found: Order, item: str) -> OrderLine:
    """Return the one line of an item."""
    (one,) = [entry for entry in found.lines if entry.item == item]
    return one


def test_strip_line_is_the_sum_of_its_pieces() -> None:
    """Net is the exact sum of the pieces: one sill run and four seams with a lap each."""
    found = order()
    own = [piece.length for piece in found.pieces if piece.stock_id == "s100"]
    strips = line(found, "s100")
    assert strips.net == math.fsum(own)
    assert strips.net == pytest.approx(6.0 + 4 * (2.5 + 0.08))
    assert strips.reserve == strips.net * CATALOG.reserve_strip
    assert set(strips.refs) == {joint.id for joint in JOINTS}


def test_every_piece_is_cut_once() -> None:
    """The cutting plans hold each piece exactly once, and no roll is overfilled."""
    found = order()
    cut = [i for plan in found.cutting for roll in plan.cuts for i in roll.piece_ids]
    assert sorted(cut) == sorted(piece.id for piece in found.pieces)
    assert all(roll.left >= 0 for plan in found.cutting for roll in plan.cuts)


def test_sealant_is_bought_by_bead_volume() -> None:
    """Four times 1.2 m of a 6 mm bead are π/4·0.006²·4.8 m³, one 300 ml cartridge with reserve."""
    sealant = line(order(), "tube")
    assert sealant.net == pytest.approx(math.pi / 4 * 0.006**2 * 4.8)
    assert (sealant.packs, sealant.cartons) == (1, 1)
    assert sealant.cost == 12 * 6.0


def test_foam_is_bought_by_void() -> None:
    """Foam fills the channels and the dams together."""
    foam = line(order(), "can")
    assert foam.net == pytest.approx(0.004 * 2.5 + 0.0005)
    assert foam.refs == ("A.0-A.1", "A.1-A.2")
    assert foam.packs == math.ceil(foam.amount / 0.02)


def test_patches_and_gasket_show_without_packs() -> None:
    """Patches come out of strips already bought; a gasket is ordered by its length."""
    found = order()
    assert (line(found, "node-patch").net, line(found, "node-patch").packs) == (1.0, 0)
    assert line(found, "gasket").net == 6.0


def test_corners_of_liquid_are_counted_but_not_cut() -> None:
    """A node that takes liquid flashing or a boot costs no strip and has a line of its own."""
    folded = sealed().patches[0]
    liquid = replace(folded, node_id="N2", how="liquid flashing or boot")
    found = order(what=schedule(patches=(folded, liquid)))
    assert [piece.joint_ids for piece in found.pieces] == [("N1",)]
    assert line(found, "corner").refs == ("N2",)
    assert line(found, "node-patch").refs == ("N1",)
    assert "corner" in found.unpriced


def test_rollers_are_marked_common_practice() -> None:
    """One roller for the one storey and one spare, on nobody's authority but practice."""
    rollers = line(order(), "roller")
    assert (rollers.packs, rollers.source) == (2, "common practice, no source")


def test_cost_sums_what_has_a_price_and_names_what_has_none() -> None:
    """The total is the exact sum of the priced lines; the others are named beside it."""
    found = order()
    assert found.cost == 8 * 30.0 + 12 * 6.0
    assert found.unpriced == ("s300", "can", "gasket", "roller")


def test_reserve_uses_only_offcuts_that_can_replace_any_piece() -> None:
    """A long offcut spares a roll for the reserve; short ones do not."""
    joints, nodes = wall_line(2, 9.0)
    what = schedule(tuple(strip(j) for j in joints))
    found = make_order(what, register(joints, nodes), CATALOG)
    strips = line(found, "s100")
    assert found.cutting[0].rolls == 2
    assert strips.packs == 3  # 18 m and 2.58 m: 17.4 m are left, less than the 18 m piece
    small = replace(CATALOG, reserve_strip=0.0)
    assert line(make_order(what, register(joints, nodes), small), "s100").packs == 2


def test_labor_only_with_rates() -> None:
    """Time is blank until the user gives a rate, and cost until a wage."""
    assert order().labor == ()
    rates = Rates(strip=0.01, bead=0.02, wage=0.01)
    work = {entry.work: entry for entry in order(replace(CATALOG, rates=rates)).labor}
    assert set(work) == {"strips", "beads"}
    assert work["beads"].time == pytest.approx(4.8 / 0.02)
    assert work["strips"].cost == pytest.approx((6.0 + 4 * 2.5) / 0.01 * 0.01)


def test_overhead_strips_take_their_own_rate() -> None:
    """An inner strip of a roof joint is counted as work overhead."""
    joints = tuple(replace(joint, kind="eave") for joint in JOINTS[:1])
    catalog = replace(CATALOG, rates=Rates(strip=0.01, strip_overhead=0.002))
    found = make_order(schedule((strip(joints[0]),)), register(joints), catalog)
    assert [(entry.work, entry.amount) for entry in found.labor] == [("strips overhead", 1.2)]


def test_what_cannot_be_counted_is_listed() -> None:
    """A strip without a stock and a bead without a size are named, not dropped."""
    what = schedule((strip(JOINTS[0], None),), beads=(bead("A.1-slab", 1.2, None),))
    found = make_order(what, REGISTER, CATALOG)
    assert [entry.ref for entry in found.left_out] == ["A.0-slab", "A.1-slab"]
    assert {entry.item for entry in found.lines} == {"roller"}
    bare = order(replace(CATALOG, strips=()), schedule(patches=sealed().patches))
    assert [entry.ref for entry in bare.left_out] == ["N1"]


def test_an_empty_schedule_orders_nothing() -> None:
    """No seals, no lines."""
    found = make_order(schedule(), register(()), CATALOG)
    assert (found.lines, found.pieces, found.cutting, found.cost) == ((), (), (), None)


def test_without_sealant_in_the_catalog_the_volume_still_shows() -> None:
    """The volume is ordered by hand when the catalog has no pack for it."""
    sealant = line(order(replace(CATALOG, sealants=())), "sealant")
    assert sealant.net > 0
    assert sealant.packs == 0
    assert "no pack" in sealant.note
