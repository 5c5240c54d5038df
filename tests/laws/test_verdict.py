"""What holds for the judgment of moisture whatever the series."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from seamwright.moisture.verdict.decay import wood_decay
from seamwright.moisture.verdict.judge import judge
from seamwright.moisture.verdict.leak import largest_leak
from seamwright.moisture.verdict.mold import GROWTH, critical_humidity, mold_index
from seamwright.moisture.verdict.types import MoldClass, Series

LAW = settings(derandomize=True, max_examples=40, deadline=None)
HOURS = 1500
classes = st.sampled_from(list(GROWTH))
seeds = st.integers(0, 10_000)
declines = st.sampled_from([0.1, 0.25, 0.5, 1.0])


def weather(seed: int) -> tuple[np.ndarray, np.ndarray]:
    """Return hours of temperature and humidity that wander through wet and dry."""
    random = np.random.default_rng(seed)
    wander = np.cumsum(random.normal(0, 0.6, HOURS))
    temperature = 12 + 14 * np.sin(np.arange(HOURS) / 200 + random.uniform(0, 6)) + wander * 0.2
    humidity = np.clip(0.90 + 0.13 * np.sin(np.arange(HOURS) / 60) + wander * 0.003, 0.2, 1.0)
    return temperature, humidity


def swell(seed: int) -> np.ndarray:
    """Return hours of humidity that rise and fall over days without a tremble."""
    phase, slow = np.random.default_rng(seed).uniform(0, 6, 2)
    return np.clip(0.90 + 0.13 * np.sin(np.arange(HOURS) / (60 + slow) + phase), 0.2, 1.0)


@LAW
@given(seed=seeds, kind=classes, decline=declines)
def test_the_index_stays_between_nothing_and_covered(
    seed: int, kind: MoldClass, decline: float
) -> None:
    """The index is never below 0 nor above the top of its class at saturation."""
    index, _ = mold_index(*weather(seed), kind, decline)
    k = GROWTH[kind]
    assert index.min() >= 0.0
    assert index.max() <= k.a + k.b - k.c + 1e-12


@LAW
@given(seed=seeds, kind=classes, dryer=st.floats(0.0, 0.1))
def test_drier_air_never_makes_more_mold_or_decay(seed: int, kind: MoldClass, dryer: float) -> None:
    """Lower humidities at the same temperatures give no more mold, decay or lost mass.

    So while damp and dry spells last for days. Spells of hours can break it in the model itself:
    every fresh stop of growth falls fast for six hours.
    """
    temperature, humidity = weather(seed)[0], swell(seed)
    less = np.maximum(humidity - dryer, 0.0)
    wet, _ = mold_index(temperature, humidity, kind)
    dry, _ = mold_index(temperature, less, kind)
    assert np.all(dry <= wet + 1e-9)
    for damp, drier in zip(
        wood_decay(temperature, humidity)[:2], wood_decay(temperature, less)[:2], strict=True
    ):
        assert np.all(drier <= damp + 1e-9)


@LAW
@given(seed=seeds, kind=classes, cut=st.integers(1, HOURS - 1))
def test_a_series_may_be_cut_at_any_hour(seed: int, kind: MoldClass, cut: int) -> None:
    """Going on from the state at any hour gives what the whole series gives."""
    t, rh = weather(seed)
    whole, end = mold_index(t, rh, kind, 0.5)
    first, state = mold_index(t[:cut], rh[:cut], kind, 0.5)
    second, last = mold_index(t[cut:], rh[cut:], kind, 0.5, state)
    assert np.array_equal(np.concatenate([first, second]), whole)
    assert last == end
    active, lost, rotten = wood_decay(t, rh)
    a1, l1, half = wood_decay(t[:cut], rh[:cut])
    a2, l2, over = wood_decay(t[cut:], rh[cut:], half)
    assert np.array_equal(np.concatenate([a1, a2]), active)
    assert np.array_equal(np.concatenate([l1, l2]), lost)
    assert over == rotten


@LAW
@given(seed=seeds)
def test_no_growth_below_the_critical_humidity(seed: int) -> None:
    """Where it is never humid enough the index stays nothing."""
    temperature, humidity = weather(seed)
    dry = np.minimum(humidity, critical_humidity(np.maximum(temperature, 0.0)) / 100 - 1e-6)
    assert not mold_index(temperature, dry, "very_sensitive")[0].any()


@LAW
@given(seed=seeds, drier=st.floats(0.0, 0.1))
def test_a_drier_place_has_no_less_margin(seed: int, drier: float) -> None:
    """Less humidity and less water in the wood never make a verdict worse."""
    temperature, humidity = weather(seed)
    wet = Series(name="a", temperature=temperature, humidity=humidity, moisture=humidity * 0.25)
    dry = Series(
        name="a", temperature=temperature, humidity=np.maximum(humidity - drier, 0.0),
        moisture=humidity * 0.25 - drier * 0.2,
    )  # fmt: skip
    assert judge(dry).margin >= judge(wet).margin - 1e-9


@LAW
@given(
    margins=st.lists(st.floats(-2.0, 1.0), min_size=2, max_size=8),
    scale=st.floats(1e-3, 1e3),
)
def test_the_leak_limit_scales_with_its_unit_and_lies_within(
    margins: list[float], scale: float
) -> None:
    """In another unit the limit is the same leak, and the margin there is not below zero."""
    levels = [0.01 * 2.0**i for i in range(len(margins))]
    one = largest_leak(levels, margins)
    other = largest_leak([level * scale for level in levels], margins)
    assert one.case == other.case
    if one.level is not None and other.level is not None:
        assert other.level == pytest.approx(one.level * scale)
        straight = np.interp(np.log(one.level), np.log(levels), margins)
        assert straight == pytest.approx(max(straight, 0.0), abs=1e-9)
    assert (one.level is None) == (margins[0] <= 0.0)
