"""Quantities printed for people."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest

from seamwright.units import (
    FLUID_OUNCE,
    INCH,
    format_angle,
    format_area,
    format_count,
    format_length,
    format_money,
    format_sealant_volume,
    format_time,
    format_volume,
    format_width,
)


@pytest.mark.parametrize(
    ("inches", "us", "metric"),
    [
        (Fraction(589, 2), "24'-6 1/2\"", "7.480 m"),
        (Fraction(96), "8'-0\"", "2.438 m"),
        (Fraction(119, 16), '7 7/16"', "189 mm"),
        (Fraction(1537, 16), "8'-0 1/16\"", "2.440 m"),
        (Fraction(0), '0"', "0 mm"),
        (Fraction(-63), "-5'-3\"", "-1.600 m"),
        (12 - Fraction(1, 64), "1'-0\"", "304 mm"),
        (Fraction(1, 64), '0"', "0 mm"),
    ],
)
def test_a_run_prints_in_both_systems(inches: Fraction, us: str, metric: str) -> None:
    """Runs print to a sixteenth of an inch, or to the millimetre."""
    assert us == format_length(inches * INCH, "us")
    assert metric == format_length(inches * INCH, "metric")


def test_a_metre_is_never_printed_as_1000_mm() -> None:
    """A length that rounds up to one metre prints as a metre."""
    assert format_length(Fraction(9996, 10000), "metric") == "1.000 m"


@pytest.mark.parametrize(
    ("metres", "us", "metric"),
    [
        (Fraction(4) * INCH, '4"', "102 mm"),
        (Fraction(3, 8) * INCH, '3/8"', "9.5 mm"),
        (Fraction(18) * INCH, '18"', "457 mm"),
        (Fraction(6, 1000), '1/4"', "6 mm"),
        (Fraction(-1, 8) * INCH, '-1/8"', "-3.2 mm"),
    ],
)
def test_a_width_prints_in_inches_or_millimetres(metres: Fraction, us: str, metric: str) -> None:
    """Widths stay in inches beyond a foot; below 20 mm a tenth of a millimetre shows."""
    assert us == format_width(metres, "us")
    assert metric == format_width(metres, "metric")


def test_other_quantities_print_with_their_units() -> None:
    """Areas, volumes, angles, times, money and counts each have one way to print."""
    assert format_area(Fraction(100), "us") == "1076.4 ft²"
    assert format_area(Fraction(100), "metric") == "100.00 m²"
    assert format_volume(Fraction(1), "us") == "35.3 ft³"
    assert format_volume(Fraction(1), "metric") == "1.000 m³"
    assert format_sealant_volume(28 * FLUID_OUNCE, "us") == "28.0 fl oz"
    assert format_sealant_volume(28 * FLUID_OUNCE, "metric") == "828 ml"
    assert format_angle(math.pi / 4) == "45.0°"
    assert format_time(8100) == "2 h 15 min"
    assert format_time(7200) == "2 h"
    assert format_time(30) == "30 s"
    assert format_money(1234.5) == "1234.50"
    assert format_money(1234.5, "USD") == "USD 1234.50"
    assert format_count(12.0) == "12"
    assert format_count(0.125) == "0.13"


@pytest.mark.source("nist-sp811", "appendix B.8")
def test_the_fluid_ounce_is_that_of_the_label() -> None:
    """One US fluid ounce is 29.57353 mL to seven figures."""
    assert round(float(FLUID_OUNCE) * 1e6, 5) == 29.57353
