"""The hours that the weather opens and closes: a forecast as far as it goes, then typical years.

A typical year is no forecast: which of its days is wet says nothing about that day. It closes about
as many hours as the season does. Several are looked at, the plan is laid on the middle one, and the
others say how far apart they lie.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from seamwright.climate.sun import Place
from seamwright.climate.weather import HourlyWeather
from seamwright.climate.year import YEAR_HOURS, season
from seamwright.errors import InputError, Problem
from seamwright.io.weather_forecast import ForecastFile
from seamwright.io.weather_source import SiteClimate, resolve_climate
from seamwright.io.weather_year import read_weather
from seamwright.report.house import SealedHouse
from seamwright.schedule.after_rain import AfterRain, after_rains, rains_told, season_told
from seamwright.schedule.by_face import asked_faces
from seamwright.schedule.open_hours import OpenHours, laid_hours, merged_hours, with_hours
from seamwright.schedule.outer_faces import outer_faces
from seamwright.schedule.outlook import Outlook, outlook_of
from seamwright.schedule.tape_limits import PRODUCTS
from seamwright.schedule.types import Calendar, Network
from seamwright.schedule.verify_weather import Evidence
from seamwright.schedule.window_classes import ROLES, classes_of
from seamwright.shell.plan import Site

TYPICAL = "typical"
"""What is written in place of a file for weather of typical years alone."""

SEEDS = (1, 2, 3, 4, 5)
"""The generated years that are looked at; the plan is laid on the middle one, by the film of water
alone and from the first day on, so that a plan made again has the same year; the outer two say how
far they lie apart. Our own choice."""

LOOKED_AT = 90
"""Days from the first typical one on that are counted for the choice and the note. Our own."""

TOLD = ("bead", "tape/outer/wall", "tape/outer/roof", "roof_open")
"""The classes that decide the choice and are told in the note."""

BEFORE = (
    "What fell before the weather file begins is not known: boards begin in balance with 60 % "
    "humidity. Let the file begin some days earlier, or measure."
)


@dataclass(frozen=True, kw_only=True, slots=True)
class Weathered:
    """The calendar with the hours the weather leaves open, what is to be said, and the weather.

    `rains` are those of a forecast, with how long faces take to dry.
    """

    calendar: Calendar
    notes: tuple[str, ...]
    evidence: tuple[Evidence, ...]
    rains: tuple[AfterRain, ...] = ()


@dataclass(frozen=True, kw_only=True, slots=True)
class _Given:
    """A house and the midnight its plan begins at. `midnight` is an instant [s]."""

    house: SealedHouse
    network: Network
    calendar: Calendar
    start: dt.datetime
    midnight: float

    def outlook(self, weather: HourlyWeather, place: Place | None, *, bare: bool) -> Outlook:
        """Return what the weather does to the faces, with the boards that tasks wait for."""
        shell = self.house.shell
        asked = tuple(asked_faces(self.network, shell)) if bare else ()
        return outlook_of(weather, outer_faces(shell), place, bare=asked)

    def clock(self, hour: int) -> str:
        """Return an hour of the calendar in words."""
        return f"{self.start + dt.timedelta(hours=hour):%a %Y-%m-%d %H:%M}"


def with_weather(
    calendar: Calendar,
    start: dt.datetime,
    house: SealedHouse,
    network: Network,
    word: str,
    *,
    offset: str,
    site: Site,
) -> Weathered:
    """Return the calendar with the hours the weather leaves open, and what is to be said of it.

    `word` is a file, or `TYPICAL`. Where the plan does not say where the house stands, hours past
    a forecast stay open.

    Raises
    ------
    InputError
        When the file cannot be used or holds no hour of the plan.
    """
    midnight = start.replace(tzinfo=_zone(offset)).timestamp()
    given = _Given(house=house, network=network, calendar=calendar, start=start, midnight=midnight)
    if word == TYPICAL:
        return _typical(given, [resolve_climate(site, seed=seed) for seed in SEEDS], first=0)
    path = Path(word)
    file = read_weather(path)
    if file.weather.hours >= YEAR_HOURS:
        return _typical(given, [resolve_climate(site, path)], first=0)
    return _forecast(given, file, path.name, site)


def _forecast(given: _Given, file: ForecastFile, name: str, site: Site) -> Weathered:
    shift = round((file.weather.start - _midnight(given, file.weather)) / 3600.0)
    first, last = shift, shift + file.weather.hours
    known = {h for h in given.calendar.working_hours if first <= h < last}
    if not known:
        raise InputError(
            [Problem(subject=name, sentence="no hour of the weather lies in the working hours of "
                     "the plan", remedy="give --start a day that the weather file holds")]
        )  # fmt: skip
    outlook = given.outlook(file.weather, file.place, bare=True)
    rows = laid_hours(classes_of(outlook), shift)
    rains = _rains(outlook)
    days = len({h // 24 for h in known})
    count = "1 working day" if days == 1 else f"{days} working days"
    told = [
        *file.notes,
        f"Weather is forecast for {count}, until {_day(given, last - 1)}.",
        *([outlook.told] if outlook.told else []),
        *([BEFORE] if outlook.boards else []),
        *rains_told(rains, lambda hour: given.clock(hour + shift)),
    ]
    seen = Evidence(outlook=outlook, first=shift, begin=max(0, first), end=last)
    after, later = _afterward(given, site, rows, last, told_rule=not outlook.told)
    return Weathered(
        calendar=with_hours(given.calendar, merged_hours(rows, after, known)),
        notes=(*told, *later.notes), evidence=(seen, *later.evidence), rains=rains,
    )  # fmt: skip


def _afterward(
    given: _Given, site: Site, rows: Mapping[str, OpenHours], last: int, *, told_rule: bool
) -> tuple[Mapping[str, OpenHours], Weathered]:
    """Return the hours past a forecast, of typical years or all open, and what is to be said."""
    try:
        years = [resolve_climate(site, seed=seed) for seed in SEEDS]
    except InputError:
        word = "Hours after are taken as open, since the plan does not say where the house stands."
        every = OpenHours(open=frozenset(given.calendar.working_hours))
        return dict.fromkeys(rows, every), Weathered(
            calendar=given.calendar, notes=(word,), evidence=()
        )
    later = _typical(given, years, first=max(0, last), told_rule=told_rule)
    closed = dict(later.calendar.closed)
    after = {
        name: OpenHours(open=frozenset(hours), closed=dict(closed[name]))
        for name, hours in later.calendar.windows
    }
    return after, later


def _midnight(given: _Given, weather: HourlyWeather) -> float:
    """Return the instant at which the plan begins; without an offset in the plan, by the file's."""
    if given.start.replace(tzinfo=dt.UTC).timestamp() != given.midnight:
        return given.midnight
    zone = dt.timezone(dt.timedelta(seconds=weather.utc_offset))
    return given.start.replace(tzinfo=zone).timestamp()


