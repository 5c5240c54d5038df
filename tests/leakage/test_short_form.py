"""Tests at one or two pressures: values, and how much less they say."""

from __future__ import annotations

import math

import pytest

from seamwright.errors import SeamwrightError
from seamwright.leakage.fan import analyze_fan_test
from seamwright.leakage.types import Accuracy, Conditions, Envelope, Reading, Series, Target

MILD = Conditions(indoor_temperature=20.0, outdoor_temperature=20.0, barometric_pressure=101325.0)
HOUSE = Envelope(volume=300.0)


def held_at(*rows: tuple[float, float], direction: str = "depressurize") -> Series:
    """Return a series with the given (pressure, flow) readings and a still baseline."""
    sign = -1.0 if direction == "depressurize" else 1.0
    readings = tuple(Reading(pressure=sign * p, flow=q) for p, q in rows)
    return Series(direction=direction, readings=readings, baseline_before=(0.0,),  # type: ignore[arg-type]
                  baseline_after=(0.0,))  # fmt: skip


def test_one_point_at_50_pa_is_the_reading_itself() -> None:
    """At 50 Pa the assumed exponent does not matter; the gauges' errors are the interval."""
    result = analyze_fan_test([held_at((50.0, 0.2))], MILD, HOUSE, method="astm_e1827")
    factor = result.series[0].standard_coefficient / result.series[0].fit.coefficient.value
    assert result.flow_50.value == pytest.approx(0.2 * factor)
    half = math.hypot(0.05, 0.65 / 50)
    assert math.log(result.flow_50.high / result.flow_50.value) == pytest.approx(half, rel=1e-6)
    assert result.accuracy == Accuracy(flow=0.05, pressure=1.0)


def test_one_point_far_from_50_pa_says_less() -> None:
    """The further the reading is from 50 Pa, the more the assumed exponent widens the interval."""
    spans = []
    for pressure in (50.0, 40.0, 25.0):
        series = held_at((pressure, 0.2 * (pressure / 50) ** 0.65))
        flow = analyze_fan_test([series], MILD, HOUSE, method="astm_e1827").flow_50
        spans.append(flow.high / flow.low)
    assert spans == sorted(spans)
    assert spans[2] > 1.05 * spans[0]


def test_two_points_give_the_exponent() -> None:
    """Two stations on a power law give back its exponent, whatever the repeats at each."""
    rows = [(p, 0.01 * p**0.7) for p in (50.0, 49.0, 12.0, 12.5)]
    result = analyze_fan_test([held_at(*rows)], MILD, HOUSE, method="astm_e1827")
    fit = result.series[0].fit
    assert fit.count == 2
    assert fit.exponent.value == pytest.approx(0.7, abs=2e-3)
    assert fit.exponent.low < 0.7 < fit.exponent.high
    assert result.eqla_10.high / result.eqla_10.low > result.flow_50.high / result.flow_50.low


def test_both_directions_do_not_shrink_what_the_gauges_share() -> None:
    """The same gauge read twice is no better than once."""
    down, up = held_at((50.0, 0.2)), held_at((50.0, 0.2), direction="pressurize")
    one = analyze_fan_test([down], MILD, HOUSE, method="astm_e1827").flow_50
    both = analyze_fan_test([down, up], MILD, HOUSE, method="astm_e1827").flow_50
    assert both.high / both.low == pytest.approx(one.high / one.low)


def test_rules_of_the_short_form_are_named() -> None:
    """A single reading at 25 Pa is no test by E1827, and no verdict is given."""
    target = Target(measure="ach50", limit=50.0, source="test")
    result = analyze_fan_test(
        [held_at((25.0, 0.2))], MILD, HOUSE, method="astm_e1827", target=target
    )
    assert [c.rule for c in result.series[0].checks if not c.holds] == ["pressure near 50 Pa"]
    assert result.outcome == "cannot tell"
    assert "pressure near 50 Pa" in result.reason


def test_gauges_given_in_part_are_filled_in() -> None:
    """A file that gives only the volume's error still has the default errors of the gauges."""
    result = analyze_fan_test(
        [held_at((50.0, 0.2))], MILD, HOUSE, method="astm_e1827", accuracy=Accuracy(volume=0.03)
    )
    assert result.accuracy == Accuracy(flow=0.05, pressure=1.0, volume=0.03)
    assert result.ach50 is not None
    assert result.ach50.high / result.ach50.low > result.flow_50.high / result.flow_50.low


def test_a_full_test_is_sent_to_the_full_standards() -> None:
    """Three or more pressures are too good for the short form."""
    with pytest.raises(SeamwrightError, match="3 pressures were held"):
        analyze_fan_test(
            [held_at((20.0, 0.1), (35.0, 0.15), (50.0, 0.2))], MILD, HOUSE, method="astm_e1827"
        )
