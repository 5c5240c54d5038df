"""Rounds: the best place with what is worth a look from the same spot, before the ladder moves."""

from __future__ import annotations

import heapq
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from seamwright.leakage.hunt_types import Event, Look, Mend
from seamwright.leakage.rank import Choice, Minutes, minutes_to_stand

MOST = 5
"""Places in one round: `common practice, no source`; after so many finds and blanks the order is
worth working out anew."""


@dataclass(frozen=True, kw_only=True, slots=True)
class _Round:
    """Places searched from one spot, and what they bring per minute, the way there counted."""

    ids: tuple[str, ...]
    rate: float


def walk(
    choices: Sequence[Choice],
    neighbors: Mapping[str, Sequence[str]],
    minutes: Minutes | None = None,
    *,
    most: int = MOST,
    at: str | None = None,
) -> tuple[tuple[Choice, ...], ...]:
    """Return every choice once, in rounds; the round that brings most per minute comes first.

    A round is a place with those of its `neighbors` that raise what the round brings per minute
    when the ladder or staging of the first serves all; what covers a place is opened for each. `at`
    is the place where somebody stands now: it and its neighbors need no ladder in the first round.

    Cost grows with the number of places times their neighbors: a round is worked out anew only
    when it comes to the top.
    """
    taken = Minutes() if minutes is None else minutes
    trip = _Trip(choices, neighbors, taken, most)
    heap = [(-trip.best(i, at).rate, k, i) for k, i in enumerate(trip.left)]
    heapq.heapify(heap)
    rounds = []
    here = at
    while heap:
        _, k, first = heapq.heappop(heap)
        if first not in trip.left:
            continue
        now = trip.best(first, here)
        if heap and -heap[0][0] > now.rate:
            heapq.heappush(heap, (-now.rate, k, first))
            continue
        rounds.append(tuple(trip.left.pop(i) for i in now.ids))
        if here is not None:
            here = None
            heap = [(-trip.best(i, None).rate, k, i) for _, k, i in heap if i in trip.left]
            heapq.heapify(heap)
    return tuple(rounds)


def standing_at(diary: Sequence[Event]) -> str | None:
    """Return the place that somebody looked at or mended last, None before and after a test."""
    last = diary[-1] if diary else None
    return last.place if isinstance(last, Look | Mend) else None


class _Trip:
    """What is left to search: worth and minutes of each place, by id."""

    def __init__(
        self,
        choices: Sequence[Choice],
        neighbors: Mapping[str, Sequence[str]],
        minutes: Minutes,
        most: int,
    ) -> None:
        self.left = {choice.standing.place.id: choice for choice in choices}
        self.neighbors, self.most = neighbors, most
        self.worth = {i: c.score * c.minutes for i, c in self.left.items()}
        self.stand = {i: minutes_to_stand(c.standing.place, minutes) for i, c in self.left.items()}
        self.there = {i: c.minutes - self.stand[i] for i, c in self.left.items()}

    def best(self, first: str, at: str | None) -> _Round:
        """Return the best round that begins at a place."""
        near = [i for i in self.neighbors.get(first, ()) if i in self.left]
        stands = at is not None and (first == at or first in self.neighbors.get(at, ()))
        worth = self.worth[first]
        spent = self.there[first] + (0.0 if stands else self.stand[first])
        ids = [first]
        for i in sorted(near, key=lambda i: (-self.worth[i] / self.there[i], i))[: self.most - 1]:
            if self.worth[i] * spent <= worth * self.there[i]:
                break
            ids.append(i)
            worth, spent = worth + self.worth[i], spent + self.there[i]
        return _Round(ids=tuple(ids), rate=worth / spent)
