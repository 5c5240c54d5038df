"""How long work takes here, learned from what it took: the crew's own records outrank our guesses.

For each kind of work the records give factors: work done over work planned, in hours of people.
Their logarithms are normal about that of the true factor, and the planned range says how well that
was known before: its ends count as the 5 % and 95 % points. So one record moves a wide guess little
and twenty move it almost to their mean, with a narrow range about it.

Records that name their crew teach of the crew as well: a factor of its own on all its work, held
near one by `CREW_SPREAD`. Kinds and crews are found together, so that a slow crew is not counted
twice and a kind that only slow crews did is not taken for slow.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

import numpy as np

from seamwright.schedule.types import Crew, Network, Span3, Task, Work

TAIL = 1.645
"""Standard deviations from the middle to the 5 % and 95 % points of a normal distribution."""

SCATTER = 0.4
"""Standard deviation of one task about its kind, of the logarithm: six in ten tasks lie between
two thirds and one and a half times the usual. Our own estimate, no source."""

CREW_SPREAD = 0.2
"""Standard deviation of crews about the usual one, of the logarithm: two of three lie within a
fifth of it. Our own estimate, no source."""

LEAST_PRIOR = 0.1
"""Least standard deviation with which a planned duration is known, of the logarithm. Our own."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Took:
    """What a task took on the site: seconds of the clock without breaks, people at it, and which
    crew they were of, where it is known.
    """

    task_id: str
    seconds: float
    people: int
    day: str = ""
    crew: str = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class Learned:
    """A kind of work and the factor learned: of how many tasks, its middle and 90 % range."""

    work: Work
    count: int
    factor: float
    low: float
    high: float
    first_day: str = ""
    last_day: str = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class LearnedCrew:
    """A crew and the factor learned on all its work: of how many tasks, middle and 90 % range."""

    crew: str
    count: int
    factor: float
    low: float
    high: float


@dataclass(frozen=True, kw_only=True, slots=True)
class _Row:
    """A record against its plan: the logarithm of the factor, and how well it was known."""

    work: Work
    crew: str
    ratio: float
    prior: float
    day: str


def learned_from(network: Network, records: Iterable[Took]) -> tuple[Learned, ...]:
    """Return what the records teach of each kind of work, in the order of the network's kinds.

    Records of tasks that the network does not have, or that take no time, teach nothing.
    """
    return _learned(_rows(network, records))[0]


def learned_crews(network: Network, records: Iterable[Took]) -> tuple[LearnedCrew, ...]:
    """Return what the records teach of each crew that they name, beside what they teach of kinds.

    A crew without a name is the usual one.
    """
    return _learned(_rows(network, records))[1]


def with_crew_pace(
    network: Network, crews: Iterable[Crew], learned: Iterable[LearnedCrew]
) -> Network:
    """Return the network with durations at the pace of the crews that can do the work.

    Where several can, their mean by people counts: the search does not look for the quicker one.
    """
    pace = {row.crew: row.factor for row in learned}
    people = tuple(crews)
    return replace(network, tasks=tuple(_paced(task, people, pace) for task in network.tasks))


def with_learned(network: Network, learned: Iterable[Learned]) -> Network:
    """Return the network with the durations of each kind of work as learned.

    The range narrows with what is known of the factor, and keeps the lean it had.
    """
    factors = {row.work: row for row in learned}
    return replace(network, tasks=tuple(_taught(task, factors) for task in network.tasks))


def learned_told(row: Learned) -> str:
    """Return what was learned of a kind of work, in words."""
    days = f", {row.first_day} to {row.last_day}" if row.first_day else ""
    return (
        f"Learned from {row.count} record{'' if row.count == 1 else 's'} of "
        f"{row.work.replace('_', ' ')}{days}: it takes {row.factor:.2f} times as long as planned "
        f"(90 % range {row.low:.2f} to {row.high:.2f})."
    )


def crew_told(row: LearnedCrew) -> str:
    """Return what was learned of a crew, in words."""
    return (
        f"Learned of crew {row.crew} from {row.count} record{'' if row.count == 1 else 's'}: its "
        f"work takes {row.factor:.2f} times as long as the usual crew's (90 % range {row.low:.2f} "
        f"to {row.high:.2f})."
    )


