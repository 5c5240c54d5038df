"""The plan of days: the earliest end, then few moves of the scaffold and even crews."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from seamwright.schedule.calendar_steps import STEP, Steppings, in_steps
from seamwright.schedule.conflict import hour_words
from seamwright.schedule.float_time import critical_chain, floats
from seamwright.schedule.greedy import GreedyPlan, Place, plan_greedily, tails
from seamwright.schedule.greedy_bundles import bundles
from seamwright.schedule.types import Calendar, Crew, DayPlan, Fixed, Network, Slot
from seamwright.solve.heads import MANY, heads, with_heads
from seamwright.solve.holes import without_holes
from seamwright.solve.library import Solver, library
from seamwright.solve.model import build_model, hint
from seamwright.solve.overload import least_end
from seamwright.solve.ranks import earlier_end, fewer_moves, joined_visits
from seamwright.solve.search import Listener, Progress, Wish, run_solver
from seamwright.solve.soft import moves, soften, toll, twins
from seamwright.solve.stages import Staged, plan_by_stages
from seamwright.solve.visits import least_moves
from seamwright.solve.why import explain

LIST_SHARE, FEW_SHARE = 0.5, 0.04
"""Parts of the time given to other lists of ranks, on sites of more than `MANY` tasks and on
others. Our own choice, as are all shares here."""

STAGE_SHARE = 0.8
"""Part of the time left then given to the stages before the whole is looked at."""

BOUND_SHARE, LARGE_SHARE, END_SHARE = 0.4, 0.8, 0.5
"""Parts of the time left then given to what hands can do in all (on sites of more than `MANY` tasks
the second), and to the earliest end; the softer goals get the rest."""

EVEN_SHARE = 0.7
"""Part of that given to fewer moves where there are crews to be loaded evenly."""

LEAST = 0.2
"""Least time for which something is begun. [s]"""


@dataclass(frozen=True, kw_only=True, slots=True)
class _Task:
    """What is asked of the solver, kept together."""

    network: Network
    crews: Sequence[Crew]
    calendar: Calendar
    fixed: Sequence[Fixed]
    seconds: float
    seed: int
    began: float
    listen: Listener | None
    stop: Wish | None
    told: Callable[[float], str]

    @property
    def left(self) -> float:
        """Time left. [s]"""
        return self.seconds - (time.monotonic() - self.began)

    @property
    def is_stopped(self) -> bool:
        """Whether somebody wants it to end."""
        return self.stop is not None and self.stop()

    def tell(self, end: int, bound: int, phase: str) -> None:
        """Pass on news."""
        if self.listen is not None:
            spent = time.monotonic() - self.began
            self.listen(Progress(seconds=spent, end=end, bound=bound, phase=phase))


def solve_days(
    network: Network,
    crews: Iterable[Crew],
    calendar: Calendar,
    fixed: Iterable[Fixed] = (),
    *,
    time_limit: float = 30.0,
    seed: int = 1,
    on_progress: Listener | None = None,
    stop: Wish | None = None,
    step: float = STEP,
    now: int = 0,
    told: Callable[[float], str] = hour_words,
    tidy: bool = True,
) -> DayPlan:
    """Return the best plan of days found within `time_limit`. [s]

    The goals count one after another: the earliest end; then the fewest hours over which the work
    in each place is spread, which keeps scaffold moves few; then even crews of the same skill.

    Parameters
    ----------
    network, crews, calendar, fixed
        What is to be done, by whom, when there is time, and what lies fixed. A crew is so many
        people of some skills who may split up; a task takes its people from one crew.
    on_progress
        Hears of the first answer and of each better one.
    stop
        Asked ten times a second; once it says yes, the best answer so far is returned.
    step
        Smallest piece of time, a part of an hour. [s] Durations are rounded up to it.
    now
        Hour of the calendar before which nothing can start that is not done.
    tidy
        Whether to spend the time left on the softer goals once the end is settled.
    told
        How to say an hour of the calendar, where rules contradict each other.

    Returns
    -------
    A plan whose state is ``optimal`` or ``feasible`` with every task placed, ``contradiction`` with
    the shortest chain of rules found that cannot all hold, or ``no_answer``.

    Raises
    ------
    InputError
        If the optional solver is not installed.
    """
    task = _Task(
        network=network, crews=tuple(crews), calendar=calendar, fixed=tuple(fixed),
        seconds=time_limit, seed=seed, began=time.monotonic(), listen=on_progress, stop=stop,
        told=told,
    )  # fmt: skip
    cp = library()
    site = in_steps(network, task.crews, calendar, task.fixed, step=step, now=now)
    if not site.jobs:
        return DayPlan(state="optimal", slots=(), end=0, bound=0, gap=0.0, step=step)
    first = first_plan(site)
    if first.stuck:
        return _from_scratch(task, cp, site, first)
    task.tell(first.end, 0, "first answer")
    listed = _listed(task, site, first)
    site = without_holes(site, listed.end)
    staged = plan_by_stages(
        cp, site, listed, seconds=STAGE_SHARE * task.left, seed=seed, stop=stop,
        tell=lambda end, bound: task.tell(end, bound, "stage by stage"),
    )  # fmt: skip
    best, bound = _improved(task, cp, site, staged)
    if tidy and not task.is_stopped and task.left > LEAST:
        best = _tidied(task, cp, site, best)
    return as_plan(site, best, bound, notes=_notes(site, first, best))


def _listed(task: _Task, site: Steppings, first: GreedyPlan) -> GreedyPlan:
    """Return a plan that ends earlier by other lists of ranks, if one is found."""
    share = LIST_SHARE if len(site.jobs) > MANY else FEW_SHARE
    until = time.monotonic() + share * task.left
    return earlier_end(
        site, first, seed=task.seed,
        wait=lambda: time.monotonic() < until and not task.is_stopped,
        tell=lambda end: task.tell(end, 0, "other lists"),
    )  # fmt: skip


def _improved(
    task: _Task, cp: Solver, site: Steppings, staged: Staged
) -> tuple[Mapping[str, Place], int]:
    """Return the best places found, and the proven bound of the end."""
    places: Mapping[str, Place] = staged.plan.places
    end = staged.plan.end
    early = heads(site, staged.proven)
    bound = min(end, max(_first_end(site, name, at) for name, at in early.items()))
    if bound == end or task.is_stopped or task.left < LEAST:
        return places, bound
    known = with_heads(site, early)
    large = len(site.jobs) > MANY
    until = time.monotonic() + (LARGE_SHARE if large else BOUND_SHARE) * task.left
    bound = least_end(known, bound, end, lambda: time.monotonic() < until and not task.is_stopped)
    task.tell(end, bound, "earliest end")
    if bound == end or large or task.left < LEAST:
        return places, bound
    made = build_model(cp, known, end)
    if made.empty:
        return places, bound
    hint(made, places)
    made.model.minimize(made.finish)
    run = run_solver(
        made, seconds=END_SHARE * task.left, seed=task.seed, stop=task.stop,
        tell=lambda best, least: task.tell(
            made.frames.real_end(best), max(bound, made.frames.real_end(least)), "earliest end"
        ),
    )  # fmt: skip
    if run.places is not None and run.value <= made.horizon:
        found = max(place.end for place in run.places.values())
        places, end = (run.places, found) if found <= end else (places, end)
    proven = end if run.outcome == "optimal" else made.frames.real_end(run.bound)
    return places, min(end, max(bound, proven))


def _from_scratch(task: _Task, cp: Solver, site: Steppings, first: GreedyPlan) -> DayPlan:
    """Return what the solver finds where no plan was found at once."""
    made = build_model(cp, site, _last(site))
    if made.empty:
        return _refused(task, site, made.empty)
    made.model.minimize(made.finish)
    run = run_solver(made, seconds=END_SHARE * task.left, seed=task.seed, stop=task.stop)
    if run.outcome == "infeasible":
        return _refused(task, site, ())
    if run.places is None:
        return _none(site, first)
    return as_plan(site, run.places, made.frames.real_end(run.bound))


def _first_end(site: Steppings, name: str, start: int) -> int:
    """Return the earliest end of a task that starts at `start` or later."""
    job = site.jobs[name]
    if job.done:
        return int(job.ends[0])
    ends = job.ends[np.searchsorted(job.starts, start) :]
    return int(ends.min()) if ends.size else start


def first_plan(site: Steppings) -> GreedyPlan:
    """Return the better of two plans at once: by the longest tail, and in the network's order."""
    order = {name: -float(k) for k, name in enumerate(site.jobs)}
    groups = bundles(site)
    found = [plan_greedily(site, rank, groups) for rank in (tails(site), order)]
    return min(found, key=lambda plan: (len(plan.stuck), plan.end))


