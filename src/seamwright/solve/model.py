"""The plan of days as variables and constraints, on the axis of working time.

Hours in which a task may not be done are holes in its starts. A task that closed hours interrupt
has one piece of starts for each length it then takes. Waits reach over nights in the gaps.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

import numpy as np

from seamwright.schedule.calendar_steps import Gap, Job, Steppings
from seamwright.schedule.greedy import Place
from seamwright.schedule.greedy_bundles import same_day_groups
from seamwright.solve.frames import Frames, Steps, frames_of
from seamwright.solve.library import Solver
from seamwright.solve.narrow import narrowed
from seamwright.solve.waits import Limits, add_gap, done_limits, same_day


@dataclass(slots=True)
class Model:
    """The solver's model with the variables of each task, on the axis of `frames`.

    `chosen` holds, for tasks that several crews can do, one literal per crew; `pieces` the literals
    of the lengths of interrupted tasks, with their first and last starts. `switches` are the
    literals that turn a rule on, where the model was built to find a contradiction. `empty` names
    tasks without any start.
    """

    cp: Solver
    model: Solver
    site: Steppings
    frames: Frames
    horizon: int
    starts: dict[str, Solver] = field(default_factory=dict)
    ends: dict[str, Solver] = field(default_factory=dict)
    days: dict[tuple[str, bool], Solver] = field(default_factory=dict)
    intervals: dict[str, Solver] = field(default_factory=dict)
    chosen: dict[str, dict[str, Solver]] = field(default_factory=dict)
    pieces: dict[str, list[tuple[Solver, int, int]]] = field(default_factory=dict)
    switches: dict[str, Solver] = field(default_factory=dict)
    finish: Solver = None
    empty: list[str] = field(default_factory=list)
    spans: dict[str, tuple[Steps, Steps]] = field(default_factory=dict)

    def rule(self, constraint: Solver, name: str) -> None:
        """Let a constraint hold only while the rule of that name is switched on, if it can be."""
        if name in self.switches:
            constraint.only_enforce_if(self.switches[name])


def build_model(cp: Solver, site: Steppings, last: int, switches: tuple[str, ...] = ()) -> Model:
    """Return the model of a site in which everything ends by the step `last`.

    `switches` names rules that can be turned off one by one: ``wait:BEFORE>AFTER``, ``day:TASK``,
    ``crew:CREW``, ``crane``.
    """
    frames = frames_of(site)
    horizon = int(frames.of_ends(np.array([last]))[0])
    made = Model(cp=cp, model=cp.CpModel(), site=site, frames=frames, horizon=horizon)
    made.switches = {name: made.model.new_bool_var(name) for name in switches}
    made.finish = made.model.new_int_var(0, horizon, "finish")
    limits = done_limits(site)
    spans = {} if switches else narrowed(site, last)
    for name, job in site.jobs.items():
        if not job.done:
            first, final = spans.get(name, (0, job.starts.size - 1))
            _task(made, name, _between(job, first, final), last, limits.get(name))
    if made.empty:
        return made
    for gap in site.gaps:
        if not (site.jobs[gap.link.before].done or site.jobs[gap.link.after].done):
            add_gap(made, gap)
    for group in same_day_groups(site):
        same_day(made, group)
    _people(made)
    _crane(made)
    return made


def _between(job: Job, first: int, final: int) -> Job:
    return replace(job, starts=job.starts[first : final + 1], ends=job.ends[first : final + 1])


def _task(made: Model, name: str, job: Job, last: int, limits: Limits | None) -> None:
    """Add the variables of a task; `limits` bound its start and its end on the wall clock."""
    low, high, low_end, high_end = (0, last, 0, last) if limits is None else limits
    keep = (job.ends <= min(last, high_end)) & (job.ends >= low_end)
    keep &= (job.starts >= low) & (job.starts <= high)
    starts, ends = made.frames.of(job.starts[keep]), made.frames.of_ends(job.ends[keep])
    if not starts.size or (job.length and not job.crews):
        made.empty.append(name)
        return
    model = made.model
    if job.length == 0:
        starts = np.unique(starts)
        ends = starts
    domain = made.cp.Domain.from_intervals(_runs(starts))
    begin = model.new_int_var_from_domain(domain, f"start {name}")
    made.starts[name] = begin
    made.spans[name] = (starts, ends)
    sizes = ends - starts
    if int(sizes.min()) == int(sizes.max()):
        size = int(sizes[0])
        made.ends[name] = begin + size
        if size:
            made.intervals[name] = model.new_fixed_size_interval_var(begin, size, f"work {name}")
    else:
        _interrupted(made, name, starts, ends)
    model.add(made.finish >= made.ends[name])


def _interrupted(made: Model, name: str, starts: Steps, ends: Steps) -> None:
    """Give a task that closed hours interrupt the length that goes with its start."""
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


def _runs(starts: Steps) -> list[list[int]]:
    cuts = np.flatnonzero(np.diff(starts) > 1) + 1
    return [[int(run[0]), int(run[-1])] for run in np.split(starts, cuts)]


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
            free = model.new_int_var(size, max(size, sum(need for _, need in used)), f"free {crew}")
            model.add(free == size).only_enforce_if(switch)
            model.add_cumulative([i for i, _ in used], [n for _, n in used], free)
        elif used:
            names = [name for name in made.intervals if crew in site.jobs[name].crews]
            closed = _closed(made, names)
            if all(2 * need > size for _, need in used):
                model.add_no_overlap([interval for interval, _ in used] + closed)
            else:
                needs = [need for _, need in used] + [size] * len(closed)
                model.add_cumulative([i for i, _ in used] + closed, needs, size)


def _crane(made: Model) -> None:
    lifts = [i for name, i in made.intervals.items() if made.site.jobs[name].task.crane]
    if not lifts:
        return
    if "crane" in made.switches:
        hooks = made.model.new_int_var(1, len(lifts), "hooks")
        made.model.add(hooks == 1).only_enforce_if(made.switches["crane"])
        made.model.add_cumulative(lifts, [1] * len(lifts), hooks)
    else:
        names = [name for name in made.intervals if made.site.jobs[name].task.crane]
        made.model.add_no_overlap(lifts + _closed(made, names))


def _closed(made: Model, names: list[str]) -> list[Solver]:
    """Return intervals of the steps in which none of some tasks can be at work, as if taken."""
    busy = np.zeros(made.horizon + 1, dtype=np.int64)
    for name in names:
        starts, ends = made.spans[name]
        np.add.at(busy, starts, 1)
        np.add.at(busy, ends, -1)
    idle = np.flatnonzero(np.cumsum(busy)[:-1] == 0)
    return (
        [
            made.model.new_fixed_size_interval_var(begin, end + 1 - begin, f"closed {begin}")
            for begin, end in _runs(idle)
        ]
        if idle.size
        else []
    )


def hint(made: Model, places: Mapping[str, Place]) -> None:
    """Tell the model a plan to start from."""
    model, frames = made.model, made.frames
    model.clear_hints()
    last = 0
    for name, place in places.items():
        if name not in made.starts:
            continue
        start = int(frames.of(np.array([place.start]))[0])
        model.add_hint(made.starts[name], start)
        if made.site.jobs[name].length:
            last = max(last, int(frames.of_ends(np.array([place.end]))[0]))
        for crew, literal in made.chosen.get(name, {}).items():
            model.add_hint(literal, int(crew == place.crew))
        for literal, first, final in made.pieces.get(name, []):
            model.add_hint(literal, int(first <= start <= final))
    model.add_hint(made.finish, last)


def places_of(made: Model, value: Solver) -> dict[str, Place]:
    """Return where every task lies in a solution; `value` reads a variable.

    A task that takes no time lies where what comes before it lets it.
    """
    found: dict[str, Place] = {}
    for name, job in made.site.jobs.items():
        if job.done:
            crew = job.crews[0] if job.crews else ""
            found[name] = Place(start=int(job.starts[0]), end=int(job.ends[0]), crew=crew)
        elif job.length:
            literals = made.chosen.get(name, {})
            crew = next((c for c, literal in literals.items() if value(literal)), job.crews[0])
            start = made.frames.real(int(value(made.starts[name])))
            end = made.frames.real_end(int(value(made.ends[name])))
            found[name] = Place(start=start, end=end, crew=crew)
    before: dict[str, list[Gap]] = {}
    for gap in made.site.gaps:
        before.setdefault(gap.link.after, []).append(gap)
    for name in made.site.order:
        if name not in found:
            at = max([int(made.site.jobs[name].starts[0]), *_bounds(before.get(name, []), found)])
            found[name] = Place(start=at, end=at, crew="")
    return found


def _bounds(gaps: list[Gap], found: Mapping[str, Place]) -> list[int]:
    places = [(gap, found[gap.link.before]) for gap in gaps]
    return [(place.end if gap.from_end else place.start) + gap.least for gap, place in places]
