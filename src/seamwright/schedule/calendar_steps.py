"""When each task may start, step by step, and when it then ends.

A step is the smallest piece of time of a plan, a part of an hour. A task of up to `LONG` of work is
done in one go: within the hours of its window, its crane and the crew, not over a night. A longer
one may be left and taken up again: nights, free days and closed windows interrupt it, and its crew
stays with it.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from seamwright.schedule.types import Calendar, Crew, Fixed, Link, Network, Task

HOUR = 3600.0
STEP = 900.0
"""Default length of a step. [s] Nobody plans a site finer than a quarter of an hour."""

LONG = 4 * HOUR
"""Longest work done in one go. [s] Half a day; our own choice."""

Flags = NDArray[np.bool_]
Steps = NDArray[np.int64]


@dataclass(frozen=True, kw_only=True, slots=True)
class Job:
    """A task as the search sees it. `starts` are the steps it may start at, `ends` its end then.

    `length` is its work [steps], `crews` those that can do it with the people it needs (none
    where it takes no time). `done` is a task that is already done and lies fixed.
    """

    task: Task
    length: int
    starts: Steps
    ends: Steps
    crews: tuple[str, ...]
    done: bool = False


@dataclass(frozen=True, kw_only=True, slots=True)
class Gap:
    """A link in steps: between the end (or start) of one job and the start (or end) of another.

    `least` and `most` bound the time from the first point to the second; `most` None has no limit.
    """

    link: Link
    from_end: bool
    to_end: bool
    least: int
    most: int | None


@dataclass(frozen=True, kw_only=True, slots=True)
class Steppings:
    """The whole job of planning in steps: jobs by task id, gaps, crews, the calendar's masks."""

    jobs: Mapping[str, Job]
    gaps: tuple[Gap, ...]
    crews: Mapping[str, Crew]
    working: Flags
    worked: Steps
    step: float
    per_day: int
    first: int

    @property
    def order(self) -> tuple[str, ...]:
        """Return the task ids in the network's order, in which every link leads forward."""
        return tuple(self.jobs)

    def day(self, at: int) -> int:
        """Return the number of the day a step lies in."""
        return (at + self.first) // self.per_day


def in_steps(
    network: Network,
    crews: Iterable[Crew],
    calendar: Calendar,
    fixed: Iterable[Fixed] = (),
    *,
    step: float = STEP,
    now: int = 0,
) -> Steppings:
    """Return the network on the calendar, in steps; open tasks start at hour `now` or later."""
    per_hour = round(HOUR / step)
    people = {crew.id: crew for crew in crews}
    said = {row.task_id: row for row in fixed}
    masks = _Masks(calendar, per_hour)
    jobs = {
        task.id: _job(task, said.get(task.id), people, masks, per_hour, now)
        for task in network.tasks
    }
    working = masks.mask(None, crane=False)
    return Steppings(
        jobs=jobs,
        gaps=tuple(gap_of(link, step) for link in network.links),
        crews=people,
        working=working,
        worked=np.concatenate([[0], np.cumsum(working)]),
        step=step,
        per_day=24 * per_hour,
        first=calendar.first_hour * per_hour,
    )


def steps_of(duration: float, step: float) -> int:
    """Return a time in whole steps, rounded up; the way to the place is in the rest. [steps]"""
    return math.ceil(duration / step - 1e-9)


def gap_of(link: Link, step: float) -> Gap:
    """Return a link in steps: least gaps rounded up, longest ones down."""
    return Gap(
        link=link,
        from_end=link.kind != "start_start",
        to_end=link.kind == "finish_finish",
        least=math.ceil(link.lag / step - 1e-9),
        most=None if link.most is None else math.floor(link.most / step + 1e-9),
    )


class _Masks:
    """The steps of each class of hours, kept once made."""

    def __init__(self, calendar: Calendar, per_hour: int) -> None:
        self._calendar = calendar
        self._per_hour = per_hour
        self._windows = dict(calendar.windows)
        self._made: dict[tuple[str | None, bool], Flags] = {}

    def mask(self, window: str | None, *, crane: bool) -> Flags:
        """Return which steps are working ones in the window and, if asked, with the crane."""
        key = (window if window in self._windows else None, crane)
        if key not in self._made:
            hours = np.zeros(self._calendar.hours, dtype=np.bool_)
            hours[_inside(self._calendar.working_hours, self._calendar.hours)] = True
            if crane:
                hours &= _flags(self._calendar.crane_hours, self._calendar.hours)
            if key[0] is not None:
                hours &= _flags(self._windows[key[0]], self._calendar.hours)
            self._made[key] = np.repeat(hours, self._per_hour)
        return self._made[key]


