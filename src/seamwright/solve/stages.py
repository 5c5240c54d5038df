"""Stage by stage: the work before each gate alone, to prove how early it opens and open it so.

A gate is a task that nearly all others come before or after, such as the closed shell. What comes
after one cannot start before it, so the least time to a gate, found on its own forerunners only,
bounds all that follows; and a plan that opens every gate early is a good one to go on from. The
bound needs no early choice: the stage's tasks are free, those of earlier stages left out.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace

import numpy as np

from seamwright.schedule.calendar_steps import Job, Steppings
from seamwright.schedule.greedy import GreedyPlan, Place, plan_greedily
from seamwright.schedule.greedy_bundles import Bundle, bundles
from seamwright.solve.heads import heads
from seamwright.solve.library import Solver
from seamwright.solve.model import build_model, hint
from seamwright.solve.search import Run, Wish, run_solver

NEARLY_ALL = 0.9
"""Part of the other tasks that must come before or after a gate. Our own choice."""
APART = 0.08
"""Part of all tasks by which gates lie apart at least. Our own choice."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Staged:
    """A plan, and for each gate the step of the wall clock before which it cannot start."""

    plan: GreedyPlan
    proven: Mapping[str, int]


@dataclass(frozen=True, kw_only=True, slots=True)
class _Stage:
    """The forerunners of a gate, those of the gate before it among them."""

    gate: str
    before: frozenset[str]
    earlier: frozenset[str]


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
    found = first
    proven: dict[str, int] = {}
    stages = _stages(site)
    until = time.monotonic() + seconds
    for number, stage in enumerate(stages):
        if stop is not None and stop():
            break
        left = 2 * (len(stages) - number)
        early = heads(site, proven)
        share = (until - time.monotonic()) / left
        proven[stage.gate] = _least(cp, site, stage, early, found, share, seed, stop)
        share = (until - time.monotonic()) / (left - 1)
        found = _opened(cp, site, stage, found, share, seed, stop)
        if tell is not None and number + 1 < len(stages):
            bound = max(heads(site, proven).values(), default=0)
            tell(found.end, min(bound, found.end))
    return Staged(plan=found, proven=proven)


def gates(site: Steppings) -> tuple[str, ...]:
    """Return tasks that nearly all others come before or after, in order."""
    return tuple(stage.gate for stage in _stages(site))


def _stages(site: Steppings) -> list[_Stage]:
    names = list(site.order)
    before = _forerunners(site, names)
    count = max(1, len(names) - 1)
    ancestors, total = before.sum(axis=1), (before.sum(axis=1) + before.sum(axis=0)) / count
    last = int(np.argmax(ancestors))
    chosen: list[int] = []
    for k in sorted(range(len(names)), key=lambda k: (-total[k], k)):
        if total[k] < NEARLY_ALL:
            break
        spaced = all(abs(ancestors[k] - ancestors[c]) >= APART * count for c in chosen)
        if spaced and ancestors[k] >= APART * count and k != last:
            chosen.append(k)
    if len(names) > 1 and total[last] >= NEARLY_ALL:
        chosen.append(last)
    stages: list[_Stage] = []
    earlier: frozenset[str] = frozenset()
    for k in sorted(chosen, key=lambda k: ancestors[k]):
        if site.jobs[names[k]].done:
            continue
        own = frozenset(names[j] for j in np.flatnonzero(before[k])) | {names[k]}
        stages.append(_Stage(gate=names[k], before=own, earlier=earlier & own))
        earlier |= own
    return stages


def _forerunners(site: Steppings, names: list[str]) -> np.ndarray:
    index = {name: k for k, name in enumerate(names)}
    before = np.zeros((len(names), len(names)), dtype=np.bool_)
    links: list[list[int]] = [[] for _ in names]
    for gap in site.gaps:
        if gap.from_end and not gap.to_end:
            links[index[gap.link.after]].append(index[gap.link.before])
    for k in range(len(names)):
        for other in links[k]:
            before[k] |= before[other]
            before[k, other] = True
    return before


def _least(  # noqa: PLR0917 what every run of a stage is given
    cp: Solver,
    site: Steppings,
    stage: _Stage,
    early: Mapping[str, int],
    plan: GreedyPlan,
    seconds: float,
    seed: int,
    stop: Wish | None,
) -> int:
    """Return the step before which a gate cannot start, whatever is done elsewhere."""
    names = stage.before - (stage.earlier - {stage.gate})
    part = part_of(site, names, {name: _from(site.jobs[name], early[name]) for name in names})
    run = _run(cp, part, plan, seconds, seed, stop)
    if run is None:
        return early[stage.gate]
    first = run.bound - part.jobs[stage.gate].length
    return max(early[stage.gate], first)


def _opened(  # noqa: PLR0917 what every run of a stage is given
    cp: Solver,
    site: Steppings,
    stage: _Stage,
    plan: GreedyPlan,
    seconds: float,
    seed: int,
    stop: Wish | None,
) -> GreedyPlan:
    """Return a plan that opens a gate as early as found, earlier stages staying where they lie."""
    groups = bundles(site)
    earlier, own = _whole(groups, stage.earlier), _whole(groups, stage.before)
    held = {name: plan.places[name] for name in earlier if not site.jobs[name].done}
    jobs = {name: _held(site.jobs[name], place) for name, place in held.items()}
    part = part_of(site, own | earlier, jobs)
    run = _run(cp, part, plan, seconds, seed, stop)
    if run is None or run.places is None:
        return plan
    whole = plan_greedily(site, held=run.places)
    return whole if not whole.stuck and whole.end <= plan.end else plan


def _whole(groups: Iterable[Bundle], names: frozenset[str]) -> frozenset[str]:
    """Return the names with all that must be placed together with one of them."""
    found = set(names)
    for bundle in groups:
        if found & set(bundle.members):
            found |= set(bundle.members)
    return frozenset(found)


def _run(  # noqa: PLR0917 what every run of a stage is given
    cp: Solver, part: Steppings, plan: GreedyPlan, seconds: float, seed: int, stop: Wish | None
) -> Run | None:
    last = max(plan.places[name].end for name in part.jobs)
    made = build_model(cp, part, last)
    if made.empty:
        return None
    hint(made, {name: plan.places[name] for name in part.jobs})
    made.model.minimize(made.finish)
    run = run_solver(made, seconds=seconds, seed=seed, stop=stop)
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


def _from(job: Job, first: int) -> Job:
    if job.done:
        return job
    keep = job.starts >= first
    return replace(job, starts=job.starts[keep], ends=job.ends[keep])


def _held(job: Job, place: Place) -> Job:
    crews = (place.crew,) if place.crew else ()
    return replace(job, starts=np.array([place.start]), ends=np.array([place.end]), crews=crews)
