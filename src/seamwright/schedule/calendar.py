"""The hours there are: working days, holidays, crane days, lost days.

Days are ordinal numbers (1 is the first of January of year 1, a Monday), as edges get them from a
date; the core needs no clock. Hours are those of the wall clock on site, so that a change to summer
time inside a plan moves nothing.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from math import ceil, floor

from seamwright.schedule.types import Calendar, WorkHours

DAY = 24
"""Hours of a day."""

OUTDOORS = frozenset(
    {"bead", "foam", "tape/outer/wall", "tape/outer/roof", "lift", "roof_open", "fan_test"}
)
"""Window classes that a day of rain and wind takes away: all but strips indoors."""


def make_calendar(
    start: str,
    *,
    first_day: int,
    days: int,
    week: WorkHours | None = None,
    holidays: Iterable[int] = (),
    crane_days: Iterable[int] | None = None,
    windows: Mapping[str, Iterable[int]] | None = None,
) -> Calendar:
    """Return the hours of `days` days from midnight of the ordinal day `first_day` on.

    Parameters
    ----------
    start
        The same midnight as ISO 8601 text, for print.
    week
        When people work; None: Monday to Friday, 7 to 16 h, breaks counted in the rates (common
        practice, no source). Parts of an hour at its ends are left out.
    holidays, crane_days
        Ordinal days nobody works, and those with the crane on site (None: every working day).
    windows
        Hours of each window class, counted from the start; a class left out is always open.
    """
    chosen = WorkHours() if week is None else week
    off = frozenset(holidays)
    lifts = None if crane_days is None else frozenset(crane_days)
    working: list[int] = []
    crane: list[int] = []
    for day in range(days):
        ordinal = first_day + day
        if weekday(ordinal) not in chosen.weekdays or ordinal in off:
            continue
        hours = range(DAY * day + ceil(chosen.begin), DAY * day + floor(chosen.end))
        working += hours
        crane += hours if lifts is None or ordinal in lifts else ()
    classes = {} if windows is None else windows
    return Calendar(
        start=start,
        hours=DAY * days,
        working_hours=tuple(working),
        crane_hours=tuple(crane),
        windows=tuple((name, tuple(sorted(set(hours)))) for name, hours in classes.items()),
    )


def weekday(ordinal: int) -> int:
    """Return the weekday of an ordinal day, Monday 0."""
    return (ordinal - 1) % 7


def day_of(calendar: Calendar, hour: int) -> int:
    """Return the number of the day an hour lies in, 0 for the first."""
    return (hour + calendar.first_hour) // DAY


def with_rain(
    calendar: Calendar, days: Iterable[int], classes: Iterable[str] = OUTDOORS
) -> Calendar:
    """Return the calendar without the outdoor hours of some days: they rained or blew away.

    A class of one face goes with that of all faces, as does that of a task with days banned.
    """
    chosen = tuple(classes)
    below = tuple(f"{name}{mark}" for name in chosen for mark in ("/", ", "))
    own = [name for name, _ in calendar.windows if name.startswith(below)]
    return without_hours(calendar, _in_days(calendar, days), (*chosen, *own))


def without_hours(
    calendar: Calendar, lost: Callable[[int], bool], classes: Iterable[str]
) -> Calendar:
    """Return the calendar with hours taken out of some window classes."""
    open_hours = dict(calendar.windows)
    for name in classes:
        hours = open_hours.get(name, calendar.working_hours)
        open_hours[name] = tuple(hour for hour in hours if not lost(hour))
    return replace(calendar, windows=tuple(sorted(open_hours.items())))


def without_crane(calendar: Calendar, days: Iterable[int]) -> Calendar:
    """Return the calendar without the crane on some days."""
    lost = _in_days(calendar, days)
    return replace(
        calendar, crane_hours=tuple(hour for hour in calendar.crane_hours if not lost(hour))
    )


def _in_days(calendar: Calendar, days: Iterable[int]) -> Callable[[int], bool]:
    chosen = frozenset(days)
    return lambda hour: day_of(calendar, hour) in chosen
