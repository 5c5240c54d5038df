"""Laws of the forecast and of what follows from it."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.leakage.houses import KINDS, joint

from seamwright.leakage.combine import in_series
from seamwright.leakage.forecast import forecast
from seamwright.leakage.infiltration import Setting, basic_flow, enhanced_flow
from seamwright.leakage.places import Place
from seamwright.leakage.priors import WORKMANSHIPS, prior_of
from seamwright.leakage.types import Target
from seamwright.leakage.ventilation import ventilation_need

LAYERS = ("strip_inner", "strip_outer", "beads", "foam", "gasket")
DRAWS = 400

law = settings(derandomize=True, max_examples=40, deadline=None)
lengths = st.floats(0.05, 30.0)
seals = st.lists(st.sampled_from(LAYERS), unique=True, max_size=4).map(tuple)
workmanships = st.sampled_from(WORKMANSHIPS)


@st.composite
def houses(draw) -> tuple[Place, ...]:
    """Return a few joints of any kind, length and seals."""
    count = draw(st.integers(1, 8))
    return tuple(
        joint(
            f"J{k}",
            draw(st.sampled_from(KINDS)),
            draw(lengths),
            layers=draw(seals),
            crew=draw(st.sampled_from("ab")),
        )
        for k in range(count)
    )


@law
@given(houses(), st.integers(0, 7), st.floats(1.0, 5.0), workmanships)
def test_a_longer_line_never_tightens_a_house(places, which, factor, how) -> None:
    """Making one joint longer never lowers the mean flow."""
    k = which % len(places)
    longer = replace(places[k], length=places[k].length * factor)
    other = (*places[:k], longer, *places[k + 1 :])
    before, after = (
        sum(p.flow for p in forecast(h, workmanship=how, draws=DRAWS).by_place)
        for h in (places, other)
    )
    assert after >= before * (1 - 1e-12)


@law
@given(st.sampled_from(KINDS), seals, st.sampled_from(LAYERS), workmanships)
def test_another_layer_never_leaks_more(kind, layers, more, how) -> None:
    """A joint with one more seal leaks no more in expectation."""
    plain, sealed = joint("J", kind, layers=layers), joint("J", kind, layers=(*layers, more))
    assert prior_of(sealed, how).flow <= prior_of(plain, how).flow * (1 + 1e-12)


@law
@given(st.lists(st.floats(1e-6, 1e3), min_size=1, max_size=5), st.floats(0.5, 1.0))
def test_seals_in_series_beat_the_tightest_of_them(leaks, exponent) -> None:
    """Layers one behind another leak no more than the tightest, in any order."""
    together = in_series(leaks, exponent)
    assert 0 < together <= min(leaks) * (1 + 1e-12)
    assert in_series(leaks[::-1], exponent) == pytest.approx(together, rel=1e-12)


@law
@given(houses(), st.floats(0.01, 100.0), st.integers(0, 2**31))
def test_volume_and_area_only_scale(places, factor, seed) -> None:
    """A house in another unit of volume has the same chance and scaled air changes."""
    limit = forecast(places, draws=DRAWS, seed=seed).flow_50.p50 * 3600 / 300.0
    chances = []
    for size in (1.0, factor):
        target = Target(measure="ach50", limit=limit / size, source="test")
        result = forecast(places, volume=300.0 * size, target=target, draws=DRAWS, seed=seed)
        assert result.ach50.mean * size == pytest.approx(result.flow_50.mean * 12.0)
        chances.append(result.chance)
    assert chances[0] == pytest.approx(0.5, abs=0.01)
    assert chances[1] == pytest.approx(chances[0], abs=0.01)


@law
@given(houses(), st.integers(0, 2**31))
def test_percentiles_stand_in_order_and_the_seed_decides(places, seed) -> None:
    """Percentiles rise, and the same seed gives the same forecast to the last digit."""
    one, two = (forecast(places, draws=DRAWS, seed=seed) for _ in range(2))
    assert one == two
    spread = one.flow_50
    marks = (spread.p05, spread.p10, spread.p50, spread.p90, spread.p95)
    assert list(marks) == sorted(marks)
    assert 0 < spread.p05 < spread.mean


@law
@given(houses(), st.floats(0.1, 10.0))
def test_an_easier_target_is_met_no_less_often(places, factor) -> None:
    """The chance to pass rises with the limit."""
    middle = forecast(places, draws=DRAWS).flow_50.p50
    tight, loose = (
        forecast(
            places, draws=DRAWS, target=Target(measure="flow_50", limit=middle * f, source="test")
        ).chance
        for f in (factor, factor * 1.5)
    )
    assert tight <= loose


@law
@given(
    st.floats(1e-4, 1.0), st.floats(0.0, 60.0), st.floats(0.0, 20.0), st.floats(1.0, 3.0),
    st.integers(1, 3), st.integers(1, 5),
)  # fmt: skip
def test_infiltration_grows_with_each_of_its_causes(area, cold, wind, factor, storeys, shelter):
    """More leakage, more difference or more wind never bring in less; leakage in proportion."""
    setting = Setting(storeys=storeys, shelter=shelter)
    for model in (
        lambda a, t, u: float(basic_flow(a, t, u, setting)),
        lambda a, t, u: float(enhanced_flow(a, 0.65, t, u, setting)),
    ):
        here = model(area, cold, wind)
        assert model(area * factor, cold, wind) == pytest.approx(here * factor, rel=1e-12)
        assert model(area, cold * factor, wind) >= here
        assert model(area, cold, wind * factor) >= here


@law
@given(st.floats(20.0, 500.0), st.integers(0, 8), st.floats(1e-4, 0.3), st.floats(0.1, 1.2))
def test_a_tighter_house_never_needs_less_from_its_fan(floor, bedrooms, area, weather) -> None:
    """Halving the leaks never lowers the rate that machines must bring."""
    loose, tight = (
        ventilation_need(floor, bedrooms, leak_area=a, height=5.0, weather_factor=weather)
        for a in (area, area / 2)
    )
    assert tight.fan >= loose.fan