def as_plan(
    site: Steppings, places: Mapping[str, Place], bound: int, notes: tuple[str, ...] = ()
) -> DayPlan:
    """Return places as a plan, with floats and the gap in working time."""
    slack = floats(site, places)
    chain = frozenset(critical_chain(site, places, slack))
    per_hour = round(3600.0 / site.step)
    end = max((place.end for place in places.values()), default=0)
    done, proven = int(site.worked[min(end, site.working.size)]), int(site.worked[bound])
    slots = tuple(
        Slot(
            task_id=name, start=place.start, end=place.end, crew_id=place.crew,
            float_hours=slack[name] // per_hour,
            critical=name in chain,
        )
        for name, place in sorted(places.items(), key=lambda row: (row[1].start, row[1].end))
    )  # fmt: skip
    gap = 0.0 if done <= proven else (done - proven) / done
    return DayPlan(
        state="optimal" if gap <= 0 else "feasible", slots=slots, end=end, bound=bound, gap=gap,
        notes=notes, step=site.step,
    )  # fmt: skip


def _tidied(
    task: _Task, cp: Solver, site: Steppings, places: Mapping[str, Place]
) -> Mapping[str, Place]:
    """Return a plan with the same end, fewer moves and more even crews, if one is found in time."""
    end = max(place.end for place in places.values())
    task.tell(end, end, "fewer moves, even crews")
    small = len(site.jobs) <= MANY and bool(twins(site))
    until = time.monotonic() + (EVEN_SHARE if small else 1.0) * task.left

    def wait() -> bool:
        return time.monotonic() < until and not task.is_stopped

    best = joined_visits(site, places, wait=wait, seed=task.seed)
    best = fewer_moves(site, best, wait=wait)
    best = joined_visits(site, best, wait=wait, seed=task.seed)
    if not small or task.is_stopped or task.left < LEAST:
        return best
    made = build_model(cp, site, end)
    if made.empty:
        return best
    soften(made, end)
    hint(made, best)
    run = run_solver(made, seconds=task.left, seed=task.seed, stop=task.stop)
    if run.places is None or toll(site, run.places) > toll(site, best):
        return best
    return run.places


