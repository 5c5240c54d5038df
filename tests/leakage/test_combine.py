"""Seals in series, areas and flows."""

from __future__ import annotations

import math

import pytest
from scipy.optimize import brentq

from seamwright.leakage.combine import area_of_flow, flow_between, flow_of_area, in_series


def test_a_square_centimetre_is_an_orifice_at_four_pascals() -> None:
    """At 4 Pa the flow of an effective leakage area is that of a hole with no contraction."""
    assert flow_of_area(1e-4, 4.0) == pytest.approx(1e-4 * math.sqrt(2 * 4 / 1.204), rel=1e-12)


def test_area_and_flow_are_inverse() -> None:
    """An area turned into a flow and back is itself."""
    assert area_of_flow(flow_of_area(3e-3, 50.0, 0.7), 50.0, 0.7) == pytest.approx(3e-3)


def test_flow_moves_with_the_power_of_pressure() -> None:
    """From 75 Pa to 50 Pa a flow falls by the ratio to the exponent."""
    assert flow_between(2.0, 75.0, 50.0, 0.5) == pytest.approx(2.0 * math.sqrt(2 / 3))


@pytest.mark.parametrize("exponent", [0.5, 0.65, 1.0])
def test_series_solves_the_pressures_between_layers(exponent: float) -> None:
    """The combined leak is what a root finder gets when it balances the flow of both layers."""
    first, second, whole = 0.3, 0.1, 50.0
    middle = brentq(
        lambda p: first * p**exponent - second * (whole - p) ** exponent, 1e-9, whole - 1e-9
    )
    expected = first * middle**exponent / whole**exponent
    assert in_series([first, second], exponent) == pytest.approx(expected, rel=1e-9)


def test_equal_layers_share_the_pressure() -> None:
    """Two alike layers leak as one at half the pressure."""
    assert in_series([1.0, 1.0], 0.65) == pytest.approx(0.5**0.65)


def test_a_perfect_layer_stops_all() -> None:
    """A layer that lets nothing through makes the place tight."""
    assert in_series([1.0, 0.0]) == 0.0


def test_no_layer_is_no_leak_path() -> None:
    """An empty list is a mistake of the caller."""
    with pytest.raises(ValueError, match="at least one layer"):
        in_series([])
