"""From the dates of the days part to hours of the calendar, which is all the core knows.

Hour 0 is midnight before the first day, on the wall clock of the site.
"""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterable, Mapping

from seamwright.errors import InputError, Problem
from seamwright.schedule.calendar import DAY, make_calendar
from seamwright.schedule.tasks_given import BannedHours
from seamwright.schedule.types import AskedDate, Ban, Calendar, DaysGiven, Fixed, Network


def calendar_of(
    given: DaysGiven,
    *,
    days: int,
    start: str | None = None,
    windows: Mapping[str, Iterable[int]] | None = None,
) -> Calendar:
    """Return the hours of `days` days from the start of the plan on.

    A working day that begins or ends within an hour counts its whole hours only. Without crane
    days the crane is there whenever anyone works.

    Raises
    ------
    InputError
        When neither the plan nor `start` says when work begins, or a day has no whole hour.
    """
    first = start if start is not None else given.start
    if first is None:
        raise _refused("the plan does not say when work begins", "add start: under days:")
    if math.ceil(given.week.begin) >= math.floor(given.week.end):
        raise _refused("the working day has no whole hour", "give begin: 7:00 and end: 16:00")
    return make_calendar(
        f"{first}T00:00:00{given.offset}",
        first_day=dt.date.fromisoformat(first).toordinal(),
        days=days,
        week=given.week,
        holidays=[dt.date.fromisoformat(day).toordinal() for day in given.days_off],
        crane_days=[dt.date.fromisoformat(day).toordinal() for day in given.crane_days] or None,
        windows=windows,
    )


def fixed_of(given: DaysGiven, calendar: Calendar) -> tuple[Fixed, ...]:
    """Return what the user fixed, in hours of the calendar.

    A start given as a day is the first working hour of that day; `not_after` given as a day means
    by the end of it; what was finished before the plan begins counts as finished when it begins,
    and a finished task as begun its likely time before.
    Several entries about one task become one, the narrowest bounds.
    """
    merged: dict[str, AskedDate] = {}
    for date in given.dates:
        held = merged.get(date.task)
        merged[date.task] = date if held is None else _both(held, date)
    return tuple(_fixed(date, calendar) for date in merged.values())


def bans_of(given: DaysGiven, network: Network, calendar: Calendar) -> tuple[BannedHours, ...]:
    """Return the banned hours of each task that a ban names, or whose kind of work it names."""
    return tuple(
        BannedHours(
            task_id=task.id,
            start=_hour(ban.first, calendar),
            end=_hour(ban.last, calendar) + DAY,
        )
        for ban in given.bans
        for task in network.tasks
        if _concerns(ban, task.id, task.work)
    )


def hour_told(calendar: Calendar, hour: float) -> str:
    """Return an hour of the calendar as a local day and time."""
    moment = dt.datetime.fromisoformat(calendar.start) + dt.timedelta(hours=hour)
    return moment.strftime("%Y-%m-%d %H:%M")


def _concerns(ban: Ban, task_id: str, work: str) -> bool:
    return ban.task == task_id if ban.task is not None else ban.work == work


def _fixed(date: AskedDate, calendar: Calendar) -> Fixed:
    if date.finished is not None:
        end = max(0, _end(date.finished, calendar))
        return Fixed(task_id=date.task, end_hour=end, done=True, reason=date.reason)
    return Fixed(
        task_id=date.task,
        start_hour=None if date.on is None else _start(date.on, calendar),
        not_before=None if date.not_before is None else _hour(date.not_before, calendar),
        not_after=None if date.not_after is None else _end(date.not_after, calendar),
        crew_id=date.crew,
        reason=date.reason,
    )


def _hour(moment: str, calendar: Calendar) -> int:
    """Return the hour of a day or local time; a time within an hour counts as its beginning."""
    start = dt.datetime.fromisoformat(calendar.start).replace(tzinfo=None)
    span = dt.datetime.fromisoformat(moment) - start
    return math.floor(span.total_seconds() / 3600)


def _start(moment: str, calendar: Calendar) -> int:
    hour = _hour(moment, calendar)
    if "T" in moment:
        return hour
    return next((h for h in calendar.working_hours if hour <= h < hour + DAY), hour)


def _end(moment: str, calendar: Calendar) -> int:
    hour = _hour(moment, calendar)
    return hour if "T" in moment else hour + DAY


def _both(a: AskedDate, b: AskedDate) -> AskedDate:
    def pick(first: str | None, second: str | None, *, late: bool) -> str | None:
        named = [value for value in (first, second) if value is not None]
        return (max(named) if late else min(named)) if named else None

    return AskedDate(
        task=a.task,
        reason="; ".join(reason for reason in (a.reason, b.reason) if reason),
        on=pick(a.on, b.on, late=True),
        not_before=pick(a.not_before, b.not_before, late=True),
        not_after=pick(a.not_after, b.not_after, late=False),
        finished=pick(a.finished, b.finished, late=True),
        crew=b.crew if b.crew is not None else a.crew,
    )


def _refused(sentence: str, remedy: str) -> InputError:
    return InputError([Problem(subject="days", sentence=sentence, remedy=remedy)])