def _flags(hours: Iterable[int], count: int) -> Flags:
    flags = np.zeros(count, dtype=np.bool_)
    flags[_inside(hours, count)] = True
    return flags


def _inside(hours: Iterable[int], count: int) -> list[int]:
    return [hour for hour in hours if 0 <= hour < count]


def _job(  # noqa: PLR0917 one record from as many tables
    task: Task,
    said: Fixed | None,
    crews: Mapping[str, Crew],
    masks: _Masks,
    per_hour: int,
    now: int,
) -> Job:
    length = steps_of(task.duration.likely, HOUR / per_hour)
    if said is not None and said.done:
        if said.start_hour is None and said.end_hour is not None:
            start = max(0, _end_of(said, per_hour) - length)
        else:
            start = _start_of(said, per_hour)
        end = start + length if said.end_hour is None else _end_of(said, per_hour)
        crew = () if said.crew_id is None else (said.crew_id,)
        return Job(
            task=task, length=length, starts=np.array([start]), ends=np.array([max(start, end)]),
            crews=crew, done=True,
        )  # fmt: skip
    mask = masks.mask(task.window, crane=task.crane)
    if length == 0:
        starts: Steps = np.arange(mask.size + 1)
        ends = starts
    elif length * HOUR / per_hour > LONG:
        starts, ends = _in_pieces(mask, length)
    else:
        starts, ends = _in_one_go(mask, length)
    keep = _allowed(starts, ends, said, per_hour, now)
    able = () if length == 0 else able_crews(task, crews.values())
    if said is not None and said.crew_id is not None and length > 0:
        able = tuple(crew for crew in able if crew == said.crew_id)
    return Job(task=task, length=length, starts=starts[keep], ends=ends[keep], crews=able)


def able_crews(task: Task, crews: Iterable[Crew]) -> tuple[str, ...]:
    """Return the crews that have the skill and the people for a task."""
    return tuple(c.id for c in crews if task.skill in c.skills and c.size >= task.crew_size)


def _in_one_go(mask: Flags, length: int) -> tuple[Steps, Steps]:
    """Return the starts after which `length` steps in a row are open, and the ends."""
    run = np.concatenate([[0], np.cumsum(mask)])
    if length > mask.size:
        return np.zeros(0, dtype=np.int64), np.zeros(0, dtype=np.int64)
    starts = np.flatnonzero(run[length:] - run[:-length] == length).astype(np.int64)
    return starts, starts + length


def _in_pieces(mask: Flags, length: int) -> tuple[Steps, Steps]:
    """Return the open steps as starts, and the ends once `length` open steps are worked."""
    open_steps = np.flatnonzero(mask).astype(np.int64)
    count = max(0, open_steps.size - length + 1)
    return open_steps[:count], open_steps[length - 1 : length - 1 + count] + 1


def _allowed(starts: Steps, ends: Steps, said: Fixed | None, per_hour: int, now: int) -> Flags:
    keep = starts >= now * per_hour
    if said is None:
        return keep
    if said.start_hour is not None:
        keep = starts == _start_of(said, per_hour)
    if said.not_before is not None:
        keep &= starts >= said.not_before * per_hour
    if said.not_after is not None:
        keep &= ends <= said.not_after * per_hour
    if said.end_hour is not None:
        keep &= ends <= _end_of(said, per_hour)
    return keep


def _start_of(said: Fixed, per_hour: int) -> int:
    hour = 0 if said.start_hour is None else said.start_hour
    return per_hour * hour + round(said.start_minute * per_hour / 60)


def _end_of(said: Fixed, per_hour: int) -> int:
    hour = 0 if said.end_hour is None else said.end_hour
    return per_hour * hour + round(said.end_minute * per_hour / 60)
