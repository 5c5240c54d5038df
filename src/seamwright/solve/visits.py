"""How few moves any plan needs: what the order of the work alone forces.

Each visit of a crew to a place but its first is a move. A place must be visited anew where work of
the crew elsewhere comes between two tasks there, whatever the days; the longest chain of such
returns is a bound that no plan goes below.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from seamwright.climate.arrays import Flags
from seamwright.schedule.calendar_steps import Steppings
from seamwright.solve.soft import place_name


def least_moves(site: Steppings) -> int:
    """Return a number of moves that no plan of the site goes below.

    Tasks that only one crew can do are counted by their chains; of others, each place counts once.
    Where a crew begins is no move.
    """
    names = [n for n, job in site.jobs.items() if job.length and job.crews]
    row = {name: k for k, name in enumerate(site.jobs)}
    before = _reach(site, row)
    own: dict[str, dict[str, list[int]]] = {}
    shared: set[tuple[tuple[str, ...], str]] = set()
    for name in names:
        job = site.jobs[name]
        where = place_name(job.task)
        if where and len(job.crews) == 1:
            own.setdefault(job.crews[0], {}).setdefault(where, []).append(row[name])
        elif where:
            shared.add((job.crews, where))
    alone = {(crew, where) for crew, places in own.items() for where in places}
    extra = {
        where for crews, where in shared if not any((crew, where) in alone for crew in crews)
    }  # fmt: skip
    crews = {crew for name in names for crew in site.jobs[name].crews}
    visits = len(extra) + sum(_visits(before, places) for places in own.values())
    return max(0, visits - len(crews))


def _visits(before: Flags, places: dict[str, list[int]]) -> int:
    """Return how many visits the chains of one crew's work force, over all its places."""
    count = 0
    for where, here in places.items():
        others = [k for place, rows in places.items() if place != where for k in rows]
        count += _returns(before, here, others)
    return count


def _returns(before: Flags, here: Sequence[int], others: Sequence[int]) -> int:
    """Return the most visits to a place along one chain through its tasks and work elsewhere."""
    away = before[np.ix_(here, others)].astype(np.float32)
    back = before[np.ix_(others, here)].astype(np.float32)
    apart = (away @ back) > 0
    visits = np.ones(len(here), dtype=np.int64)
    changed = True
    while changed:
        later = np.where(apart, visits[:, None] + 1, 1).max(axis=0)
        changed = bool((later > visits).any())
        visits = np.maximum(visits, later)
    return int(visits.max())


def _reach(site: Steppings, row: dict[str, int]) -> Flags:
    """Return whether a task must have ended before another starts, through any others."""
    found = np.zeros((len(row), len(row)), dtype=np.bool_)
    after: dict[str, list[str]] = {}
    for gap in site.gaps:
        if gap.from_end and not gap.to_end and gap.least >= 0:
            after.setdefault(gap.link.before, []).append(gap.link.after)
    for name in reversed(site.order):
        for other in after.get(name, ()):
            found[row[name]] |= found[row[other]]
            found[row[name], row[other]] = True
    return found
