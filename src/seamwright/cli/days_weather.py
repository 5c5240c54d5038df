"""The hours that the weather opens and closes: a forecast as far as it goes, then typical years.

A typical year is no forecast: which of its days is wet says nothing about that day. It closes about
as many hours as the season does. Several are looked at, the plan is laid on the middle one, and the
others say how far apart they lie.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from seamwright.climate.sun import Place
from seamwright.climate.weather import HourlyWeather
from seamwright.climate.year import YEAR_HOURS, season
from seamwright.errors import InputError, Problem
from seamwright.io.weather_forecast import ForecastFile
from seamwright.io.weather_source import SiteClimate, resolve_climate
from seamwright.io.weather_year import read_weather
from seamwright.report.house import SealedHouse
from seamwright.schedule.outer_faces import outer_faces
from seamwright.schedule.types import Calendar
from seamwright.schedule.window_classes import class_hours
from seamwright.shell.plan import Site

TYPICAL = "typical"
"""What is written in place of a file for weather of typical years alone."""

SEEDS = (1, 2, 3, 4, 5)
"""The generated years that are looked at; the plan is laid on the middle one. Our own choice."""

LOOKED_AT = 90
"""Days from the first typical one on that are counted for the choice and the note. Our own."""

TOLD = ("bead", "tape/outer/wall", "tape/outer/roof", "roof_open")
"""The classes that decide the choice and are told in the note."""

Classes = Mapping[str, frozenset[int]]


@dataclass(frozen=True, kw_only=True, slots=True)
class _Given:
    """A house and the midnight its plan begins at. `midnight` is an instant [s]."""

    house: SealedHouse
    calendar: Calendar
    start: dt.datetime
    midnight: float

    def classes(self, weather: HourlyWeather, place: Place | None, shift: int) -> Classes:
        """Return the open hours of each class; the weather begins at hour `shift`."""
        found = class_hours(weather, outer_faces(self.house.shell), place)
        return {
            name: frozenset(h + shift for h in hours if h + shift >= 0) for name, hours in found
        }


def with_weather(
    calendar: Calendar,
    start: dt.datetime,
    house: SealedHouse,
    word: str,
    *,
    offset: str,
    site: Site,
) -> tuple[Calendar, list[str]]:
    """Return the calendar with the hours the weather leaves open, and what is to be said of it.

    `word` is a file, or `TYPICAL`. Where the plan does not say where the house stands, hours past
    a forecast stay open.

    Raises
    ------
    InputError
        When the file cannot be used or holds no hour of the plan.
    """
    midnight = start.replace(tzinfo=_zone(offset)).timestamp()
    given = _Given(house=house, calendar=calendar, start=start, midnight=midnight)
    if word == TYPICAL:
        return _typical(given, [resolve_climate(site, seed=seed) for seed in SEEDS], first=0)
    path = Path(word)
    file = read_weather(path)
    if file.weather.hours >= YEAR_HOURS:
        return _typical(given, [resolve_climate(site, path)], first=0)
    return _forecast(given, file, path.name, site)


def _forecast(
    given: _Given, file: ForecastFile, name: str, site: Site
) -> tuple[Calendar, list[str]]:
    shift = round((file.weather.start - _midnight(given, file.weather)) / 3600.0)
    first, last = shift, shift + file.weather.hours
    known = {h for h in given.calendar.working_hours if first <= h < last}
    if not known:
        raise InputError(
            [Problem(subject=name, sentence="no hour of the weather lies in the working hours of "
                     "the plan", remedy="give --start a day that the weather file holds")]
        )  # fmt: skip
    classes = given.classes(file.weather, file.place, shift)
    days = len({h // 24 for h in known})
    count = "1 working day" if days == 1 else f"{days} working days"
    told = f"Weather is forecast for {count}, until {_day(given, last - 1)}."
    try:
        years = [resolve_climate(site, seed=seed) for seed in SEEDS]
    except InputError:
        rest = frozenset(h for h in given.calendar.working_hours if h not in known)
        windows = _merged(classes, dict.fromkeys(classes, rest), known)
        more = "Hours after are taken as open, since the plan does not say where the house stands."
        return replace(given.calendar, windows=windows), [*file.notes, told, more]
    after, notes = _typical(given, years, first=max(0, last))
    windows = _merged(classes, {n: frozenset(h) for n, h in after.windows}, known)
    return replace(given.calendar, windows=windows), [*file.notes, told, *notes]


def _midnight(given: _Given, weather: HourlyWeather) -> float:
    """Return the instant at which the plan begins; without an offset in the plan, by the file's."""
    if given.start.replace(tzinfo=dt.UTC).timestamp() != given.midnight:
        return given.midnight
    zone = dt.timezone(dt.timedelta(seconds=weather.utc_offset))
    return given.start.replace(tzinfo=zone).timestamp()


def _merged(
    forecast: Classes, rest: Classes, known: set[int]
) -> tuple[tuple[str, tuple[int, ...]], ...]:
    """Return the forecast's hours where they are known, the others' elsewhere."""
    return tuple(
        (name, tuple(sorted((forecast[name] & known) | (rest.get(name, frozenset()) - known))))
        for name in forecast
    )


def _typical(
    given: _Given, years: Sequence[SiteClimate], *, first: int
) -> tuple[Calendar, list[str]]:
    """Return the calendar on the middle one of some typical years, and what they say."""
    looked = [h for h in given.calendar.working_hours if first <= h < first + 24 * LOOKED_AT]
    found = [given.classes(_laid(year.weather, given), year.place, 0) for year in years]
    shares = [
        {name: sum(h in classes[name] for h in looked) / max(1, len(looked)) for name in TOLD}
        for classes in found
    ]
    order = sorted(range(len(found)), key=lambda k: (sum(shares[k].values()), k))
    middle = order[len(order) // 2]
    windows = tuple((name, tuple(sorted(hours))) for name, hours in found[middle].items())
    parts = []
    for name in TOLD:
        low, high = min(s[name] for s in shares), max(s[name] for s in shares)
        apart = f" ({low:.0%} to {high:.0%})" if len(years) > 1 else ""
        parts.append(f"{name} {shares[middle][name]:.0%}{apart}")
    count = f"the middle one of {len(years)} years" if len(years) > 1 else "one year"
    whose = years[middle].origin
    told = [
        f"From {_day(given, first)} on the weather is typical, no forecast: {count} of {whose}.",
        f"Working hours open in its first {LOOKED_AT} days: {', '.join(parts)}.",
        *years[middle].notes,
    ]
    return replace(given.calendar, windows=windows), told


def _laid(year: HourlyWeather, given: _Given) -> HourlyWeather:
    """Return a year laid over the days of the calendar, in the year's own standard time."""
    begin = given.start.replace(month=1, day=1)
    hour = round((given.start - begin).total_seconds() / 3600.0) % YEAR_HOURS
    zone = dt.timezone(dt.timedelta(seconds=year.utc_offset))
    return season(year, hour, given.calendar.hours, given.start.replace(tzinfo=zone).timestamp())


def _day(given: _Given, hour: int) -> str:
    return (given.start + dt.timedelta(hours=hour)).date().isoformat()


def _zone(offset: str) -> dt.timezone:
    sign = -1 if offset.startswith("-") else 1
    hours, minutes = (int(part) for part in offset.lstrip("+-").split(":"))
    return dt.timezone(sign * dt.timedelta(hours=hours, minutes=minutes))
