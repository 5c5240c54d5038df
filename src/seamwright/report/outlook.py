"""How tight a sealed house is likely to be and what that means, in one record."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import partial

from numpy.typing import ArrayLike

from seamwright.joints.enclosure import Enclosure, measure_enclosure
from seamwright.leakage.combine import TEST_PRESSURE
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
    """Infiltration of the middle house over hours of weather, by both models; `low` and `high` are
    the factors from the middle house to the tighter and leakier ends that hold nine in ten.
    """

    basic: Season
    enhanced: Season
    low: float
    high: float
    indoor: float
    volume: float
    source: str


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
    setting = setting_of(house, enclosure)
    rows = dict.fromkeys(row for place in places for row in rows_of(place, table))
    return Outlook(
        places=places,
        enclosure=enclosure,
        forecast=chosen,
        alternatives=tuple(results.values()),
        setting=setting,
        days=tuple(_day(chosen, setting, table.exponent, *weather) for weather in WEATHER),
        fresh_air=tuple((n, required_rate(enclosure.floor_area, n)) for n in BEDROOMS),
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
    basic, enhanced = infiltration_year(
        spread.p50,
        outlook.setting,
        indoor=indoor,
        outdoor=outdoor,
        wind=wind,
        exponent=table.exponent,
    )
    year = Year(
        basic=basic,
        enhanced=enhanced,
        low=spread.p05 / spread.p50,
        high=spread.p95 / spread.p50,
        indoor=indoor,
        volume=outlook.enclosure.volume,
        source=source,
    )
    return replace(outlook, year=year)


def setting_of(house: SealedHouse, enclosure: Enclosure) -> Setting:
    """Return how the house stands: its storeys, a flue, what is below; shelter as on a lot with
    some trees and houses around (class 3).
    """
    on_ground = any(support.kind == "slab" for support in house.shell.supports)
    return Setting(
        storeys=min(3, max(1, len(enclosure.floors))),
        foundation="basement_or_slab" if on_ground else "crawl_space",
        flue=any(p.kind == "flue" for p in house.shell.penetrations),
    )


def _day(
    result: Forecast, setting: Setting, exponent: float, difference: float, wind: float
) -> Day:
    """Return the infiltration of the middle house of the forecast in one kind of weather."""
    coefficient = result.flow_50.p50 / TEST_PRESSURE**exponent
    basic = float(basic_flow(result.ela_4.p50, difference, wind, setting))
    enhanced = float(enhanced_flow(coefficient, exponent, difference, wind, setting))
    heat = AIR_HEAT * max(basic, enhanced) * difference
    return Day(difference=difference, wind=wind, basic=basic, enhanced=enhanced, heat=heat)
