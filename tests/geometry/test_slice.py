"""Cutting plates by a plane."""

from __future__ import annotations

import math

import pytest
from shapely.geometry import Polygon

from seamwright.geometry.slice import Plate, clip, cut_layers, cut_level
from seamwright.geometry.types import Frame, Ring

FLOOR = Frame(origin=(0.0, 0.0, 0.0), u=(1.0, 0.0, 0.0), v=(0.0, 1.0, 0.0))
SQUARE: Ring = ((0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0))


def across(x: float) -> Frame:
    """Return a cut square to the x axis: u is y, v is up."""
    return Frame(origin=(x, 0.0, 0.0), u=(0.0, 1.0, 0.0), v=(0.0, 0.0, 1.0))


def areas(rings: tuple[Ring, ...]) -> float:
    """Return the area of rings."""
    return math.fsum(Polygon(ring).area for ring in rings)


def test_a_square_plate_is_cut_into_rectangles() -> None:
    """Each layer is as wide as the plate and as thick as its share."""
    plate = Plate(frame=FLOOR, lower=SQUARE, upper=SQUARE, thickness=0.2)
    low, high = cut_layers(plate, across(1.0), (0.0, 0.25, 1.0))
    assert areas(low) == pytest.approx(2 * 0.05)
    assert areas(high) == pytest.approx(2 * 0.15)


def test_a_beveled_edge_shows() -> None:
    """A plate larger on top is cut to a trapezoid."""
    upper: Ring = ((0.0, -0.2), (2.0, -0.2), (2.0, 2.0), (0.0, 2.0))
    plate = Plate(frame=FLOOR, lower=SQUARE, upper=upper, thickness=0.2)
    ring = cut_layers(plate, across(1.0), (0.0, 1.0))[0][0]
    corners = [x for corner in sorted(ring) for x in corner]
    assert corners == pytest.approx([-0.2, 0.2, 0.0, 0.0, 2.0, 0.0, 2.0, 0.2])


def test_rings_run_counter_clockwise() -> None:
    """Whatever the plate's sense, outlines come back counter-clockwise."""
    plate = Plate(frame=FLOOR, lower=SQUARE[::-1], upper=SQUARE[::-1], thickness=0.2)
    for ring in cut_layers(plate, across(0.5), (0.0, 0.5, 1.0)):
        assert Polygon(ring[0]).exterior.is_ccw


def test_a_hole_parts_the_cut() -> None:
    """A cut through a hole comes in two pieces on each level."""
    hole: Ring = ((0.5, 0.5), (1.5, 0.5), (1.5, 1.0), (0.5, 1.0))
    plate = Plate(frame=FLOOR, lower=SQUARE, upper=SQUARE, thickness=0.2, holes=(hole,))
    assert len(cut_layers(plate, across(1.0), (0.0, 1.0))[0]) == 2
    spans = cut_level(plate, across(1.0), 0.0)
    assert [x for a, b in spans for x in (a[0], b[0])] == pytest.approx([0.0, 0.5, 1.0, 2.0])


@pytest.mark.parametrize("x", [-0.12, -0.05, 0.0005, 0.3, 1.0, 1.9])
def test_cuts_through_a_pyramid_s_side_agree_with_the_solid(x: float) -> None:
    """Where corners cross the cut between the faces the area is still that of the solid."""
    upper: Ring = ((-0.15, -0.1), (2.0, -0.3), (2.0, 2.1), (-0.15, 2.2))
    lower: Ring = ((0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0))
    plate = Plate(frame=FLOOR, lower=lower, upper=upper, thickness=0.3)
    cut = areas(cut_layers(plate, across(x), (0.0, 1.0))[0])
    steps = 4000
    heights = [(k + 0.5) / steps for k in range(steps)]
    widths = [
        math.fsum(math.dist(a, b) for a, b in cut_level(plate, across(x), level))
        for level in heights
    ]
    assert cut == pytest.approx(math.fsum(widths) * 0.3 / steps, rel=2e-3, abs=1e-6)


def test_a_cut_that_misses_is_empty() -> None:
    """A plane beside the plate, or parallel to it, cuts nothing."""
    plate = Plate(frame=FLOOR, lower=SQUARE, upper=SQUARE, thickness=0.2)
    level = Frame(origin=(0.0, 0.0, 0.1), u=(1.0, 0.0, 0.0), v=(0.0, 1.0, 0.0))
    assert cut_layers(plate, across(3.0), (0.0, 1.0)) == ((),)
    assert cut_layers(plate, level, (0.0, 0.5, 1.0)) == ((), ())
    assert cut_level(plate, level, 0.5) == ()


def test_clip_keeps_what_is_within_reach() -> None:
    """A ring is cut to the square about the origin; one outside is gone."""
    assert Polygon(clip(SQUARE, 1.0)).area == pytest.approx(1.0)
    assert clip(((3.0, 3.0), (4.0, 3.0), (4.0, 4.0)), 1.0) == ()
