"""How tight a sealed house is likely to be and what that means, in one record."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import partial

from numpy.typing import ArrayLike

from seamwright.joints.enclosure import Enclosure, measure_enclosure
from seamwright.leakage.combine import TEST_PRESSURE, area_of_flow
from seamwright.leakage.forecast import forecast
from seamwright.leakage.forecast_types import Forecast
from seamwright.leakage.infiltration import (
    AIR_HEAT,
    Season,
    Setting,
    basic_flow,
    enhanced_flow,
    infiltration_year,
)
from seamwright.leakage.learn import Knowledge
from seamwright.leakage.places import Place, made_by
from seamwright.leakage.prior_rows import LeakRow, Workmanship
from seamwright.leakage.priors import DEFAULT_TABLE, WORKMANSHIPS, LeakTable, rows_of
from seamwright.leakage.types import Target
from seamwright.leakage.ventilation import required_rate
from seamwright.report.house import SealedHouse
from seamwright.report.leak_places import leak_places
from seamwright.shell.types import Shell

WEATHER = ((10.0, 2.0), (20.0, 4.0), (35.0, 6.0))
"""Days that are shown: indoor minus outdoor temperature [K] and wind [m/s]. Our own choice: a mild
and still day, a cool and breezy one, a cold and windy one."""

BEDROOMS = (1, 2, 3, 4)
"""Numbers that are shown: our own choice."""

ROOM = 20.0
"""Room air where nobody says otherwise: `common practice, no source`. [°C]"""


@dataclass(frozen=True, kw_only=True, slots=True)
class Day:
    """Infiltration in one kind of weather: by both models [m³/s] and the heat that the larger of
    them carries away. [W]
    """

    difference: float
    wind: float
    basic: float
    enhanced: float
    heat: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Year:
    """Infiltration of a house over hours of weather, by both models; `low` and `high` are the
    factors from it to the tighter and leakier ends that hold the part of houses, or of tests, that
    `span` says; `whose` says which house it is.
    """

    basic: Season
    enhanced: Season
    low: float
    high: float
    indoor: float
    volume: float
    source: str
    span: str = "9 in 10"
    whose: str = "the middle house"


@dataclass(frozen=True, kw_only=True, slots=True)
class Tightness:
    """What a house as tight as measured means: the air that leaks let in and the air that machines
    must bring; fields as in `Outlook`.
    """

    setting: Setting
    days: tuple[Day, ...]
    fresh_air: tuple[tuple[int, float], ...]
    year: Year | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Outlook:
    """The forecast of a house with what it was divided by, what other work would give, and what it
    means. `rows` are the rows of the leak table that it leans on; `fresh_air` is the rate that
    ASHRAE 62.2 asks for by number of bedrooms. [m³/s]
    """

    places: tuple[Place, ...]
    enclosure: Enclosure
    forecast: Forecast
    alternatives: tuple[Forecast, ...]
    setting: Setting
    days: tuple[Day, ...]
    fresh_air: tuple[tuple[int, float], ...]
    rows: tuple[LeakRow, ...]
    tests: tuple[str, ...] = ()
    year: Year | None = None


def look_ahead(
    house: SealedHouse,
    *,
    workmanship: Workmanship = "ordinary",
    crew: str = "",
    crews: Mapping[str, Workmanship] | None = None,
    made: Mapping[str, str] | None = None,
    target: Target | None = None,
    knowledge: Knowledge | None = None,
    table: LeakTable = DEFAULT_TABLE,
    draws: int = 20_000,
    seed: int = 1,
) -> Outlook:
    """Return how tight a house is likely to be under the work planned, and under other work.

    Parameters as for `seamwright.leakage.forecast.forecast`; volume and area come from the shell.
    `made` says who makes each place, by id, and `crew` who makes the rest. Other work is that of
    all crews alike.
    """
    places = made_by(leak_places(house, crew=crew), {} if made is None else made)
    enclosure = measure_enclosure(house.shell, house.register)
    of_work = partial(
        forecast,
        places,
        volume=enclosure.volume,
        area=enclosure.area,
        target=target,
        knowledge=knowledge,
        table=table,
        draws=draws,
        seed=seed,
    )
    results = {how: of_work(workmanship=how) for how in WORKMANSHIPS}
    chosen = results[workmanship]
    if crews:
        chosen = of_work(workmanship=workmanship, crews=crews)
    setting = setting_of(house.shell, enclosure)
    middle = chosen.flow_50.p50
    rows = dict.fromkeys(row for place in places for row in rows_of(place, table))
    return Outlook(
        places=places,
        enclosure=enclosure,
        forecast=chosen,
        alternatives=tuple(results.values()),
        setting=setting,
        days=_days(middle, setting, table.exponent),
        fresh_air=_fresh_air(enclosure),
        rows=tuple(rows),
        tests=() if knowledge is None else knowledge.tests,
    )


def with_year(
    outlook: Outlook,
    *,
    outdoor: ArrayLike,
    wind: ArrayLike,
    source: str,
    indoor: float = ROOM,
    table: LeakTable = DEFAULT_TABLE,
) -> Outlook:
    """Return the outlook with the infiltration over hours of weather: outdoor temperatures [°C] and
    winds of the station [m/s], one of each per hour. `source` says where the weather comes from.
    """
    spread = outlook.forecast.flow_50
    year = year_of(
        spread.p50,
        (spread.p05, spread.p95),
        outlook.setting,
        exponent=table.exponent,
        outdoor=outdoor,
        wind=wind,
        source=source,
        volume=outlook.enclosure.volume,
        indoor=indoor,
    )
    return replace(outlook, year=year)


def tightness_of(
    flow_50: float, exponent: float, shell: Shell, enclosure: Enclosure, year: Year | None = None
) -> Tightness:
    """Return what a measured flow at 50 Pa [m³/s] and its exponent mean for the house."""
    setting = setting_of(shell, enclosure)
    return Tightness(
        setting=setting,
        days=_days(flow_50, setting, exponent),
        fresh_air=_fresh_air(enclosure),
        year=year,
    )


def year_of(
    flow_50: float,
    ends: tuple[float, float],
    setting: Setting,
    *,
    exponent: float,
    outdoor: ArrayLike,
    wind: ArrayLike,
    source: str,
    volume: float,
    indoor: float = ROOM,
    span: str = "9 in 10",
    whose: str = "the middle house",
) -> Year:
    """Return the infiltration of a house over hours of weather; `ends` are the flows at 50 Pa that
    hold the part `span` says. [m³/s]
    """
    basic, enhanced = infiltration_year(
        flow_50, setting, indoor=indoor, outdoor=outdoor, wind=wind, exponent=exponent
    )
    return Year(
        basic=basic,
        enhanced=enhanced,
        low=ends[0] / flow_50,
        high=ends[1] / flow_50,
        indoor=indoor,
        volume=volume,
        source=source,
        span=span,
        whose=whose,
    )


def setting_of(shell: Shell, enclosure: Enclosure) -> Setting:
    """Return how the house stands: its storeys, a flue, what is below; shelter as on a lot with
    some trees and houses around (class 3).
    """
    on_ground = any(support.kind == "slab" for support in shell.supports)
    return Setting(
        storeys=min(3, max(1, len(enclosure.floors))),
        foundation="basement_or_slab" if on_ground else "crawl_space",
        flue=any(p.kind == "flue" for p in shell.penetrations),
    )


def _fresh_air(enclosure: Enclosure) -> tuple[tuple[int, float], ...]:
    return tuple((n, required_rate(enclosure.floor_area, n)) for n in BEDROOMS)


def _days(flow_50: float, setting: Setting, exponent: float) -> tuple[Day, ...]:
    """Return the infiltration in each kind of weather of a house that leaks `flow_50`. [m³/s]"""
    area = area_of_flow(flow_50, TEST_PRESSURE, exponent)
    coefficient = flow_50 / TEST_PRESSURE**exponent
    days = []
    for difference, wind in WEATHER:
        basic = float(basic_flow(area, difference, wind, setting))
        enhanced = float(enhanced_flow(coefficient, exponent, difference, wind, setting))
        heat = AIR_HEAT * max(basic, enhanced) * difference
        days.append(
            Day(difference=difference, wind=wind, basic=basic, enhanced=enhanced, heat=heat)
        )
    return tuple(days)
