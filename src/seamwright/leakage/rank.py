"""Where to look next: what a look and a mend are expected to bring, over the minutes they take."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal, TypeAlias

from seamwright.leakage.hunt_types import Hunt, Standing
from seamwright.leakage.places import Place

Aim: TypeAlias = Literal["leak", "consequence", "defects"]
"""What the order is after: leak, leak beyond what the wood tolerates, or defects found."""
WORST = 5.0
"""Weight of a place where all of a leak does harm: `common practice, no source`. [-]"""
Word: TypeAlias = Literal["go on", "good enough", "little to gain", "spread thin"]


@dataclass(frozen=True, kw_only=True, slots=True)
class Minutes:
    """How long it takes to search and to mend. [min], [min/m]

    An estimate, `common practice, no source`: 4 to 8 finds an hour and 5 to 30 minutes a fix are
    what crews speak of; put your own times in their place.
    """

    look: float = 1.5
    look_per_metre: float = 0.7
    mend: float = 8.0
    mend_per_metre: float = 2.0
    mend_most: float = 30.0
    ladder: float = 2.0
    staging: float = 6.0
    covered: float = 30.0
    ladder_from: float = 2.0
    staging_from: float = 3.5


@dataclass(frozen=True, kw_only=True, slots=True)
class StopRule:
    """When to stop: less to gain per hour than `least_share` of the remaining leak, or, of what
    can be gained at all, less than `thin_share` at the best `thin_places` places; or the whole
    leak surely below `target` [m³/s]. `common practice, no source`.
    """

    least_share: float = 0.03
    thin_share: float = 0.15
    thin_places: int = 10
    target: float | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Choice:
    """A place to look at next. `gain` is the expected fall of the leak if it is looked at and, if
    something is found, mended [m³/s]; `minutes` what that is expected to take; `score` orders.
    """

    standing: Standing
    gain: float
    minutes: float
    score: float

    @property
    def per_hour(self) -> float:
        """Expected fall of the leak per hour of work. [m³/s per h]"""
        return self.gain / self.minutes * 60.0


@dataclass(frozen=True, kw_only=True, slots=True)
class Advice:
    """Go on or stop, with the figures: expected fall per hour at the best place [m³/s per h], the
    share of all gain at the first places, and how many places the gain is spread over.
    """

    word: Word
    per_hour: float
    limit: float
    first_share: float
    first_count: int
    effective_places: float


def rank(
    hunt: Hunt,
    minutes: Minutes | None = None,
    *,
    aim: Aim = "leak",
) -> tuple[Choice, ...]:
    """Return every place that can be searched, the best per minute first.

    What counts as best is the `aim`. The leak elsewhere has no place and is left out.
    """
    taken = Minutes() if minutes is None else minutes
    choices = [
        _choice(standing, taken, aim)
        for standing in hunt.standings
        if standing.place.kind != "elsewhere"
    ]
    return tuple(sorted(choices, key=lambda c: (-c.score, c.standing.place.id)))


def harm(standing: Standing) -> float:
    """Return how much harmful leak a look and a mend are expected to take off. [m³/s]

    What is beyond the place's tolerance where a moisture result says what it tolerates; else the
    whole gain times the place's weight as a part of the greatest, `WORST`.
    """
    if standing.relief is not None:
        return standing.relief
    return standing.gain * standing.place.consequence / WORST


def minutes_to_reach(place: Place, minutes: Minutes) -> float:
    """Return the minutes to get to a place: where to stand, and opening what covers it. [min]"""
    return minutes_to_stand(place, minutes) + (0.0 if place.reachable else minutes.covered)


def minutes_to_stand(place: Place, minutes: Minutes) -> float:
    """Return the minutes to put up a ladder or staging; all that is searched from there shares
    them. [min]
    """
    if place.height >= minutes.staging_from:
        return minutes.staging
    return minutes.ladder if place.height >= minutes.ladder_from else 0.0


def minutes_to_look(place: Place, minutes: Minutes) -> float:
    """Return the minutes to search a place once there. [min]"""
    return minutes.look + minutes.look_per_metre * place.length


def minutes_to_mend(place: Place, minutes: Minutes) -> float:
    """Return the minutes to mend what was found. [min]"""
    return min(minutes.mend + minutes.mend_per_metre * place.length, minutes.mend_most)


def advise(hunt: Hunt, choices: Sequence[Choice], rule: StopRule | None = None) -> Advice:
    """Return whether to go on, by the rule: good enough, too little to gain, or spread too thin."""
    used = StopRule() if rule is None else rule
    gains = sorted((choice.gain for choice in choices), reverse=True)
    whole = math.fsum(gains)
    first = math.fsum(gains[: used.thin_places]) / whole if whole > 0.0 else 0.0
    parts = [g / whole for g in gains if g > 0.0] if whole > 0.0 else []
    entropy = -math.fsum(p * math.log(p) for p in parts)
    per_hour = max((choice.per_hour for choice in choices), default=0.0)
    limit = used.least_share * hunt.total.value
    word: Word = "go on"
    if used.target is not None and hunt.total.high <= used.target:
        word = "good enough"
    elif per_hour < limit:
        word = "little to gain"
    elif first < used.thin_share:
        word = "spread thin"
    return Advice(
        word=word,
        per_hour=per_hour,
        limit=limit,
        first_share=first,
        first_count=min(used.thin_places, len(gains)),
        effective_places=math.exp(entropy) if parts else 0.0,
    )


def _choice(standing: Standing, minutes: Minutes, aim: Aim) -> Choice:
    place = standing.place
    taken = minutes_to_reach(place, minutes) + minutes_to_look(place, minutes)
    taken += standing.found * minutes_to_mend(place, minutes)
    worth = {"leak": standing.gain, "consequence": harm(standing), "defects": standing.defect}[aim]
    return Choice(standing=standing, gain=standing.gain, minutes=taken, score=worth / taken)
