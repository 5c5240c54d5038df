"""A typical year over the dates of a plan."""

from __future__ import annotations

import numpy as np

from seamwright.climate.weather import HourlyWeather
from seamwright.climate.year import YEAR_HOURS, hour_of, season


def year() -> HourlyWeather:
    """Return a year whose air temperature is the number of the hour."""
    ones = np.ones(YEAR_HOURS)
    return HourlyWeather(
        start=0.0,
        utc_offset=0.0,
        air=np.arange(float(YEAR_HOURS)),
        humidity=0.5 * ones,
        wind=ones,
        rain=0.0 * ones,
        cloud=ones,
        sun=np.arange(float(YEAR_HOURS)),
    )


def test_a_season_begins_at_its_hour_and_runs_over_new_year() -> None:
    """A season cut near the end goes on at the beginning, with the dates it is given."""
    cut = season(year(), YEAR_HOURS - 2, 5, 1e9)
    assert cut.air.tolist() == [8758.0, 8759.0, 0.0, 1.0, 2.0]
    assert cut.start == 1e9
    assert cut.sun is not None
    assert cut.sun.tolist() == cut.air.tolist()
    assert cut.gust is None


def test_the_hour_of_an_instant_counts_local_time() -> None:
    """Eight hours west of Greenwich the local year begins eight hours later."""
    assert hour_of(0.0, 0.0, 0.0) == 0
    assert hour_of(8 * 3600.0, -8 * 3600.0, 0.0) == 0
    assert hour_of(0.0, -8 * 3600.0, 0.0) == YEAR_HOURS - 8
    assert hour_of(366 * 86400.0, 0.0, 0.0) == 24
