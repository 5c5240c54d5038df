"""Stage by stage: the work before each gate alone, to prove how early it opens and open it so.

A gate is a task that nearly all others come before or after, such as the closed shell. What comes
after one cannot start before it, so the least time to a gate, found on its own forerunners only,
bounds all that follows; and a plan that opens every gate early is a good one to go on from. The
bound needs no early choice: the stage's tasks are free, those of earlier stages left out.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from seamwright.schedule.calendar_steps import Job, Steppings
from seamwright.schedule.greedy import GreedyPlan, Place, plan_greedily
from seamwright.schedule.greedy_bundles import Bundle, bundles
from seamwright.solve.gates import Stage, stages_of
from seamwright.solve.heads import heads
from seamwright.solve.library import Solver
from seamwright.solve.model import build_model, hint
from seamwright.solve.overload import first_start
from seamwright.solve.search import Run, Wish, run_solver

ROUNDS = 4
"""How often every stage is looked at: what one round proves helps the next. Our own choice."""
SHARE = 0.12
"""Part of the time left that one search may take. Our own choice."""
LEAST = 0.1
"""Least time for which a search is begun. [s]"""


@dataclass(frozen=True, kw_only=True, slots=True)
class Staged:
    """A plan, and for each gate the step of the wall clock before which it cannot start."""

    plan: GreedyPlan
    proven: Mapping[str, int]


def plan_by_stages(
    cp: Solver,
    site: Steppings,
    first: GreedyPlan,
    *,
    seconds: float,
    seed: int,
    stop: Wish | None = None,
    tell: Callable[[int, int], None] | None = None,
) -> Staged:
    """Return a plan at least as good as `first`, and what was proven on the way.

    `tell` hears the end and the bound after each stage.
    """
    until = time.monotonic() + seconds
    work = _Work(cp=cp, site=site, seed=seed, stop=stop, plan=first, until=until)
    stages = stages_of(site)
    for again in range(ROUNDS):
        for number in range(len(stages)):
            if work.left < LEAST or (stop is not None and stop()):
                break
            _settle(work, stages, number, again=again > 0)
            if tell is not None and number + 1 < len(stages):
                bound = max(heads(site, work.proven).values(), default=0)
                tell(work.plan.end, min(bound, work.plan.end))
        if not stages or not work.is_open(stages[-1]):
            break
    return Staged(plan=work.plan, proven=work.proven)


@dataclass(slots=True)
class _Work:
    """The plan so far and what is proven, with what every search needs."""

    cp: Solver
    site: Steppings
    seed: int
    stop: Wish | None
    plan: GreedyPlan
    until: float
    proven: dict[str, int] = field(default_factory=dict)

    @property
    def left(self) -> float:
        """Time left. [s]"""
        return self.until - time.monotonic()

    def is_open(self, stage: Stage) -> bool:
        """Return whether the plan may still open a gate later than it could."""
        return self.plan.places[stage.gate].start > self.proven.get(stage.gate, 0)

    def take(self, stage: Stage, run: Run | None) -> None:
        """Take over what a search of a stage proved, whatever it found."""
        if run is not None:
            first = run.bound - self.site.jobs[stage.gate].length
            self.proven[stage.gate] = max(self.proven[stage.gate], first)

    def adopt(self, run: Run | None) -> None:
        """Take over the places of a search if the whole plan ends no later with them."""
        if run is not None and run.places is not None:
            whole = plan_greedily(self.site, held=run.places)
            if not whole.stuck and whole.end <= self.plan.end:
                self.plan = whole


def _settle(work: _Work, stages: Sequence[Stage], number: int, *, again: bool) -> None:
    """Prove how early a gate can open, and open it so, as far as the time goes.

    First by what hands can do, then by a search of the stage's own tasks, of all forerunners, and
    of these with earlier stages as they lie; `again` gives more time, and frees one stage more.
    Each only while the plan leaves something to gain; most of these searches end long before
    their time.
    """
    site, stage = work.site, stages[number]
    early, late = heads(site, work.proven)[stage.gate], work.plan.places[stage.gate].start
    work.proven[stage.gate] = first_start(_free(work, stage.before), stage.gate, early, late)
    if work.is_open(stage):
        part = _free(work, stage.before - (stage.earlier - {stage.gate}))
        work.take(stage, _search(work, part, SHARE * work.left))
    if work.is_open(stage):
        run = _search(work, _free(work, stage.before), (1 + again) * SHARE * work.left)
        work.take(stage, run)
        work.adopt(run)
    if work.is_open(stage) and number:
        held = stages[number - 1].earlier if again else stage.earlier
        work.adopt(_search(work, _opened(work, stage, held), SHARE * work.left))


def _free(work: _Work, names: frozenset[str]) -> Steppings:
    """Return some tasks alone, each from the start on that is proven so far."""
    early = heads(work.site, work.proven)
    return part_of(work.site, names, _from_heads(work.site, names, early))


def _opened(work: _Work, stage: Stage, held: frozenset[str]) -> Steppings:
    """Return the forerunners of a gate, some of earlier stages staying where they lie."""
    groups = bundles(work.site)
    earlier, own = _whole(groups, held), _whole(groups, stage.before)
    jobs = {
        name: _held(work.site.jobs[name], work.plan.places[name])
        for name in earlier
        if not work.site.jobs[name].done
    }
    return part_of(work.site, own | earlier, jobs)


def _whole(groups: Iterable[Bundle], names: frozenset[str]) -> frozenset[str]:
    """Return the names with all that must be placed together with one of them."""
    found = set(names)
    for bundle in groups:
        if found & set(bundle.members):
            found |= set(bundle.members)
    return frozenset(found)


def _search(work: _Work, part: Steppings, seconds: float) -> Run | None:
    """Return what a search for the earliest end of a part finds; None where nothing can be."""
    if seconds < LEAST:
        return None
    last = max(work.plan.places[name].end for name in part.jobs)
    made = build_model(work.cp, part, last)
    if made.empty:
        return None
    hint(made, {name: work.plan.places[name] for name in part.jobs})
    made.model.minimize(made.finish)
    run = run_solver(made, seconds=seconds, seed=work.seed, stop=work.stop)
    proven = made.frames.real_end(run.bound)
    return None if run.outcome == "infeasible" else replace(run, bound=proven)


def part_of(site: Steppings, names: Iterable[str], jobs: Mapping[str, Job]) -> Steppings:
    """Return a site with some of its tasks only; `jobs` replaces some of these."""
    chosen = frozenset(names)
    return replace(
        site,
        jobs={n: jobs.get(n, job) for n, job in site.jobs.items() if n in chosen},
        gaps=tuple(g for g in site.gaps if g.link.before in chosen and g.link.after in chosen),
    )


def _from_heads(site: Steppings, names: Iterable[str], early: Mapping[str, int]) -> dict[str, Job]:
    """Return the open tasks without the starts that lie before what is proven."""
    found = {}
    for name in names:
        job = site.jobs[name]
        if not job.done:
            at = int(np.searchsorted(job.starts, early[name]))
            found[name] = replace(job, starts=job.starts[at:], ends=job.ends[at:])
    return found


def _held(job: Job, place: Place) -> Job:
    crews = (place.crew,) if place.crew else ()
    return replace(job, starts=np.array([place.start]), ends=np.array([place.end]), crews=crews)
