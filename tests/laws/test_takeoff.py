"""Laws of the takeoff: nothing is lost, nothing is counted twice, whatever the house."""

from __future__ import annotations

import math
from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st
from tests.takeoff.house_kit import CATALOG, joint, register, schedule, strip, wall_line

from seamwright.joints.types import Joint, Node, Register
from seamwright.seals.types import Bead, Fill, StripStock
from seamwright.takeoff.cutting import plan_cuts
from seamwright.takeoff.order import make_order
from seamwright.takeoff.runs import lay_runs
from seamwright.takeoff.types import Piece
from seamwright.tolerance import DEFAULT

LENGTHS = st.lists(st.floats(0.05, 20.0), min_size=1, max_size=30)
STOCK = StripStock(id="s", width=0.1, roll_length=20.0, per_carton=4)
WALL = st.tuples(st.integers(1, 12), st.floats(0.3, 9.0))


def moved(house: Register, angle: float, shift: float) -> Register:
    """Return the register turned about the vertical and moved."""
    c, s = math.cos(angle), math.sin(angle)

    def at(p: tuple[float, float, float]) -> tuple[float, float, float]:
        return (c * p[0] - s * p[1] + shift, s * p[0] + c * p[1] - shift, p[2] + shift / 2)

    joints = tuple(_turned(one, at) for one in house.joints)
    nodes = tuple(Node(id=n.id, kind=n.kind, at=at(n.at), joints=n.joints) for n in house.nodes)
    return register(joints, nodes)


def _turned(one: Joint, at: object) -> Joint:
    start, end = at(one.line.start), at(one.line.end)  # type: ignore[operator]
    return joint(one.id, start, end, one.kind, dihedral=one.dihedral)


@settings(derandomize=True, max_examples=60, deadline=None)
@given(LENGTHS)
def test_cuts_hold_every_piece_once_and_never_overfill(lengths: list[float]) -> None:
    """What is cut and what is left make up whole rolls, and no plan beats its own bound."""
    pieces = [
        Piece(id=f"P{k}", stock_id="s", length=length, joint_ids=())
        for k, length in enumerate(lengths)
    ]
    plan = plan_cuts(pieces, STOCK)
    assert sorted(i for cut in plan.cuts for i in cut.piece_ids) == sorted(p.id for p in pieces)
    total = math.fsum(lengths) + math.fsum(cut.left for cut in plan.cuts)
    assert math.isclose(total, plan.rolls * 20.0, abs_tol=1e-7)
    assert math.fsum(lengths) / 20.0 <= plan.lp_bound + 1e-9
    assert plan.bound <= plan.rolls <= len(lengths)


@settings(derandomize=True, max_examples=40, deadline=None)
@given(WALL)
def test_order_lines_are_the_sums_of_their_parts(wall: tuple[int, float]) -> None:
    """Net of each line equals the exact sum of its pieces, beads or voids, to the last digit."""
    joints, nodes = wall_line(*wall)
    beads = tuple(
        Bead(
            joint_id=j.id,
            place="",
            count=2,
            diameter=0.008,
            length=j.length,
            stage="at_setting",
            source="",
        )
        for j in joints
    )
    fills = tuple(
        Fill(joint_id=j.id, area=0.003, length=j.length, stage="at_setting") for j in joints
    )
    what = schedule(tuple(strip(j) for j in joints), beads=beads, fills=fills)
    found = make_order(what, register(joints, nodes), CATALOG)
    lines = {line.item: line for line in found.lines}
    assert lines["s100"].net == math.fsum(piece.length for piece in found.pieces)
    areas = math.fsum(math.pi * 0.008**2 / 4 * j.length * 2 for j in joints)
    assert math.isclose(lines["tube"].net, areas, rel_tol=1e-12)
    assert lines["can"].net == math.fsum(fill.volume for fill in fills)
    for line in found.lines:
        assert line.packs * line.pack_size >= line.net * (line.packs > 0) - 1e-9
        assert line.cartons * line.per_carton >= line.packs
        assert set(line.refs) <= {j.id for j in joints}


@settings(derandomize=True, max_examples=40, deadline=None)
@given(WALL, st.floats(0, 6.3), st.floats(-50, 50), st.randoms(use_true_random=False))
def test_the_order_does_not_depend_on_place_turn_or_sequence(
    wall: tuple[int, float], angle: float, shift: float, rng: object
) -> None:
    """A turned, moved and shuffled house takes the same pieces."""
    joints, nodes = wall_line(*wall)
    house = register(joints, nodes)
    other = moved(house, angle, shift)
    mixed = list(other.joints)
    rng.shuffle(mixed)  # type: ignore[attr-defined]
    first = make_order(schedule(tuple(strip(j) for j in joints)), house, CATALOG)
    shuffled = replace(other, joints=tuple(mixed))
    second = make_order(schedule(tuple(strip(j) for j in mixed)), shuffled, CATALOG)
    assert [p.id for p in first.pieces] == [p.id for p in second.pieces]
    for a, b in zip(first.pieces, second.pieces, strict=True):
        assert a.joint_ids == b.joint_ids
        assert math.isclose(a.length, b.length, abs_tol=1e-9)


@settings(derandomize=True, max_examples=40, deadline=None)
@given(WALL)
def test_runs_hold_every_strip_once_and_all_of_its_length(wall: tuple[int, float]) -> None:
    """Runs add up to the strips they are made of; merging loses nothing."""
    joints, nodes = wall_line(*wall)
    strips = [strip(j) for j in joints]
    runs = lay_runs(strips, register(joints, nodes), DEFAULT)
    assert sorted(i for run in runs for i in run.joint_ids) == sorted(j.id for j in joints)
    laid = math.fsum(run.length for run in runs)
    assert math.isclose(laid, math.fsum(j.length for j in joints), abs_tol=1e-9)