def _prior(span: Span3) -> float:
    """Return how well a duration was known: standard deviation of its logarithm."""
    if span.low <= 0:
        return max(LEAST_PRIOR, math.log(span.high / span.likely) / TAIL)
    return max(LEAST_PRIOR, math.log(span.high / span.low) / (2 * TAIL))


def _rows(network: Network, records: Iterable[Took]) -> list[_Row]:
    tasks = {task.id: task for task in network.tasks if task.duration.likely > 0}
    found = []
    for row in records:
        task = tasks.get(row.task_id)
        if task is not None:
            planned = task.duration.likely * task.crew_size
            ratio = math.log(row.seconds * row.people / planned)
            found.append(
                _Row(work=task.work, crew=row.crew, ratio=ratio, prior=_prior(task.duration),
                     day=row.day)
            )  # fmt: skip
    return found


def _learned(rows: list[_Row]) -> tuple[tuple[Learned, ...], tuple[LearnedCrew, ...]]:
    """Return kinds and crews, from one system of normal equations."""
    kinds = list(dict.fromkeys(row.work for row in rows))
    crews = list(dict.fromkeys(row.crew for row in rows if row.crew))
    if not rows:
        return (), ()
    of_kind = {kind: [row for row in rows if row.work == kind] for kind in kinds}
    priors = [sum(r.prior for r in of_kind[kind]) / len(of_kind[kind]) for kind in kinds]
    known = np.array([*priors, *(CREW_SPREAD for _ in crews)])
    takes = np.zeros((len(rows), len(known)))
    for k, row in enumerate(rows):
        takes[k, kinds.index(row.work)] = 1.0
        if row.crew:
            takes[k, len(kinds) + crews.index(row.crew)] = 1.0
    spread = np.linalg.inv(np.diag(1.0 / known**2) + takes.T @ takes / SCATTER**2)
    middle = spread @ (takes.T @ np.array([row.ratio for row in rows])) / SCATTER**2
    width = TAIL * np.sqrt(np.diag(spread))
    ends = [tuple(math.exp(v) for v in (m, m - w, m + w))
            for m, w in zip(middle, width, strict=True)]  # fmt: skip
    found = []
    for kind, (factor, low, high) in zip(kinds, ends, strict=False):
        days = sorted(row.day for row in of_kind[kind] if row.day)
        found.append(
            Learned(work=kind, count=len(of_kind[kind]), factor=factor, low=low, high=high,
                    first_day=days[0] if days else "", last_day=days[-1] if days else "")
        )  # fmt: skip
    paces = tuple(
        LearnedCrew(crew=crew, count=sum(row.crew == crew for row in rows), factor=factor,
                    low=low, high=high)
        for crew, (factor, low, high) in zip(crews, ends[len(kinds):], strict=True)
    )  # fmt: skip
    return tuple(found), paces


def _paced(task: Task, crews: tuple[Crew, ...], pace: Mapping[str, float]) -> Task:
    able = [c for c in crews if task.skill in c.skills and c.size >= task.crew_size]
    if task.duration.likely <= 0 or not any(crew.id in pace for crew in able):
        return task
    people = sum(crew.size for crew in able)
    factor = sum(crew.size * pace.get(crew.id, 1.0) for crew in able) / people
    span = task.duration
    return replace(
        task,
        duration=Span3(low=factor * span.low, likely=factor * span.likely, high=factor * span.high),
        source=f"{task.source}; pace of {', '.join(crew.id for crew in able)}",
    )


def _taught(task: Task, factors: Mapping[Work, Learned]) -> Task:
    row = factors.get(task.work)
    if row is None or task.duration.likely <= 0:
        return task
    known = math.log(row.high / row.factor) / TAIL / _prior(task.duration)
    share = min(1.0, known)
    likely = task.duration.likely * row.factor
    span = Span3(
        low=likely * (task.duration.low / task.duration.likely) ** share,
        likely=likely,
        high=likely * (task.duration.high / task.duration.likely) ** share,
    )
    word = "task" if row.count == 1 else "tasks"
    return replace(task, duration=span, source=f"{task.source}; {row.count} {word} of the records")
