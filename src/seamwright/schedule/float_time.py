"""How far each task can slip before the end moves, and which tasks are the critical chain.

The plan's own order is kept: who follows whom on each pair of hands and on the crane, besides the
links. Each task alone is moved as late as what follows it lets it, in the hours it may be done in.
"""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from seamwright.schedule.calendar_steps import Job, Steppings
from seamwright.schedule.greedy import Place
from seamwright.schedule.greedy_bundles import same_day_groups

Handover = tuple[str, str]
"""A task, and the one that takes over hands or crane from it."""

ROUNDS = 60
"""How often longest waits and days are looked at again at most. Our own choice."""


def latest_starts(site: Steppings, places: Mapping[str, Place]) -> dict[str, int]:
    """Return the latest start of each task that leaves the last end of the plan where it is."""
    finish = max((place.end for place in places.values()), default=0)
    late_end = dict.fromkeys(places, finish)
    late_start = {name: places[name].start for name in places}
    order = sorted(places, key=lambda n: (places[n].start, places[n].end), reverse=True)
    after = _followers(site, places)
    caps: dict[str, int] = {}
    for _ in range(ROUNDS):
        for name in order:
            bound = min(
                [
                    finish,
                    *(
                        (late_end[other] if to_end else late_start[other]) - wait
                        for other, to_end, wait in after[name]
                    ),
                ]
            )
            start = _snapped(site.jobs[name], places[name], bound, caps.get(name))
            late_start[name] = start
            late_end[name] = _end_at(site.jobs[name], places[name], start)
        changed = _capped(site, places, late_start, late_end)
        if all(caps.get(name, value) <= value and name in caps for name, value in changed.items()):
            break
        for name, value in changed.items():
            caps[name] = min(value, caps.get(name, value))
    return late_start


def handovers(site: Steppings, places: Mapping[str, Place]) -> tuple[Handover, ...]:
    """Return who takes over from whom: on each pair of hands of a crew, and on the crane.

    Hands are dealt out in the order of the starts, those free the longest first.
    """
    found: dict[Handover, None] = {}
    order = sorted(places, key=lambda n: (places[n].start, places[n].end))
    hands: dict[str, list[tuple[int, str]]] = {
        crew.id: [(0, "")] * crew.size for crew in site.crews.values()
    }
    hook = ""
    for name in order:
        job, place = site.jobs[name], places[name]
        if job.length == 0 or job.done:
            continue
        if place.crew in hands:
            queue = sorted(hands[place.crew])
            taken, rest = queue[: job.task.crew_size], queue[job.task.crew_size :]
            found |= {(last, name): None for _, last in taken if last}
            hands[place.crew] = rest + [(place.end, name)] * job.task.crew_size
        if job.task.crane:
            found |= {(hook, name): None} if hook else {}
            hook = name
    return tuple(found)


def _followers(
    site: Steppings, places: Mapping[str, Place]
) -> dict[str, list[tuple[str, bool, int]]]:
    """Return what follows each task's end: the other, whether its end waits, and how long."""
    after: dict[str, list[tuple[str, bool, int]]] = {name: [] for name in places}
    for gap in site.gaps:
        if gap.from_end:  # a start that others wait for is met through its end, on the safe side
            after[gap.link.before].append((gap.link.after, gap.to_end, gap.least))
        else:
            length = places[gap.link.before].end - places[gap.link.before].start
            after[gap.link.before].append((gap.link.after, gap.to_end, gap.least - length))
    for one, other in handovers(site, places):
        after[one].append((other, False, 0))
    return after


def _snapped(job: Job, place: Place, bound: int, cap: int | None) -> int:
    """Return the latest start after which a task ends by `bound`, never before its own place."""
    if job.done:
        return place.start
    keep = job.ends <= bound
    if cap is not None:
        keep &= job.starts <= cap
    if not keep.any():
        return place.start
    return max(place.start, int(job.starts[np.flatnonzero(keep)[-1]]))


def _end_at(job: Job, place: Place, start: int) -> int:
    if start == place.start:
        return place.end
    return int(job.ends[np.searchsorted(job.starts, start)])


def _capped(
    site: Steppings,
    places: Mapping[str, Place],
    late_start: Mapping[str, int],
    late_end: Mapping[str, int],
) -> dict[str, int]:
    """Return the tasks that longest waits and days hold back, with their latest start."""
    caps: dict[str, int] = {}
    for gap in site.gaps:
        one, other = gap.link.before, gap.link.after
        if gap.most is None or site.jobs[other].done:
            continue
        here = late_end[one] if gap.from_end else late_start[one]
        there = late_end[other] if gap.to_end else late_start[other]
        if there - here > gap.most:
            caps[other] = late_start[other] - (there - here - gap.most)
    for group in same_day_groups(site):
        days = {n: site.day(max(late_start[n], late_end[n] - 1)) for n in group}
        least = min(site.day(late_start[n]) for n in group)
        for name in group:
            if days[name] > least:
                caps[name] = (least + 1) * site.per_day - site.first - 1
    return {name: max(cap, places[name].start) for name, cap in caps.items()}


def floats(site: Steppings, places: Mapping[str, Place]) -> dict[str, int]:
    """Return how far each task can slip before the end moves. [working steps]"""
    late = latest_starts(site, places)
    worked = site.worked
    return {
        name: max(0, int(worked[late[name]] - worked[place.start]))
        for name, place in places.items()
    }


def critical_chain(
    site: Steppings, places: Mapping[str, Place], slack: Mapping[str, int]
) -> tuple[str, ...]:
    """Return the chain that drives the end: each task is what the next one waits for.

    It is followed back from the task that ends last, to the forerunner with the least working time
    between; tasks without any float belong to it too.
    """
    before: dict[str, list[tuple[str, int]]] = {name: [] for name in places}
    for name, followers in _followers(site, places).items():
        for other, to_end, wait in followers:
            if not to_end:
                before[other].append((name, wait))
    open_tasks = [name for name in places if not site.jobs[name].done]
    found = {name for name in open_tasks if slack[name] == 0}
    at = max(open_tasks, key=lambda n: (places[n].end, places[n].start), default=None)
    while at is not None:
        found.add(at)
        at = _driver(site, places, at, before[at])
    return tuple(sorted(found, key=lambda n: (places[n].start, places[n].end, n)))


def _driver(
    site: Steppings, places: Mapping[str, Place], name: str, before: list[tuple[str, int]]
) -> str | None:
    """Return the open forerunner that leaves a task the least working time to spare."""
    last = site.worked.size - 1

    def spare(row: tuple[str, int]) -> tuple[int, int, str]:
        ready = min(last, max(0, places[row[0]].end + row[1]))
        gap = int(site.worked[min(last, places[name].start)] - site.worked[ready])
        return (gap, -places[row[0]].start, row[0])

    able = [row for row in before if not site.jobs[row[0]].done]
    return min(able, key=spare)[0] if able else None
