"""Planes over the plan: heights, frames, miters, traces."""

from __future__ import annotations

import math

import pytest

from seamwright.errors import GeometryError
from seamwright.geometry.plane import (
    Slope,
    miter,
    slope_frame,
    slope_over_line,
    trace,
    unit,
    upright,
)
from seamwright.geometry.types import Frame, dot

EAST = (1.0, 0.0)
SOUTH = slope_over_line((0.0, 0.0), EAST, 3.0, 0.5)


def test_slope_rises_to_the_left_of_its_line() -> None:
    """On the line the height is the given one, one metre to the left it is a pitch higher."""
    assert SOUTH.at((5.0, 0.0)) == 3.0
    assert SOUTH.at((5.0, 1.0)) == 3.5


def test_raised_slope_is_parallel_at_the_thickness() -> None:
    """The distance between a slope and its raised copy is the thickness."""
    up = SOUTH.raised(0.2)
    n = slope_frame((0.0, 0.0), EAST, SOUTH).n
    gap = tuple(a - b for a, b in zip(up.lifted((0.0, 0.0)), SOUTH.lifted((0.0, 0.0)), strict=True))
    assert dot(gap, n) == pytest.approx(0.2)


def test_slope_frame_is_orthonormal_and_points_out() -> None:
    """U runs along the line, v up the slope, the normal out of the roof."""
    frame = slope_frame((1.0, 2.0), EAST, SOUTH)
    assert frame.u == (1.0, 0.0, 0.0)
    assert frame.v[2] > 0.0
    assert frame.n[2] > 0.0
    assert dot(frame.u, frame.v) == 0.0
    assert math.sqrt(dot(frame.v, frame.v)) == pytest.approx(1.0)


@pytest.mark.parametrize("thick", [(0.2, 0.2), (0.2, 0.3), (0.1, 0.4)])
def test_miter_holds_both_lines(thick: tuple[float, float]) -> None:
    """The miter plane contains the lines where the lower and the upper faces meet."""
    north = slope_over_line((0.0, 4.0), (-1.0, 0.0), 3.0, 1.0)
    y = 8.0 / 3.0
    flat = miter((0.0, y), (1.0, y), SOUTH, north, thick)
    one, two = SOUTH.raised(thick[0]), north.raised(thick[1])
    y_top = (two.at((0.0, 0.0)) - one.at((0.0, 0.0))) / (one.b - two.b)
    for point in (SOUTH.lifted((3.0, y)), one.lifted((3.0, y_top))):
        away = tuple(a - b for a, b in zip(point, flat.point, strict=True))
        assert dot(away, flat.normal) == pytest.approx(0.0, abs=1e-9)


def test_parallel_slopes_have_no_miter() -> None:
    """Two slopes of one direction meet nowhere."""
    other = Slope(a=SOUTH.a, b=SOUTH.b, c=9.0)
    with pytest.raises(GeometryError, match="different pitches"):
        miter((0.0, 0.0), (1.0, 0.0), SOUTH, other, (0.1, 0.1))


def test_a_direction_needs_length() -> None:
    """The zero vector has no direction."""
    with pytest.raises(GeometryError, match="length zero"):
        unit((0.0, 0.0, 0.0))


def test_trace_of_an_upright_plane_on_a_raised_face() -> None:
    """On a level frame an upright plane leaves its own plan line at every height."""
    frame = Frame(origin=(0.0, 0.0, 0.0), u=(1.0, 0.0, 0.0), v=(0.0, 1.0, 0.0))
    for w in (0.0, 0.3):
        a, b, c = trace(frame, w, upright((0.0, 1.0), (1.0, 1.0)))
        assert a * 7.0 + b * 1.0 + c == pytest.approx(0.0)
