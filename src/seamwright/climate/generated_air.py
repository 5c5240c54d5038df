"""Air temperature and vapor of a generated year."""

from __future__ import annotations

import numpy as np

from seamwright.climate.arrays import Flags, Floats
from seamwright.climate.chance import Chance
from seamwright.climate.generated_sun import SunDays
from seamwright.climate.moist_air import dew_point, saturation_over_water
from seamwright.climate.monthly import (
    DAYS,
    MONTH_DAYS,
    MONTH_OF_DAY,
    MONTH_OF_HOUR,
    Extremes,
    MonthlyClimate,
    monthly_means,
    smooth,
)

DAY_MEMORY = 0.67
"""Correlation of one day's departure from the season with the next. [-] Median of the 1,020
stations of the third typical year collection (10 to 90 % 0.58 to 0.75), our own reckoning."""

HOUR_MEMORY = 0.8
HOUR_SPREAD = 0.9
"""What is left from hour to hour: its correlation [-] and its spread [K]. Our own estimate, on
three measured years."""

WINTER_BOND, SUMMER_BOND = 0.91, 0.56
"""Correlation of the departures of temperature and dew point. [-] As `DAY_MEMORY`."""

DEW_SPREAD = 1.25
"""Spread of the dew point's departures over that of the temperature's. [-] As `DAY_MEMORY`."""

CLEAR_COLD, CLEAR_WARM = -0.17, 0.31
"""Correlation of clearness and departure in winter and in summer. [-] As `DAY_MEMORY`."""

SWING = (27.9, -5.6)
"""The daily swing is the first times the clearness plus the second. [K] Regression on 1,020
stations, our own, 2.4 K off for one month of one station; Erbs 1983 has 25.8 and -5.2."""

_LEAST_GAP = 0.85
"""Each day the dew point stays below the air by a part of this. [K] Our own fit to the hours above
95 % of three measured years."""

WET_GAP = 2.0
"""In rain the dew point is at most this far below the air, some 88 %. [K] Our own estimate."""

_TAIL_ROUNDS = 8
_COLD_PIVOT, _WARM_PIVOT, _PULL = 15.0, 12.0, 0.7
"""Where the ends of the year begin to move [% of the hours], and by which power of the way toward
the 1 % mark. Our own fit on three measured years."""
_SWINGS = (0.35, 1.3)
"""How far the daily course may be scaled to meet the known warm extremes. [-] Our own choice."""


def air_hours(months: MonthlyClimate, days: SunDays, solar_hour: Floats, chance: Chance) -> Floats:
    """Return the air temperature by the hour. [°C]

    A smooth year through the monthly means; departures of days that remember the day before and
    lean on the sun; the daily course by clearness; a little unrest; then the cold and the warm end
    drawn to the known extremes. Monthly means and the spread of the days within each month are
    those given.
    """
    season = smooth(months.temperature, MONTH_DAYS)
    warmth = _warmth(season)
    bond = CLEAR_COLD + (CLEAR_WARM - CLEAR_COLD) * warmth
    own = chance.chain(DAYS, DAY_MEMORY)
    departure = bond * days.score + np.sqrt(1.0 - bond**2) * own
    daily = _with_spread(season, departure, months)
    course = daily_course(days.clearness, solar_hour)
    unrest = chance.chain(24 * DAYS, HOUR_MEMORY).reshape(DAYS, 24)
    unrest -= unrest.mean(axis=1, keepdims=True)
    level = smooth(daily, [24] * DAYS) + HOUR_SPREAD * unrest.ravel()
    if months.extremes is None:
        return _with_means(level + course, months.temperature)
    air = level + _swing(level, course, months.extremes) * course
    return _with_extremes(air, months, months.extremes)


def _swing(level: Floats, course: Floats, ends: Extremes) -> float:
    """Return the scale of the daily course at which the warm extremes come out, by halving. [-]

    A windy coast has less of a daily course than its sun alone says, a dry basin more; hot hours
    tell which, but not they alone: hence the power. Days keep below the hot end of a normal
    distribution, so that 0.8 stands for no change. Both our own fit on three measured years.
    """
    goal = ends.warm_01 + ends.warm_004
    low, high = _SWINGS
    for _ in range(16):
        middle = (low + high) / 2.0
        too_warm = np.percentile(level + middle * course, (99.0, 99.6)).sum() > goal
        low, high = (low, middle) if too_warm else (middle, high)
    return float(((low + high) / 2.0 / 0.8) ** 0.6)


def daily_course(clearness: Floats, solar_hour: Floats) -> Floats:
    """Return the departure of each hour from its day's mean, wider on clear days. [K]

    Source of the shape: D. G. Erbs, S. A. Klein, W. A. Beckman, Estimation of degree-days and
    ambient temperature bin data from monthly-average temperatures, ASHRAE Journal 25 (1983) 60-65.
    The swing is `SWING` there 25.8 K - 5.2.
    """
    swing = np.maximum(SWING[0] * clearness + SWING[1], 1.5)
    t = 2.0 * np.pi * (solar_hour - 1.0) / 24.0
    shape = (
        0.4632 * np.cos(t - 3.805)
        + 0.0984 * np.cos(2.0 * t - 0.360)
        + 0.0168 * np.cos(3.0 * t - 0.822)
        + 0.0138 * np.cos(4.0 * t - 3.513)
    )
    course = (smooth_days(swing) * shape).reshape(DAYS, 24)
    return np.asarray((course - course.mean(axis=1, keepdims=True)).ravel(), dtype=np.float64)


