"""From the words of the command line to the days there are: calendar, crews, weather, state."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from seamwright.cli.days_weather import Weathered, with_weather
from seamwright.cli.source import Source
from seamwright.errors import InputError, Problem
from seamwright.io.days_json import read_days
from seamwright.io.plan.day_hours import bans_of, calendar_of, fixed_of
from seamwright.io.work_records import read_work
from seamwright.report.house import SealedHouse
from seamwright.schedule.by_face import by_face
from seamwright.schedule.calendar import with_rain, without_crane
from seamwright.schedule.learn import (
    crew_told,
    learned_crews,
    learned_from,
    learned_told,
    with_crew_pace,
    with_learned,
)
from seamwright.schedule.network import build_network
from seamwright.schedule.rates import with_rates
from seamwright.schedule.replan import SiteState, fixed_from
from seamwright.schedule.tasks_given import with_bans, with_given
from seamwright.schedule.types import Calendar, Crew, DayPlan, DaysGiven, Fixed, Network

SEASON = 400
"""Days of the calendar: work that does not fit is told. Our own choice."""

DEFAULT_CREWS = (
    Crew(id="lead", skills=("managing", "testing"), size=2),
    Crew(id="setters", skills=("setting",), size=4),
    Crew(id="sealers", skills=("sealing",), size=2),
    Crew(id="roofers", skills=("roofing",), size=2),
    Crew(id="finishers", skills=("finishing", "trades"), size=4),
)
"""Crews where the plan names none: common practice, no source."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Wishes:
    """What the command line asks for, as written."""

    start: str | None
    crews: str | None
    weather: str | None
    records: Path | None
    state: Path | None
    now: str | None
    rain: tuple[str, ...]
    no_crane: tuple[str, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class DaysTask:
    """Everything a plan of days starts from; `start` is the local midnight of hour 0.

    `before` is the plan this one replaces, `now` the hour it starts from, `marks` words for days,
    `weather` what opened and closed hours.
    """

    network: Network
    crews: tuple[Crew, ...]
    calendar: Calendar
    fixed: tuple[Fixed, ...]
    start: dt.datetime
    now: int = 0
    before: DayPlan | None = None
    notes: tuple[str, ...] = ()
    marks: Mapping[str, str] = field(default_factory=dict)
    weather: Weathered | None = None


def days_task(source: Source, house: SealedHouse, wishes: Wishes) -> DaysTask:
    """Return the tasks, people and hours of a house, from its plan and the command line.

    Raises
    ------
    InputError
        With what cannot be used.
    """
    given = source.file.days if source.file is not None else DaysGiven()
    network = build_network(
        house.shell, house.register, house.schedule, productivity=with_rates(house.catalog.rates)
    )
    crews, assumed = _crews(wishes.crews, given)
    network, learned = _learned(with_given(network, given), wishes.records, crews)
    old, old_start = (None, None) if wishes.state is None else read_days(wishes.state)
    first = _first_day(wishes, given, old_start)
    calendar = calendar_of(given, days=SEASON, start=first)
    start = dt.datetime.fromisoformat(first)
    said = given.start is not None or wishes.start is not None or old is not None
    notes = list(learned) if said else [
        f"The plan names no day to begin; it was laid on {first}.", *learned
    ]  # fmt: skip
    weather = None
    if wishes.weather is not None:
        weather = with_weather(
            calendar, start, house, network, wishes.weather, offset=given.offset,
            site=source.plan.site,
        )  # fmt: skip
        calendar = weather.calendar
        network = by_face(network, house.shell, dict(calendar.windows))
        notes += weather.notes
    network, calendar = with_bans(network, calendar, bans_of(given, network, calendar))
    calendar, marks = _lost(calendar, start, wishes)
    fixed = fixed_of(given, calendar)
    now = 0
    if old is not None and wishes.state is not None:
        state = _state(wishes, start)
        now = int(-(-state.now // 1))
        fixed = fixed_from(old, state, fixed, network.links)
    return DaysTask(
        network=network, crews=crews, calendar=calendar, fixed=_known(fixed, network), start=start,
        now=now, before=old, notes=(*notes, *assumed), marks=marks, weather=weather,
    )  # fmt: skip


def _learned(
    network: Network, records: Path | None, crews: tuple[Crew, ...]
) -> tuple[Network, tuple[str, ...]]:
    """Return the network with durations as the site's records teach them, and what they teach."""
    if records is None:
        return network, ()
    rows = read_work(records, [task.id for task in network.tasks])
    learned, paces = learned_from(network, rows), learned_crews(network, rows)
    if not learned:
        return network, (f"{records.name} tells of no work; durations are as planned.",)
    names = {crew.id for crew in crews}
    strange = [row.crew for row in paces if row.crew not in names]
    told = (*map(learned_told, learned), *map(crew_told, paces))
    if strange:
        told = (*told, f"The plan has no crew {', '.join(strange)}; its pace is left aside.")
    return with_crew_pace(with_learned(network, learned), crews, paces), told


def _first_day(wishes: Wishes, given: DaysGiven, old: dt.datetime | None) -> str:
    if old is not None:
        if wishes.start is not None and wishes.start != old.date().isoformat():
            raise _refused("--start", f"the plan of --from-state begins on {old:%Y-%m-%d}",
                           "leave --start out to plan on from it")  # fmt: skip
        return old.date().isoformat()
    text = wishes.start if wishes.start is not None else given.start
    if text is None:
        today = dt.datetime.now().astimezone().date()
        return (today + dt.timedelta(days=7 - today.weekday())).isoformat()
    return date_of("--start", text).isoformat()


def _lost(
    calendar: Calendar, start: dt.datetime, wishes: Wishes
) -> tuple[Calendar, dict[str, str]]:
    """Return the calendar without the days that rain or a broken crane take, and their marks."""
    marks: dict[str, str] = {}
    rain = [(date_of("--rain", text), "rain") for text in wishes.rain]
    crane = [(date_of("--no-crane", text), "no crane") for text in wishes.no_crane]
    for day, word in (*rain, *crane):
        held = marks.get(day.isoformat())
        marks[day.isoformat()] = word if held is None else f"{held}, {word}"
    calendar = with_rain(calendar, [(day - start.date()).days for day, _ in rain]) if rain else (
        calendar
    )  # fmt: skip
    if crane:
        calendar = without_crane(calendar, [(day - start.date()).days for day, _ in crane])
    return calendar, marks


def _crews(text: str | None, given: DaysGiven) -> tuple[tuple[Crew, ...], tuple[str, ...]]:
    if text is not None:
        return _written(text), ()
    if given.crews:
        return given.crews, ()
    told = ", ".join(f"{c.id} {c.size}" for c in DEFAULT_CREWS)
    return DEFAULT_CREWS, (f"Crews were assumed ({told}): common practice, no source.",)


def _written(text: str) -> tuple[Crew, ...]:
    """Return crews written as ``setting=4,sealing=2,sealing=2,roofing+finishing=3``."""
    crews: list[Crew] = []
    counts: dict[str, int] = {}
    for part in text.split(","):
        skills, _, size = part.strip().partition("=")
        if not skills or not size.strip().isdigit() or int(size) < 1:
            raise _refused("--crews", f"‘{part.strip()[:40]}’ is no crew",
                           "write it as setting=4,sealing=2,roofing+trades=2")  # fmt: skip
        counts[skills] = counts.get(skills, 0) + 1
        name = skills if counts[skills] == 1 else f"{skills}-{counts[skills]}"
        crews.append(Crew(id=name, skills=tuple(skills.split("+")), size=int(size)))
    return tuple(crews)


def _state(wishes: Wishes, start: dt.datetime) -> SiteState:
    """Return where the site stands: now, and what the state file says was done otherwise."""
    written = _written_state(wishes.state)
    text = wishes.now if wishes.now is not None else written.get("now")
    if text is None:
        moment = dt.datetime.now().astimezone().replace(tzinfo=None)
    else:
        moment = _moment("--now", str(text))
    try:
        done = {
            str(row["task"]): (_hour(row["start"], start), _hour(row["end"], start))
            for row in written.get("done", ())
        }
    except (KeyError, TypeError) as error:
        raise _refused("site", f"‘done’ cannot be read ({error})",
                       "give each a task, start and end") from error  # fmt: skip
    frozen = written.get("frozen_until")
    return SiteState(
        now=(moment - start).total_seconds() / 3600.0,
        done=done,
        undone=tuple(map(str, written.get("undone", ()))),
        frozen_until=None if frozen is None else _hour(frozen, start),
    )


def _written_state(path: Path | None) -> dict[str, Any]:
    """Return the part of the file that says what happened; a plan as written has none."""
    if path is None:
        return {}
    found = json.loads(path.read_text(encoding="utf-8")).get("site", {})
    if not isinstance(found, dict):
        raise _refused(path.name, "its part ‘site’ is no list of names and values",
                       "write it as in the docs, or leave it out")  # fmt: skip
    return found


def _hour(text: object, start: dt.datetime) -> float:
    return (_moment("site", str(text)) - start).total_seconds() / 3600.0


def _moment(subject: str, text: str) -> dt.datetime:
    try:
        return dt.datetime.fromisoformat(text.strip()).replace(tzinfo=None)
    except ValueError:
        raise _refused(subject, f"‘{text[:40]}’ is not a day and time",
                       "write it as 2027-04-14T07:00") from None  # fmt: skip


def date_of(subject: str, text: str) -> dt.date:
    """Return a day as written, or raise InputError."""
    try:
        return dt.date.fromisoformat(text.strip())
    except ValueError:
        raise _refused(subject, f"‘{text[:40]}’ is not a day", "write it as 2027-04-14") from None


def _known(fixed: Iterable[Fixed], network: Network) -> tuple[Fixed, ...]:
    names = {task.id for task in network.tasks}
    return tuple(row for row in fixed if row.task_id in names)


def _refused(subject: str, sentence: str, remedy: str) -> InputError:
    return InputError([Problem(subject=subject, sentence=sentence, remedy=remedy)])
