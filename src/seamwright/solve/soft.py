"""The softer goals: few moves of scaffold and tools, then even crews.

A move is a change of place between two tasks that follow each other in a crew. Counting moves needs
the order of all tasks; the search makes the hours smaller over which the work in each place is
spread, which brings the tasks of a place together, and the moves are counted after.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

import numpy as np

from seamwright.schedule.calendar_steps import Steppings
from seamwright.schedule.greedy import Place
from seamwright.schedule.types import Task
from seamwright.solve.library import Solver
from seamwright.solve.model import Model

SPREAD, UNEVEN = 1, 1
"""Weights of one step by which the work in a place is spread, and of one step by which the loads
of crews with the same skills differ. Our own choice."""

_PART = re.compile(r"[.\-:]")


def place_name(task: Task) -> str:
    """Return where a task's scaffold stands: side and plane or storey; empty where it needs none.

    ``inner/R1.2-R1.3`` and ``inner/R1`` are one place, as are ``A``, ``A.sill`` and panel A.2.
    """
    side, slash, rest = task.zone.partition("/")
    if not slash:
        return _PART.split(side, maxsplit=1)[0]
    return f"{side}/{_PART.split(rest.rsplit('/', maxsplit=1)[-1], maxsplit=1)[0]}"


def moves(site: Steppings, places: Mapping[str, Place]) -> int:
    """Return how often crews change place between tasks that follow each other."""
    last: dict[str, str] = {}
    count = 0
    for name in sorted(places, key=lambda n: (places[n].start, places[n].end, n)):
        crew, where = places[name].crew, place_name(site.jobs[name].task)
        if not crew or not where:
            continue
        count += last.get(crew, where) != where
        last[crew] = where
    return count


def unevenness(site: Steppings, places: Mapping[str, Place]) -> int:
    """Return the difference of loads between crews of the same skills, summed. [steps]"""
    loads = dict.fromkeys(site.crews, 0)
    for name, place in places.items():
        if place.crew in loads:
            loads[place.crew] += site.jobs[name].length
    return sum(
        max(loads[crew] for crew in pair) - min(loads[crew] for crew in pair)
        for pair in twins(site)
    )


def toll(site: Steppings, places: Mapping[str, Place]) -> tuple[int, int]:
    """Return moves, then unevenness: what the softer goals keep small."""
    return (moves(site, places), unevenness(site, places))


def soften(made: Model, end: int) -> None:
    """Let the model keep `end` [steps of the wall clock] and make spread and unevenness small."""
    model, site = made.model, made.site
    last = int(made.frames.of_ends(np.array([end]))[0])
    model.add(made.finish <= last)
    groups: dict[tuple[str, str], list[str]] = {}
    for name, job in site.jobs.items():
        where = place_name(job.task)
        if not job.done and job.length and where:
            groups.setdefault((job.task.skill, where), []).append(name)
    parts: list[Solver] = []
    for (skill, where), names in groups.items():
        if len(names) < 2:
            continue
        begin = model.new_int_var(0, last, f"from {skill} {where}")
        stop = model.new_int_var(0, last, f"to {skill} {where}")
        for name in names:
            model.add(begin <= made.starts[name])
            model.add(stop >= made.ends[name])
        parts.append(SPREAD * (stop - begin))
    parts += [UNEVEN * _difference(made, pair) for pair in twins(site)]
    model.minimize(sum(parts))


def _difference(made: Model, pair: tuple[str, ...]) -> Solver:
    site, model = made.site, made.model
    most = sum(job.length for job in site.jobs.values())
    high = model.new_int_var(0, most, f"most {pair}")
    low = model.new_int_var(0, most, f"least {pair}")
    for crew in pair:
        load = sum(
            site.jobs[name].length * literals[crew]
            for name, literals in made.chosen.items()
            if crew in literals
        )
        model.add(high >= load)
        model.add(low <= load)
    return high - low


def twins(site: Steppings) -> tuple[tuple[str, ...], ...]:
    """Return the crews that have the same skills, where there are several."""
    by_skill: dict[tuple[str, ...], list[str]] = {}
    for crew in site.crews.values():
        by_skill.setdefault(tuple(sorted(crew.skills)), []).append(crew.id)
    return tuple(tuple(ids) for ids in by_skill.values() if len(ids) > 1)
