"""A plan at once: tasks one after another, each as early as crews, hours and links let it.

Which task comes first where several could is decided by a rank; the usual one is the longest chain
of work behind a task. Tasks tied by a short longest gap (a bead and the panel that closes on it) or
to one day (a roof panel and its cover) are placed together. The plan is a baseline, and the first
answer that a search starts from.
"""

from __future__ import annotations

import heapq
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np

from seamwright.schedule.calendar_steps import Flags, Gap, Job, Steppings
from seamwright.schedule.greedy_bundles import Bundle, bundles

TRIES = 400
"""How often the tasks of one bundle may be moved before it is given up. Our own choice."""


LOOK = 96
"""Starts looked at in one go at first; four times as many each further time. Our own choice."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Place:
    """Where a job lies: steps, and its crew (empty where it takes no time)."""

    start: int
    end: int
    crew: str


@dataclass(frozen=True, kw_only=True, slots=True)
class GreedyPlan:
    """Places by task id; `stuck` names the tasks for which no place was found."""

    places: Mapping[str, Place]
    stuck: tuple[str, ...] = ()

    @property
    def end(self) -> int:
        """Return the last end. [steps]"""
        return max((place.end for place in self.places.values()), default=0)


def plan_greedily(
    site: Steppings,
    rank: Mapping[str, float] | None = None,
    groups: Sequence[Bundle] | None = None,
    *,
    held: Mapping[str, Place] | None = None,
) -> GreedyPlan:
    """Return a plan by the ranks of the tasks, the greatest first; None ranks by `tails`.

    `groups` are the site's bundles, where they are known; `held` are places that stay. A task that
    finds no place leaves itself and what comes after it out.
    """
    ranks = tails(site) if rank is None else rank
    desk = _Desk(site)
    for name, place in ({} if held is None else held).items():
        desk.hold(name, place)
    groups = bundles(site) if groups is None else groups
    waiting = {bundle.id: len(bundle.before) for bundle in groups}
    after: dict[int, list[Bundle]] = {bundle.id: [] for bundle in groups}
    for bundle in groups:
        for number in bundle.before:
            after[number].append(bundle)
    queue = [_key(bundle, ranks) for bundle in groups if not waiting[bundle.id]]
    heapq.heapify(queue)
    by_id = {bundle.id: bundle for bundle in groups}
    stuck: list[str] = []
    while queue:
        bundle = by_id[heapq.heappop(queue)[-1]]
        if not desk.put(bundle):
            stuck += bundle.members
            continue
        for follower in after[bundle.id]:
            waiting[follower.id] -= 1
            if not waiting[follower.id]:
                heapq.heappush(queue, _key(follower, ranks))
    return GreedyPlan(places=desk.places, stuck=tuple(stuck))


def _key(bundle: Bundle, ranks: Mapping[str, float]) -> tuple[float, int, int]:
    return (-max(ranks.get(name, 0.0) for name in bundle.members), bundle.order, bundle.id)


def tails(site: Steppings) -> dict[str, float]:
    """Return for each task the work and waits that follow its start, along the longest chain."""
    after: dict[str, list[Gap]] = {name: [] for name in site.jobs}
    for gap in site.gaps:
        after[gap.link.before].append(gap)
    found: dict[str, float] = {}
    for bundle in reversed(bundles(site)):
        for name in reversed(bundle.members):
            follow = [
                found.get(g.link.after, 0.0) + g.least + (site.jobs[name].length * g.from_end)
                for g in after[name]
            ]
            found[name] = max([float(site.jobs[name].length), *follow])
    return found


@dataclass(slots=True)
class _Desk:
    """What lies where: the people of each crew still free in every step, and the places given."""

    site: Steppings
    places: dict[str, Place] = field(default_factory=dict)
    free: dict[str, np.ndarray] = field(default_factory=dict)
    crane: Flags = field(default_factory=lambda: np.zeros(0, dtype=np.bool_))
    loads: dict[str, int] = field(default_factory=dict)
    before: dict[str, list[Gap]] = field(default_factory=dict)
    after: dict[str, list[Gap]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        count = self.site.working.size + 1
        self.free = {c.id: np.full(count, c.size) for c in self.site.crews.values()}
        self.crane = np.ones(count, dtype=np.bool_)
        self.loads = dict.fromkeys(self.site.crews, 0)
        self.before = {name: [] for name in self.site.jobs}
        self.after = {name: [] for name in self.site.jobs}
        for gap in self.site.gaps:
            self.before[gap.link.after].append(gap)
            self.after[gap.link.before].append(gap)
        for name, job in self.site.jobs.items():
            if job.done:
                crew = job.crews[0] if job.crews else ""
                self._take(name, Place(start=int(job.starts[0]), end=int(job.ends[0]), crew=crew))

    def hold(self, name: str, place: Place) -> None:
        """Take a place that stays."""
        if name not in self.places:
            self._take(name, place)

    def put(self, bundle: Bundle) -> bool:
        """Place every member of a bundle, or none; return whether it could be done."""
        least = dict.fromkeys(bundle.members, 0)
        members = [name for name in bundle.members if name not in self.places]
        at = 0
        for _ in range(TRIES * max(1, len(members))):
            if at == len(members):
                return True
            place = self._earliest(members[at], least[members[at]])
            if place is None:
                break
            self._take(members[at], place)
            if self._is_torn(members[at], members[: at + 1], bundle):
                break
            back = self._pulled(members[: at + 1], bundle, least)
            at = at + 1 if back is None else back
            for name in members[at:] if back is not None else ():
                self._give_back(name)
        for name in members:
            self._give_back(name)
        return False

    def _is_torn(self, name: str, placed: Sequence[str], bundle: Bundle) -> bool:
        """Return whether a task cannot lie here for others that stay where they are.

        That is one it waits for too long ago, one on another day, or one it comes before, in a
        circle or because that one is held, too late or too early for it.
        """
        place = self.places[name]
        for gap in self.after[name]:
            follower = self.places.get(gap.link.after)
            if follower is not None and gap.link.after != name and not self._is_done(gap):
                there = follower.end if gap.to_end else follower.start
                here = place.end if gap.from_end else place.start
                if there < here + gap.least or (gap.most is not None and there - here > gap.most):
                    return True
        for gap in self.before[name]:
            other = gap.link.before
            if gap.most is not None and other in bundle.members and other not in placed:
                there = place.end if gap.to_end else place.start
                here = self.places[other].end if gap.from_end else self.places[other].start
                if there - here > gap.most:
                    return True
        days = [
            self.site.day(self.places[other].start)
            for group in bundle.same_day
            if name in group
            for other in group
            if other in self.places and other not in placed and not self.site.jobs[other].done
        ]
        return any(day != self.site.day(max(place.start, place.end - 1)) for day in days)

    def _is_done(self, gap: Gap) -> bool:
        return self.site.jobs[gap.link.after].done

    def _pulled(self, placed: Sequence[str], bundle: Bundle, least: dict[str, int]) -> int | None:
        """Return the first member that must start later because the last one came so late.

        Its least start is raised in `least`; None means that all longest gaps are kept.
        """
        name = placed[-1]
        place = self.places[name]
        moved: list[int] = []
        for gap in self.before[name]:
            other = gap.link.before
            if gap.most is None or other not in placed:
                continue
            there = place.end if gap.to_end else place.start
            here = self.places[other].end if gap.from_end else self.places[other].start
            if there - here > gap.most:
                least[other] = self.places[other].start + (there - here - gap.most)
                moved.append(placed.index(other))
        for group in bundle.same_day:
            if name in group:
                moved += self._on_its_day(group, placed, least)
        return min(moved, default=None)

    def _on_its_day(
        self, group: Sequence[str], placed: Sequence[str], least: dict[str, int]
    ) -> list[int]:
        """Return the placed members of a group that lie before its last day, raising their least
        starts to that day.
        """
        lying = [name for name in group if name in placed]
        ends = [max(self.places[n].start, self.places[n].end - 1) for n in lying]
        day = max(map(self.site.day, ends))
        early = [name for name in lying if self.site.day(self.places[name].start) < day]
        for name in early:
            least[name] = day * self.site.per_day - self.site.first
        return [placed.index(name) for name in early]

    def _earliest(self, name: str, least: int) -> Place | None:
        job = self.site.jobs[name]
        bound = max([least, *(self._bound(gap) for gap in self.before[name])])
        first = int(np.searchsorted(job.starts, bound))
        need_end = self._needed_end(name)
        span = LOOK
        while first < job.starts.size:
            part = slice(first, first + span)
            found = self._among(job, job.starts[part], job.ends[part], need_end)
            if found is not None:
                return found
            first, span = first + span, 4 * span
        return None

    def _among(self, job: Job, starts: np.ndarray, ends: np.ndarray, need_end: int) -> Place | None:
        """Return the first free place among some starts, of the crew that ends first."""
        if need_end > 0:
            keep = ends >= need_end
            starts, ends = starts[keep], ends[keep]
        if not starts.size:
            return None
        if job.length == 0:
            return Place(start=int(starts[0]), end=int(ends[0]), crew="")
        found = [self._with_crew(job, crew, starts, ends) for crew in job.crews]
        able = [place for place in found if place is not None]
        return min(able, key=lambda p: (p.end, self.loads[p.crew], p.crew), default=None)

    def _bound(self, gap: Gap) -> int:
        """Return the least start by a link whose other end lies; 0 if it does not."""
        if gap.to_end or gap.link.before not in self.places:
            return 0
        other = self.places[gap.link.before]
        return (other.end if gap.from_end else other.start) + gap.least

    def _needed_end(self, name: str) -> int:
        ends = [
            self.places[g.link.before].end + g.least
            for g in self.before[name]
            if g.to_end and g.link.before in self.places
        ]
        return max(ends, default=0)

    def _with_crew(self, job: Job, crew: str, starts: np.ndarray, ends: np.ndarray) -> Place | None:
        low, high = int(starts[0]), int(ends[-1])
        busy = self.free[crew][low:high] < job.task.crew_size
        if job.task.crane:
            busy |= ~self.crane[low:high]
        taken = np.zeros(high - low + 1, dtype=np.int64)
        np.cumsum(busy, out=taken[1:])
        open_ = np.flatnonzero(taken[ends - low] == taken[starts - low])
        if not open_.size:
            return None
        return Place(start=int(starts[open_[0]]), end=int(ends[open_[0]]), crew=crew)

    def _take(self, name: str, place: Place) -> None:
        self.places[name] = place
        self._count(name, place, -1)

    def _give_back(self, name: str) -> None:
        place = self.places.pop(name, None)
        if place is not None:
            self._count(name, place, 1)

    def _count(self, name: str, place: Place, sign: int) -> None:
        job = self.site.jobs[name]
        if place.crew in self.free:
            self.free[place.crew][place.start : place.end] += sign * job.task.crew_size
            self.loads[place.crew] -= sign * job.length
        if job.task.crane:
            self.crane[place.start : place.end] = sign > 0
