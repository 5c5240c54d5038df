"""Why a plan cannot be: the shortest circle of orders, or the shortest chain too long for a date.

A chain counts only what is certain: likely durations, the hours each task may be done in, and the
waits between tasks. Crews are not counted, so a plan may still fail for want of hands.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from seamwright.schedule.links_order import shortest_circle
from seamwright.schedule.types import Calendar, Fixed, Link, Network, Task

_HOUR = 3600.0
_SLACK = 1e-6


def hour_words(hour: float) -> str:
    """Return an hour of the calendar in words; an edge that knows dates passes its own."""
    return f"hour {round(hour, 1):g}"


def explain_conflict(
    network: Network,
    fixed: Sequence[Fixed] = (),
    calendar: Calendar | None = None,
    *,
    told: Callable[[float], str] = hour_words,
) -> tuple[str, ...]:
    """Return the shortest chain of rules that contradict each other, in words; empty if none.

    Parameters
    ----------
    network, fixed, calendar
        The tasks and links, what the user fixed, and the hours there are (None: every hour).
    told
        How to say an hour of the calendar.

    Returns
    -------
    One sentence per link of the chain, the dates that clash first and last.
    """
    circle = shortest_circle(network.links)
    tasks = {task.id: task for task in network.tasks}
    if circle:
        return _circle_words(circle, tasks)
    hours = _Hours(calendar=calendar)
    shut = next((task for task in network.tasks if hours.never(task)), None)
    if shut is not None:
        return _shut_words(shut)
    chain = _shortest_chain(network, {f.task_id: f for f in fixed}, hours)
    return () if chain is None else _chain_words(chain, tasks, told)


@dataclass(frozen=True, kw_only=True, slots=True)
class _Hours:
    """When a task may be worked on, by what it asks for; hours of one kind are listed once."""

    calendar: Calendar | None
    known: dict[tuple[bool, str | None], tuple[int, ...]] = field(default_factory=dict)

    def of(self, task: Task) -> tuple[int, ...] | None:
        """Return the hours a task may be done in, None for any."""
        if self.calendar is None:
            return None
        key = (task.crane, task.window)
        if key not in self.known:
            hours = set(self.calendar.working_hours)
            windows = dict(self.calendar.windows)
            if task.crane:
                hours &= set(self.calendar.crane_hours)
            if task.window is not None and task.window in windows:
                hours &= set(windows[task.window])
            self.known[key] = tuple(sorted(hours))
        return self.known[key]

    def never(self, task: Task) -> bool:
        """Return whether there is no hour at all for a task."""
        hours = self.of(task)
        return hours is not None and not hours and task.duration.likely > 0

    def opening(self, task: Task, start: float) -> float:
        """Return the first moment from `start` on at which a task may be worked on. [h]"""
        hours = self.of(task)
        if hours is None or task.duration.likely <= 0:
            return start
        found = bisect_left(hours, math.floor(start))
        return max(start, float(hours[found])) if found < len(hours) else math.inf

    def end(self, task: Task, start: float) -> float:
        """Return the earliest end of a task that starts at `start` or later. [h]"""
        left = task.duration.likely / _HOUR
        hours = self.of(task)
        if hours is None or left <= 0:
            return start + left
        for hour in hours[bisect_left(hours, math.floor(start)) :]:
            begin = max(start, float(hour))
            if begin >= hour + 1:
                continue
            if left <= hour + 1 - begin + _SLACK:
                return begin + left
            left -= hour + 1 - begin
        return math.inf


@dataclass(frozen=True, kw_only=True, slots=True)
class _Chain:
    """Tasks tied by links, released at `release`, whose end passes the `limit`. [h]"""

    first: str
    links: tuple[Link, ...]
    last: str
    release: float
    reached: float
    limit: float
    begin: Fixed | None
    end: Fixed
    starts: bool


def _shortest_chain(network: Network, fixed: Mapping[str, Fixed], hours: _Hours) -> _Chain | None:
    """Return a chain of the fewest links that leads past a date.

    Row `k` holds the earliest start of each task over chains of at most `k` links.
    """
    tasks = {task.id: task for task in network.tasks}
    row = {task: _release(fixed.get(task)) for task in tasks}
    came: list[dict[str, Link]] = []
    for _ in range(len(tasks) + 1):
        clash = _clash(row, tasks, fixed, hours)
        if clash is not None:
            first, links = _traced(clash, came)
            found = _as_chain(first, links, row[clash], fixed, hours.end(tasks[clash], row[clash]))
            return replace(found, release=hours.opening(tasks[first], found.release))
        ends = {task: hours.end(tasks[task], start) for task, start in row.items()}
        further = dict(row)
        step: dict[str, Link] = {}
        for link in network.links:
            start = _earliest(link, row, ends, tasks)
            if start > further[link.after] + _SLACK and not _is_done(fixed.get(link.after)):
                further[link.after] = start
                step[link.after] = link
        if not step:
            return None
        came.append(step)
        row = further
    return None


def _earliest(
    link: Link, row: Mapping[str, float], ends: Mapping[str, float], tasks: Mapping[str, Task]
) -> float:
    lag = link.lag / _HOUR
    if link.kind == "start_start":
        return row[link.before] + lag
    if link.kind == "finish_finish":
        return ends[link.before] + lag - tasks[link.after].duration.likely / _HOUR
    return ends[link.before] + lag


def _release(fixed: Fixed | None) -> float:
    if fixed is None:
        return 0.0
    if _is_done(fixed):
        known = fixed.end_hour if fixed.start_hour is None else fixed.start_hour
        return 0.0 if known is None else float(known)
    given = [hour for hour in (fixed.start_hour, fixed.not_before) if hour is not None]
    return float(max(given, default=0))


def _is_done(fixed: Fixed | None) -> bool:
    return fixed is not None and fixed.done


def _clash(
    row: Mapping[str, float], tasks: Mapping[str, Task], fixed: Mapping[str, Fixed], hours: _Hours
) -> str | None:
    for task_id, given in fixed.items():
        if task_id not in row or given.done:
            continue
        start = row[task_id]
        if given.start_hour is not None and start > given.start_hour + _SLACK:
            return task_id
        limit = _end_limit(given)
        if limit is not None and hours.end(tasks[task_id], start) > limit + _SLACK:
            return task_id
    return None


def _end_limit(given: Fixed) -> int | None:
    limits = [hour for hour in (given.not_after, given.end_hour) if hour is not None]
    return min(limits, default=None)


def _traced(last: str, came: Sequence[Mapping[str, Link]]) -> tuple[str, tuple[Link, ...]]:
    """Return where the chain to a task begins, and its links."""
    links: list[Link] = []
    at = last
    for step in reversed(came):
        link = step.get(at)
        if link is not None:
            links.append(link)
            at = link.before
    return at, tuple(reversed(links))


def _as_chain(
    first: str, links: tuple[Link, ...], start: float, fixed: Mapping[str, Fixed], end: float
) -> _Chain:
    last = links[-1].after if links else first
    given = fixed[last]
    starts = given.start_hour is not None and start > given.start_hour + _SLACK
    limit = given.start_hour if starts else _end_limit(given)
    return _Chain(
        first=first,
        links=links,
        last=last,
        release=_release(fixed.get(first)),
        reached=start if starts else end,
        limit=math.inf if limit is None else float(limit),
        begin=fixed.get(first),
        end=given,
        starts=starts,
    )


def _circle_words(circle: Sequence[Link], tasks: Mapping[str, Task]) -> tuple[str, ...]:
    found = [_link_words(link, tasks) for link in circle]
    return (*found, f"So {_named(circle[0].before, tasks)} would have to be done before itself.")


def _shut_words(task: Task) -> tuple[str, ...]:
    needs = _needs(task)
    return (
        f"{task.title} ({task.id}) needs {needs or 'working hours'}, and the calendar has none.",
    )


def _needs(task: Task) -> str:
    """Return what a task asks of the calendar beyond working hours, empty where nothing."""
    needs = ["the crane"] if task.crane else []
    needs += [] if task.window is None else [f"hours of the class {task.window}"]
    return " and ".join(needs)


def _chain_words(
    chain: _Chain, tasks: Mapping[str, Task], told: Callable[[float], str]
) -> tuple[str, ...]:
    begin = f"{_named(chain.first, tasks)} starts at {told(chain.release)} at the earliest"
    needs = _needs(tasks[chain.first])
    begin = f"{begin}, since it needs {needs}" if needs else begin
    if chain.begin is not None and chain.begin.reason:
        begin = f"{begin}: {chain.begin.reason}"
    verb = "start" if chain.starts else "be done"
    reached = "the calendar's end or later" if math.isinf(chain.reached) else told(chain.reached)
    why = f" ({chain.end.reason})" if chain.end.reason else ""
    asked = f"but it is asked to {verb} by {told(chain.limit)}{why}"
    return (
        f"{begin}.",
        *(_link_words(link, tasks) for link in chain.links),
        f"So {_named(chain.last, tasks)} cannot {verb} before {reached}, {asked}.",
    )


def _link_words(link: Link, tasks: Mapping[str, Task]) -> str:
    wait = f", {link.lag / _HOUR:g} h later" if link.lag > 0 else ""
    return (
        f"{_named(link.after, tasks)} comes after {_named(link.before, tasks)}{wait}: "
        f"{link.reason} [{link.rule}]."
    )


def _named(task_id: str, tasks: Mapping[str, Task]) -> str:
    task = tasks.get(task_id)
    return task_id if task is None else f"‘{task.title}’ ({task_id})"
