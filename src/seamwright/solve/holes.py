"""The starts that can ever be used: those for which every neighbor by a link has a time as well.

A panel goes up within the hour its beads stay open, so it cannot be set at seven, nor in an hour in
which no bead may be laid before it; a roof panel that must be covered the same day is not begun in
the afternoon. Such holes follow from two tasks alone. Taken out beforehand, they close hours to
whole crews, which is what bounds the work of a day.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from seamwright.schedule.calendar_steps import Flags, Gap, Job, Steppings
from seamwright.schedule.greedy_bundles import same_day_groups

Steps = NDArray[np.int64]

ROUNDS = 12
"""How often all links are followed at most. Our own choice; more would take out more."""


@dataclass(slots=True)
class _Sieve:
    """The jobs so far, and the names of those that lost starts since they were last looked at."""

    site: Steppings
    jobs: dict[str, Job]
    fresh: set[str] = field(default_factory=set)

    def keep(self, name: str, chosen: Flags | slice) -> None:
        """Keep some starts of an open job, unless that would leave it none."""
        job = self.jobs[name]
        starts = job.starts[chosen]
        if not job.done and 0 < starts.size < job.starts.size:
            self.jobs[name] = replace(job, starts=starts, ends=job.ends[chosen])
            self.fresh.add(name)


def without_holes(site: Steppings, last: int) -> Steppings:
    """Return the site without the starts that no plan ending by the step `last` can use.

    A start is left out where a link's other task has no time that goes with it. Tasks already done
    and tasks left without any start stay as they are, so that a contradiction can still be told.
    """
    sieve = _Sieve(site, dict(site.jobs))
    for name, job in site.jobs.items():
        sieve.keep(name, slice(0, int(np.searchsorted(job.ends, last, side="right"))))
    for gap in (*site.gaps, *reversed(site.gaps)) * 2:
        _bound(sieve, gap)
    groups = same_day_groups(site)
    together = frozenset((a, b) for group in groups for a in group for b in group)
    changed = set(site.jobs)
    for _ in range(ROUNDS):
        sieve.fresh = set()
        for group in groups:
            if changed & set(group):
                _one_day(sieve, group)
        _all_links(sieve, changed, together)
        changed = sieve.fresh
        if not changed:
            break
    return replace(site, jobs=sieve.jobs)


def _all_links(sieve: _Sieve, changed: set[str], together: frozenset[tuple[str, str]]) -> None:
    """Follow all links with a task that changed, forward and back."""
    for gap in (*sieve.site.gaps, *reversed(sieve.site.gaps)):
        one, other = gap.link.before, gap.link.after
        if one in changed or other in changed or one in sieve.fresh or other in sieve.fresh:
            _bound(sieve, gap)
            tied = (one, other) in together
            if tied or gap.most is not None:
                _follow(sieve, gap, tied=tied)


def _bound(sieve: _Sieve, gap: Gap) -> None:
    """Take out the starts before the first and after the last that a link leaves."""
    one, other = sieve.jobs[gap.link.before], sieve.jobs[gap.link.after]
    if not (one.starts.size and other.starts.size):
        return
    here = one.ends if gap.from_end else one.starts
    there = other.ends if gap.to_end else other.starts
    first = int(np.searchsorted(there, here[0] + gap.least))
    final = int(np.searchsorted(here, there[-1] - gap.least, side="right"))
    if first:
        sieve.keep(gap.link.after, slice(first, None))
    if final < here.size:
        sieve.keep(gap.link.before, slice(0, final))


def _follow(sieve: _Sieve, gap: Gap, *, tied: bool) -> None:
    """Take out the starts of two closely tied tasks that leave the other no time."""
    one, other = sieve.jobs[gap.link.before], sieve.jobs[gap.link.after]
    if not (one.starts.size and other.starts.size):
        return
    here = one.ends if gap.from_end else one.starts
    there = other.ends if gap.to_end else other.starts
    days = tied and not (one.done or other.done)
    a, b = int(gap.from_end and one.length > 0), int(gap.to_end and other.length > 0)
    before = np.searchsorted(here, there - gap.least, side="right") - 1
    good = _kept(gap, here[np.maximum(before, 0)], there) & (before >= 0)
    after = np.searchsorted(there, here + gap.least)
    met = there[np.minimum(after, there.size - 1)]
    sound = _kept(gap, here, met) & (after < there.size)
    if days:
        site = sieve.site
        good &= _days(site, here[np.maximum(before, 0)] - a) == _days(site, there - b)
        sound &= _days(site, here - a) == _days(site, met - b)
    sieve.keep(gap.link.after, good)
    sieve.keep(gap.link.before, sound)


def _kept(gap: Gap, here: Steps, there: Steps) -> Flags:
    """Return for each pair of points whether it keeps the longest wait."""
    if gap.most is None:
        return np.ones(here.size, dtype=np.bool_)
    kept: Flags = np.less_equal(there - here, gap.most)
    return kept


def _one_day(sieve: _Sieve, group: Iterable[str]) -> None:
    """Take out the starts on days on which not every task of a group can begin and end."""
    site, jobs = sieve.site, sieve.jobs
    names = [name for name in group if not jobs[name].done and jobs[name].starts.size]
    days: Steps | None = None
    inside = {name: _in_a_day(site, jobs[name]) for name in names}
    for name in names:
        own = np.unique(_days(site, jobs[name].starts[inside[name]]))
        days = own if days is None else np.intersect1d(days, own)
    for name in names:
        if days is not None:
            sieve.keep(name, np.isin(_days(site, jobs[name].starts), days) & inside[name])


def _in_a_day(site: Steppings, job: Job) -> Flags:
    last = np.maximum(job.starts, job.ends - 1)
    kept: Flags = np.equal(_days(site, job.starts), _days(site, last))
    return kept


def _days(site: Steppings, points: Steps) -> Steps:
    return (points + site.first) // site.per_day
