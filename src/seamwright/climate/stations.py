"""Weather stations: where they stand, their months, and which are near a house."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from seamwright.climate.monthly import MonthlyClimate, warmed
from seamwright.climate.sun import Place

EARTH_RADIUS = 6_371_008.8
"""Mean radius. [m] IUGG 1980."""

LAPSE = 0.0065
"""Fall of the air temperature with height. [K/m] U.S. Standard Atmosphere, 1976."""

RISE_COUNTS = 100.0
"""A metre of height counts as much as this many metres of way when the nearest station is chosen.
[-] Our own choice: 100 m, some 0.65 K, weigh as 10 km."""

RAIN_STATIONS, RAIN_RAISED = 8, 1.2
"""How many stations near by give the rain, and by how much their mean is raised: the median station
has 0.63 of its climatology, the mean of eight so taken 0.84. [-] Our own reckoning."""

_DRY_YEAR = 100.0


@dataclass(frozen=True, kw_only=True, slots=True)
class Station:
    """A station: its number, place, monthly figures, degree days [K·d] and published zone.

    `utc_offset` is its standard time minus universal time [s]; `zone` its letter and number in the
    edition of 2021, None where none is published.
    """

    id: str
    name: str
    state: str
    place: Place
    utc_offset: float
    months: MonthlyClimate
    heating: float
    cooling: float
    zone: str | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class NearStation:
    """A station as seen from a house: the way to it, and its height above the house. [m]

    `rise` is None where the height of the house is not known.
    """

    station: Station
    distance: float
    rise: float | None


def distance_between(one: Place, other: Place) -> float:
    """Return the way over the earth taken as a ball: the haversine formula. [m]"""
    north = np.sin((other.latitude - one.latitude) / 2.0) ** 2
    east = np.sin((other.longitude - one.longitude) / 2.0) ** 2
    h = north + np.cos(one.latitude) * np.cos(other.latitude) * east
    return float(2.0 * EARTH_RADIUS * np.arcsin(np.sqrt(min(h, 1.0))))


def near_stations(
    stations: Sequence[Station], place: Place, *, count: int = 3, height_known: bool = True
) -> tuple[NearStation, ...]:
    """Return the `count` stations that fit a place best, the best first.

    Ranked by way plus `RISE_COUNTS` times the difference in height, where that is known.
    """

    def seen(station: Station) -> NearStation:
        rise = station.place.elevation - place.elevation if height_known else None
        return NearStation(
            station=station, distance=distance_between(place, station.place), rise=rise
        )

    def far(near: NearStation) -> tuple[float, str]:
        rise = 0.0 if near.rise is None else abs(near.rise)
        return near.distance + RISE_COUNTS * rise, near.station.id

    return tuple(sorted((seen(s) for s in stations), key=far)[:count])


def rain_near(near: Sequence[NearStation]) -> tuple[float, ...] | None:
    """Return the rain of each month from several stations near by, raised by `RAIN_RAISED`. [kg/m²]

    One typical year's rain is chance and often not reported: a month without any counts as not
    reported, and a year below `_DRY_YEAR` as well, unless the first station is in a dry zone (B).
    None where no station tells its rain.
    """
    zone = near[0].station.zone
    dry = zone is not None and zone.endswith("B")
    told = [n.station.months.rain for n in near if n.station.months.rain is not None]
    years = [rain for rain in told if dry or sum(rain) >= _DRY_YEAR]
    if not years:
        return None
    months: list[float] = []
    for month in zip(*years, strict=True):
        fallen = [r for r in month if dry or r > 0.0]
        months.append(RAIN_RAISED * sum(fallen) / len(fallen) if fallen else 0.0)
    return tuple(months)


def at_height(months: MonthlyClimate, rise: float) -> MonthlyClimate:
    """Return the months as they would be `rise` above where they were measured. [m]

    The air cools by `LAPSE`; the relative humidity stays. Negative below.
    """
    cooler = -LAPSE * rise
    return warmed(months, (cooler,) * 12, cold_end=cooler, warm_end=cooler)
