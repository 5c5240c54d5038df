"""How long work takes here, learned from what it took: the crew's own records outrank our guesses.

For each kind of work the records give factors: work done over work planned, in hours of people.
Their logarithms are normal about that of the true factor, and the planned range says how well that
was known before: its ends count as the 5 % and 95 % points. So one record moves a wide guess little
and twenty move it almost to their mean, with a narrow range about it.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from seamwright.schedule.types import Network, Span3, Task, Work

TAIL = 1.645
"""Standard deviations from the middle to the 5 % and 95 % points of a normal distribution."""

SCATTER = 0.4
"""Standard deviation of one task about its kind, of the logarithm: six in ten tasks lie between
two thirds and one and a half times the usual. Our own estimate, no source."""

LEAST_PRIOR = 0.1
"""Least standard deviation with which a planned duration is known, of the logarithm. Our own."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Took:
    """What a task took on the site: seconds of the clock without breaks, and people at it."""

    task_id: str
    seconds: float
    people: int
    day: str = ""


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


def learned_from(network: Network, records: Iterable[Took]) -> tuple[Learned, ...]:
    """Return what the records teach of each kind of work, in the order of the network's kinds.

    Records of tasks that the network does not have, or that take no time, teach nothing.
    """
    tasks = {task.id: task for task in network.tasks if task.duration.likely > 0}
    ratios: dict[Work, list[tuple[float, float, str]]] = {}
    for row in records:
        task = tasks.get(row.task_id)
        if task is not None:
            planned = task.duration.likely * task.crew_size
            ratio = math.log(row.seconds * row.people / planned)
            ratios.setdefault(task.work, []).append((ratio, _prior(task.duration), row.day))
    return tuple(_learned(work, rows) for work, rows in ratios.items())


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


def _prior(span: Span3) -> float:
    """Return how well a duration was known: standard deviation of its logarithm."""
    if span.low <= 0:
        return max(LEAST_PRIOR, math.log(span.high / span.likely) / TAIL)
    return max(LEAST_PRIOR, math.log(span.high / span.low) / (2 * TAIL))


def _learned(work: Work, rows: list[tuple[float, float, str]]) -> Learned:
    prior = sum(width for _, width, _ in rows) / len(rows)
    weight = 1 / prior**2 + len(rows) / SCATTER**2
    middle = sum(ratio for ratio, _, _ in rows) / SCATTER**2 / weight
    width = TAIL / math.sqrt(weight)
    days = sorted(day for _, _, day in rows if day)
    return Learned(
        work=work, count=len(rows), factor=math.exp(middle),
        low=math.exp(middle - width), high=math.exp(middle + width),
        first_day=days[0] if days else "", last_day=days[-1] if days else "",
    )  # fmt: skip


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