def _rains(outlook: Outlook) -> tuple[AfterRain, ...]:
    """Return the rains for each face that stands bare, by the limit of the strips."""
    limit = PRODUCTS[ROLES["tape"]].board_hold
    return tuple(row for face in outlook.boards for row in after_rains(outlook, face, limit))


def _typical(
    given: _Given, years: Sequence[SiteClimate], *, first: int, told_rule: bool = True
) -> Weathered:
    """Return the calendar on the middle one of some typical years, and what they say."""
    last = min(first + 24 * LOOKED_AT, given.calendar.hours)
    looked = [h for h in given.calendar.working_hours if first <= h < last]
    begun = [h for h in given.calendar.working_hours if h < 24 * LOOKED_AT]
    films = [_shares(given, year, begun, 24 * LOOKED_AT, bare=False) for year in years]
    order = sorted(range(len(years)), key=lambda k: (sum(films[k].values()), k))
    chosen = years[order[len(order) // 2]]
    outlook = given.outlook(
        _laid(chosen.weather, given, given.calendar.hours), chosen.place, bare=True
    )  # fmt: skip
    classes = laid_hours(classes_of(outlook), 0)
    ends = [_shares(given, years[k], looked, last, bare=True) for k in {order[0], order[-1]}]
    parts = []
    for name in TOLD:
        mine = _share(classes[name], looked)
        low, high = (side(mine, *(s[name] for s in ends)) for side in (min, max))
        apart = f" ({low:.0%} to {high:.0%})" if len(years) > 1 else ""
        parts.append(f"{name} {mine:.0%}{apart}")
    count = f"the middle one of {len(years)} years" if len(years) > 1 else "one year"
    whose = chosen.origin
    rains = [row for row in _rains(outlook) if first <= row.start < last]
    told = [
        f"From {_day(given, first)} on the weather is typical, no forecast: {count} of {whose}.",
        f"Working hours open in its first {LOOKED_AT} days: {', '.join(parts)}.",
        outlook.told if told_rule else "",
        season_told(rains),
        *chosen.notes,
    ]
    return Weathered(
        calendar=with_hours(given.calendar, classes),
        notes=tuple(note for note in told if note),
        evidence=(
            Evidence(outlook=outlook, first=0, begin=first, end=given.calendar.hours),
        ),
    )  # fmt: skip


def _shares(
    given: _Given, year: SiteClimate, looked: Sequence[int], hours: int, *, bare: bool
) -> dict[str, float]:
    """Return the part of some hours that a year leaves open to each class that is told."""
    outlook = given.outlook(_laid(year.weather, given, hours), year.place, bare=bare)
    rows = laid_hours(classes_of(outlook), 0)
    return {name: _share(rows[name], looked) for name in TOLD}


def _share(row: OpenHours, looked: Sequence[int]) -> float:
    return sum(hour in row.open for hour in looked) / max(1, len(looked))


def _laid(year: HourlyWeather, given: _Given, hours: int) -> HourlyWeather:
    """Return a year laid over the first hours of the calendar, in its own standard time."""
    begin = given.start.replace(month=1, day=1)
    hour = round((given.start - begin).total_seconds() / 3600.0) % YEAR_HOURS
    zone = dt.timezone(dt.timedelta(seconds=year.utc_offset))
    return season(year, hour, hours, given.start.replace(tzinfo=zone).timestamp())


def _day(given: _Given, hour: int) -> str:
    return (given.start + dt.timedelta(hours=hour)).date().isoformat()


def _zone(offset: str) -> dt.timezone:
    sign = -1 if offset.startswith("-") else 1
    hours, minutes = (int(part) for part in offset.lstrip("+-").split(":"))
    return dt.timezone(sign * dt.timedelta(hours=hours, minutes=minutes))
