"""Rounds: a ladder stands once for all that is searched from it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests.leakage.hunt_world import made_up

from seamwright.leakage.hunt import hunt
from seamwright.leakage.hunt_types import FanTest, HuntModel, Look, Mend
from seamwright.leakage.rank import Choice, Minutes, minutes_to_stand, rank
from seamwright.leakage.rounds import standing_at, walk

TIMES = Minutes()
CHOICES = rank(hunt(made_up(30, np.random.default_rng(8)), [], HuntModel()))
IDS = [c.standing.place.id for c in CHOICES]
ALL_NEAR = {i: [j for j in IDS if j != i] for i in IDS}


def choice(name: str, worth: float, there: float, height: float = 1.0) -> Choice:
    """Return a place worth `worth` that takes `there` minutes once somebody stands beside it."""
    old = CHOICES[0]
    place = replace(old.standing.place, id=name, height=height)
    minutes = there + minutes_to_stand(place, TIMES)
    return replace(
        old, standing=replace(old.standing, place=place), minutes=minutes, score=worth / minutes
    )


def rate(some: tuple[Choice, ...]) -> float:
    """Return what a round brings per minute, its first place reached and the others not."""
    spent = sum(c.minutes - minutes_to_stand(c.standing.place, TIMES) for c in some)
    spent += minutes_to_stand(some[0].standing.place, TIMES)
    return sum(c.score * c.minutes for c in some) / spent


def names(rounds: tuple[tuple[Choice, ...], ...]) -> list[list[str]]:
    """Return the ids of the places of each round."""
    return [[c.standing.place.id for c in some] for some in rounds]


def test_every_place_comes_once() -> None:
    """Rounds hold every place once and no more than the most at a time."""
    rounds = walk(CHOICES, ALL_NEAR, most=3)
    assert sorted(i for some in names(rounds) for i in some) == sorted(IDS)
    assert max(map(len, rounds)) <= 3


def test_without_neighbors_the_order_stays() -> None:
    """Where nothing is searched from the same spot, rounds are single places in their order."""
    assert names(walk(CHOICES, {})) == [[i] for i in IDS]


def test_rounds_fall_in_what_they_bring() -> None:
    """A later round never brings more per minute than the one before."""
    near = {i: IDS[max(0, k - 3) : k] + IDS[k + 1 : k + 4] for k, i in enumerate(IDS)}
    rates = [rate(some) for some in walk(CHOICES, near)]
    assert rates == pytest.approx(sorted(rates, reverse=True))


def test_a_neighbor_joins_when_it_raises_the_rate() -> None:
    """From a staging of six minutes a place of four a minute takes a neighbor of three along and
    leaves one of a tenth behind.
    """
    high = choice("high", worth=24.0, there=2.0, height=5.0)
    good = choice("good", worth=6.0, there=2.0, height=5.0)
    poor = choice("poor", worth=0.2, there=2.0, height=5.0)
    near = {"high": ["good", "poor"], "good": ["high", "poor"], "poor": ["high", "good"]}
    assert names(walk([high, good, poor], near)) == [["high"], ["good"], ["poor"]]
    weak = replace(high, score=high.score / 3.0)
    assert names(walk([weak, good, poor], near)) == [["high", "good"], ["poor"]]


def test_two_of_one_ladder_outrank_a_better_one_alone() -> None:
    """Three places of one staging, each worse than a low one by itself, come first together."""
    low = choice("low", worth=3.0, there=2.0)
    high = [choice(f"h{k}", worth=6.0, there=2.0, height=5.0) for k in range(5)]
    near = {c.standing.place.id: [d.standing.place.id for d in high if d is not c] for c in high}
    assert max(c.score for c in high) < low.score
    first, second = walk([low, *high], near)
    assert len(first) == 5
    assert second == (low,)


def test_who_stands_there_needs_no_ladder() -> None:
    """The place last looked at and its neighbors come first while somebody stands there."""
    low = choice("low", worth=3.0, there=2.0)
    high = choice("high", worth=4.5, there=2.0, height=5.0)
    last = choice("last", worth=0.1, there=2.0, height=5.0)
    near = {"high": ["last"], "last": ["high"]}
    assert names(walk([low, high, last], near))[0] == ["low"]
    assert names(walk([low, high, last], near, at="last"))[0] == ["high"]


def test_where_somebody_stands_is_in_the_diary() -> None:
    """The last entry says it if it is a look or a mend; a fan test or no entry does not."""
    look = Look(place="J1", method="smoke", found=True)
    test = FanTest(id="T", flow=0.1, low=0.09, high=0.11)
    assert standing_at([test, look]) == "J1"
    assert standing_at([look, Mend(place="J2")]) == "J2"
    assert standing_at([look, test]) is None
    assert standing_at([]) is None


def test_what_covers_a_place_is_opened_for_each() -> None:
    """A ladder is shared, boards are not: a covered neighbor does not join for free."""
    open_ = choice("open", worth=6.0, there=2.0, height=5.0)
    place = replace(choice("boards", worth=6.0, there=2.0, height=5.0).standing.place,
                    reachable=False)  # fmt: skip
    standing = replace(open_.standing, place=place)
    covered = replace(open_, standing=standing, minutes=open_.minutes + TIMES.covered,
                      score=6.0 / (open_.minutes + TIMES.covered))  # fmt: skip
    near = {"open": ["boards"], "boards": ["open"]}
    assert names(walk([open_, covered], near)) == [["open"], ["boards"]]
