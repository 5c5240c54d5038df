"""The climate of a house: its weather file, else a year generated from the station nearest by."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from pathlib import Path

from seamwright.climate.generated import GENERATED, generated_year, is_generated
from seamwright.climate.monthly import MonthlyClimate, cold_year
from seamwright.climate.stations import (
    RAIN_RAISED,
    RAIN_STATIONS,
    NearStation,
    at_height,
    distance_between,
    near_stations,
    rain_near,
)
from seamwright.climate.sun import Place
from seamwright.climate.weather import HourlyWeather
from seamwright.errors import InputError, Problem
from seamwright.io.climate_tables import stations
from seamwright.io.site_zone import site_county
from seamwright.io.weather_year import read_weather
from seamwright.shell.plan import Site

FARTHEST = 500_000.0
"""Beyond this no station stands for a house. [m] Our own choice."""

FAR, HIGH = 80_000.0, 150.0
"""Beyond these way and height a note says so. [m] Our own choice."""

_RAIN = (
    f"Rain is weak in typical years: it is the mean of {RAIN_STATIONS} stations near by, raised by "
    f"{RAIN_RAISED:g}, and may be off by half."
)
_NO_RAIN = "No station near by tells its rain: none falls in this year. Plan for wet days."
NOT_FOR_SIGN_OFF = (
    f"{GENERATED} weather: made from monthly figures, it never happened. Good for planning and "
    "comparing; no ground for a sign-off on mold or durability. Bring a measured year with "
    "--weather FILE."
)


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class SiteClimate:
    """The hourly weather of a house, the place it is for, one sentence on its origin, notes.

    `near` are the stations near by, the one used first; empty where a file was read. `months` are
    the figures the year was generated from.
    """

    weather: HourlyWeather
    place: Place | None
    origin: str
    notes: tuple[str, ...] = ()
    near: tuple[NearStation, ...] = ()
    months: MonthlyClimate | None = None


def resolve_weather(
    site: Site, file: Path | None = None, *, seed: int = 1, folder: Path | None = None
) -> HourlyWeather:
    """Return the hourly weather of a house; its `source` says where it is from.

    `file` is a TMY3 table, an EPW year or a forecast; without one that of the plan (`site.weather`,
    looked up in `folder`), else a year **generated** from the nearest station (or `site.station`).

    Raises
    ------
    InputError
        When the file cannot be used, or the plan does not say where the house stands.
    """
    return resolve_climate(site, file, seed=seed, folder=folder).weather


def resolve_climate(
    site: Site,
    file: Path | None = None,
    *,
    seed: int = 1,
    folder: Path | None = None,
    cold: bool = False,
) -> SiteClimate:
    """Return the same with its place, the sentence on its origin, and what to bear in mind.

    `cold` makes the generated winter a cold one (`monthly.cold_year`); a file is taken as it is.
    """
    if file is None and site.weather is not None:
        file = Path(site.weather) if folder is None else folder / site.weather
    if file is not None:
        return _from_file(file, site)
    place, told = site_place(site)
    near = _stations(site, place)
    return _generated(place, near, seed, told, cold=cold)


def site_place(site: Site) -> tuple[Place, tuple[str, ...]]:
    """Return where the house stands, and a note where its county had to stand in.

    An elevation of zero counts as not given.

    Raises
    ------
    InputError
        When the plan says neither latitude and longitude nor county and state.
    """
    height = float(site.elevation)
    if site.latitude_deg is not None and site.longitude_deg is not None:
        return Place(
            latitude=math.radians(site.latitude_deg),
            longitude=math.radians(site.longitude_deg),
            elevation=height,
        ), ()
    county = site_county(site)
    if county is not None and county.middle is not None:
        note = f"The place was taken as the middle of {county.name}, {county.state}."
        return replace(county.middle, elevation=height), (note,)
    raise _refused("the plan does not say where the house stands",
                   "give site: latitude and longitude, or county and state, or a weather file "
                   "with --weather FILE")  # fmt: skip


def _from_file(file: Path, site: Site) -> SiteClimate:
    read = read_weather(file)
    weather = read.weather
    kind = "weather file" if weather.hours < 8760 else "year of a weather file"
    notes = list(read.notes)
    if read.place is not None and site.latitude_deg is not None and site.longitude_deg is not None:
        way = distance_between(site_place(site)[0], read.place)
        if way > FAR:
            notes.append(f"The weather file is for a place {way / 1000:.0f} km from the house.")
    origin = f"{kind} {file.name}"
    if is_generated(weather):  # a generated year that was written out and read again
        notes.append(NOT_FOR_SIGN_OFF)
        origin = weather.source
    return SiteClimate(
        weather=replace(weather, source=origin), place=read.place, origin=origin, notes=tuple(notes)
    )


def _stations(site: Site, place: Place) -> tuple[NearStation, ...]:
    table = stations()
    known = site.elevation != 0
    near = near_stations(table, place, count=4, height_known=known)
    if site.station is not None:
        wanted = site.station.strip()
        own = [s for s in table if s.id == wanted]
        if not own:
            raise _refused(f"there is no station ‘{wanted[:20]}’",
                           f"near by are {', '.join(n.station.id for n in near)}")  # fmt: skip
        chosen = near_stations(own, place, count=1, height_known=known)
        return (*chosen, *[n for n in near if n.station.id != wanted][:3])
    if near[0].distance > FARTHEST:
        told = f"the nearest station is {near[0].distance / 1000:.0f} km away"
        raise _refused(told, "give a weather file with --weather FILE (TMY3 or EPW)")
    return near


def _generated(
    place: Place,
    near: tuple[NearStation, ...],
    seed: int,
    told: tuple[str, ...],
    *,
    cold: bool,
) -> SiteClimate:
    first = near[0]
    station, rise = first.station, first.rise
    months = station.months
    notes = [*told, NOT_FOR_SIGN_OFF]
    if rise is not None and abs(rise) >= 1.0:
        months = at_height(months, -rise)
        if abs(rise) > HIGH:
            notes.append(f"The station is {abs(rise):.0f} m {_way_up(rise)} the house; its air was "
                         "brought to the house's height by 6.5 K a kilometre.")  # fmt: skip
    if rise is None:
        notes.append("The plan gives no elevation: the station's was taken.")
        place = replace(place, elevation=station.place.elevation)
    if first.distance > FAR:
        notes.append(f"The station is {first.distance / 1000:.0f} km away: look at the others.")
    if cold:
        months = cold_year(months)
    around = near_stations(stations(), station.place, count=RAIN_STATIONS)
    months = replace(months, rain=rain_near(around))
    notes.append(_NO_RAIN if months.rain is None else _RAIN)
    year = generated_year(months, place, seed=seed, utc_offset=station.utc_offset)
    return SiteClimate(
        weather=year, place=place, origin=year.source, notes=tuple(notes), near=near, months=months
    )


def _way_up(rise: float) -> str:
    return "above" if rise > 0 else "below"


def _refused(sentence: str, remedy: str) -> InputError:
    return InputError([Problem(subject="site", sentence=sentence, remedy=remedy)])
