"""What twelve months say about a climate, and the smooth year that keeps their means."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from seamwright.climate.arrays import Floats
from seamwright.climate.moist_air import saturation_over_water
from seamwright.climate.weather import HourlyWeather
from seamwright.climate.year import YEAR_HOURS

MONTH_DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
DAYS = 365
MONTH_OF_DAY = np.repeat(np.arange(12), MONTH_DAYS)
"""Month, from 0, of each day of a common year."""

MONTH_OF_HOUR = np.repeat(MONTH_OF_DAY, 24)
HEATING_BASE = 18.0
"""[°C] Base of heating degree days in ASHRAE 169."""

COOLING_BASE = 10.0
"""[°C] Base of cooling degree days in ASHRAE 169."""

MEAN_SPREAD = 0.41
"""Spread of a month's mean over that of its days. [-] sqrt((1 + r) / (1 - r) / 30) with r = 0.67,
the median correlation of a day with the next at 1,020 stations, our own reckoning."""

_ROUNDS = 60


@dataclass(frozen=True, kw_only=True, slots=True)
class Extremes:
    """Air temperatures that an hour of the year reaches: colder than `cold_004` in 0.4 % of the
    hours, than `cold_01` in 1 %; warmer than `warm_01` in 1 %, than `warm_004` in 0.4 %. [°C]
    """

    cold_004: float
    cold_01: float
    warm_01: float
    warm_004: float


@dataclass(frozen=True, kw_only=True, slots=True)
class MonthlyClimate:
    """A climate as twelve months, January first.

    Monthly means of air temperature [°C], vapor pressure [Pa], wind 10 m above ground [m/s] and
    sun on flat ground over day and night [W/m²]; `daily_sd` is the standard deviation of the daily
    mean temperature within the month [K]; `rain` what falls in the month [kg/m²], None where it
    is not known. `source` says where they come from.
    """

    temperature: tuple[float, ...]
    vapor: tuple[float, ...]
    wind: tuple[float, ...]
    sun: tuple[float, ...]
    daily_sd: tuple[float, ...]
    rain: tuple[float, ...] | None = None
    extremes: Extremes | None = None
    source: str = ""


def degree_days(air: Floats) -> tuple[float, float]:
    """Return heating degree days to 18 °C and cooling degree days to 10 °C of a year. [K·d]

    `air` has one value an hour; degree days count daily means (ASHRAE 169).
    """
    daily = np.asarray(air, dtype=np.float64).reshape(-1, 24).mean(axis=1)
    heating = np.maximum(HEATING_BASE - daily, 0.0).sum()
    return float(heating), float(np.maximum(daily - COOLING_BASE, 0.0).sum())


def extremes(air: Floats) -> Extremes:
    """Return the temperatures passed in 0.4 and 1 % of the hours, cold and warm. [°C]"""
    cold_004, cold_01, warm_01, warm_004 = np.percentile(air, (0.4, 1.0, 99.0, 99.6))
    return Extremes(
        cold_004=float(cold_004),
        cold_01=float(cold_01),
        warm_01=float(warm_01),
        warm_004=float(warm_004),
    )


def monthly_means(hourly: Floats) -> Floats:
    """Return the twelve monthly means of a year of hours."""
    return np.bincount(MONTH_OF_HOUR, weights=hourly) / (24.0 * np.asarray(MONTH_DAYS))


def monthly_of(year: HourlyWeather, *, rain_known: bool = True) -> MonthlyClimate:
    """Return the monthly figures of an hourly year that begins on 1 January, local time.

    Raises
    ------
    ValueError
        When the weather is not a common year of 8,760 hours.
    """
    if year.hours != YEAR_HOURS:
        raise ValueError(f"the weather has {year.hours} hours and a year {YEAR_HOURS}")
    daily = year.air.reshape(DAYS, 24).mean(axis=1)
    sun = np.zeros(YEAR_HOURS) if year.sun is None else year.sun
    rain = tuple(np.bincount(MONTH_OF_HOUR, weights=year.rain).tolist())
    return MonthlyClimate(
        temperature=tuple(monthly_means(year.air).tolist()),
        vapor=tuple(monthly_means(year.vapor).tolist()),
        wind=tuple(monthly_means(year.wind).tolist()),
        sun=tuple(monthly_means(sun).tolist()),
        daily_sd=tuple(float(daily[month == MONTH_OF_DAY].std()) for month in range(12)),
        rain=rain if rain_known else None,
        extremes=extremes(year.air),
        source=year.source,
    )


def warmed(
    months: MonthlyClimate, shift: Sequence[float], *, cold_end: float, warm_end: float
) -> MonthlyClimate:
    """Return the months with `shift` added to their temperatures, at the same humidity. [K]

    `cold_end` and `warm_end` are added to the extremes. [K]
    """
    air = np.asarray(months.temperature, dtype=np.float64)
    moved = air + np.asarray(shift, dtype=np.float64)
    vapor = np.asarray(months.vapor) * saturation_over_water(moved) / saturation_over_water(air)
    ends = months.extremes
    if ends is not None:
        ends = Extremes(
            cold_004=ends.cold_004 + cold_end,
            cold_01=ends.cold_01 + cold_end,
            warm_01=ends.warm_01 + warm_end,
            warm_004=ends.warm_004 + warm_end,
        )
    return replace(
        months,
        temperature=tuple(moved.tolist()),
        vapor=tuple(np.asarray(vapor).tolist()),
        extremes=ends,
    )


def cold_year(months: MonthlyClimate) -> MonthlyClimate:
    """Return the months of a cold year: the coldest quarter lower by one spread of its means.

    That spread is the days' spread times 0.41: the mean of 30 days that each correlate by 0.67 with
    the day before. A winter so cold comes about one year in six.
    """
    air = months.temperature
    first = min(range(12), key=lambda k: sum(air[(k + j) % 12] for j in range(3)))
    quarter = {(first + j) % 12 for j in range(3)}
    drop = MEAN_SPREAD * sum(months.daily_sd[k] for k in quarter) / 3.0
    shift = [-drop if k in quarter else 0.0 for k in range(12)]
    colder = warmed(months, shift, cold_end=-drop, warm_end=0.0)
    return replace(colder, source=f"{months.source}, cold winter ({drop:.1f} K below)")


def smooth(means: Sequence[float] | Floats, lengths: Sequence[int]) -> Floats:
    """Return a smooth curve over a closed year whose mean over each span is the one given.

    `lengths` says how many values each span has. Source: M. D. Rymes, D. R. Myers, Mean preserving
    algorithm for smoothly interpolating averaged data, Solar Energy 71 (2001) 225-231: the steps
    are averaged with their neighbors and each span is set back to its mean, over and over.
    """
    span = np.repeat(np.arange(len(lengths)), lengths)
    counts = np.asarray(lengths, dtype=np.float64)
    wanted = np.asarray(means, dtype=np.float64)
    curve = wanted[span]
    reach = int(np.ceil(counts.max()))
    for _ in range(max(_ROUNDS, 6 * reach)):
        curve = (np.roll(curve, 1) + curve + np.roll(curve, -1)) / 3.0
        curve += (wanted - np.bincount(span, weights=curve) / counts)[span]
    return np.asarray(curve, dtype=np.float64)
