"""Laws of the leak hunt."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.leakage.hunt_world import made_up

from seamwright.leakage.hunt import hunt
from seamwright.leakage.hunt_types import FanTest, HuntModel, Look, Mend

MODEL = HuntModel()
law = settings(derandomize=True, max_examples=20, deadline=None)
seeds = st.integers(0, 1000)
flows = st.floats(0.004, 0.05)
methods = st.sampled_from(["smoke", "infrared", "hand"])


def fan(flow: float, name: str = "T1") -> FanTest:
    """Return a test with limits of 5 %."""
    return FanTest(id=name, flow=flow, low=0.95 * flow, high=1.05 * flow)


def leaks(found) -> np.ndarray:
    """Return the expected leak of every place."""
    return np.array([s.leak for s in found.standings])


@law
@given(seed=seeds, flow=flows, method=methods)
def test_finding_nothing_never_raises_a_place(seed: int, flow: float, method: str) -> None:
    """Nothing found lowers the expected leak there and the chance of a defect."""
    priors = made_up(12, np.random.default_rng(seed))
    before = hunt(priors, [fan(flow)], MODEL).standings[3]
    after = hunt(
        priors, [fan(flow), Look(place="J3", method=method, found=False)], MODEL
    ).standings[3]
    assert after.leak <= before.leak * (1 + 1e-6)
    assert after.defect <= before.defect + 1e-9


@law
@given(seed=seeds, flow=flows, method=methods)
def test_finding_raises_a_place(seed: int, flow: float, method: str) -> None:
    """A find raises the expected leak there and the chance of a defect."""
    priors = made_up(12, np.random.default_rng(seed))
    before = hunt(priors, [fan(flow)], MODEL).standings[3]
    after = hunt(priors, [fan(flow), Look(place="J3", method=method, found=True)], MODEL).standings[
        3
    ]
    assert after.leak >= before.leak * (1 - 1e-6)
    assert after.defect >= before.defect - 1e-9


@law
@given(seed=seeds)
def test_a_stronger_find_speaks_for_a_bigger_leak(seed: int) -> None:
    """The strongest find speaks for a bigger leak, and more surely for a defect, than the weakest.

    (Steps between may cross: a weak draft all along a joint can be more air than a hole.)
    """
    priors = made_up(12, np.random.default_rng(seed))
    weakest, strongest = (
        hunt(priors, [Look(place="J3", method="smoke", found=True, strength=k)], MODEL).standings[3]
        for k in (1, 5)
    )
    assert strongest.leak > weakest.leak
    assert strongest.defect > weakest.defect


@law
@given(seed=seeds, flow=flows)
def test_a_bigger_total_raises_every_place(seed: int, flow: float) -> None:
    """A house found a third leakier is leakier at every place."""
    priors = made_up(40, np.random.default_rng(seed))
    less, more = (leaks(hunt(priors, [fan(f)], MODEL)) for f in (flow, flow * 4 / 3))
    assert np.all(more > less)


@law
@given(seed=seeds, flow=flows, order=st.permutations(range(4)))
def test_the_order_of_looks_and_tests_does_not_matter(
    seed: int, flow: float, order: list[int]
) -> None:
    """With nothing mended between, the same news in any order leaves the same house."""
    priors = made_up(12, np.random.default_rng(seed))
    news = [
        fan(flow),
        Look(place="J1", method="smoke", found=True, strength=2),
        Look(place="J1", method="hand", found=False),
        Look(place="J5", method="infrared", found=False),
    ]
    first = leaks(hunt(priors, news, MODEL))
    assert leaks(hunt(priors, [news[i] for i in order], MODEL)) == pytest.approx(first, rel=1e-9)


@law
@given(seed=seeds, flow=flows)
def test_a_mended_place_falls(seed: int, flow: float) -> None:
    """A mend lowers the expected leak and the chance of a defect at its place, and a second mend
    never raises them.
    """
    priors = made_up(12, np.random.default_rng(seed))
    news = [fan(flow), Look(place="J3", method="smoke", found=True, strength=3)]
    states = [hunt(priors, [*news, *[Mend(place="J3")] * k], MODEL).standings[3] for k in range(3)]
    assert states[0].leak > states[1].leak >= states[2].leak
    assert states[0].defect > states[1].defect >= states[2].defect


@law
@given(seed=seeds, flow=flows, order=st.permutations(range(12)))
def test_names_and_order_of_places_do_not_matter(seed: int, flow: float, order: list[int]) -> None:
    """The same places under other ids in another order have the same leaks."""
    priors = made_up(12, np.random.default_rng(seed))
    found = leaks(hunt(priors, [fan(flow), Look(place="J3", method="smoke", found=True)], MODEL))
    other = [replace(priors[i], place=replace(priors[i].place, id=f"other-{i}")) for i in order]
    news = [fan(flow), Look(place="other-3", method="smoke", found=True)]
    assert leaks(hunt(other, news, MODEL)) == pytest.approx(found[list(order)], rel=1e-6)


@law
@given(seed=seeds, flow=flows)
def test_a_test_narrows_the_whole(seed: int, flow: float) -> None:
    """After a test the house's leak is known about as well as the test is, and lies near it."""
    priors = made_up(40, np.random.default_rng(seed))
    found = hunt(priors, [fan(flow)], MODEL)
    assert found.total.value == pytest.approx(flow, rel=0.05)
    assert (found.total.high - found.total.low) < 0.12 * flow