def smooth_days(daily: Floats) -> Floats:
    """Return a value for each hour between those of the days, without steps at midnight."""
    hours = np.arange(24 * DAYS, dtype=np.float64) + 0.5
    middle = 24.0 * np.arange(DAYS) + 12.0
    return np.asarray(np.interp(hours, middle, daily, period=24.0 * DAYS), dtype=np.float64)


def vapor_hours(months: MonthlyClimate, air: Floats, wet: Flags, chance: Chance) -> Floats:
    """Return the vapor pressure by the hour. [Pa]

    The dew point departs from its season with the temperature and on its own, stays below the air
    (close below it in wet hours), and the monthly means of the vapor pressure are those given.
    """
    season = smooth(dew_point(np.asarray(months.vapor)), MONTH_DAYS)
    mean_air = smooth(months.temperature, MONTH_DAYS)
    warmth = _warmth(mean_air)
    bond = WINTER_BOND + (SUMMER_BOND - WINTER_BOND) * warmth
    spread = smooth(months.daily_sd, MONTH_DAYS)
    departed = (air.reshape(DAYS, 24).mean(axis=1) - mean_air) / np.maximum(spread, 0.3)
    own = chance.chain(DAYS, DAY_MEMORY)
    dew = season + DEW_SPREAD * spread * (bond * departed + np.sqrt(1.0 - bond**2) * own)
    gap = np.repeat(_LEAST_GAP * chance.uniform(DAYS), 24)
    ceiling = saturation_over_water(air - np.where(wet, np.minimum(gap, WET_GAP), gap))
    floor = np.where(wet, saturation_over_water(air - WET_GAP), 0.0)
    vapor = saturation_over_water(smooth_days(dew))
    wanted = np.asarray(months.vapor)
    vapor = np.clip(vapor, floor, ceiling)
    for _ in range(40):
        vapor = vapor * (wanted / monthly_means(vapor))[MONTH_OF_HOUR]
        vapor = np.clip(vapor, np.minimum(floor, ceiling), ceiling)
    return np.asarray(vapor, dtype=np.float64)


def _warmth(season: Floats) -> Floats:
    """Return 0 on the coldest and 1 on the warmest day of the season. [-]"""
    low, high = season.min(), season.max()
    return np.asarray((season - low) / max(high - low, 1e-6), dtype=np.float64)


def _with_spread(season: Floats, departure: Floats, months: MonthlyClimate) -> Floats:
    """Return daily means whose spread in each month is the one given."""
    spread = smooth(months.daily_sd, MONTH_DAYS)
    wanted = np.asarray(months.daily_sd)
    own = np.maximum(spread, 0.1) * departure
    for _ in range(12):
        daily = season + own
        got = np.array([daily[month == MONTH_OF_DAY].std() for month in range(12)])
        mean = np.bincount(MONTH_OF_DAY, weights=own) / np.asarray(MONTH_DAYS)
        factor = np.clip(wanted / np.maximum(got, 0.05), 0.5, 2.0)
        own = (own - mean[MONTH_OF_DAY]) * factor[MONTH_OF_DAY]
    return np.asarray(season + own, dtype=np.float64)


def _with_extremes(air: Floats, months: MonthlyClimate, ends: Extremes) -> Floats:
    """Return the year with its cold and warm ends drawn to the extremes, in order.

    Hours colder than `_COLD_PIVOT` move with the 1 % mark, the more the colder they are; beyond it
    a line leads on to the 0.4 % mark. The warm end moves alike. Monthly means are set back each
    round.
    """
    for _ in range(_TAIL_ROUNDS):
        air = _drawn(air, ends.cold_01, ends.cold_004, middle=_COLD_PIVOT, tail=(1.0, 0.4))
        air = -_drawn(-air, -ends.warm_01, -ends.warm_004, middle=_WARM_PIVOT, tail=(1.0, 0.4))
        air = _with_means(air, months.temperature)
    return air


def _drawn(
    air: Floats, near: float, far: float, *, middle: float, tail: tuple[float, float]
) -> Floats:
    """Return the series with its low end drawn so that the marks `tail` [%] fall on two goals."""
    pivot, one, other = np.percentile(air, (middle, *tail))
    near = min(near, pivot - 0.1)
    far = min(far, near - 0.05)
    way = np.clip((pivot - air) / max(pivot - one, 1e-6), 0.0, 1.0)
    inside = air + (near - one) * way**_PULL
    line = near + (air - one) * (near - far) / max(one - other, 1e-6)
    beyond = far + (air - other)
    return np.asarray(np.where(air >= one, inside, np.where(air >= other, line, beyond)))


def _with_means(air: Floats, means: tuple[float, ...]) -> Floats:
    return np.asarray(air + (np.asarray(means) - monthly_means(air))[MONTH_OF_HOUR])
