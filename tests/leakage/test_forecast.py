"""The forecast against closed forms and SciPy."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.stats import lognorm
from tests.leakage.houses import house, joint, node, service, window

from seamwright.errors import SeamwrightError
from seamwright.leakage.forecast import forecast, target_flow
from seamwright.leakage.forecast_draws import group_places
from seamwright.leakage.learn import Knowledge, joint_normal
from seamwright.leakage.priors import DEFAULT_TABLE, LeakTable, Spreads, prior_of
from seamwright.leakage.types import Target

LIFT = math.log(50.0 / 4.0)
ALONE = LeakTable(spreads=Spreads(overall=0.0, crew=0.0, kind=0.0, exponent=0.0))
"""Nothing shared: each place by itself."""


def moments(places, workmanship="ordinary", table=DEFAULT_TABLE) -> tuple[float, float]:
    """Return mean and standard deviation of the flow in closed form, sums of lognormals paired."""
    groups = group_places(places, workmanship=workmanship, crews={}, table=table)
    names = tuple(dict.fromkeys(name for g in groups for name in g.factors))
    _, root = joint_normal(Knowledge(spreads=table.spreads), names)
    covariance = root @ root.T
    has = np.array([[float(name in g.factors) for name in names] for g in groups])
    shared = has @ covariance @ has.T
    n = (LIFT * table.spreads.exponent) ** 2
    sums = np.array([math.fsum(p.flow for p in g.priors) for g in groups])
    own = np.array([math.fsum((p.flow * p.variation) ** 2 for p in g.priors) for g in groups])
    var = np.diag(shared)
    mean = float(sums @ np.exp(var / 2)) * math.exp(n / 2)
    pairs = np.outer(sums, sums) * np.exp((var[:, None] + var[None, :]) / 2 + shared)
    square = (float(pairs.sum()) + float(own @ np.exp(2 * var))) * math.exp(2 * n)
    return mean, math.sqrt(square - mean**2)


def test_mean_and_spread_agree_with_sums_of_lognormals_in_closed_form() -> None:
    """Mean and variance of the draws are those of correlated lognormals, within drawing error."""
    places = house(200)
    mean, deviation = moments(places)
    result = forecast(places, draws=60_000, seed=3)
    assert result.flow_50.mean == pytest.approx(mean, abs=4 * deviation / math.sqrt(60_000))
    assert math.fsum(place.flow for place in result.by_place) == pytest.approx(mean, rel=1e-9)
    p05, p95 = result.flow_50.p05, result.flow_50.p95
    spread = math.log(p95 / p05) / (2 * 1.6449)
    assert spread == pytest.approx(math.sqrt(math.log1p((deviation / mean) ** 2)), rel=0.06)


def test_one_place_is_lognormal() -> None:
    """The percentiles of one place are those of SciPy's lognormal distribution."""
    place = joint("J", length=2.0)
    prior = prior_of(place, "ordinary")
    s = DEFAULT_TABLE.spreads
    sigma = math.sqrt(
        prior.sigma**2 + s.overall**2 + s.crew**2 + s.kind**2 + (LIFT * s.exponent) ** 2
    )
    exact = lognorm(sigma, scale=prior.flow * math.exp(-(prior.sigma**2) / 2))
    result = forecast([place], draws=100_000)
    for level, value in ((0.05, result.flow_50.p05), (0.5, result.flow_50.p50)):
        assert value == pytest.approx(exact.ppf(level), rel=0.03)
    only = result.by_place[0]
    assert (only.low, only.high) == pytest.approx((exact.ppf(0.05), exact.ppf(0.95)), rel=1e-9)
    assert only.flow == pytest.approx(exact.mean(), rel=1e-9)


