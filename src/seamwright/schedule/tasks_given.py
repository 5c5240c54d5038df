"""What the user adds to the network: tasks, orders, and hours in which a task is banned."""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from seamwright.errors import InputError, Problem
from seamwright.schedule.links_order import in_order_of_work
from seamwright.schedule.rules import RULES
from seamwright.schedule.types import AddedTask, AskedLink, Calendar, DaysGiven, Link, Network


@dataclass(frozen=True, kw_only=True, slots=True)
class BannedHours:
    """Hours from `start` up to, not with, `end` in which a task must not be done."""

    task_id: str
    start: int
    end: int


def with_given(network: Network, given: DaysGiven) -> Network:
    """Return the network with the user's tasks and orders.

    An added task waits for the checked bearing where nothing else is given before it, and for
    nothing to follow it; a circle that an order closes is left for `explain_conflict` to tell.

    Raises
    ------
    InputError
        With every name that leads to no task, and every id used twice.
    """
    problems = [*_twice(network, given), *_unknown(network, given)]
    if problems:
        raise InputError(problems)
    tasks = (*network.tasks, *(added.task for added in given.tasks))
    links = [*network.links]
    for added in given.tasks:
        links += _links_of(added)
    links += [_asked(order) for order in given.order]
    place = {task.id: number for number, task in enumerate(tasks)}
    ranked = in_order_of_work(tasks, links, key=lambda task: place[task.id])
    return replace(network, tasks=ranked, links=tuple(links))


def with_bans(
    network: Network, calendar: Calendar, bans: Iterable[BannedHours]
) -> tuple[Network, Calendar]:
    """Return network and calendar in which banned tasks have a window of their own.

    The window is that of the task's class, or all working hours, without the banned hours.
    """
    spans: dict[str, list[BannedHours]] = {}
    for ban in bans:
        spans.setdefault(ban.task_id, []).append(ban)
    windows = dict(calendar.windows)
    extra: dict[str, tuple[int, ...]] = {}
    tasks = []
    for task in network.tasks:
        banned = spans.get(task.id)
        if banned is None:
            tasks.append(task)
            continue
        hours = calendar.working_hours
        if task.window is not None:
            hours = windows.get(task.window, calendar.working_hours)
        name = f"{task.window if task.window is not None else 'working'}, not {task.id}'s bans"
        extra[name] = tuple(h for h in hours if not any(b.start <= h < b.end for b in banned))
        tasks.append(replace(task, window=name))
    merged = (*calendar.windows, *extra.items())
    return replace(network, tasks=tuple(tasks)), replace(calendar, windows=merged)


def _links_of(added: AddedTask) -> list[Link]:
    reason = added.reason or RULES["user"].reason
    before = list(added.after) if added.after else ["base"]
    found = [
        Link(before=name, after=added.task.id, rule="user", reason=reason)
        for name in before
        if name != added.task.id
    ]
    found += [
        Link(before=added.task.id, after=name, rule="user", reason=reason)
        for name in (added.before or ("handover",))
    ]
    return found


def _asked(order: AskedLink) -> Link:
    reason = order.reason or RULES["user"].reason
    return Link(before=order.before, after=order.after, rule="user", reason=reason, lag=order.lag)


def _twice(network: Network, given: DaysGiven) -> Iterable[Problem]:
    seen = {task.id for task in network.tasks}
    for added in given.tasks:
        if added.task.id in seen:
            yield Problem(
                subject=f"task {added.task.id}",
                sentence=f"the task id ‘{added.task.id}’ is used before",
                remedy="give the added task an id of its own",
            )
        seen.add(added.task.id)


def _unknown(network: Network, given: DaysGiven) -> Iterable[Problem]:
    known = [*(task.id for task in network.tasks), *(added.task.id for added in given.tasks)]
    works = sorted({task.work for task in network.tasks})
    for subject, name in _names(given):
        if name not in known:
            yield _problem(subject, "task", name, known)
    for ban in given.bans:
        if ban.work is not None and ban.work not in works:
            yield _problem("a ban of the days part", "kind of work", ban.work, works)


def _names(given: DaysGiven) -> Iterable[tuple[str, str]]:
    for added in given.tasks:
        for name in (*added.after, *added.before):
            yield f"task {added.task.id}", name
    for order in given.order:
        yield from ((f"the order of {order.after}", name) for name in (order.before, order.after))
    for date in given.dates:
        yield f"the date of {date.task}", date.task
    for ban in given.bans:
        if ban.task is not None:
            yield "a ban of the days part", ban.task


def _problem(subject: str, what: str, name: str, known: Sequence[str]) -> Problem:
    close = difflib.get_close_matches(name, known, n=1)
    return Problem(
        subject=subject,
        sentence=f"{subject} names the {what} ‘{name[:60]}’, which is not there",
        remedy=f"did you mean ‘{close[0]}’?" if close else "the list of tasks shows every id",
    )
