"""A typical year laid over the dates of a plan."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from seamwright.climate.arrays import Floats
from seamwright.climate.weather import HOUR, HourlyWeather

YEAR_HOURS = 8760
"""Hours of a typical year, which has no 29 February."""


def season(year: HourlyWeather, hour_of_year: int, hours: int, start: float) -> HourlyWeather:
    """Return `hours` of a typical year from `hour_of_year` on, over its end if need be.

    `start` is the instant that the first hour gets [s]. What comes back is typical weather with
    dates on it, **not a forecast**: it says what to expect of a season, never of a day.
    """
    index = (hour_of_year + np.arange(hours)) % year.hours

    def cut(values: Floats) -> Floats:
        return values[index]

    return replace(
        year,
        start=start,
        air=cut(year.air),
        humidity=cut(year.humidity),
        wind=cut(year.wind),
        rain=cut(year.rain),
        cloud=cut(year.cloud),
        gust=None if year.gust is None else cut(year.gust),
        sun=None if year.sun is None else cut(year.sun),
        direction=None if year.direction is None else cut(year.direction),
    )


def hour_of(instant: float, utc_offset: float, new_year: float) -> int:
    """Return the hour of the year of an instant, in local standard time. [h]

    `new_year` is the instant at which that year begins in universal time [s].
    """
    return int((instant + utc_offset - new_year) // HOUR) % YEAR_HOURS
