"""A year of hourly weather made from twelve months, for places without a weather file.

It is **generated**: it never happened, it says so in its `source`, and it is no ground for a
sign-off. The same months, place and seed give the same year to the last digit.
"""

from __future__ import annotations

import numpy as np
from scipy.special import gammaincinv

from seamwright.climate.arrays import Floats
from seamwright.climate.chance import Chance, share_below
from seamwright.climate.generated_air import air_hours, vapor_hours
from seamwright.climate.generated_sun import SunDays, sun_days, sun_hours
from seamwright.climate.moist_air import saturation_over_water
from seamwright.climate.monthly import (
    DAYS,
    MONTH_DAYS,
    MONTH_OF_DAY,
    MONTH_OF_HOUR,
    MonthlyClimate,
    monthly_means,
)
from seamwright.climate.sun import Place
from seamwright.climate.weather import HOUR, HourlyWeather
from seamwright.climate.year import YEAR_HOURS

GENERATED = "GENERATED"
"""The word that the `source` of every generated year begins with."""

NEW_YEAR = 978_307_200.0
"""2001-01-01T00:00Z, a common year that stands for any. [s]"""

WIND_SHAPE, WIND_MEMORY, WIND_SWING = 1.75, 0.835, 0.275
"""Weibull shape of the wind before its daily swing [-], its correlation from hour to hour [-], and
half the swing over the mean [-]: medians of 1,020 stations, our own reckoning. With the swing the
spread over the mean is 0.64."""

WET_DAY_RAIN = 8.0
"""Rain of a mean wet day. [kg/m²] From memory of United States climatology."""

RAIN_SHAPE = 0.75
"""Shape of the gamma distribution of the rain of wet days. [-] C. W. Richardson, D. A. Wright,
WGEN, ARS-8, USDA 1984 (from memory)."""

_SPELL = (3, 8)
"""Hours of a wet spell, from and to below. [h] Our own choice."""


def generated_year(
    months: MonthlyClimate, place: Place, *, seed: int = 1, utc_offset: float | None = None
) -> HourlyWeather:
    """Return a year of hourly weather with the monthly means given.

    `utc_offset` is local standard time minus universal time [s]; None takes the nearest whole hour
    of the longitude. The year begins on 1 January, local standard time.
    """
    offset = HOUR * round(np.degrees(place.longitude) / 15.0) if utc_offset is None else utc_offset
    start = NEW_YEAR - offset
    instants = start + HOUR * np.arange(YEAR_HOURS, dtype=np.float64)
    solar_hour = (instants + HOUR / 2.0) / HOUR % 24.0 + np.degrees(place.longitude) / 15.0
    chance = Chance(seed)
    days = sun_days(months, place, instants.reshape(DAYS, 24)[:, 12], chance)
    light = sun_hours(months, place, days, instants, chance)
    rain = _rain(months, days, chance)
    wet = rain > 0.0
    air = air_hours(months, days, solar_hour, chance)
    vapor = vapor_hours(months, air, wet, chance)
    return HourlyWeather(
        start=start,
        utc_offset=offset,
        air=air,
        humidity=np.minimum(vapor / saturation_over_water(air), 1.0),
        wind=_wind(months, solar_hour, chance),
        rain=rain,
        cloud=np.where(wet, np.maximum(light.cloud, 0.9), light.cloud),
        sun=light.sun,
        source=f"{GENERATED} from monthly figures, seed {seed}: {months.source}",
    )


def is_generated(weather: HourlyWeather) -> bool:
    """Return whether the weather was generated, which rules it out for a sign-off."""
    return weather.source.startswith(GENERATED)


def _wind(months: MonthlyClimate, solar_hour: Floats, chance: Chance) -> Floats:
    """Return the wind by the hour, Weibull by a Gaussian copula, stronger after noon. [m/s]"""
    part = share_below(chance.chain(YEAR_HOURS, WIND_MEMORY))
    speed = (-np.log1p(-np.minimum(part, 1.0 - 1e-9))) ** (1.0 / WIND_SHAPE)
    speed *= 1.0 + WIND_SWING * np.cos(2.0 * np.pi * (solar_hour - 14.0) / 24.0)
    wanted = np.asarray(months.wind) / np.maximum(monthly_means(speed), 1e-9)
    return np.asarray(speed * wanted[MONTH_OF_HOUR], dtype=np.float64)


def _rain(months: MonthlyClimate, days: SunDays, chance: Chance) -> Floats:
    """Return the rain by the hour: wet days where it is dull, gamma amounts, spells of hours.

    Monthly sums are those given. Nothing falls where the rain is not known.
    """
    own = chance.chain(DAYS, 0.35)
    dull = -0.7 * days.score + 0.7 * own
    amount, begin, length = chance.uniform(DAYS), chance.uniform(DAYS), chance.uniform(DAYS)
    rain = np.zeros((DAYS, 24))
    if months.rain is None:
        return rain.ravel()
    for month, total in enumerate(months.rain):
        if total <= 0.0:
            continue
        inside = np.flatnonzero(month == MONTH_OF_DAY)
        count = int(np.clip(round(total / WET_DAY_RAIN), 1, 0.8 * MONTH_DAYS[month]))
        wet = np.sort(inside[np.argsort(-dull[inside], kind="stable")[:count]])
        share = gammaincinv(RAIN_SHAPE, amount[wet]) + 0.05
        for day, fallen in zip(wet, total * share / share.sum(), strict=True):
            hours = _spell(begin[day], length[day])
            rain[day, hours] += fallen / len(hours)
    return rain.ravel()


def _spell(begin: float, length: float) -> list[int]:
    """Return the hours of the day in which it rains, next to each other."""
    count = int(_SPELL[0] + length * (_SPELL[1] - _SPELL[0]))
    first = int(begin * (25 - count))
    return list(range(first, first + count))
