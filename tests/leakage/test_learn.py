"""Learning from tests of finished houses."""

from __future__ import annotations

import math

import numpy as np
import pytest
import statsmodels.api as sm
from tests.leakage.houses import house

from seamwright.errors import SeamwrightError
from seamwright.leakage.forecast import forecast
from seamwright.leakage.forecast_draws import group_places
from seamwright.leakage.forecast_types import Anchor
from seamwright.leakage.learn import (
    HouseTest,
    Knowledge,
    base_variance,
    joint_normal,
    learn,
    with_test,
    without_test,
)
from seamwright.leakage.priors import DEFAULT_TABLE, Spreads

PLACES = house(80)
BEFORE = forecast(PLACES, draws=40_000)


def finished(name: str, factor: float, error: float = 0.05) -> HouseTest:
    """Return a test that came out at `factor` times the middle of the forecast."""
    return HouseTest(
        id=name, flow_50=BEFORE.flow_50.p50 * factor, log_error=error, anchor=BEFORE.anchor
    )


def test_no_test_teaches_nothing() -> None:
    """An empty history leaves the forecast as it was."""
    assert forecast(PLACES, knowledge=learn(())).flow_50 == forecast(PLACES).flow_50


def test_a_tight_house_makes_the_next_forecast_tighter_and_surer() -> None:
    """After a test at 0.6 of the middle the forecast moves down and its span narrows."""
    after = forecast(PLACES, knowledge=learn((finished("one", 0.6),))).flow_50
    before = BEFORE.flow_50
    assert 0.6 * before.p50 < after.p50 < 0.9 * before.p50
    assert after.p95 / after.p05 < before.p95 / before.p05


def test_learning_agrees_with_weighting_the_draws() -> None:
    """The closed form gives the factors that weighting drawn houses by their likelihood gives."""
    test = finished("one", 0.7, error=0.1)
    knowledge = learn((test,))
    names = tuple(name for name, _ in test.anchor.weights)
    weights = np.array([weight for _, weight in test.anchor.weights])
    mean, root = joint_normal(Knowledge(), names)
    rng = np.random.default_rng(4)
    drawn = mean[:, None] + root @ rng.standard_normal((len(names), 400_000))
    gap = math.log(test.flow_50) - test.anchor.log_flow - weights @ drawn
    noise = test.anchor.scatter**2 + test.log_error**2
    likelihood = np.exp(-(gap**2) / (2 * noise))
    likelihood /= likelihood.sum()
    for name in ("overall", "crew:a", "kind:node"):
        at = names.index(name)
        expected = float(likelihood @ drawn[at])
        spread = math.sqrt(float(likelihood @ (drawn[at] - expected) ** 2))
        here = knowledge.names.index(name)
        assert knowledge.mean[here] == pytest.approx(expected, abs=0.006)
        assert math.sqrt(knowledge.covariance[here][here]) == pytest.approx(spread, abs=0.006)


def test_the_straight_line_stands_for_the_drawn_houses() -> None:
    """Learning through the anchor gives the forecast that weighting whole drawn houses gives."""
    after = forecast(PLACES, knowledge=learn((finished("one", 0.7),)), draws=40_000).flow_50
    anchor = BEFORE.anchor
    assert anchor.scatter < 0.3
    total = math.fsum(weight for name, weight in anchor.weights if name.startswith("kind"))
    assert total == pytest.approx(1.0)
    assert math.log(after.p50 / BEFORE.flow_50.p50) == pytest.approx(
        math.log(0.7) * (1 - _noise_part()), abs=0.04
    )


def _noise_part() -> float:
    """Return the part of a surprise that is put down to chance and not to the factors."""
    anchor, spreads = BEFORE.anchor, Spreads()
    size = {"o": spreads.overall, "c": spreads.crew, "k": spreads.kind}
    known = math.fsum((w * size[name[0]]) ** 2 for name, w in anchor.weights)
    noise = anchor.scatter**2 + 0.05**2
    return noise / (noise + known)


def test_the_order_of_tests_does_not_matter() -> None:
    """Two tests say the same whichever came first."""
    tests = (finished("one", 0.6), finished("two", 1.5))
    there, back = learn(tests), learn(tests[::-1])
    assert there.names == back.names
    assert there.mean == pytest.approx(back.mean, abs=1e-12)


def test_taking_a_test_out_gives_back_what_was_known() -> None:
    """A test added and taken out again leaves no trace."""
    one = with_test((), finished("one", 0.6))
    two = with_test(one, finished("two", 1.5))
    assert learn(without_test(two, "two")) == learn(one)
    assert learn(without_test(one, "one")) == learn(())


