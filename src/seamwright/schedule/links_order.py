"""Tasks in an order that every link allows, and the circle that stands in the way of one."""

from __future__ import annotations

import heapq
from collections import defaultdict, deque
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any

from seamwright.schedule.types import Link, Task


def in_order_of_work(
    tasks: Sequence[Task], links: Iterable[Link], *, key: Callable[[Task], Any]
) -> tuple[Task, ...]:
    """Return tasks so that none stands before one it waits for; ties by `key`.

    Tasks on a circle cannot be ordered: they come last, by `key`, for `shortest_circle` to explain.
    """
    by_id = {task.id: task for task in tasks}
    after: dict[str, set[str]] = defaultdict(set)
    waits: dict[str, set[str]] = defaultdict(set)
    for link in links:
        if link.before in by_id and link.after in by_id:
            after[link.before].add(link.after)
            waits[link.after].add(link.before)
    rank = {task.id: number for number, task in enumerate(sorted(tasks, key=key))}
    heap = [(rank[task], task) for task in by_id if not waits[task]]
    heapq.heapify(heap)
    found: list[str] = []
    while heap:
        _, task_id = heapq.heappop(heap)
        found.append(task_id)
        for later in after[task_id]:
            waits[later].discard(task_id)
            if not waits[later]:
                heapq.heappush(heap, (rank[later], later))
    found += sorted(set(by_id) - set(found), key=lambda task_id: rank[task_id])
    return tuple(by_id[task_id] for task_id in found)


def shortest_circle(links: Iterable[Link]) -> tuple[Link, ...]:
    """Return the links of a shortest circle, empty where there is none.

    Links that the user wrote (rule ``user``) are looked at first: the rest has no circle.
    """
    listed = list(links)
    names = {name for link in listed for name in (link.before, link.after)}
    if len(_sequence(listed)) == len(names):
        return ()
    after: dict[str, list[Link]] = defaultdict(list)
    for link in listed:
        after[link.before].append(link)
    best: tuple[Link, ...] = ()
    given = [link for link in listed if link.rule == "user"]
    for link in given or listed:
        way = _way(after, link.after, link.before)
        if way is not None and (not best or len(way) + 1 < len(best)):
            best = (link, *way)
    return best


def reaches(links: Iterable[Link]) -> Mapping[str, frozenset[str]]:
    """Return for each task all tasks that come after it, by any way.

    Tasks on a circle, or after one, are left out.
    """
    listed = list(links)
    after: dict[str, set[str]] = defaultdict(set)
    for link in listed:
        after[link.before].add(link.after)
    found: dict[str, frozenset[str]] = {}
    for task in reversed(_sequence(listed)):
        direct = [later for later in after[task] if later in found]
        found[task] = frozenset(direct).union(*(found[later] for later in direct))
    return found


def nearest(links: Iterable[Link]) -> tuple[Link, ...]:
    """Return the links that no chain of others says already, burying or not.

    Of several links between the same two tasks the first stays. The links have no circle.
    """
    listed = list(links)
    after = reaches(listed)
    direct: dict[str, set[str]] = defaultdict(set)
    for link in listed:
        direct[link.before].add(link.after)
    seen: set[tuple[str, str]] = set()
    found: list[Link] = []
    for link in listed:
        pair = (link.before, link.after)
        others = direct[link.before] - {link.after}
        if pair not in seen and not any(link.after in after[other] for other in others):
            seen.add(pair)
            found.append(link)
    return tuple(found)


def _sequence(links: Sequence[Link]) -> list[str]:
    """Return the tasks of links in an order that all links allow, without those on a circle."""
    after: dict[str, set[str]] = defaultdict(set)
    waits: dict[str, int] = {}
    for link in links:
        waits.setdefault(link.before, 0)
        waits.setdefault(link.after, 0)
        if link.after not in after[link.before]:
            after[link.before].add(link.after)
            waits[link.after] += 1
    order = deque(task for task, count in waits.items() if not count)
    found: list[str] = []
    while order:
        task = order.popleft()
        found.append(task)
        for later in sorted(after[task]):
            waits[later] -= 1
            if not waits[later]:
                order.append(later)
    return found


def _way(after: Mapping[str, Sequence[Link]], start: str, goal: str) -> tuple[Link, ...] | None:
    """Return the fewest links from one task to another, None where there is no way."""
    came: dict[str, Link | None] = {start: None}
    queue = deque([start])
    while queue:
        task = queue.popleft()
        if task == goal:
            return _back(came, goal)
        for link in after.get(task, ()):
            if link.after not in came:
                came[link.after] = link
                queue.append(link.after)
    return None


def _back(came: Mapping[str, Link | None], goal: str) -> tuple[Link, ...]:
    way: list[Link] = []
    link = came[goal]
    while link is not None:
        way.append(link)
        link = came[link.before]
    return tuple(reversed(way))
