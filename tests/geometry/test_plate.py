"""Plates with matched faces: side faces, volume, square cuts through every kind of shape."""

from __future__ import annotations

import numpy as np
import pytest
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st

from seamwright.errors import GeometryError
from seamwright.geometry.plane import Flat, upright
from seamwright.geometry.plate import (
    Loop,
    Plate,
    extent,
    from_sides,
    kept_above,
    kept_below,
    loop_of,
    square_loop,
    volume,
)
from seamwright.geometry.types import Frame

LEVEL = Frame(origin=(0.0, 0.0, 0.0), u=(1.0, 0.0, 0.0), v=(0.0, 1.0, 0.0))
RING = ((0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0))
HOLE = ((1.0, 1.0), (1.0, 2.0), (2.0, 2.0), (2.0, 1.0))
THICK = 0.5


def tapered() -> Plate:
    """Return a plate whose outer face is smaller all around by 0.2."""
    outer = ((0.2, 0.2), (3.8, 0.2), (3.8, 2.8), (0.2, 2.8))
    return Plate(boundary=Loop(inner=RING, outer=outer))


def forked() -> Plate:
    """Return a plate like the letter U, with a hole in its left leg."""
    ring = ((0.0, 0.0), (6.0, 0.0), (6.0, 4.0), (4.0, 4.0), (4.0, 1.0), (3.0, 1.0), (3.0, 4.0))
    whole = square_loop((*ring, (0.0, 4.0)))
    return Plate(boundary=whole, voids=(square_loop(HOLE),))


def mesh_of(loop: Loop, thickness: float) -> trimesh.Trimesh:
    """Return the hull of a convex plate as a mesh, an independent volume."""
    points = [(*p, 0.0) for p in loop.inner] + [(*p, thickness) for p in loop.outer]
    return trimesh.convex.convex_hull(np.array(points))


def test_volume_of_a_tapered_plate_is_that_of_its_mesh() -> None:
    """The closed formula agrees with the volume of the same solid as a mesh."""
    plate = tapered()
    assert volume(plate, THICK) == pytest.approx(mesh_of(plate.boundary, THICK).volume, rel=1e-9)


@settings(derandomize=True, max_examples=40, deadline=None)
@given(at=st.floats(0.25, 3.75))
def test_two_sides_of_a_cut_are_the_whole(at: float) -> None:
    """Cutting a tapered plate square divides its volume without loss."""
    plate = tapered()
    parts = [*kept_below(plate, 0, at), *kept_above(plate, 0, at)]
    assert sum(volume(p, THICK) for p in parts) == pytest.approx(volume(plate, THICK), rel=1e-9)
    for part in parts:
        mesh = mesh_of(part.boundary, THICK)
        assert volume(part, THICK) == pytest.approx(mesh.volume, rel=1e-9)


@settings(derandomize=True, max_examples=60, deadline=None)
@given(axis=st.sampled_from([0, 1]), at=st.floats(-0.5, 6.5))
def test_cuts_through_forks_and_holes_lose_nothing(axis: int, at: float) -> None:
    """A U with a hole falls into the right pieces wherever it is cut."""
    plate = forked()
    parts = [*kept_below(plate, axis, at), *kept_above(plate, axis, at)]
    assert sum(volume(p, 1.0) for p in parts) == pytest.approx(volume(plate, 1.0), abs=1e-7)


def test_cut_across_the_legs_gives_two_pieces() -> None:
    """Above the bridge of the U stand two legs."""
    assert len(kept_above(forked(), 1, 2.5)) == 2


def test_hole_stays_a_hole_until_the_cut_reaches_it() -> None:
    """A cut beside the hole keeps it, a cut through it makes a notch, one at its side drops it."""
    assert [len(p.voids) for p in kept_below(forked(), 0, 2.5)] == [1]
    assert [len(p.voids) for p in kept_below(forked(), 0, 1.5)] == [0]
    assert [len(p.boundary.inner) for p in kept_below(forked(), 0, 1.5)] == [8]
    assert [len(p.boundary.inner) for p in kept_below(forked(), 0, 1.0)] == [4]


def test_strip_as_wide_as_its_hole_falls_in_two() -> None:
    """Between the sides of a hole lie a piece below it and a piece above it."""
    strip = [p for q in kept_above(forked(), 0, 1.0) for p in kept_below(q, 0, 2.0)]
    assert sorted(extent(p, 1) for p in strip) == [(0.0, 1.0), (2.0, 4.0)]


def test_cut_beside_the_plate_keeps_all_or_nothing() -> None:
    """A cut outside leaves the plate or nothing."""
    assert kept_below(tapered(), 0, 9.0) == (tapered(),)
    assert kept_above(tapered(), 0, 9.0) == ()


def test_from_sides_finds_the_outer_outline() -> None:
    """Upright sides repeat the outline, a side leaning out at 45° moves it by the thickness."""
    sides = [upright(RING[i], RING[(i + 1) % 4]) for i in range(4)]
    assert np.allclose(from_sides(LEVEL, RING, sides, THICK).outer, RING)
    sides[0] = Flat(point=(0.0, 0.0, 0.0), normal=(0.0, 1.0, 1.0))
    loop = from_sides(LEVEL, RING, sides, THICK)
    assert min(v for _, v in loop.outer) == pytest.approx(-THICK)
    assert loop.inner == RING


def test_a_side_in_the_plates_own_plane_is_refused() -> None:
    """A side face must stand up from the inner face."""
    sides = [Flat(point=(0.0, 0.0, 0.0), normal=(0.0, 0.0, 1.0))] * 4
    with pytest.raises(GeometryError, match="lies flat"):
        from_sides(LEVEL, RING, sides, THICK)


def test_straight_vertices_go_but_folds_stay() -> None:
    """A vertex on a straight edge of both faces goes; one where the side face folds stays."""
    middle = ((2.0, 0.0), (2.0, 0.0))
    pairs = [(p, p) for p in RING]
    assert len(loop_of([pairs[0], middle, *pairs[1:]]).inner) == 4
    folded = ((2.0, 0.0), (2.0, 0.3))
    assert len(loop_of([pairs[0], folded, *pairs[1:]]).inner) == 5


def test_an_edge_may_shrink_to_a_point_on_one_face() -> None:
    """A triangle of a side face keeps its two vertices on the other face."""
    inner = ((0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.5, 3.0), (0.0, 2.0))
    outer = ((0.0, 0.0), (4.0, 0.0), (4.0, 2.0), (0.0, 2.0), (0.0, 2.0))
    loop = loop_of(zip(inner, outer, strict=True))
    assert loop.inner == inner
