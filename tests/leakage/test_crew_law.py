"""Where a hunt starts once tests of finished houses have taught something."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from tests.leakage.houses import house, joint, window

from seamwright.leakage.crew_law import crew_law, factors_of, kind_sigma, learned_shifts
from seamwright.leakage.forecast import forecast
from seamwright.leakage.hunt import hunt
from seamwright.leakage.hunt_priors import hunt_start
from seamwright.leakage.hunt_types import Facts, Look
from seamwright.leakage.learn import HouseTest, Knowledge, learn
from seamwright.leakage.places import made_by
from seamwright.leakage.priors import Spreads

PLACES = house(60)
SPREADS = Spreads()
FLOWS = [1e-4 * max(p.length, 0.3) for p in PLACES]


def houses_of(crew: str, factor: float, count: int) -> tuple[HouseTest, ...]:
    """Return tests of houses that one crew made, each at `factor` times the middle forecast."""
    places = tuple(replace(p, crew=crew) for p in PLACES)
    before = forecast(places, draws=4_000)
    flow = before.flow_50.p50 * factor
    return tuple(
        HouseTest(id=f"{crew}{k}", flow_50=flow, log_error=0.05, anchor=before.anchor)
        for k in range(count)
    )


def test_crews_share_the_house_and_the_kinds() -> None:
    """Without tests each crew's variance is house + crew + its kinds, and two crews have house and
    kinds in common.
    """
    places = [joint("A", crew="a"), joint("B", crew="b")]
    law = crew_law(places, [1.0, 1.0], Knowledge())
    shared = SPREADS.overall**2 + SPREADS.kind**2
    both = shared + SPREADS.crew**2
    assert law.crews == ("a", "b")
    assert np.allclose(law.covariance, [[both, shared], [shared, both]])


def test_many_kinds_leave_little_in_the_sum() -> None:
    """Of four kinds alike in leakage a quarter of one kind's variance stays."""
    places = [joint(k, kind=k) for k in ("sill", "eave", "ridge", "rake")]
    law = crew_law(places, [1.0] * 4, Knowledge())
    wanted = SPREADS.overall**2 + SPREADS.crew**2 + SPREADS.kind**2 / 4.0
    assert law.covariance[0][0] == pytest.approx(wanted)


def test_windows_follow_no_crew() -> None:
    """A window's edge has the factor of its kind alone, and is in no crew's law."""
    assert factors_of(window("W1/unit")) == ("kind:window_unit",)
    assert crew_law([window("W1/unit")], [1.0], Knowledge()).crews == ()


def test_tests_of_a_crew_narrow_and_move_it() -> None:
    """After four houses at half of the forecast a crew's places are expected lower, its variance is
    smaller, and a crew never tested keeps more of its own.
    """
    knowledge = learn(houses_of("a", 0.5, 4))
    before, after = (crew_law(PLACES, FLOWS, k) for k in (Knowledge(), knowledge))
    variance = [dict(zip(law.crews, np.diag(law.covariance), strict=True))
                for law in (before, after)]  # fmt: skip
    assert variance[1]["a"] < 0.4 * variance[0]["a"]
    assert variance[1]["a"] < variance[1]["b"] < variance[0]["b"]
    shifts = learned_shifts(PLACES, knowledge)
    by_crew = {crew: next(shifts[p.id] for p in PLACES if p.crew == crew and p.kind == "sill")
               for crew in "ab"}  # fmt: skip
    assert by_crew["a"] < by_crew["b"] < 0.0
    sill = next(p for p in PLACES if p.kind == "sill")
    assert kind_sigma(sill, knowledge) < kind_sigma(sill, Knowledge()) == SPREADS.kind


def test_an_empty_history_changes_nothing() -> None:
    """Starting without tests and from an empty history is the same."""
    assert hunt_start(PLACES) == hunt_start(PLACES, knowledge=learn(()))


@pytest.mark.parametrize("factor", [0.4, 1.0, 2.5])
def test_the_hunt_starts_where_the_learned_forecast_stands(factor: float) -> None:
    """Before any look the expected leak of 300 places is the learned forecast's mean within
    5 %, and the ends that hold nine in ten lie within 15 % of the forecast's.
    """
    knowledge = learn(houses_of("a", factor, 3))
    many = house(300)
    wanted = forecast(many, knowledge=knowledge).flow_50
    start = hunt_start(many, knowledge=knowledge)
    total = hunt(start.priors, (), start.model).total
    assert total.value == pytest.approx(wanted.mean, rel=0.05)
    assert total.low == pytest.approx(wanted.p05, rel=0.15)
    assert total.high == pytest.approx(wanted.p95, rel=0.15)


def test_a_test_taken_out_leaves_no_trace() -> None:
    """The history without a test starts the hunt as if it had never been there."""
    first, second = houses_of("a", 0.6, 1) + houses_of("b", 1.5, 1)
    with_both = hunt_start(PLACES, knowledge=learn((first, second)))
    assert with_both != hunt_start(PLACES, knowledge=learn((first,)))
    again = learn(tuple(t for t in (first, second) if t.id != second.id))
    assert hunt_start(PLACES, knowledge=again) == hunt_start(PLACES, knowledge=learn((first,)))


def test_records_say_who_made_a_place_and_how_it_works() -> None:
    """A place whose record names a crew follows it in leak and factor; others keep theirs."""
    facts = {"J0": Facts(crew="b2")}
    start = hunt_start(PLACES, facts, crews={"b2": "careless"})
    plain = hunt_start(PLACES)
    assert start.priors[0].place.crew == "b2"
    assert "b2" in start.model.crew_law.crews
    assert start.priors[0].base > 1.5 * plain.priors[0].base
    assert start.priors[1].base == plain.priors[1].base
    assert [p.crew for p in made_by(PLACES, {"J0": "b2"})][:2] == ["b2", PLACES[1].crew]


def test_one_crews_places_say_something_of_anothers() -> None:
    """Crews share the house's factor: gales at one crew's places raise the other's a bit."""
    start = hunt_start(PLACES)
    finds = [Look(place=p.id, method="smoke", found=True, strength=4) for p in PLACES
             if p.crew == "a" and p.sort == "joint"][:6]  # fmt: skip
    found = hunt(start.priors, finds, start.model).crews
    assert found["a"].value > found["b"].value > 1.0
    assert math.isfinite(found["b"].high)
