"""Why no plan can be: the fewest rules that cannot all hold."""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence

from seamwright.schedule.calendar_steps import Steppings
from seamwright.schedule.conflict import explain_conflict, hour_words
from seamwright.schedule.greedy_bundles import same_day_groups
from seamwright.schedule.types import Calendar, Crew, Fixed, Network, Task
from seamwright.solve.library import library
from seamwright.solve.model import build_model
from seamwright.solve.search import run_solver

LEAST = 5.0
"""Time there is at least to look for a reason. [s]"""

_ONE_TRY = 3.0
"""Longest time to try whether a rule is needed. [s]"""


def explain(  # noqa: PLR0917 the whole task, as it was refused
    network: Network,
    crews: Sequence[Crew],
    calendar: Calendar,
    fixed: Sequence[Fixed],
    site: Steppings,
    empty: Sequence[str],
    *,
    seconds: float,
    told: Callable[[float], str] = hour_words,
) -> tuple[str, ...]:
    """Return why there is no plan: tasks without hands or hours, a chain of links, or rules.

    `empty` are tasks that have no start at all.
    """
    tasks = {task.id: task for task in network.tasks}
    handless = [tasks[n] for n in empty if not site.jobs[n].crews and site.jobs[n].length]
    if handless:
        return tuple(_no_hands(task, crews) for task in handless[:3])
    chain = explain_conflict(network, fixed, calendar, told=told)
    if chain:
        return chain
    if empty:
        return tuple(_no_hours(tasks[name], site, fixed) for name in empty[:3])
    return _fewest_rules(site, tasks, calendar, max(LEAST, seconds))


def _no_hands(task: Task, crews: Sequence[Crew]) -> str:
    able = [crew for crew in crews if task.skill in crew.skills]
    if not able:
        return (
            f"‘{task.title}’ ({task.id}) needs a crew that does {task.skill}, and there is none; "
            "add one."
        )
    most = max(crew.size for crew in able)
    return (
        f"‘{task.title}’ ({task.id}) needs {task.crew_size} people of one crew for {task.skill}, "
        f"and the largest such crew has {most}."
    )


def _no_hours(task: Task, site: Steppings, fixed: Sequence[Fixed]) -> str:
    hours = site.jobs[task.id].length * site.step / 3600.0
    where = f" of the class {task.window}" if task.window is not None else ""
    crane = " with the crane on site" if task.crane else ""
    said = next((row.reason for row in fixed if row.task_id == task.id and row.reason), "")
    why = f" It is fixed: {said}." if said else ""
    return (
        f"‘{task.title}’ ({task.id}) needs {hours:g} h in one go{where}{crane}, and the calendar "
        f"has no such hours where it may be done.{why}"
    )


def _fewest_rules(
    site: Steppings, tasks: dict[str, Task], calendar: Calendar, seconds: float
) -> tuple[str, ...]:
    """Return the rules of which none can be left out, by leaving out one after another."""
    limit = time.monotonic() + seconds
    names = _switches(site)
    core = _core(site, names, names, limit)
    if core is None:
        core = list(names)
    for name in tuple(core):
        if time.monotonic() > limit:
            break
        if name in core:
            smaller = _core(site, names, [other for other in core if other != name], limit)
            core = core if smaller is None else smaller
    days = calendar.hours // 24
    last = f"All work must end within the {days} days of the calendar."
    return (*(_said(name, site, tasks) for name in core), last)


def _core(
    site: Steppings, names: tuple[str, ...], on: Sequence[str], limit: float
) -> list[str] | None:
    """Return switched-on rules that cannot all hold, None if they can or nobody knows."""
    cp = library()
    horizon = max(int(job.ends[-1]) for job in site.jobs.values() if job.ends.size)
    made = build_model(cp, site, horizon, names)
    made.model.add_assumptions([made.switches[name] for name in on])
    left = min(_ONE_TRY, limit - time.monotonic())
    run = run_solver(made, seconds=left, seed=1, workers=1)
    if run.outcome != "infeasible":
        return None
    return [name for name in on if name in run.core] if run.core else list(on)


def _switches(site: Steppings) -> tuple[str, ...]:
    waits = [f"wait:{g.link.before}>{g.link.after}" for g in site.gaps if g.most is not None]
    days = [f"day:{group[0]}" for group in same_day_groups(site)]
    crews = [f"crew:{crew}" for crew in site.crews]
    return (*dict.fromkeys((*waits, *days, *crews)), "crane")


def _said(name: str, site: Steppings, tasks: dict[str, Task]) -> str:
    kind, _, about = name.partition(":")
    if kind == "crane":
        return "There is one crane, and it lifts one part at a time."
    if kind == "crew":
        crew = site.crews[about]
        return f"Crew {crew.id} has {crew.size} people for {', '.join(crew.skills)}."
    if kind == "day":
        return f"‘{tasks[about].title}’ ({about}) and what goes with it end on the day it begins."
    before, _, after = about.partition(">")
    gap = next(
        g for g in site.gaps if g.most is not None
        and (g.link.before, g.link.after) == (before, after)
    )  # fmt: skip
    hours = 0.0 if gap.link.most is None else gap.link.most / 3600.0
    return (
        f"‘{tasks[after].title}’ ({after}) comes at most {hours:g} h after "
        f"‘{tasks[before].title}’ ({before}): {gap.link.reason} [{gap.link.rule}]."
    )
