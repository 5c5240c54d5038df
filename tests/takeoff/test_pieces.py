"""Pieces: laps, folds, splits and patches."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from tests.takeoff.house_kit import CATALOG, joint, register, schedule, strip, wall_line

from seamwright.errors import InputError
from seamwright.joints.types import Node
from seamwright.seals.types import NodePatch
from seamwright.takeoff.pieces import cut_pieces
from seamwright.tolerance import DEFAULT


def patch(node_id: str, side: float) -> NodePatch:
    """Return a patch of a node."""
    return NodePatch(
        node_id=node_id, kind="sill+sill", face="inner", side=side, how="", stage="weathered_in"
    )


def test_a_seam_laps_only_where_it_meets_another_strip() -> None:
    """A wall seam takes one end lap at the sill and none at its free top."""
    joints, nodes = wall_line(2, 1.2)
    pieces = cut_pieces(
        schedule(tuple(strip(j) for j in joints)), register(joints, nodes), CATALOG, DEFAULT
    )
    by_joint = {piece.joint_ids: piece.length for piece in pieces}
    assert by_joint["A.0-A.1",] == pytest.approx(2.5 + 0.08)
    assert by_joint["A.0-slab", "A.1-slab"] == pytest.approx(2.4)


def test_a_fold_adds_at_each_end_that_meets() -> None:
    """A strip creased along its length takes lap and fold where it meets others."""
    a = joint("A", (0, 0, 0), (2, 0, 0), "wall_corner")
    b, c = joint("B", (0, 0, 0), (0, 1, 0)), joint("C", (2, 0, 0), (2, 1, 0))
    nodes = (
        Node(id="N1", kind="x", at=(0, 0, 0), joints=("A", "B")),
        Node(id="N2", kind="x", at=(2, 0, 0), joints=("A", "C")),
    )
    strips = (strip(a, fold=True), strip(b), strip(c))
    pieces = cut_pieces(schedule(strips), register((a, b, c), nodes), CATALOG, DEFAULT)
    (folded,) = [piece for piece in pieces if piece.purpose == "fold"]
    assert folded.length == pytest.approx(2 + 2 * (0.08 + 0.05))


def test_a_ring_closes_on_itself_with_one_lap() -> None:
    """A strip around a pipe laps once, where its ends meet."""
    ring = joint("pipe", (1, 1, 1), (1, 1, 1), "penetration")
    around = strip(ring, length=math.pi * 0.1)
    (piece,) = cut_pieces(schedule((around,)), register((ring,)), CATALOG, DEFAULT)
    assert piece.length == pytest.approx(math.pi * 0.1 + 0.08)


def test_a_strip_over_a_part_of_a_joint_comes_with_its_laps() -> None:
    """A strip draped over a crossing timber is cut as long as the schedule says."""
    a = joint("A", (0, 0, 0), (4, 0, 0), "roof_spline")
    (piece,) = cut_pieces(
        schedule((strip(a, length=0.3, wings_open=True),)), register((a,)), CATALOG, DEFAULT
    )
    assert (piece.length, piece.id) == (0.3, "A/inner/crossing")


@pytest.mark.parametrize("length", [20.0, 20.1, 39.92, 40.0, 59.0, 61.3])
def test_a_run_longer_than_a_roll_is_split_with_a_lap(length: float) -> None:
    """Parts fit the roll and their sum is the run and one lap for each split."""
    a = joint("A", (0, 0, 0), (length, 0, 0))
    pieces = cut_pieces(schedule((strip(a),)), register((a,)), CATALOG, DEFAULT)
    lap = CATALOG.laps.end_lap
    assert math.fsum(p.length for p in pieces) == pytest.approx(length + (len(pieces) - 1) * lap)
    assert all(3 * lap <= piece.length <= 20.0 for piece in pieces)
    assert len(pieces) == max(1, math.ceil((length - lap) / (20.0 - lap) - 1e-9))


def test_a_ridge_takes_the_longer_lap() -> None:
    """A split ridge laps by the ridge's own end lap."""
    a = joint("A", (0, 0, 0), (30, 0, 0), "ridge")
    pieces = cut_pieces(schedule((strip(a),)), register((a,)), CATALOG, DEFAULT)
    assert math.fsum(p.length for p in pieces) == pytest.approx(30 + 0.12)


def test_patches_are_cut_abreast() -> None:
    """Two patches of half the strip's width come from one length of it; an odd one from its own."""
    patches = tuple(patch(f"N{k}", 0.15) for k in range(5))
    pieces = cut_pieces(schedule(patches=patches), register(()), CATALOG, DEFAULT)
    assert [piece.joint_ids for piece in pieces] == [("N0", "N1"), ("N2", "N3"), ("N4",)]
    assert {(p.stock_id, p.length, p.purpose) for p in pieces} == {("s300", 0.15, "patch")}


def test_a_patch_wider_than_any_strip_is_pieced() -> None:
    """A patch of 0.4 m takes two lapping strips of 0.3 m."""
    pieces = cut_pieces(schedule(patches=(patch("N", 0.4),)), register(()), CATALOG, DEFAULT)
    assert [(piece.stock_id, piece.length) for piece in pieces] == [("s300", 0.4)] * 2
    assert len({piece.id for piece in pieces}) == 2


def test_a_strip_without_stock_is_not_cut() -> None:
    """What no stock covers gives no piece."""
    a = joint("A", (0, 0, 0), (2, 0, 0))
    assert cut_pieces(schedule((strip(a, None),)), register((a,)), CATALOG, DEFAULT) == ()


def test_a_roll_too_short_to_lap_is_told() -> None:
    """A roll no longer than two end laps can never be lapped onto the next; it is named."""
    short = replace(CATALOG, strips=(replace(CATALOG.strips[0], roll_length=0.2),))
    with pytest.raises(InputError, match=r"strip s100: a roll of 0\.200 m") as caught:
        cut_pieces(schedule(), register(()), short, DEFAULT)
    assert "roll_length" in caught.value.problems[0].remedy


def test_without_strips_in_the_catalog_nothing_is_cut() -> None:
    """An empty shelf gives no pieces, not an error."""
    bare = replace(CATALOG, strips=())
    a = joint("A", (0, 0, 0), (2, 0, 0))
    what = schedule((strip(a),), patches=(patch("N", 0.15),))
    assert cut_pieces(what, register((a,)), bare, DEFAULT) == ()
