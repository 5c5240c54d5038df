"""The infiltration models of the ASHRAE Handbook, and the ventilation rate of ASHRAE 62.2.

The coefficients were read in the Handbook of 2001 (2005); the flows of the single cases were worked
out by hand from them, and the two-storey example is the Handbook's own (from memory): 500 cm²,
340 m³, 39 K, 6.7 m/s, shelter class 3 give 73.6 L/s and 0.78 air changes an hour.
"""

from __future__ import annotations

import math

import pytest

from seamwright.leakage.combine import flow_of_area
from seamwright.leakage.infiltration import Setting, basic_flow, enhanced_flow
from seamwright.leakage.ventilation import required_rate


@pytest.mark.source("ashrae-hof-2001", "chapter 26, basic model, example of a two-storey house")
def test_the_handbooks_two_storey_house() -> None:
    """The printed 73.6 L/s and 0.78 1/h come out."""
    flow = float(basic_flow(0.05, 39.0, 6.7, Setting(storeys=2)))
    assert flow * 1e3 == pytest.approx(73.6, abs=0.05)
    assert flow * 3600 / 340 == pytest.approx(0.78, abs=0.005)


@pytest.mark.source("ashrae-hof-2001", "chapter 26, basic model, tables of coefficients")
@pytest.mark.parametrize(
    ("difference", "wind", "litres"),
    [(20.0, 0.0, 26.926), (0.0, 4.0, 26.382), (20.0, 4.0, 37.696), (40.0, 8.0, 65.069)],
)
def test_basic_model(difference: float, wind: float, litres: float) -> None:
    """One storey, class 3, 500 cm²: stack alone, wind alone, and both."""
    flow = float(basic_flow(0.05, difference, wind, Setting(storeys=1)))
    assert flow * 1e3 == pytest.approx(litres, abs=6e-4)


@pytest.mark.source("ashrae-hof-2001", "chapter 26, enhanced model, inputs of its example")
@pytest.mark.parametrize(
    ("difference", "wind", "litres"),
    [(20.0, 0.0, 33.117), (0.0, 4.0, 27.488), (20.0, 4.0, 43.038), (40.0, 8.0, 87.284)],
)
def test_enhanced_model(difference: float, wind: float, litres: float) -> None:
    """Two storeys with a flue on a slab, class 4, c = 0.05 and n = 0.67."""
    setting = Setting(storeys=2, shelter=4, flue=True)
    flow = float(enhanced_flow(0.05, 0.67, difference, wind, setting))
    assert flow * 1e3 == pytest.approx(litres, abs=6e-4)


@pytest.mark.source("ashrae-hof-2001", "chapter 26, flow coefficient of a leakage area")
def test_coefficient_of_an_area() -> None:
    """C = A Δp_r^(0.5 − n) √(2/ρ0) with 4 Pa; at 4 Pa that is the orifice equation."""
    area, n = 0.05, 0.67
    coefficient = area * 4.0 ** (0.5 - n) * math.sqrt(2 / 1.204)
    assert flow_of_area(area, 50.0, n) == pytest.approx(coefficient * 50.0**n, rel=1e-12)


@pytest.mark.source("ashrae-62-2", "whole-dwelling rate, editions from 2013")
def test_the_rate_of_a_three_bedroom_house() -> None:
    """150 m² and three bedrooms need 0.15 × 150 + 3.5 × 4 = 36.5 L/s."""
    assert required_rate(150.0, 3) * 1e3 == pytest.approx(36.5)
