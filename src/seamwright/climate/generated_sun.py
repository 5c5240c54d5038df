"""The sun, cloud and clearness of a generated year, day by day and hour by hour."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from seamwright.climate.arrays import Floats
from seamwright.climate.chance import Chance
from seamwright.climate.monthly import DAYS, MONTH_DAYS, MONTH_OF_DAY, MonthlyClimate, smooth
from seamwright.climate.sun import SOLAR_CONSTANT, Place, clear_global, declination, sun_position
from seamwright.climate.weather import HOUR

DAY_MEMORY = 0.30
"""Correlation of the clearness of one day with the next. [-] Aguiar, Collares-Pereira, Conde,
Solar Energy 40 (1988) 269-279, find little more than this (from memory)."""

CLEARNESS_SPREAD = 0.2
"""Standard deviation of the daily clearness where its mean is half of the clearest. [-] After the
curves of B. Y. H. Liu, R. C. Jordan, Solar Energy 4 (1960) 1-19 (from memory); less toward clear
and toward dull months."""

_CLEAREST, _DULLEST = 0.78, 0.05
_MEAN_KT = 0.5


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class SunDays:
    """Clearness index of each day [-], its standard normal score, and the sun outside the
    atmosphere on flat ground over the day [W/m²].
    """

    clearness: Floats
    score: Floats
    outside: Floats


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class SunHours:
    """Sun on flat ground [W/m²] and cloud cover [-], hour by hour."""

    sun: Floats
    cloud: Floats


def sun_days(months: MonthlyClimate, place: Place, noons: Floats, chance: Chance) -> SunDays:
    """Return the clearness of each day; its monthly means give the monthly sun.

    A truncated normal clearness that follows that of the day before.
    """
    outside = _outside(place, noons)
    score = chance.chain(DAYS, DAY_MEMORY)
    monthly_outside = _by_month(outside)
    sun = np.asarray(months.sun)
    mean = np.where(monthly_outside > 3.0, sun / np.maximum(monthly_outside, 3.0), _MEAN_KT)
    mean = np.clip(mean, 0.12, 0.75)
    middle = smooth(mean, MONTH_DAYS)
    spread = CLEARNESS_SPREAD * middle * (0.8 - middle) / 0.16
    clearness = np.clip(middle + spread * score, _DULLEST, _CLEAREST)
    for _ in range(20):  # clipping shifts the mean; weigh by the sun that the day could have
        got = _by_month(clearness * outside) / np.maximum(monthly_outside, 1e-9)
        factor = np.where(monthly_outside > 3.0, mean / np.maximum(got, 1e-6), 1.0)
        clearness = np.clip(clearness * factor[MONTH_OF_DAY], _DULLEST, 0.82)
    return SunDays(clearness=clearness, score=score, outside=outside)


def sun_hours(
    months: MonthlyClimate, place: Place, days: SunDays, instants: Floats, chance: Chance
) -> SunHours:
    """Return sun and cloud by the hour: each day's sun over its hours, then the months' means.

    Source of the day's course: M. Collares-Pereira, A. Rabl, The average distribution of solar
    radiation, Solar Energy 22 (1979) 155-164.
    """
    position = sun_position(instants + HOUR / 2.0, place)
    height = np.maximum(np.sin(position.elevation), 0.0).reshape(DAYS, 24)
    turn = _hour_cosine(place, instants, position.elevation).reshape(DAYS, 24)
    sunset = _sunset(place, instants.reshape(DAYS, 24)[:, 12])[:, None]
    a = 0.409 + 0.5016 * np.sin(sunset - np.pi / 3.0)
    b = 0.6609 - 0.4767 * np.sin(sunset - np.pi / 3.0)
    course = np.maximum(a + b * turn, 0.0) * height
    unrest = np.exp(0.25 * chance.chain(24 * DAYS, 0.6)).reshape(DAYS, 24)
    course = course * unrest
    total = course.sum(axis=1, keepdims=True)
    share = np.divide(course, total, out=np.zeros_like(course), where=total > 1e-6)
    sun = (24.0 * (days.clearness * days.outside)[:, None] * share).ravel()
    clear = clear_global(position)
    sun = _with_means(np.minimum(sun, 1.05 * clear), np.asarray(months.sun), 1.1 * clear)
    return SunHours(sun=sun, cloud=_cloud(sun, clear, days.clearness))


def _cloud(sun: Floats, clear: Floats, clearness: Floats) -> Floats:
    """Return the opaque cloud that dims a clear sky to the sun there is; at night between the days.

    Source: Kasten and Czeplak 1980, inverted (`sun.cloudy_global`), squared: what stations call
    opaque is less than all cloud. Our own fit on three measured years.
    """
    light = clear.reshape(DAYS, 24).sum(axis=1)
    got = sun.reshape(DAYS, 24).sum(axis=1)
    ratio = np.where(light > 50.0, got / np.maximum(light, 1e-6), clearness / 0.75)
    daily = np.clip((1.0 - ratio) / 0.75, 0.0, 1.0) ** (2.0 / 3.4)
    hours = np.arange(24 * DAYS)
    middle = 24.0 * np.arange(DAYS) + 12.0
    return np.asarray(np.interp(hours, middle, daily, period=24.0 * DAYS), dtype=np.float64)


def _with_means(sun: Floats, wanted: Floats, ceiling: Floats) -> Floats:
    months = np.repeat(MONTH_OF_DAY, 24)
    counts = 24.0 * np.asarray(MONTH_DAYS)
    for _ in range(12):
        got = np.bincount(months, weights=sun) / counts
        sun = np.minimum(sun * (wanted / np.maximum(got, 1e-9))[months], ceiling)
    return sun


def _by_month(daily: Floats) -> Floats:
    sums = np.bincount(MONTH_OF_DAY, weights=daily)
    return np.asarray(sums / np.asarray(MONTH_DAYS), dtype=np.float64)


def _sunset(place: Place, noons: Floats) -> Floats:
    """Return the hour angle of sunset: 0 where the sun stays down, π where it stays up. [rad]"""
    cosine = -np.tan(place.latitude) * np.tan(declination(noons))
    return np.asarray(np.arccos(np.clip(cosine, -1.0, 1.0)), dtype=np.float64)


def _outside(place: Place, noons: Floats) -> Floats:
    """Return the daily mean of the sun on flat ground outside the atmosphere. [W/m²]"""
    tilt, half = declination(noons), _sunset(place, noons)
    across = np.cos(place.latitude) * np.cos(tilt) * np.sin(half)
    along = half * np.sin(place.latitude) * np.sin(tilt)
    distance = sun_position(noons, place).distance
    got = SOLAR_CONSTANT / distance**2 * (across + along) / np.pi
    return np.asarray(got, dtype=np.float64)


def _hour_cosine(place: Place, instants: Floats, elevation: Floats) -> Floats:
    tilt = declination(instants)
    level = np.sin(place.latitude) * np.sin(tilt)
    swing = np.maximum(np.cos(place.latitude) * np.cos(tilt), 1e-6)
    return np.asarray(np.clip((np.sin(elevation) - level) / swing, -1.0, 1.0), dtype=np.float64)
