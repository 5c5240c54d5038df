"""The order to search in, rounds of neighbors, and the word to stop."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests.leakage.hunt_world import made_up

from seamwright.leakage.hunt import hunt
from seamwright.leakage.hunt_types import FanTest, HuntModel, Look, Mend
from seamwright.leakage.rank import Minutes, StopRule, advise, minutes_to_reach, rank

MODEL = HuntModel()
PRIORS = made_up(30, np.random.default_rng(8))


def test_the_order_is_by_gain_per_minute() -> None:
    """Choices fall in gain per hour, and every place but the leak elsewhere is among them."""
    choices = rank(hunt(PRIORS, [], MODEL))
    rates = [choice.per_hour for choice in choices]
    assert rates == sorted(rates, reverse=True)
    assert {c.standing.place.id for c in choices} == {p.place.id for p in PRIORS}


def test_what_is_hard_to_reach_comes_later() -> None:
    """Of two equal places the one behind boards ranks below the open one, the high one between."""
    place = PRIORS[0].place
    low, high, covered = (
        replace(PRIORS[0], place=replace(place, **change))
        for change in (
            {"id": "low", "height": 1.0},
            {"id": "high", "height": 3.0},
            {"id": "covered", "height": 1.0, "reachable": False},
        )
    )
    order = rank(hunt([covered, high, low], [], MODEL))
    assert [c.standing.place.id for c in order] == ["low", "high", "covered"]
    times = Minutes()
    assert minutes_to_reach(low.place, times) == pytest.approx(0.0)
    assert minutes_to_reach(covered.place, times) == pytest.approx(times.covered)


def test_consequence_can_outrank_the_amount() -> None:
    """Weighed by what it does to the wood, a lesser leak at the ridge comes before a greater."""
    gale = replace(PRIORS[1], place=replace(PRIORS[1].place, id="gale", consequence=1.0))
    whisper = replace(
        gale, place=replace(gale.place, id="whisper", consequence=5.0), base=gale.base / 2,
        defect_flow=gale.defect_flow / 2,
    )  # fmt: skip
    found = hunt([gale, whisper], [], MODEL)
    assert rank(found)[0].standing.place.id == "gale"
    assert rank(found, aim="consequence")[0].standing.place.id == "whisper"


def test_a_find_moves_its_place_up_and_a_mend_that_held_to_the_end() -> None:
    """After a find unmended its place is first; mended and searched clean it is among the last."""
    last = rank(hunt(PRIORS, [], MODEL))[-1].standing.place.id
    find = Look(place=last, method="smoke", found=True, strength=5)
    assert rank(hunt(PRIORS, [find], MODEL))[0].standing.place.id == last
    clean = Look(place=last, method="smoke", found=False)
    after = rank(hunt(PRIORS, [find, Mend(place=last), clean], MODEL))
    assert last in {choice.standing.place.id for choice in after[-5:]}


def test_the_advice_says_when_to_stop() -> None:
    """It stops below the target, for little gain, for gain spread thin, and else goes on."""
    found = hunt(PRIORS, [], MODEL)
    choices = rank(found)
    assert advise(found, choices, StopRule(least_share=0.0, thin_share=0.0)).word == "go on"
    assert advise(found, choices, StopRule(least_share=99.0)).word == "little to gain"
    assert advise(found, choices, StopRule(least_share=0.0, thin_share=1.1)).word == "spread thin"
    tight = hunt(PRIORS, [FanTest(id="T", flow=0.01, low=0.0098, high=0.0102)], MODEL)
    word = advise(tight, rank(tight), StopRule(target=0.02)).word
    assert word == "good enough"


def test_equal_places_count_as_many() -> None:
    """Ten equal places are as if spread over ten, and the first of them hold their share."""
    alike = [replace(PRIORS[0], place=replace(PRIORS[0].place, id=f"E{i}")) for i in range(10)]
    found = hunt(alike, [], MODEL)
    advice = advise(found, rank(found), StopRule(thin_places=5))
    assert advice.effective_places == pytest.approx(10.0, rel=1e-6)
    assert advice.first_share == pytest.approx(0.5, rel=1e-6)