def _last(site: Steppings) -> int:
    return max((int(job.ends[-1]) for job in site.jobs.values() if job.ends.size), default=0)


def _refused(task: _Task, site: Steppings, empty: Sequence[str]) -> DayPlan:
    chain = explain(
        task.network,
        task.crews,
        task.calendar,
        task.fixed,
        site,
        empty,
        seconds=task.left,
        told=task.told,
    )
    return DayPlan(
        state="contradiction", slots=(), end=0, bound=0, gap=1.0, conflict=chain, step=site.step
    )


def _none(site: Steppings, first: GreedyPlan) -> DayPlan:
    note = (
        f"No place was found in time for {len(first.stuck)} tasks, the first of them "
        f"{first.stuck[0]}; give more time, more days or more people."
    )
    return DayPlan(
        state="no_answer", slots=(), end=0, bound=0, gap=1.0, notes=(note,), step=site.step
    )


def _notes(site: Steppings, first: GreedyPlan, best: Mapping[str, Place]) -> tuple[str, ...]:
    """Return what the search gained, in words."""
    end = max(place.end for place in best.values())
    gained = int(site.worked[first.end] - site.worked[end]) * site.step / 3600.0
    was, now, least = moves(site, first.places), moves(site, best), least_moves(site)
    return (
        f"The end comes {gained:g} working hours before that of the first answer.",
        f"Crews change place {now} times; in the first answer it was {was}.",
        f"The order of the work alone asks for {least} changes of place at least.",
    )