def test_chance_of_two_places_agrees_with_a_convolution() -> None:
    """The chance to meet a target is that of SciPy's quadrature over the sum of two places."""
    places = [joint("A", length=1.0), joint("B", "ridge", length=2.0)]
    one, other = (
        lognorm(p.sigma, scale=p.flow * math.exp(-(p.sigma**2) / 2))
        for p in (prior_of(place, "ordinary", ALONE) for place in places)
    )
    limit = 1.2 * (one.mean() + other.mean())
    exact = quad(lambda x: one.pdf(x) * other.cdf(limit - x), 0.0, limit, points=(limit / 50,))[0]
    target = Target(measure="flow_50", limit=limit, source="test")
    result = forecast(places, table=ALONE, target=target, draws=100_000)
    assert result.chance == pytest.approx(exact, abs=4 * math.sqrt(exact * (1 - exact) / 100_000))


def test_one_crew_is_a_wider_bet_than_two() -> None:
    """Work of two crews scatters less than the same work of one, because they differ."""
    one = [joint(f"J{k}", crew="a") for k in range(40)]
    two = [replace(place, crew="ab"[k % 2]) for k, place in enumerate(one)]
    wide, narrow = (forecast(places).flow_50 for places in (one, two))
    assert narrow.mean == pytest.approx(wide.mean, rel=0.02)
    assert math.log(narrow.p95 / narrow.p05) < 0.95 * math.log(wide.p95 / wide.p05)


def test_same_seed_same_forecast_in_any_order() -> None:
    """A forecast depends on its seed and its places, not on the order of the places."""
    places = house(60)
    assert forecast(places, seed=5) == forecast(tuple(reversed(places)), seed=5)
    assert forecast(places, seed=5).flow_50 != forecast(places, seed=6).flow_50


def test_a_new_kind_leaves_the_draws_of_the_others() -> None:
    """Adding a ridge adds its flow in every draw and changes no other kind."""
    places = house(60)
    before = {k.kind: k.flow for k in forecast(places).by_kind if k.kind != "hip"}
    after = {k.kind: k.flow for k in forecast((*places, joint("H", "hip"))).by_kind}
    assert all(after[kind] == pytest.approx(flow, rel=1e-12) for kind, flow in before.items())
    assert "hip" in after


def test_measures_are_the_flow_over_volume_and_area() -> None:
    """ACH50 and q50 are the hourly flow over volume and area; without them they are None."""
    places = house(60)
    result = forecast(places, volume=400.0, area=350.0)
    assert result.ach50.p50 == pytest.approx(result.flow_50.p50 * 3600 / 400)
    assert result.q50.p90 == pytest.approx(result.flow_50.p90 * 3600 / 350)
    bare = forecast(places)
    assert (bare.ach50, bare.q50, bare.chance, bare.budget) == (None, None, None, None)


def test_area_at_four_pascals_goes_with_the_flow() -> None:
    """With a sure exponent the leakage area is the flow at 50 Pa turned back."""
    result = forecast(house(60), table=ALONE)
    assert result.ela_4.mean * 1.33e1 == pytest.approx(result.flow_50.mean, rel=2e-3)


def test_shares_add_up() -> None:
    """Kinds and places each make up the whole flow."""
    result = forecast(house(100))
    assert math.fsum(k.share for k in result.by_kind) == pytest.approx(1.0)
    assert math.fsum(p.share for p in result.by_place) == pytest.approx(1.0)
    assert math.fsum(k.flow for k in result.by_kind) == pytest.approx(result.flow_50.mean)
    assert sum(k.count for k in result.by_kind) == 100
    assert math.fsum(bar.part for bar in result.histogram) == pytest.approx(0.995, abs=1e-3)


def test_the_budget_takes_nodes_and_windows_off_first() -> None:
    """What is left per metre is the target less all that is no joint, over the joints' length."""
    places = [joint("A", length=6.0), joint("B", length=4.0), node("N"), window("W/unit")]
    target = Target(measure="ach50", limit=1.0, source="test")
    budget = forecast(places, volume=360.0, target=target).budget
    assert budget.joint_length == pytest.approx(10.0)
    assert budget.allowed == pytest.approx((0.1 - budget.others) / 10.0)
    assert budget.others > 0
    lone = forecast([window("W/unit")], volume=360.0, target=target)
    assert lone.budget is None


