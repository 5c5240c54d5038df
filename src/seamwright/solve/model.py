"""The plan of days as variables and constraints.

Time is that of the wall clock in steps, so that waits, longest waits and days are plain
differences; hours that may not be worked are holes in the starts of each task. A task that may be
interrupted has one piece of starts for each length it then takes.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np

from seamwright.schedule.calendar_steps import Gap, Job, Steppings
from seamwright.schedule.greedy import Place
from seamwright.schedule.greedy_bundles import same_day_groups
from seamwright.solve.library import Solver


@dataclass(slots=True)
class Model:
    """The solver's model with the variables of each task.

    `chosen` holds, for tasks that several crews can do, one literal per crew; `pieces` the literals
    of the lengths of interrupted tasks, with their first and last starts. `switches` are the
    literals that turn a rule on, where the model was built to find a contradiction.
    """

    cp: Solver
    model: Solver
    site: Steppings
    horizon: int
    starts: dict[str, Solver] = field(default_factory=dict)
    ends: dict[str, Solver] = field(default_factory=dict)
    intervals: dict[str, Solver] = field(default_factory=dict)
    chosen: dict[str, dict[str, Solver]] = field(default_factory=dict)
    pieces: dict[str, list[tuple[Solver, int, int]]] = field(default_factory=dict)
    switches: dict[str, Solver] = field(default_factory=dict)
    finish: Solver = None
    empty: list[str] = field(default_factory=list)

    def rule(self, constraint: Solver, name: str) -> None:
        """Let a constraint hold only while the rule of that name is switched on, if it can be."""
        if name in self.switches:
            constraint.only_enforce_if(self.switches[name])


def build_model(cp: Solver, site: Steppings, horizon: int, switches: tuple[str, ...] = ()) -> Model:
    """Return the model of a site in which everything ends by `horizon`. [steps]

    `switches` names rules that can be turned off one by one: ``wait:BEFORE>AFTER``, ``day:TASK``,
    ``crew:CREW``, ``crane``.
    """
    made = Model(cp=cp, model=cp.CpModel(), site=site, horizon=horizon)
    made.switches = {name: made.model.new_bool_var(name) for name in switches}
    made.finish = made.model.new_int_var(0, horizon, "finish")
    for name, job in site.jobs.items():
        _task(made, name, job)
    if made.empty:
        return made
    for gap in site.gaps:
        _gap(made, gap)
    for group in same_day_groups(site):
        _one_day(made, group)
    _people(made)
    _crane(made)
    return made


def _task(made: Model, name: str, job: Job) -> None:
    if job.done:
        made.starts[name], made.ends[name] = int(job.starts[0]), int(job.ends[0])
        made.model.add(made.finish >= made.ends[name])
        return
    keep = job.ends <= made.horizon
    starts, ends = job.starts[keep], job.ends[keep]
    if not starts.size or (job.length and not job.crews):
        made.empty.append(name)
        return
    model = made.model
    begin = model.new_int_var_from_domain(
        made.cp.Domain.from_intervals(_runs(starts)), f"start {name}"
    )
    made.starts[name] = begin
    sizes = ends - starts
    if int(sizes.min()) == int(sizes.max()):
        size = int(sizes[0])
        made.ends[name] = begin + size
        if size:
            made.intervals[name] = model.new_fixed_size_interval_var(begin, size, f"work {name}")
    else:
        _interrupted(made, name, starts, ends)
    model.add(made.finish >= made.ends[name])


def _interrupted(made: Model, name: str, starts: np.ndarray, ends: np.ndarray) -> None:
    """Give a task that nights and closed hours interrupt the length that goes with its start."""
    model = made.model
    sizes = ends - starts
    size = model.new_int_var(int(sizes.min()), int(sizes.max()), f"size {name}")
    end = model.new_int_var(int(ends.min()), int(ends.max()), f"end {name}")
    made.ends[name] = end
    made.intervals[name] = model.new_interval_var(made.starts[name], size, end, f"work {name}")
    cuts = np.flatnonzero(np.diff(sizes)) + 1
    pieces = []
    for part, length in zip(np.split(starts, cuts), np.split(sizes, cuts), strict=True):
        literal = model.new_bool_var(f"piece {name} {part[0]}")
        model.add(made.starts[name] >= int(part[0])).only_enforce_if(literal)
        model.add(made.starts[name] <= int(part[-1])).only_enforce_if(literal)
        model.add(size == int(length[0])).only_enforce_if(literal)
        pieces.append((literal, int(part[0]), int(part[-1])))
    model.add_exactly_one(literal for literal, _, _ in pieces)
    made.pieces[name] = pieces


def _runs(starts: np.ndarray) -> list[list[int]]:
    cuts = np.flatnonzero(np.diff(starts) > 1) + 1
    return [[int(run[0]), int(run[-1])] for run in np.split(starts, cuts)]


def _gap(made: Model, gap: Gap) -> None:
    link = gap.link
    if made.site.jobs[link.after].done:
        return
    here = made.ends[link.before] if gap.from_end else made.starts[link.before]
    there = made.ends[link.after] if gap.to_end else made.starts[link.after]
    made.model.add(there >= here + gap.least)
    if gap.most is not None:
        made.rule(made.model.add(there <= here + gap.most), f"wait:{link.before}>{link.after}")


def _one_day(made: Model, group: tuple[str, ...]) -> None:
    """Let the tasks of a group lie in one day; where all work ends by night a difference says so."""
    members = [name for name in group if not made.site.jobs[name].done]
    if len(members) < 2:
        return
    site, model = made.site, made.model
    day = model.new_int_var(0, site.day(made.horizon) + 1, f"day {members[0]}")
    for name in members:
        last = 1 if site.jobs[name].length else 0
        begin = made.starts[name] + site.first
        end = made.ends[name] + site.first
        rule = f"day:{group[0]}"
        made.rule(model.add(begin >= day * site.per_day), rule)
        made.rule(model.add(end - last < (day + 1) * site.per_day), rule)


def _people(made: Model) -> None:
    model, site = made.model, made.site
    users: dict[str, list[tuple[Solver, int]]] = {crew: [] for crew in site.crews}
    for name, interval in made.intervals.items():
        job = site.jobs[name]
        if len(job.crews) == 1:
            users[job.crews[0]].append((interval, job.task.crew_size))
            continue
        made.chosen[name] = {}
        for crew in job.crews:
            literal = model.new_bool_var(f"{name} by {crew}")
            copy = model.new_optional_interval_var(
                made.starts[name], interval.size_expr(), made.ends[name], literal, f"{name} {crew}"
            )
            users[crew].append((copy, job.task.crew_size))
            made.chosen[name][crew] = literal
        model.add_exactly_one(made.chosen[name].values())
    for crew, used in users.items():
        switch = made.switches.get(f"crew:{crew}")
        size = site.crews[crew].size
        if switch is not None:
            room = sum(need for _, need in used) if used else size
            free = model.new_int_var(size, max(size, room), f"people {crew}")
            model.add(free == size).only_enforce_if(switch)
            model.add_cumulative([i for i, _ in used], [n for _, n in used], free)
        elif used and all(2 * need > size for _, need in used):
            model.add_no_overlap([interval for interval, _ in used])
        elif used:
            model.add_cumulative([i for i, _ in used], [n for _, n in used], size)


def _crane(made: Model) -> None:
    lifts = [i for name, i in made.intervals.items() if made.site.jobs[name].task.crane]
    if not lifts:
        return
    if "crane" in made.switches:
        hooks = made.model.new_int_var(1, len(lifts), "hooks")
        made.model.add(hooks == 1).only_enforce_if(made.switches["crane"])
        made.model.add_cumulative(lifts, [1] * len(lifts), hooks)
    else:
        made.model.add_no_overlap(lifts)


def hint(made: Model, places: Mapping[str, Place]) -> None:
    """Tell the model a plan to start from."""
    model = made.model
    model.clear_hints()
    for name, place in places.items():
        if name not in made.starts or made.site.jobs[name].done:
            continue
        model.add_hint(made.starts[name], place.start)
        for crew, literal in made.chosen.get(name, {}).items():
            model.add_hint(literal, int(crew == place.crew))
        for literal, first, last in made.pieces.get(name, []):
            model.add_hint(literal, int(first <= place.start <= last))
    model.add_hint(made.finish, max(place.end for place in places.values()))


def places_of(made: Model, value: Solver) -> dict[str, Place]:
    """Return where every task lies in a solution; `value` reads a variable."""
    found = {}
    for name, job in made.site.jobs.items():
        if job.done:
            crew = job.crews[0] if job.crews else ""
            found[name] = Place(start=int(job.starts[0]), end=int(job.ends[0]), crew=crew)
            continue
        literals = made.chosen.get(name, {})
        crew = next((c for c, literal in literals.items() if value(literal)), "")
        if not literals and job.length:
            crew = job.crews[0]
        start = int(value(made.starts[name]))
        end = int(value(made.ends[name])) if job.length else start
        found[name] = Place(start=start, end=end, crew=crew)
    return found
