"""Better plans by other lists: which task comes first where several could.

A list of ranks makes a plan in a blink, so that many can be tried. Lists by the latest starts of
the best plan so far, shaken a little, end earlier on large sites, where no search gets through.
Lists that put the work of some hours in order place by place spare moves of the scaffold.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator, Mapping
from itertools import pairwise

from seamwright.schedule.calendar_steps import Steppings
from seamwright.schedule.float_time import latest_starts
from seamwright.schedule.greedy import GreedyPlan, Place, plan_greedily
from seamwright.schedule.greedy_bundles import Bundle, bundles
from seamwright.solve.soft import place_name, toll

SHAKEN = 0.15
"""Part of the whole time by which a rank is shaken at most. Our own choice."""

SPANS = (1, 2, 4, 8, 16, 32, 64)
"""Parts into which the whole time is cut, to be put in order anew. Our own choice."""

Ranks = dict[str, float]


def earlier_end(
    site: Steppings,
    first: GreedyPlan,
    *,
    seed: int,
    wait: Callable[[], bool],
    tell: Callable[[int], None] | None = None,
) -> GreedyPlan:
    """Return the plan of the list that ends first; `wait` says whether there is time for another.

    The first list is that of the latest starts; the others are shaken, less and more.
    """
    rng = random.Random(seed)  # noqa: S311 for trying, not for secrets
    groups = bundles(site)
    best = first
    base = _by_latest(site, best)
    shake = 0.0
    while wait():
        ranks = {n: r + shake * best.end * rng.uniform(-1.0, 1.0) for n, r in base.items()}
        found = plan_greedily(site, ranks, groups)
        if not found.stuck and found.end < best.end:
            best, base = found, _by_latest(site, found)
            if tell is not None:
                tell(best.end)
        shake = SHAKEN * rng.random() ** 2
    return best


def fewer_moves(
    site: Steppings, places: Mapping[str, Place], *, wait: Callable[[], bool]
) -> Mapping[str, Place]:
    """Return a plan that ends no later and moves less; `wait` says whether to go on trying.

    The tasks of one crew, or of all, between two hours are put back in another order, place by
    place, into the time they leave, while all others lie still. What spares moves, then evens the
    crews, is kept.
    """
    end = max((place.end for place in places.values()), default=0)
    groups = bundles(site)
    best, cost = places, toll(site, places)
    gained = True
    while gained and wait():
        gained = False
        for crew, low, high in _spans(site, end):
            if not wait():
                break
            for ranks in _place_by_place(site, best, crew, low, high):
                found = _put_back(site, best, ranks, groups, end)
                new = toll(site, found)
                if new < cost:
                    best, cost, gained = found, new, True
    return best


def joined_visits(
    site: Steppings,
    places: Mapping[str, Place],
    *,
    wait: Callable[[], bool],
    seed: int,
) -> Mapping[str, Place]:
    """Return a plan that ends no later and moves less; `wait` says whether to go on trying.

    Two visits of a crew to one place are joined where that can be: all its work from the first to
    the second is put back, that of the place first or last, while all others lie still. Pairs are
    tried in an order drawn anew after each gain, until none gains.
    """
    rng = random.Random(seed)  # noqa: S311 for trying, not for secrets
    end = max((place.end for place in places.values()), default=0)
    groups = bundles(site)
    best, cost = places, toll(site, places)
    gained = True
    while gained and wait():
        gained = False
        pairs = list(_returns(site, best))
        rng.shuffle(pairs)
        for crew, where, low, high in pairs:
            if not wait():
                break
            for ranks in _one_first(site, best, crew, where, low, high):
                found = _put_back(site, best, ranks, groups, end)
                new = toll(site, found)
                if new < cost:
                    best, cost, gained = found, new, True
                    break
    return best


def _put_back(
    site: Steppings,
    places: Mapping[str, Place],
    ranks: Ranks,
    groups: tuple[Bundle, ...],
    end: int,
) -> Mapping[str, Place]:
    """Return the plan with the ranked tasks put back by rank, all others held; as it was where
    that cannot be or ends later than `end`.
    """
    held = {name: place for name, place in places.items() if name not in ranks}
    found = plan_greedily(site, ranks, groups, held=held)
    return places if found.stuck or found.end > end else found.places


def _returns(site: Steppings, places: Mapping[str, Place]) -> Iterator[tuple[str, str, int, int]]:
    """Yield crew, place and the steps from one visit's begin to the end of the next one."""
    visits: dict[tuple[str, str], list[list[int]]] = {}
    last: dict[str, str] = {}
    for name in sorted(places, key=lambda n: (places[n].start, places[n].end, n)):
        place, where = places[name], place_name(site.jobs[name].task)
        if not place.crew or not where:
            continue
        known = visits.setdefault((place.crew, where), [])
        if last.get(place.crew) == where:
            known[-1][1] = max(known[-1][1], place.end)
        else:
            known.append([place.start, place.end])
        last[place.crew] = where
    for (crew, where), found in visits.items():
        for one, other in pairwise(found):
            yield crew, where, one[0], other[1]


def _one_first(  # noqa: PLR0917 a pair of visits, as `_returns` tells it
    site: Steppings, places: Mapping[str, Place], crew: str, where: str, low: int, high: int
) -> Iterator[Ranks]:
    """Yield ranks for a crew's tasks in a span: those of a place first, then last."""
    inside = {
        name: place.start
        for name, place in places.items()
        if place.crew == crew and low <= place.start < high and not site.jobs[name].done
    }
    for at in (low - 1, high + 1):
        yield {
            name: -float(at if place_name(site.jobs[name].task) == where else start)
            for name, start in inside.items()
        }


def _by_latest(site: Steppings, plan: GreedyPlan) -> Ranks:
    return {name: -float(at) for name, at in latest_starts(site, plan.places).items()}


def _spans(site: Steppings, end: int) -> Iterator[tuple[str | None, int, int]]:
    """Yield crews (None: all) and hours between which they are looked at, long spans first."""
    for part in SPANS:
        length = max(1, end // part)
        for low in range(0, end, max(1, length // 2)):
            for crew in (*site.crews, None):
                yield crew, low, low + length


def _place_by_place(
    site: Steppings, places: Mapping[str, Place], crew: str | None, low: int, high: int
) -> Iterator[Ranks]:
    """Yield ranks for the tasks in a span, those of one place after those of another.

    Places follow by when the work there begins, lies on average, and ends.
    """
    chosen: dict[str, list[str]] = {}
    for name, place in places.items():
        job = site.jobs[name]
        inside = low <= place.start and place.end <= high and not job.done and place.crew
        if inside and crew in {None, place.crew}:
            chosen.setdefault(place_name(job.task), []).append(name)
    if len(chosen) < 2 or all(len(names) < 2 for names in chosen.values()):
        return
    for at in (min, _middle, max):
        yield {
            name: -float(at([places[n].start for n in names]))
            for names in chosen.values()
            for name in names
        }


def _middle(starts: list[int]) -> float:
    return sum(starts) / len(starts)
