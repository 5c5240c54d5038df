"""Tasks that must be placed together, in an order that every link allows."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from seamwright.schedule.calendar_steps import Gap, Steppings

SHORT = 2 * 24 * 3600.0
"""Longest gap up to which tasks are placed together. [s] Two days; our own choice."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Bundle:
    """Tasks placed together, in working order; `before` are the bundles that come first.

    `same_day` are the groups among them that must end on the day they began; `order` is the place
    of the first of them in the network.
    """

    id: int
    order: int
    members: tuple[str, ...]
    before: tuple[int, ...]
    same_day: tuple[tuple[str, ...], ...] = ()


def bundles(site: Steppings) -> tuple[Bundle, ...]:
    """Return all tasks in bundles, every bundle after those it waits for.

    Tasks on a circle of links come out in one bundle, which then finds no place.
    """
    names = list(site.jobs)
    index = {name: k for k, name in enumerate(names)}
    days = same_day_groups(site)
    parts = _strong_parts(len(names), _edges(site.gaps, index, days, site.step))
    part_of = {k: number for number, part in enumerate(parts) for k in part}
    before: dict[int, set[int]] = {number: set() for number in range(len(parts))}
    inside: dict[int, list[tuple[int, int]]] = {number: [] for number in range(len(parts))}
    for gap in site.gaps:
        a, b = index[gap.link.before], index[gap.link.after]
        if part_of[a] == part_of[b]:
            inside[part_of[a]].append((a, b))
        else:
            before[part_of[b]].add(part_of[a])
    return tuple(
        Bundle(
            id=number,
            order=min(part),
            members=tuple(names[k] for k in _sorted(part, inside[number])),
            before=tuple(sorted(before[number])),
            same_day=tuple(group for group in days if index[group[0]] in part),
        )
        for number, part in enumerate(map(frozenset, parts))
    )


def same_day_groups(site: Steppings) -> tuple[tuple[str, ...], ...]:
    """Return the groups of tasks that must end on the day they began."""
    groups: dict[str, list[str]] = {}
    for name, job in site.jobs.items():
        if job.task.same_day_as is not None:
            groups.setdefault(job.task.same_day_as, []).append(name)
    for leader, members in groups.items():
        if leader in site.jobs and leader not in members:
            members.insert(0, leader)
    return tuple(tuple(members) for members in groups.values())


def _edges(
    gaps: Iterable[Gap], index: dict[str, int], days: Iterable[tuple[str, ...]], step: float
) -> list[set[int]]:
    """Return who follows whom, and back where a short longest gap or a day ties two tasks."""
    follow: list[set[int]] = [set() for _ in index]
    for gap in gaps:
        a, b = index[gap.link.before], index[gap.link.after]
        follow[a].add(b)
        if gap.most is not None and gap.most * step <= SHORT:
            follow[b].add(a)
    for group in days:
        for one, other in zip(group, (*group[1:], group[0]), strict=True):
            follow[index[one]].add(index[other])
    return follow


def _strong_parts(count: int, follow: Sequence[set[int]]) -> list[list[int]]:
    """Return the strongly connected parts, those without predecessors first (R. Tarjan, 1972)."""
    number: dict[int, int] = {}
    low: dict[int, int] = {}
    stack: list[int] = []
    on_stack: set[int] = set()
    parts: list[list[int]] = []
    for root in range(count):
        if root in number:
            continue
        work = [(root, iter(sorted(follow[root])))]
        number[root] = low[root] = len(number)
        stack.append(root)
        on_stack.add(root)
        while work:
            at, rest = work[-1]
            child = next((c for c in rest if c not in number or c in on_stack), None)
            if child is not None and child not in number:
                number[child] = low[child] = len(number)
                stack.append(child)
                on_stack.add(child)
                work.append((child, iter(sorted(follow[child]))))
            elif child is not None:
                low[at] = min(low[at], number[child])
            else:
                _close(at, work, low, number, stack, on_stack, parts)
    return parts[::-1]


def _close(  # noqa: PLR0917 the state of one search
    at: int,
    work: list[tuple[int, Iterator[int]]],
    low: dict[int, int],
    number: dict[int, int],
    stack: list[int],
    on_stack: set[int],
    parts: list[list[int]],
) -> None:
    """Leave a node of the search; take its part off the stack where it is the first of one."""
    work.pop()
    if work:
        above = work[-1][0]
        low[above] = min(low[above], low[at])
    if low[at] != number[at]:
        return
    part: list[int] = []
    while not part or part[-1] != at:
        part.append(stack.pop())
        on_stack.discard(part[-1])
    parts.append(part)


def _sorted(part: Iterable[int], links: Sequence[tuple[int, int]]) -> list[int]:
    """Return a part so that links lead forward; what lies on a circle comes last."""
    left = sorted(part)
    done: list[int] = []
    while left:
        ready = [k for k in left if not any(b == k and a in left for a, b in links)]
        taken = ready or left
        done += taken
        left = [k for k in left if k not in set(taken)]
    return done
