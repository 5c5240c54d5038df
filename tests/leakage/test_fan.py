"""A fan test from readings to verdict."""

from __future__ import annotations

from dataclasses import replace

import pytest

from seamwright.errors import SeamwrightError
from seamwright.leakage.air import density
from seamwright.leakage.fan import analyze_fan_test
from seamwright.leakage.types import Conditions, Envelope, Reading, Series, Target

MILD = Conditions(
    indoor_temperature=20.0, outdoor_temperature=20.0, barometric_pressure=101325.0, height=6.0
)
HOUSE = Envelope(volume=300.0, area=360.0, rule="inside faces of the shell")


def exact_series(
    direction: str, coefficient: float, exponent: float, offset: float = 0.0, wobble: float = 0.0
) -> Series:
    """Return readings that follow a power law, shifted by a baseline, with a fixed ripple."""
    sign = -1.0 if direction == "depressurize" else 1.0
    readings = tuple(
        Reading(
            pressure=sign * p + offset,
            flow=coefficient * p**exponent * (1 + wobble * (-1) ** k),
        )
        for k, p in enumerate((10.0, 20.0, 30.0, 40.0, 50.0, 60.0))
    )
    return Series(
        direction=direction,  # type: ignore[arg-type]
        readings=readings,
        baseline_before=(offset,),
        baseline_after=(offset,),
    )


def test_a_power_law_comes_back_exactly() -> None:
    """Readings made from a law give back the law, at equal temperatures inside and out."""
    result = analyze_fan_test([exact_series("depressurize", 0.0125, 0.66)], MILD, HOUSE)
    fit = result.series[0].fit
    assert fit.coefficient.value == pytest.approx(0.0125, rel=1e-12)
    assert fit.exponent.value == pytest.approx(0.66, rel=1e-12)


def test_the_baseline_is_taken_off_every_reading() -> None:
    """A steady baseline changes nothing in the result."""
    calm = analyze_fan_test([exact_series("depressurize", 0.0125, 0.66)], MILD, HOUSE)
    windy = analyze_fan_test([exact_series("depressurize", 0.0125, 0.66, -2.5)], MILD, HOUSE)
    assert windy.flow_50.value == pytest.approx(calm.flow_50.value, rel=1e-9)
    assert windy.series[0].offset == -2.5


def test_cold_air_outside_is_corrected_in_opposite_ways() -> None:
    """Drawing out moves warm air while cold air leaks in; blowing in is the other way round."""
    cold = replace(MILD, outdoor_temperature=-10.0)
    warm_rho = density(20.0, 101325.0, 0.5)
    cold_rho = density(-10.0, 101325.0, 0.5)
    down = analyze_fan_test([exact_series("depressurize", 0.01, 0.65)], cold, HOUSE).series[0]
    up = analyze_fan_test([exact_series("pressurize", 0.01, 0.65)], cold, HOUSE).series[0]
    assert down.fit.coefficient.value == pytest.approx(0.01 * warm_rho / cold_rho, rel=1e-12)
    assert up.fit.coefficient.value == pytest.approx(0.01 * cold_rho / warm_rho, rel=1e-12)


def test_measures_follow_from_flow_volume_and_area() -> None:
    """ACH50 is flow per volume and q50 flow per area, both per hour."""
    result = analyze_fan_test([exact_series("pressurize", 0.0125, 0.66)], MILD, HOUSE)
    assert result.ach50 is not None
    assert result.q50 is not None
    assert result.ach50.value == pytest.approx(result.flow_50.value * 3600 / 300, rel=1e-12)
    assert result.q50.value == pytest.approx(result.flow_50.value * 3600 / 360, rel=1e-12)


def test_no_volume_means_no_air_changes() -> None:
    """Air changes are never given without a volume and the rule it was measured by."""
    result = analyze_fan_test([exact_series("pressurize", 0.0125, 0.66)], MILD, Envelope())
    assert (result.ach50, result.q50) == (None, None)


def test_verdict_needs_the_whole_interval_on_one_side() -> None:
    """Passes below, fails above, and cannot tell when the limit lies inside the interval."""
    series = exact_series("depressurize", 0.0125, 0.66, wobble=0.03)
    free = analyze_fan_test([series], MILD, HOUSE)
    assert free.ach50 is not None
    outcomes = []
    for limit in (free.ach50.high * 1.01, free.ach50.value, free.ach50.low * 0.99):
        target = Target(measure="ach50", limit=limit, source="test")
        outcomes.append(analyze_fan_test([series], MILD, HOUSE, target=target).outcome)
    assert outcomes == ["passes", "cannot tell", "fails"]


@pytest.mark.parametrize(
    ("change", "rule"),
    [
        ({"baseline_before": (6.0,), "baseline_after": (6.0,)}, "baseline before"),
        ({"baseline_after": ()}, "baseline after was read"),
        ({"readings": 4}, "at least 5 readings"),
    ],
)
def test_each_broken_rule_is_named_and_blocks_a_verdict(change: dict, rule: str) -> None:
    """A rule of the standard that does not hold is named, and no pass or fail is given."""
    series = exact_series("pressurize", 0.0125, 0.66)
    if "readings" in change:
        change = {"readings": series.readings[2:]}
    series = replace(series, **change)
    target = Target(measure="ach50", limit=100.0, source="test")
    result = analyze_fan_test([series], MILD, HOUSE, target=target)
    assert rule in [c.rule for c in result.series[0].checks if not c.holds]
    assert result.outcome == "cannot tell"


def test_wind_and_stack_are_checked() -> None:
    """A gale and a tall cold house are both named."""
    rough = replace(MILD, wind_speed=8.0, outdoor_temperature=-25.0, height=9.0)
    result = analyze_fan_test([exact_series("pressurize", 0.0125, 0.66)], rough, HOUSE)
    broken = {c.rule for c in result.checks if not c.holds}
    assert broken == {"wind", "height times temperature difference"}


def test_too_few_readings_are_refused_with_a_remedy() -> None:
    """Two readings give a sentence, not numbers."""
    series = exact_series("pressurize", 0.0125, 0.66)
    with pytest.raises(SeamwrightError, match="2 readings are too few"):
        analyze_fan_test([replace(series, readings=series.readings[:2])], MILD, HOUSE)
