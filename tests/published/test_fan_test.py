"""A fan test printed in an open textbook, and its misprint.

C. Ghiaus, Dynamic Models for Building Energy Management (open textbook notebook, tutorial A06),
prints raw readings and the fit: n = 0.6434 ± 0.0442, K = 53.3956 ± 5.4338 m³/(h·Paⁿ), R² = 0.9815.
The printed uncertainty of K uses the standard error of the slope where the text's own formula asks
for that of the intercept; by that formula it is ± 8.1475.
"""

from __future__ import annotations

import math

import pytest

from seamwright.leakage.accuracy import scaled
from seamwright.leakage.fan import leakage_area
from seamwright.leakage.power_law import (
    fit_power_law,
    flow_at,
    one_point_coefficient,
    two_point_exponent,
)

PRESSURE = (10.0, 20.0, 30.0, 40.0, 50.0, 60.0)
FLOW_M3_H = (237.0, 364.0, 444.0, 625.0, 688.0, 704.0)
FIT = fit_power_law(PRESSURE, [q / 3600 for q in FLOW_M3_H])


@pytest.mark.source("ghiaus-a06", "fan test example")
def test_fit_gives_the_printed_exponent_and_coefficient() -> None:
    """Exponent, coefficient and R² agree with print to the last digit given."""
    assert round(FIT.exponent.value, 4) == 0.6434
    assert round(FIT.s_exponent, 4) == 0.0442
    assert round(FIT.coefficient.value * 3600, 3) == 53.396
    assert round(FIT.r_squared, 4) == 0.9815


@pytest.mark.source("ghiaus-a06", "fan test example")
def test_coefficient_error_follows_the_formula_not_the_misprint() -> None:
    """The error of K is that of the intercept (8.1475), not K times the slope's (5.4338)."""
    k = FIT.coefficient.value * 3600
    assert k * FIT.s_log_coefficient == pytest.approx(8.1475, abs=1e-4)
    assert k * math.log(10) * FIT.s_exponent == pytest.approx(5.4338, abs=5e-4)


@pytest.mark.source("ghiaus-a06", "fan test example")
def test_intervals_match_an_independent_computation() -> None:
    """95 % limits match those computed apart with SciPy from the same readings."""
    assert FIT.exponent.low == pytest.approx(0.5207416, abs=1e-6)
    assert FIT.exponent.high == pytest.approx(0.7661560, abs=1e-6)
    at_50 = scaled(flow_at(FIT, 50.0), 3600)
    assert (at_50.value, at_50.low, at_50.high) == pytest.approx((661.7681, 600.4015, 729.4070))


@pytest.mark.source("ghiaus-a06", "fan test example")
def test_leakage_areas_match_an_independent_computation() -> None:
    """ELA at 4 Pa and EqLA at 10 Pa follow their definitions at 1.204 kg/m³."""
    assert leakage_area(flow_at(FIT, 4.0), 4.0, 1.0).value == pytest.approx(0.01403997, abs=1e-8)
    assert leakage_area(flow_at(FIT, 10.0), 10.0, 0.611).value == pytest.approx(0.0262065, abs=1e-7)


@pytest.mark.source("ghiaus-a06", "fan test example")
def test_one_and_two_point_forms() -> None:
    """One point at 50 Pa with n 0.65, and two points at 10 and 50 Pa, give the known figures."""
    assert one_point_coefficient(50.0, 661.76813) == pytest.approx(52.0446, abs=1e-4)
    assert two_point_exponent((50.0, 688.0), (10.0, 237.0)) == pytest.approx(0.66217, abs=1e-5)
