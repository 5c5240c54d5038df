"""How early each task can start at best: chains of work, and the hands there are for what precedes.

Before a task, all its forerunners must be done. Those of them that one pool of people does, and
that cannot start before some hour, take at least their work divided by the people from then on. The
bound is followed from task to task, stage by stage, which the search alone finds hard to prove.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from seamwright.schedule.calendar_steps import Flags, Gap, Steppings

Steps = NDArray[np.int64]

MANY = 1200
"""Tasks up to which every start is bounded by hands; above, those that wait for `BUSY` others."""
BUSY = 4


@dataclass(frozen=True, kw_only=True, slots=True)
class Pool:
    """Tasks that share hands, and the steps in which any of them may be worked on."""

    members: NDArray[np.bool_]
    work: Steps
    size: int
    counted: Steps
    open: Steps


def heads(site: Steppings, proven: Mapping[str, int] | None = None) -> dict[str, int]:
    """Return for each task a step of the wall clock before which it cannot start.

    `proven` holds bounds known for some. A task that cannot start at all gets a step past the
    calendar.
    """
    known = {} if proven is None else proven
    names = list(site.order)
    index = {name: k for k, name in enumerate(names)}
    before: list[list[Gap]] = [[] for _ in names]
    for gap in site.gaps:
        before[index[gap.link.after]].append(gap)
    pools = pools_of(site)
    start = np.zeros(len(names), dtype=np.int64)
    end = np.zeros(len(names), dtype=np.int64)
    forerunners = np.zeros((len(names), len(names)), dtype=np.bool_)
    past = site.working.size + 1
    for k, name in enumerate(names):
        job = site.jobs[name]
        for gap in before[k]:
            other = index[gap.link.before]
            if gap.from_end and not gap.to_end:
                forerunners[k] |= forerunners[other]
                forerunners[k, other] = True
        bound = max([known.get(name, 0), *(_reached(gap, start, end, index) for gap in before[k])])
        if len(names) <= MANY or len(before[k]) >= BUSY:
            bound = max([bound, *(_by_hands(pool, forerunners[k], start) for pool in pools)])
        at = int(np.searchsorted(job.starts, 0 if job.done else bound))
        found = at < job.starts.size
        start[k] = job.starts[at] if found else past
        end[k] = job.ends[at:].min() if found else past
    return {name: int(start[k]) for k, name in enumerate(names)}


def with_heads(site: Steppings, early: Mapping[str, int]) -> Steppings:
    """Return the site without the starts that lie before what is proven."""
    jobs = {}
    for name, job in site.jobs.items():
        keep = job.starts >= (0 if job.done else early[name])
        jobs[name] = replace(job, starts=job.starts[keep], ends=job.ends[keep])
    return replace(site, jobs=jobs)


def _reached(gap: Gap, start: Steps, end: Steps, index: dict[str, int]) -> int:
    if gap.to_end:
        return 0
    other = index[gap.link.before]
    return int(end[other] if gap.from_end else start[other]) + gap.least


def _by_hands(pool: Pool, forerunners: NDArray[np.bool_], start: Steps) -> int:
    """Return the first step by which a pool can have done its share of the forerunners."""
    chosen = np.flatnonzero(forerunners & pool.members)
    if chosen.size < 2:
        return 0
    order = chosen[np.argsort(-start[chosen], kind="stable")]
    work = np.cumsum(pool.work[order])
    begun = pool.counted[np.minimum(start[order], pool.counted.size - 1)]
    need = begun + -(-work // pool.size)
    most = int(need.max())
    if most > pool.open.size:
        return int(pool.counted.size)
    return int(pool.open[most - 1]) + 1 if most > 0 else 0


def pools_of(site: Steppings) -> list[Pool]:
    """Return the pools: all work of crews that share tasks, parts of it by hours, and the crane."""
    names = list(site.order)
    jobs = [site.jobs[name] for name in names]
    people = np.array(
        [0 if job.done else job.length * job.task.crew_size for job in jobs], dtype=np.int64
    )
    open_steps = np.array([0 if job.done else job.length for job in jobs], dtype=np.int64)
    found = []
    for crews in _sharing(site):
        size = sum(site.crews[crew].size for crew in crews)
        members = np.array([bool(set(job.crews) & crews) and not job.done for job in jobs])
        found.append(_pool(members, people, size, site.working))
        for key in {(job.task.window, job.task.crane) for job in jobs}:
            part = members & np.array([(j.task.window, j.task.crane) == key for j in jobs])
            if part.any() and part.sum() < members.sum():
                found.append(_pool(part, people, size, _hours(site, names, part)))
    lifts = np.array([job.task.crane and not job.done for job in jobs])
    if lifts.any():
        found.append(_pool(lifts, open_steps, 1, _hours(site, names, lifts)))
    return found


def _sharing(site: Steppings) -> list[frozenset[str]]:
    """Return the crews in groups: two crews share a group where one task could go to either."""
    groups = [frozenset({crew}) for crew in site.crews]
    for crews in {job.crews for job in site.jobs.values() if len(job.crews) > 1}:
        touched = [group for group in groups if group & set(crews)]
        groups = [group for group in groups if group not in touched]
        groups.append(frozenset().union(*touched))
    return groups


def _hours(site: Steppings, names: list[str], members: Iterable[bool]) -> Flags:
    """Return the steps in which any of the members can be at work."""
    at_work = np.zeros(site.working.size + 1, dtype=np.int64)
    for name, chosen in zip(names, members, strict=True):
        if chosen and site.jobs[name].starts.size:
            np.add.at(at_work, site.jobs[name].starts, 1)
            np.add.at(at_work, site.jobs[name].ends, -1)
    return (np.cumsum(at_work)[:-1] > 0) & site.working


def _pool(members: NDArray[np.bool_], work: Steps, size: int, hours: Flags) -> Pool:
    return Pool(
        members=members,
        work=work,
        size=size,
        counted=np.concatenate([[0], np.cumsum(hours)]),
        open=np.flatnonzero(hours).astype(np.int64),
    )
