"""Running means, seasons and trends."""

from __future__ import annotations

import numpy as np
import pytest

from seamwright.moisture.verdict.means import (
    hours_over,
    running_mean,
    season_of,
    trend_of,
    warm_humidity,
    worst_mean,
    yearly_change,
)


def test_running_mean_is_that_of_a_plain_convolution() -> None:
    """Means over every full stretch, as NumPy's convolution has them."""
    values = np.random.default_rng(1).random(500)
    assert running_mean(values, 24) == pytest.approx(
        np.convolve(values, np.full(24, 1 / 24), mode="valid")
    )


def test_a_short_series_has_one_mean() -> None:
    """Where the series is shorter than the stretch its mean is over all of it."""
    assert running_mean(np.array([1.0, 3.0]), 720) == pytest.approx([2.0])


def test_the_worst_mean_lies_in_the_middle_of_its_stretch() -> None:
    """The hour told is that of the middle."""
    values = np.zeros(1000)
    values[500:520] = 1.0
    assert worst_mean(values, 20) == (pytest.approx(1.0), 510)


def test_humidity_counts_between_5_and_40_degrees() -> None:
    """A damp cold month does not count, a less damp warm one does."""
    temperature = np.repeat([0.0, 20.0], 1000)
    humidity = np.repeat([0.95, 0.70], 1000)
    value, hour = warm_humidity(temperature, humidity)
    assert 0.70 <= value < 0.95
    assert hour > 500


def test_seasons_by_hemisphere_and_start() -> None:
    """July is summer north and winter south; a run may start in July."""
    july = 24 * (31 + 28 + 31 + 30 + 31 + 30) + 1
    assert season_of(july) == "summer"
    assert season_of(july, south=True) == "winter"
    assert season_of(0, july) == "summer"
    assert [season_of(24 * day) for day in (58, 60, 150, 152, 242, 244, 333, 335)] == [
        "winter", "spring", "spring", "summer", "summer", "fall", "fall", "winter",
    ]  # fmt: skip


def test_hours_over_counts_the_worst_year() -> None:
    """Of 300 and 500 hours in two years the worst year has the 500."""
    values = np.zeros(2 * 8760)
    values[100:400] = 1.0
    values[10_000:10_500] = 1.0
    assert hours_over(values, 0.5) == (800, 500)


def test_trend_needs_two_years() -> None:
    """Less than two years say nothing of how the years go."""
    assert yearly_change(np.zeros(8760)) is None
    assert trend_of(None) == "unknown"
    assert yearly_change(np.repeat([1.0, 2.0], 8760)) == pytest.approx(1.0)
    assert [trend_of(c) for c in (0.0, 0.5, -0.5)] == ["repeating", "wetting", "drying"]