def test_a_crew_is_learned_apart_from_the_table() -> None:
    """Tight houses by one crew move that crew more than another that nobody tested."""
    anchor = Anchor(log_flow=0.0, weights=(("crew:a", 1.0), ("overall", 1.0)), scatter=0.1)
    knowledge = learn(
        [HouseTest(id=str(k), flow_50=0.5, log_error=0.05, anchor=anchor) for k in range(5)]
    )
    mean, root = joint_normal(knowledge, ("overall", "crew:a", "crew:b"))
    assert mean[0] == pytest.approx(mean[1]) == pytest.approx(math.log(0.5) / 2, rel=0.05)
    assert mean[2] == 0.0
    covariance = root @ root.T
    assert covariance[0, 1] < 0.0
    assert covariance[2, 2] == pytest.approx(Spreads().crew ** 2)


def test_many_tests_pin_the_result_down() -> None:
    """Twenty tests of one crew leave little doubt about the sum of the factors."""
    tests = [finished(str(k), 0.8) for k in range(20)]
    after = forecast(PLACES, knowledge=learn(tests)).flow_50
    assert after.p50 == pytest.approx(0.8 * BEFORE.flow_50.p50, rel=0.03)


def test_a_name_is_used_once() -> None:
    """The same test cannot count twice by mistake."""
    history = with_test((), finished("one", 0.6))
    with pytest.raises(SeamwrightError, match="already"):
        with_test(history, finished("one", 0.7))


def test_a_test_that_is_not_there_cannot_be_taken_out() -> None:
    """A wrong id is told."""
    with pytest.raises(SeamwrightError, match="no test two"):
        without_test(with_test((), finished("one", 0.6)), "two")


def test_a_flow_without_a_logarithm_is_refused() -> None:
    """A flow of zero is a reading error."""
    with pytest.raises(SeamwrightError, match="above zero"):
        with_test((), finished("one", 0.0))


@pytest.mark.slow
def test_learned_spans_hold_what_they_say() -> None:
    """Over 300 made-up crews with three tests each, 85 to 95 % of the next houses lie in the 90 %
    span of the forecast.
    """
    places = house(30)
    groups = group_places(places, workmanship="ordinary", crews={}, table=DEFAULT_TABLE)
    anchor = forecast(places, draws=4_000).anchor
    held = 0
    for world in range(300):
        rng = np.random.default_rng(world)
        factors: dict[str, float] = {}
        flows = [_drawn_flow(groups, factors, rng) for _ in range(4)]
        history = [
            HouseTest(
                id=str(k), flow_50=q * math.exp(0.05 * rng.standard_normal()), log_error=0.05,
                anchor=anchor,
            )
            for k, q in enumerate(flows[:3])
        ]  # fmt: skip
        span = forecast(places, knowledge=learn(history), draws=500, seed=world).flow_50
        held += span.p05 <= flows[3] <= span.p95
    assert 0.85 <= held / 300 <= 0.95


def _drawn_flow(groups, factors: dict[str, float], rng: np.random.Generator) -> float:
    """Return the flow of one house whose crews, kinds and table keep their factors."""
    total = 0.0
    for group in groups:
        for name in group.factors:
            if name not in factors:
                factors[name] = rng.standard_normal() * math.sqrt(base_variance(Spreads(), name))
        sigma = np.array([prior.sigma for prior in group.priors])
        flow = np.array([prior.flow for prior in group.priors])
        local = float((flow * np.exp(sigma * rng.standard_normal(len(sigma)) - sigma**2 / 2)).sum())
        total += local * math.exp(math.fsum(factors[name] for name in group.factors))
    return total * math.exp(math.log(12.5) * 0.03 * rng.standard_normal())


def test_learning_is_generalized_least_squares_of_statsmodels() -> None:
    """With what is believed before put in as observations of the factors, statsmodels' generalized
    least squares gives the same means and covariance.
    """
    history = (finished("one", 0.7), finished("two", 1.3, error=0.1), finished("three", 0.8))
    knowledge = learn(history)
    names = knowledge.names
    rows = np.array([[dict(t.anchor.weights)[name] for name in names] for t in history])
    gaps = [math.log(t.flow_50) - t.anchor.log_flow for t in history]
    noise = [t.anchor.scatter**2 + t.log_error**2 for t in history]
    before = [base_variance(Spreads(), name) for name in names]
    fit = sm.GLS(
        np.concatenate([gaps, np.zeros(len(names))]),
        np.vstack([rows, np.eye(len(names))]),
        sigma=np.array([*noise, *before]),
    ).fit(cov_type="fixed scale", cov_kwds={"scale": 1.0})
    assert knowledge.mean == pytest.approx(list(fit.params), abs=1e-9)
    assert np.allclose(knowledge.covariance, fit.cov_params(), atol=1e-9)
