"""The climate zone of a place: its number by degree days, its letter by rain and mildness.

Two editions are in force side by side and part company in many counties, so none is ever taken
silently: a zone always says the edition it is read in.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal, TypeAlias

import numpy as np

from seamwright.climate.arrays import Floats
from seamwright.climate.moist_air import wet_bulb
from seamwright.climate.monthly import MONTH_OF_HOUR, monthly_means
from seamwright.climate.weather import HourlyWeather

Edition: TypeAlias = Literal["2004-2018", "2021"]
Regime: TypeAlias = Literal["A", "B", "C"]

EDITIONS: tuple[Edition, ...] = ("2004-2018", "2021")
"""IECC 2004 to 2018 (ASHRAE 169-2006), and IECC 2021 on (ASHRAE 169-2013 on)."""

_BY_HEATING = ((7000.0, 8), (5000.0, 7), (4000.0, 6), (3000.0, 5))
"""Heating degree days [K·d] above which a zone begins. ASHRAE 169; 90.1-2010 table B-4."""

WARM_HUMID = ((19.4, 3000), (22.8, 1500))
"""Warm-humid where the wet bulb reaches the first [°C] in the second number of hours of the warmest
six months in a row, either line. IECC 301.3.1, 2006."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Zone:
    """A zone in an edition: number, letter (None where zones carry none or rain is not known), and
    where it was taken from.
    """

    number: int
    regime: Regime | None
    edition: Edition
    origin: str

    @property
    def name(self) -> str:
        """The zone as codes write it: ``4C``."""
        return f"{self.number}{'' if self.regime is None else self.regime}"


def edition_named(text: str) -> Edition | None:
    """Return the edition of the zones that a code's name and year stand for, None if unclear.

    IECC and IRC by 2021; ASHRAE 169 by 2013 and 90.1 by 2016 (from memory), which took them first.
    """
    word = text.strip()
    if word in EDITIONS:
        return "2021" if word == "2021" else "2004-2018"
    years = re.findall(r"\b(?:19|20)\d\d\b", word)
    if not years:
        return None
    first = 2013 if "169" in word else 2016 if "90.1" in word else 2021
    return "2021" if int(years[-1]) >= first else "2004-2018"


def zone_parts(name: str) -> tuple[int, Regime | None] | None:
    """Return number and letter of a zone as written, None where it is no zone."""
    found = re.fullmatch(r"\s*([0-8])\s*([ABCabc]?)\s*", name)
    if found is None:
        return None
    letters: dict[str, Regime] = {"A": "A", "B": "B", "C": "C"}
    return int(found[1]), letters.get(found[2].upper())


def zone_number(heating: float, cooling: float, edition: Edition, *, marine: bool = False) -> int:
    """Return the number of the zone from heating and cooling degree days. [K·d]

    Base 18 and 10 °C, of daily means. Until 2018 a place that cools less than 2,500 K·d is in zone
    4 unless it is marine; from 2021 the heating alone parts 3 from 4.
    """
    for limit, number in _BY_HEATING:
        if heating > limit:
            return number
    if cooling > 6000.0 and edition == "2021":
        return 0
    if cooling > 5000.0:
        return 1
    if cooling > 3500.0:
        return 2
    if edition == "2021" or marine:
        return 4 if heating > 2000.0 else 3
    return 3 if cooling > 2500.0 else 4


def is_marine(
    temperature: Sequence[float], rain: Sequence[float] | None, *, north: bool = True
) -> bool | None:
    """Return whether twelve months are marine (C); None where only the rain could tell.

    Coldest month between -3 and 18 °C, warmest below 22 °C, at least four above 10 °C, and the
    wettest month of the cold half-year (October to March in the north) with at least three times
    the rain of the driest of the rest. ASHRAE 169; the wording of the last from memory.
    """
    cold, warm = min(temperature), max(temperature)
    mild = -3.0 < cold < 18.0 and warm < 22.0 and sum(t > 10.0 for t in temperature) >= 4
    if not mild:
        return False
    if rain is None:
        return None
    summer = set(_summer(north=north))
    wet = max(r for k, r in enumerate(rain) if k not in summer)
    dry = min(r for k, r in enumerate(rain) if k in summer)
    return wet >= 3.0 * dry


def is_dry(
    temperature: Sequence[float], rain: Sequence[float], edition: Edition, *, north: bool = True
) -> bool:
    """Return whether twelve months are dry (B), given that they are not marine.

    Rain of the year [kg/m²] below 20 (T + 7), T the mean of the year [°C]. From 2013 on (from
    memory, checked by result): 20 (T + 14) with 70 % and more of it in the high-sun half-year,
    20 T with 30 % and less.
    """
    mean, year = sum(temperature) / 12.0, sum(rain)
    bonus = 7.0
    if edition == "2021" and year > 0.0:
        share = sum(rain[k] for k in _summer(north=north)) / year
        bonus = 14.0 if share >= 0.7 else 0.0 if share <= 0.3 else 7.0
    return year < 20.0 * (mean + bonus)


def zone_by_criteria(
    temperature: Sequence[float],
    rain: Sequence[float] | None,
    *,
    heating: float,
    cooling: float,
    edition: Edition,
    north: bool = True,
    origin: str = "",
) -> Zone:
    """Return the zone that the published criteria give: monthly means [°C], monthly rain [kg/m²].

    Without rain the letter is left open. Zones 7 and 8 carry none.
    """
    marine = is_marine(temperature, rain, north=north)
    number = zone_number(heating, cooling, edition, marine=marine is True)
    regime: Regime | None = None
    if number < 7 and marine is not None:
        if marine and 3 <= number <= 5:
            regime = "C"
        elif rain is not None:
            regime = "B" if is_dry(temperature, rain, edition, north=north) else "A"
    return Zone(number=number, regime=regime, edition=edition, origin=origin)


def warm_humid_hours(year: HourlyWeather) -> tuple[int, int]:
    """Return the hours with a wet bulb of 19.4 °C and of 22.8 °C and more. [h]

    In the warmest six months in a row of a year that begins on 1 January.
    """
    wet = np.asarray(wet_bulb(year.air, year.vapor), dtype=np.float64)
    first = _warm_half(monthly_means(year.air))
    inside = np.isin(MONTH_OF_HOUR, [(first + k) % 12 for k in range(6)])
    counts = [int(np.sum(wet[inside] >= bulb)) for bulb, _ in WARM_HUMID]
    return counts[0], counts[1]


def is_warm_humid(year: HourlyWeather) -> bool:
    """Return whether an hourly year is warm-humid by the criterion of the IECC."""
    hours = warm_humid_hours(year)
    return any(count >= least for count, (_, least) in zip(hours, WARM_HUMID, strict=True))


def _warm_half(means: Floats) -> int:
    sums = [sum(means[(first + k) % 12] for k in range(6)) for first in range(12)]
    return int(np.argmax(sums))


def _summer(*, north: bool) -> tuple[int, ...]:
    """Return the months of the high-sun half-year, January being 0."""
    return (3, 4, 5, 6, 7, 8) if north else (9, 10, 11, 0, 1, 2)
