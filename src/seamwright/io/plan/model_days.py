"""What a user writes about days: the week, crews, crane, own tasks, orders, dates, bans."""

from __future__ import annotations

import datetime as dt
import re
from fractions import Fraction
from typing import Annotated, Literal, Self, TypeAlias

from pydantic import Field, PlainValidator, WithJsonSchema, model_validator

from seamwright.io.fields import Date, Duration, Fields, Packs, PlainWord, Words, Yes, refuse
from seamwright.schedule.types import Work

Weekday: TypeAlias = Annotated[Literal["mon", "tue", "wed", "thu", "fri", "sat", "sun"], PlainWord]
_CLOCK = re.compile(r"([01]?[0-9]|2[0-4])(?::([0-5][0-9]))?")
_OFFSET = re.compile(r"[+-](0[0-9]|1[0-4]):(00|15|30|45)")
_TASK = re.compile(r"\w[\w.\-+/:]{0,79}")


def _read_clock(value: object) -> float:
    match = _CLOCK.fullmatch(str(value).strip())
    if match is None or float(match[1]) + float(match[2] or 0) / 60 > 24:
        raise refuse(f"‘{str(value)[:40]}’ is not a time of day", "write it as 7:30 or 16:00")
    return float(match[1]) + float(match[2] or 0) / 60


def _read_moment(value: object) -> str:
    text = str(value).strip().replace(" ", "T", 1)
    try:
        moment = dt.datetime.fromisoformat(text)
    except ValueError:
        moment = None
    if moment is None or moment.tzinfo is not None:
        remedy = "write it as 2026-04-14, or with a local time as 2026-04-14 07:00"
        raise refuse(f"‘{str(value)[:40]}’ is not a day or an hour of one", remedy)
    return moment.date().isoformat() if "T" not in text else moment.isoformat(timespec="minutes")


def _read_offset(value: object) -> str:
    text = str(value).strip().replace("−", "-")
    if _OFFSET.fullmatch(text) is None:
        raise refuse(f"‘{text[:40]}’ is not an offset from UTC", "write it as -07:00 or +01:00")
    return text


def _read_task(value: object) -> str:
    text = str(value).strip()
    if _TASK.fullmatch(text) is None:
        remedy = "use the id from the table of tasks, such as set.R1.1"
        raise refuse(f"‘{text[:40]}’ cannot be the id of a task", remedy)
    return text


def _told(told: str, *examples: str) -> WithJsonSchema:
    return WithJsonSchema({"type": "string", "description": told, "examples": list(examples)})


Clock: TypeAlias = Annotated[
    float, PlainValidator(_read_clock), _told("A time of day.", "7:30", "16:00")
]
Moment: TypeAlias = Annotated[
    str,
    PlainValidator(_read_moment),
    _told("A day, or a local time of a day.", "2026-04-14", "2026-04-14 07:00"),
]
Offset: TypeAlias = Annotated[
    str, PlainValidator(_read_offset), _told("Local time less UTC.", "-07:00", "+01:00")
]
TaskId: TypeAlias = Annotated[
    str, PlainValidator(_read_task), _told("The id of a task.", "set.R1.1", "fan_test")
]


class CrewFields(Fields):
    """People who work together, and what they can do."""

    id: TaskId
    skills: Annotated[tuple[Words, ...], Field(min_length=1)]
    size: Packs


class OwnTaskFields(Fields):
    """A task of the user's own. `duration` is the likely working time of its crew."""

    id: TaskId
    title: Words
    duration: Duration
    shortest: Duration | None = None
    longest: Duration | None = None
    skill: Words
    crew_size: Packs = 2
    crane: Yes = False
    window: Words | None = None
    work: Annotated[Work, PlainWord] = "other"
    storey: Words | None = None
    after: tuple[TaskId, ...] = ()
    before: tuple[TaskId, ...] = ()
    reason: Words = ""

    @model_validator(mode="after")
    def _spread_holds(self) -> Self:
        low = self.duration if self.shortest is None else self.shortest
        high = self.duration if self.longest is None else self.longest
        if not low <= self.duration <= high:
            raise refuse("duration is not between shortest and longest", "put them in order")
        return self


class AskedOrderFields(Fields):
    """An order the user asks for: one task before another, at least `lag` apart."""

    before: TaskId
    after: TaskId
    lag: Duration = Fraction(0)
    reason: Words

    @model_validator(mode="after")
    def _two_tasks(self) -> Self:
        if self.before == self.after:
            raise refuse("before and after name the same task", "name two tasks")
        return self


class AskedDateFields(Fields):
    """A date fixed for one task: its start, bounds, or that it is finished."""

    task: TaskId
    start: Moment | None = None
    not_before: Moment | None = None
    not_after: Moment | None = None
    finished: Moment | None = None
    crew: TaskId | None = None
    reason: Words = ""

    @model_validator(mode="after")
    def _says_something(self) -> Self:
        given = (self.start, self.not_before, self.not_after, self.finished, self.crew)
        if all(value is None for value in given):
            remedy = "add start, not_before, not_after, finished or crew"
            raise refuse("no date is given", remedy)
        return self


class BanFields(Fields):
    """Days, both counted, on which a task or a kind of work must not be done."""

    task: TaskId | None = None
    work: Annotated[Work, PlainWord] | None = None
    first: Date
    last: Date
    reason: Words

    @model_validator(mode="after")
    def _bans_something(self) -> Self:
        if (self.task is None) == (self.work is None):
            raise refuse("a ban names one task or one kind of work", "add task: or work:")
        if self.last < self.first:
            raise refuse("the last day lies before the first", "put them in order")
        return self


class DaysFields(Fields):
    """When and by whom the house is built: what the plan of days starts from."""

    start: Date | None = None
    offset: Offset = "+00:00"
    weekdays: Annotated[tuple[Weekday, ...], Field(min_length=1)] = (
        "mon",
        "tue",
        "wed",
        "thu",
        "fri",
    )
    begin: Clock = 7.0
    end: Clock = 16.0
    days_off: tuple[Date, ...] = ()
    crane: tuple[Date, ...] = ()
    crews: tuple[CrewFields, ...] = ()
    tasks: tuple[OwnTaskFields, ...] = ()
    order: tuple[AskedOrderFields, ...] = ()
    dates: tuple[AskedDateFields, ...] = ()
    bans: tuple[BanFields, ...] = ()

    @model_validator(mode="after")
    def _day_has_hours(self) -> Self:
        if self.end <= self.begin:
            raise refuse("the working day ends before it begins", "give begin: 7:00 and end: 16:00")
        for what, ids in (("crew", self.crews), ("task", self.tasks)):
            named = [entry.id for entry in ids]
            twice = next((name for name in named if named.count(name) > 1), None)
            if twice is not None:
                raise refuse(f"the {what} id ‘{twice}’ is used twice", "give each its own id")
        return self
