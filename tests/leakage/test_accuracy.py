"""Errors that all readings share: they widen the result and do not average away."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest

from seamwright.leakage.accuracy import device_error, mean_interval, scaled, widened
from seamwright.leakage.fan import analyze_fan_test
from seamwright.leakage.types import Accuracy, Conditions, Envelope, Interval, Reading, Series

MILD = Conditions(indoor_temperature=20.0, outdoor_temperature=20.0, barometric_pressure=101325.0)


def one_way(sign: float) -> Series:
    """Return eight readings with a ripple."""
    rows = zip((10, 17, 24, 31, 38, 45, 52, 60), (1.01, 0.99) * 4, strict=True)
    return Series(
        direction="depressurize" if sign < 0 else "pressurize",
        readings=tuple(Reading(pressure=sign * p, flow=0.01 * p**0.65 * r) for p, r in rows),
        baseline_before=(0.0,),
        baseline_after=(0.0,),
    )


def log_half(interval: Interval) -> float:
    """Return the half-width of the logarithm."""
    return math.log(interval.high / interval.low) / 2


def test_errors_add_in_quadrature() -> None:
    """A 3 % interval with a 4 % error gives one of about 5 %."""
    start = Interval(value=1.0, low=1 / 1.03, high=1.03)
    found = widened(start, 0.04, None)
    assert log_half(found) == pytest.approx(math.hypot(math.log(1.03), math.log(1.04)))
    assert widened(start, None) is start


def test_independent_estimates_average_and_shared_ones_do_not() -> None:
    """Two equal intervals give one narrower by √2, or, with common errors, the same."""
    one = Interval(value=2.0, low=1.8, high=2.2)
    both = mean_interval([one, one])
    assert (both.high - both.low) == pytest.approx((one.high - one.low) / math.sqrt(2))
    assert mean_interval([one, one], shared=True) == one
    assert scaled(one, 3.0).value == 6.0


def test_gauge_errors_move_the_flow_by_the_exponent() -> None:
    """An error of 1 Pa at 50 Pa is 1.3 % of the flow at n = 0.65."""
    assert device_error(Accuracy(pressure=1.0), 50.0, 0.65) == pytest.approx(0.013)
    assert device_error(Accuracy(flow=0.05), 50.0, 0.65) == 0.05
    assert device_error(None, 50.0, 0.65) is None


def test_the_flow_error_is_counted_once_over_both_directions() -> None:
    """The fan's calibration error widens the mean of two directions as it does one."""
    both = [one_way(-1.0), one_way(1.0)]
    plain = analyze_fan_test(both, MILD, Envelope()).flow_50
    known = analyze_fan_test(both, MILD, Envelope(), accuracy=Accuracy(flow=0.06)).flow_50
    expected = math.hypot(log_half(plain), math.log(1.06))
    assert log_half(known) == pytest.approx(expected, rel=1e-6)


def test_the_volume_error_widens_air_changes_only() -> None:
    """A volume known to 5 % leaves the flow alone and widens ACH50; an area does so for q50."""
    house = Envelope(volume=300.0, area=360.0)
    result = analyze_fan_test(
        [one_way(-1.0)], MILD, house, accuracy=Accuracy(volume=0.05, area=0.10)
    )
    assert result.ach50 is not None
    assert result.q50 is not None
    halves = [log_half(result.flow_50), log_half(result.ach50), log_half(result.q50)]
    assert all(a < b for a, b in pairwise(halves))
    assert result.ach50.value == pytest.approx(result.flow_50.value * 12.0)


def test_intervals_hold_the_truth_when_the_fan_is_off_by_its_error() -> None:
    """Over 1,000 tests by fans with errors of their own, intervals with it hold the truth in 93 to
    97 of 100, and those without it in fewer than 60.
    """
    dice = np.random.default_rng(5)
    pressures = np.array([10.0, 17.0, 24.0, 31.0, 38.0, 45.0, 52.0, 60.0])
    truth = analyze_fan_test([_exact(pressures, np.ones(8))], MILD, Envelope()).flow_50.value
    held, held_without = 0, 0
    for _ in range(1000):
        errors = np.exp(dice.normal(0, 0.01, 8)) * math.exp(dice.normal(0, 0.05 / 1.96))
        one = _exact(pressures, errors)
        plain = analyze_fan_test([one], MILD, Envelope()).flow_50
        known = analyze_fan_test([one], MILD, Envelope(), accuracy=Accuracy(flow=0.05)).flow_50
        held += known.low <= truth <= known.high
        held_without += plain.low <= truth <= plain.high
    assert 930 <= held <= 970
    assert held_without < 600


def _exact(pressures: np.ndarray, errors: np.ndarray) -> Series:
    flows = 0.01 * pressures**0.65 * errors
    rows = zip(pressures.tolist(), flows.tolist(), strict=True)
    return Series(
        direction="pressurize",
        readings=tuple(Reading(pressure=p, flow=q) for p, q in rows),
        baseline_before=(0.0,),
        baseline_after=(0.0,),
    )
