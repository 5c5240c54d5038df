"""Leakage through a joint, and loops behind one seal."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from seamwright.climate.moist_air import density
from seamwright.moisture.air_ways import (
    GRAVITY,
    Airs,
    Exposed,
    SealLines,
    in_series,
    loop_flow,
    pressure,
    rest_of,
    through_flow,
    ways_of,
)


def _airs(inside: float, outside: float, wind: float = 0.0) -> Airs:
    return Airs(
        inside=np.array([inside]), outside=np.array([outside]), vapor_inside=np.array([800.0]),
        vapor_outside=np.array([400.0]), wind=np.array([wind]),
    )  # fmt: skip


def test_series_and_its_rest() -> None:
    """What one line must leak so that a given flow passes all is the inverse of the series."""
    whole = in_series((0.4, 2.0, 5.0))
    assert rest_of(whole, in_series((2.0, 5.0))) == pytest.approx(0.4)


def test_an_open_line_does_not_count() -> None:
    """A line of infinite leakage changes nothing; a perfect one stops all."""
    assert in_series((0.4, math.inf)) == pytest.approx(0.4)
    assert in_series((0.4, 0.0)) == 0.0


def test_warm_air_leaves_high_and_enters_low() -> None:
    """In winter the pressure drives out above the neutral level and in below it."""
    airs = _airs(20.0, 0.0)
    assert pressure(airs, Exposed(above=2.0, fan=0.0))[0] > 1.5
    assert pressure(airs, Exposed(above=-2.0, fan=0.0))[0] < -1.5


def test_wind_comes_from_all_quarters_alike() -> None:
    """Over a year a face has the wind in front of it for a quarter of the hours."""
    n = 8760
    still = Airs(
        inside=np.full(n, 20.0), outside=np.full(n, 20.0), vapor_inside=np.full(n, 800.0),
        vapor_outside=np.full(n, 800.0), wind=np.full(n, 8.0),
    )  # fmt: skip
    over = pressure(still, Exposed(above=0.0))
    assert (over < 0.0).mean() == pytest.approx(0.25, abs=0.01)


def test_flow_at_the_test_pressure() -> None:
    """A fan offset of 50 Pa lets the stated leakage through."""
    airs = _airs(20.0, 20.0)
    flow = through_flow(airs, Exposed(above=0.0, fan=50.0), 3.6)
    assert flow[0] == pytest.approx(1e-3 * (101325 - 800) / (287.042 * 293.15))


def test_mirrored_pressure_mirrors_the_flow() -> None:
    """With the same air on both sides the flow changes sign with the pressure."""
    airs = Airs(
        inside=np.array([20.0]), outside=np.array([20.0]), vapor_inside=np.array([800.0]),
        vapor_outside=np.array([800.0]), wind=np.array([0.0]),
    )  # fmt: skip
    out = through_flow(airs, Exposed(above=0.0, fan=4.0), 1.0)
    into = through_flow(airs, Exposed(above=0.0, fan=-4.0), 1.0)
    assert out[0] == -into[0]


def test_loop_against_the_exact_integral() -> None:
    """Without resistance along it the loop is within 6 % of the integral over the intake half."""
    height, leak, n = 2.4, 4.0, 0.65
    lines = SealLines(inner=leak, channel=1.0, outer=0.0, gap=1.0, run=height, depth=1.0)
    airs = _airs(20.0, 0.0)
    warm, cold = (density(np.array([t]), np.array([800.0]))[0] for t in (20.0, 10.0))
    lift = GRAVITY * (cold - warm)
    c = leak / 3600 / 50**n
    exact = c * lift**n * (height / 2) ** (n + 1) / (n + 1) / (height / 2)
    flow = loop_flow(airs, lines, room=True, share=0.5)[0]
    assert flow / ((101325 - 800) / (287.042 * 293.15)) == pytest.approx(exact, rel=0.06)


def test_a_tight_line_lets_no_loop() -> None:
    """A perfect line on one face stops the loop of that side, and dams stop both."""
    airs = _airs(20.0, 0.0)
    lines = SealLines(inner=0.0, channel=1.0, outer=4.0, gap=0.003, run=2.4)
    assert loop_flow(airs, lines, room=True)[0] == 0.0
    assert loop_flow(airs, lines, room=False)[0] > 0.0
    dammed = SealLines(inner=4.0, channel=1.0, outer=4.0, gap=0.003, run=0.0)
    assert loop_flow(airs, dammed, room=True)[0] == 0.0


def test_a_loop_runs_in_to_the_far_line() -> None:
    """Room air of a loop runs along all cells once, and outdoor air from the other end."""
    cells, shares = np.array([4, 7, 9]), np.array([0.01, 0.02, 0.01])
    lines = SealLines(inner=4.0, channel=1.0, outer=0.0, gap=0.003, run=2.4)
    through, loop = ways_of(cells, shares, _airs(20.0, 0.0), Exposed(above=1.0), lines)
    assert not through.flow.any()
    assert (loop.first, loop.last) == (0, 0)
    assert loop.cells.tolist() == [4, 7, 9]
    lines = SealLines(inner=0.0, channel=1.0, outer=4.0, gap=0.003, run=2.4)
    _, loop = ways_of(cells, shares, _airs(20.0, 0.0), Exposed(above=1.0), lines)
    assert (loop.first, loop.last) == (1, 1)
    assert loop.cells.tolist() == [9, 7, 4]


def test_where_the_year_tells_the_wind_a_face_feels_it_from_there() -> None:
    """Wind in front of a wall drives air in, from behind it draws air out, and the way between is
    without a jump; without a facing the wind comes by turns as before.
    """
    n = 360
    around = np.linspace(0.0, math.tau, n, endpoint=False)
    airs = Airs(
        inside=np.full(n, 20.0), outside=np.full(n, 20.0), vapor_inside=np.full(n, 800.0),
        vapor_outside=np.full(n, 800.0), wind=np.full(n, 8.0), direction=around,
    )  # fmt: skip
    west = 1.5 * math.pi
    over = pressure(airs, Exposed(above=0.0, facing=west))
    assert np.argmin(over) == 270
    assert over[270] < -4.0 < 0.0 < over[90]
    assert np.abs(np.diff(over)).max() < 0.2
    turned = pressure(airs, Exposed(above=0.0))
    assert set(np.round(np.unique(turned), 6)) < set(np.round(over, 6))


def test_thin_air_carries_less() -> None:
    """At 80 kPa a stack drives four fifths of the pressure, and each volume holds less dry air."""
    low, high = _airs(20.0, 0.0), replace(_airs(20.0, 0.0), pressure=80_000.0)
    exposed = Exposed(above=2.0)
    thin = 80_000.0 / 101_325.0
    assert pressure(high, exposed)[0] == pytest.approx(thin * pressure(low, exposed)[0], rel=0.01)
    ratio = through_flow(high, exposed, 0.4)[0] / through_flow(low, exposed, 0.4)[0]
    assert ratio == pytest.approx(thin**1.65, rel=0.01)