def test_drivers_name_what_is_uncertain() -> None:
    """A cause without spread has no bar; of the others the widest comes first."""
    table = LeakTable(spreads=Spreads(overall=0.6, crew=0.2, kind=0.0, exponent=0.0))
    drivers = forecast([joint(f"J{k}") for k in range(30)], table=table).drivers
    assert [d.name for d in drivers[:1]] == ["overall"]
    flat = {d.name: d for d in drivers}
    assert flat["kind:sill"].low == pytest.approx(flat["kind:sill"].high)
    assert flat["exponent"].share == 0.0
    widths = [d.high - d.low for d in drivers]
    assert widths == sorted(widths, reverse=True)
    ratio = flat["overall"].high / flat["overall"].low
    assert ratio == pytest.approx(math.exp(2 * 1.28155 * 0.6), rel=1e-5)


def test_shares_of_the_spread_follow_the_variances() -> None:
    """With two strong causes, squared rank correlations are near their parts of the variance."""
    table = LeakTable(spreads=Spreads(overall=0.4, crew=0.3, kind=0.0, exponent=0.0))
    result = forecast([joint(f"J{k}", length=50.0) for k in range(30)], table=table)
    shares = {d.name: d.share for d in result.drivers}
    assert shares["overall"] == pytest.approx(0.16 / 0.25, abs=0.04)
    assert shares["crew"] == pytest.approx(0.09 / 0.25, abs=0.04)


def test_a_window_does_not_follow_the_crew() -> None:
    """How the shell's crew works does not move what a window leaks."""
    names = {d.name for d in forecast([window("W/unit")]).drivers}
    assert names == {"kind:window_unit", "places", "exponent"}


def test_one_crew_can_work_otherwise() -> None:
    """A crew named apart gets its own workmanship."""
    places = house(60)
    better = forecast(places, crews={"a": "careful"}).flow_50.mean
    assert better < forecast(places).flow_50.mean
    others = {"b": "ordinary", "": "ordinary"}
    same = forecast(places, workmanship="careful", crews=others).flow_50.mean
    assert same == pytest.approx(better)


@pytest.mark.parametrize(("measure", "expected"), [("ach50", 0.25), ("q50", 0.3), ("flow_50", 3.0)])
def test_each_measure_becomes_a_flow(measure: str, expected: float) -> None:
    """A limit times its size is the flow that just meets it."""
    target = Target(measure=measure, limit=3.0, source="test")
    assert target_flow(target, volume=300.0, area=360.0) == pytest.approx(expected)
    assert target_flow(None, volume=300.0, area=360.0) is None
    if measure != "flow_50":
        assert target_flow(target, volume=None, area=None) is None


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: forecast([]), "nothing to forecast"),
        (lambda: forecast([joint("J", "cupola")]), "no row for cupola"),
        (lambda: forecast([joint("J")], draws=10), "at least 100"),
        (lambda: forecast([joint("J")], volume=0.0), "volume of 0 m³"),
        (lambda: forecast([joint("J")], area=-2.0), "area of -2 m²"),
        (lambda: forecast([joint("J", length=0.0)]), "can leak"),
    ],
)
def test_what_cannot_be_forecast_is_told(call, words: str) -> None:
    """Each input that makes no sense is refused with a sentence."""
    with pytest.raises(SeamwrightError, match=words):
        call()


def test_a_service_without_any_seal_still_leaks() -> None:
    """A bare hole leaks more than one with a collar."""
    bare, closed = forecast([service("P", layers=())]), forecast([service("P")])
    assert bare.flow_50.mean > 2 * closed.flow_50.mean
