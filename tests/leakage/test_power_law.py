"""The power-law fit against a reference library, and its interval against simulated tests."""

from __future__ import annotations

import math

import numpy as np
import pytest
import statsmodels.api as sm
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import curve_fit
from scipy.stats import linregress
from scipy.stats import t as student

from seamwright.errors import SeamwrightError
from seamwright.leakage.power_law import fit_power_law, flow_at

PRESSURES = np.array([10.0, 17.0, 24.0, 31.0, 38.0, 45.0, 52.0, 60.0])


def noisy(exponent: float, errors: list[float]) -> np.ndarray:
    """Return flows that follow a power law but for the given errors of their logarithms."""
    return 0.02 * PRESSURES**exponent * np.exp(np.array(errors))


@settings(derandomize=True, max_examples=60, deadline=None)
@given(st.floats(0.5, 1.0), st.lists(st.floats(-0.1, 0.1), min_size=8, max_size=8))
def test_fit_agrees_with_scipy_linregress(exponent: float, errors: list[float]) -> None:
    """Exponent, coefficient, both standard errors and r² are those of SciPy's straight line."""
    flows = noisy(exponent, errors)
    ours = fit_power_law(PRESSURES, flows)
    theirs = linregress(np.log(PRESSURES), np.log(flows))
    assert ours.exponent.value == pytest.approx(theirs.slope, rel=1e-9)
    assert math.log(ours.coefficient.value) == pytest.approx(theirs.intercept, rel=1e-9)
    assert ours.s_exponent == pytest.approx(theirs.stderr, rel=1e-6, abs=1e-7)
    assert ours.s_log_coefficient == pytest.approx(theirs.intercept_stderr, rel=1e-6, abs=1e-7)
    assert ours.r_squared == pytest.approx(theirs.rvalue**2, rel=1e-9)


@settings(derandomize=True, max_examples=30, deadline=None)
@given(
    st.floats(0.5, 1.0),
    st.lists(st.floats(-0.1, 0.1), min_size=8, max_size=8).filter(lambda e: np.std(e) > 1e-3),
    st.sampled_from([4.0, 10.0, 25.0, 50.0, 75.0]),
)
def test_interval_of_the_flow_agrees_with_scipy_curve_fit(
    exponent: float, errors: list[float], pressure: float
) -> None:
    """The interval of the line at a pressure follows from SciPy's covariance of both parameters."""
    flows = noisy(exponent, errors)
    x, y = np.log(PRESSURES), np.log(flows)
    found, covariance = curve_fit(lambda u, a, b: a + b * u, x, y, p0=(-4.0, 0.6))
    gradient = np.array([1.0, math.log(pressure)])
    half = student.ppf(0.975, 6) * math.sqrt(gradient @ covariance @ gradient)
    ours = flow_at(fit_power_law(PRESSURES, flows), pressure)
    assert math.log(ours.value) == pytest.approx(found @ gradient, abs=1e-6)
    assert math.log(ours.high / ours.value) == pytest.approx(half, rel=1e-4)
    assert math.log(ours.value / ours.low) == pytest.approx(half, rel=1e-4)


@settings(derandomize=True, max_examples=30, deadline=None)
@given(
    st.floats(0.5, 1.0),
    st.lists(st.floats(-0.1, 0.1), min_size=8, max_size=8).filter(lambda e: np.std(e) > 1e-3),
    st.sampled_from([4.0, 10.0, 50.0, 75.0]),
)
def test_fit_and_intervals_agree_with_statsmodels(
    exponent: float, errors: list[float], pressure: float
) -> None:
    """Both parameters with their 95 % limits, r² and the limits of the mean flow at a pressure are
    those of least squares in statsmodels.
    """
    flows = noisy(exponent, errors)
    theirs = sm.OLS(np.log(flows), sm.add_constant(np.log(PRESSURES))).fit()
    ours = fit_power_law(PRESSURES, flows)
    (low_c, high_c), (low_n, high_n) = theirs.conf_int(0.05)
    coefficient = [np.log(getattr(ours.coefficient, k)) for k in ("low", "value", "high")]
    assert coefficient == pytest.approx([low_c, theirs.params[0], high_c], rel=1e-7)
    exponents = [getattr(ours.exponent, k) for k in ("low", "value", "high")]
    assert exponents == pytest.approx([low_n, theirs.params[1], high_n], rel=1e-7)
    assert ours.r_squared == pytest.approx(theirs.rsquared, rel=1e-9)
    mean = theirs.get_prediction([[1.0, math.log(pressure)]]).summary_frame(alpha=0.05).iloc[0]
    at = flow_at(ours, pressure)
    told = [math.log(getattr(at, k)) for k in ("low", "value", "high")]
    wanted = [mean["mean_ci_lower"], mean["mean"], mean["mean_ci_upper"]]
    assert told == pytest.approx(wanted, rel=1e-7, abs=1e-9)


def test_intervals_hold_the_truth_as_often_as_they_say() -> None:
    """Over 2,000 simulated tests with 2 % scatter, 95 % intervals hold the true flow at 50 Pa in
    94 to 96 of 100, and those of the exponent too.
    """
    dice = np.random.default_rng(20260418)
    truth, held, held_n = 0.02 * 50.0**0.65, 0, 0
    for errors in dice.normal(0.0, 0.02, size=(2000, 8)):
        fit = fit_power_law(PRESSURES, noisy(0.65, list(errors)))
        at_50 = flow_at(fit, 50.0)
        held += at_50.low <= truth <= at_50.high
        held_n += fit.exponent.low <= 0.65 <= fit.exponent.high
    assert 1880 <= held <= 1920
    assert 1880 <= held_n <= 1920


def test_more_readings_narrow_the_interval() -> None:
    """The same scatter over four times the readings halves the interval, and more."""
    errors = [0.02, -0.02, 0.01, -0.01, 0.015, -0.015, 0.005, -0.005]
    few = flow_at(fit_power_law(PRESSURES, noisy(0.65, errors)), 50.0)
    many = flow_at(fit_power_law(np.tile(PRESSURES, 4), np.tile(noisy(0.65, errors), 4)), 50.0)
    assert many.value == pytest.approx(few.value)
    assert (many.high - many.low) < 0.5 * (few.high - few.low)


@pytest.mark.parametrize(
    ("pressures", "flows", "part"),
    [
        ((10.0, 50.0), (1.0, 2.0), "2 readings are too few"),
        ((10.0, 20.0, 0.0), (1.0, 2.0, 3.0), "not above zero"),
        ((10.0, 20.0, 30.0), (1.0, -2.0, 3.0), "not above zero"),
        ((50.0, 50.0, 50.0), (1.0, 2.0, 3.0), "all readings stand at one pressure"),
    ],
)
def test_what_cannot_be_fitted_is_refused(
    pressures: tuple[float, ...], flows: tuple[float, ...], part: str
) -> None:
    """Too few, equal or impossible readings give a sentence."""
    with pytest.raises(SeamwrightError, match=part):
        fit_power_law(pressures, flows)
