"""Outlines in a plane: area, clipping, crossings, and the awkward cases."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from seamwright.geometry.polygon import (
    clipped,
    counter_clockwise,
    covers,
    crossing,
    distance_to_segment,
    is_convex,
    is_simple,
    signed_area,
    without_repeats,
    without_straights,
)

SQUARE = ((0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0))
BOW = ((0.0, 0.0), (2.0, 2.0), (2.0, 0.0), (0.0, 2.0))
DENTED = ((0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (1.0, 1.0), (0.0, 2.0))


def test_area_has_the_sign_of_the_turn() -> None:
    """Counter-clockwise is positive, clockwise negative."""
    assert signed_area(SQUARE) == 4.0
    assert signed_area(SQUARE[::-1]) == -4.0


def test_counter_clockwise_keeps_the_first_point() -> None:
    """A clockwise outline is turned around its first point; the other way stays."""
    assert counter_clockwise((SQUARE[0], *SQUARE[:0:-1])) == SQUARE
    assert counter_clockwise(SQUARE) == SQUARE


@pytest.mark.parametrize(
    ("ring", "simple"),
    [
        (SQUARE, True),
        (DENTED, True),
        (BOW, False),
        (SQUARE[:2], False),
        ((*SQUARE, SQUARE[1]), False),
        (((0.0, 0.0), (1.0, 0.0), (2.0, 0.0)), False),
    ],
)
def test_is_simple(ring: tuple, simple: bool) -> None:
    """Crossed, repeated, too short and flat outlines are not simple."""
    assert is_simple(ring) is simple


def test_is_convex() -> None:
    """A dent makes an outline non-convex."""
    assert is_convex(SQUARE)
    assert not is_convex(DENTED)


def test_clipping_away_everything_leaves_nothing() -> None:
    """A half-plane beside the outline leaves an empty outline, one around it leaves all."""
    assert clipped(SQUARE, 1.0, 0.0, -3.0) == ()
    assert clipped(SQUARE, 1.0, 0.0, 1.0) == SQUARE


@settings(derandomize=True, max_examples=50, deadline=None)
@given(angle=st.floats(0.0, 6.28), c=st.floats(-2.0, 2.0))
def test_clipping_divides_the_area(angle: float, c: float) -> None:
    """The two sides of a cut have the area of the whole."""
    a, b = math.cos(angle), math.sin(angle)
    parts = [clipped(SQUARE, a, b, c), clipped(SQUARE, -a, -b, -c)]
    assert sum(signed_area(p) for p in parts if p) == pytest.approx(4.0, abs=1e-6)


def test_repeats_and_straights_are_dropped() -> None:
    """Doubled points and points on straight edges carry no shape."""
    ring = ((0.0, 0.0), (0.0, 0.0), (1.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0))
    assert len(without_repeats(ring)) == 5
    assert set(without_straights(ring)) == set(SQUARE)
    assert without_straights(((0.0, 0.0), (1.0, 0.0), (2.0, 0.0))) == ()


def test_crossing_of_parallel_lines_is_none() -> None:
    """Lines cross at one point, parallel lines at none."""
    assert crossing((0.0, 0.0), (1.0, 1.0), (2.0, 0.0), (-1.0, 1.0)) == pytest.approx((1.0, 1.0))
    assert crossing((0.0, 0.0), (1.0, 1.0), (1.0, 0.0), (2.0, 2.0)) is None


def test_covers_allows_touching() -> None:
    """An outline covers itself, and does not cover what reaches out."""
    assert covers(SQUARE, SQUARE)
    assert not covers(SQUARE, tuple((x + 0.1, y) for x, y in SQUARE))


def test_distance_to_a_segment_and_to_a_point() -> None:
    """Beyond its ends the distance is to the end; a segment of no length is a point."""
    assert distance_to_segment((1.0, 1.0), (0.0, 0.0), (2.0, 0.0)) == 1.0
    assert distance_to_segment((3.0, 0.0), (0.0, 0.0), (2.0, 0.0)) == 1.0
    assert distance_to_segment((3.0, 4.0), (0.0, 0.0), (0.0, 0.0)) == 5.0
