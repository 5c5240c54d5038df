"""How early a task can start at best, by trying: too early asks too much of somebody's hands.

For a start that is tried, every forerunner has a last hour to end by, led back over links, nights
and waits. All work of one pool of people that lies between two hours must fit into the hours that
are open between them; where it does not, the start is too early. What is found is proven.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from seamwright.schedule.calendar_steps import Steppings
from seamwright.solve.heads import Pool, heads, pools_of
from seamwright.solve.narrow import Span, narrowed


def first_start(site: Steppings, name: str, early: int, late: int) -> int:
    """Return the first start of a task, from `early` to `late`, that does not ask too much.

    `site` holds the task and the forerunners that are looked at; `late` is returned untried.
    """
    job = site.jobs[name]
    starts = job.starts[(job.starts >= early) & (job.starts <= late)]
    if job.done or not starts.size:
        return early
    pools, known = pools_of(site), heads(site)
    ends = job.ends[np.searchsorted(job.starts, starts)]
    tried = _first_good(ends, lambda end: _asks_too_much(site, end, pools, known))
    return int(starts[tried])


def least_end(site: Steppings, early: int, late: int, wait: Callable[[], bool]) -> int:
    """Return a step, from `early` to `late`, before which the work of a site cannot end.

    `wait` says whether there is time to try once more.
    """
    pools, known = pools_of(site), heads(site)
    ends = np.arange(early, late + 1)
    tried = _first_good(ends, lambda end: wait() and _asks_too_much(site, end, pools, known))
    return int(ends[tried])


def _first_good(ends: NDArray[np.int64], is_bad: Callable[[int], bool]) -> int:
    """Return the number of the first end not found bad; the last one is not tried."""
    if ends.size < 2 or not is_bad(int(ends[0])):
        return 0
    low, high = 1, ends.size - 1
    while low < high:
        middle = (low + high) // 2
        low, high = (middle + 1, high) if is_bad(int(ends[middle])) else (low, middle)
    return low


def _asks_too_much(
    site: Steppings, last: int, pools: Sequence[Pool], early: Mapping[str, int]
) -> bool:
    """Return whether the work of a site surely cannot end by the step `last`."""
    spans = narrowed(site, last, early)
    if any(first > final for first, final in spans.values()):
        return True
    return any(_overloaded(site, pool, spans) for pool in pools)


def _overloaded(site: Steppings, pool: Pool, spans: Mapping[str, Span]) -> bool:
    """Return whether the work between two hours is more than the open hours between them hold."""
    names = [name for name, chosen in zip(site.order, pool.members, strict=True) if chosen]
    if not names:
        return False
    begin = np.array([site.jobs[name].starts[spans[name][0]] for name in names])
    end = np.array([site.jobs[name].ends[spans[name][1]] for name in names])
    work = pool.work[pool.members]
    order = np.argsort(end, kind="stable")
    begin, end, work = begin[order], end[order], work[order]
    open_until = pool.counted[np.minimum(end, pool.counted.size - 1)]
    for first in np.unique(begin):
        inside = begin >= first
        need = np.cumsum(np.where(inside, work, 0))
        room = pool.size * (open_until - pool.counted[min(int(first), pool.counted.size - 1)])
        if bool((inside & (need > room)).any()):
            return True
    return False
