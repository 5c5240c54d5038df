"""Each rule of a standard, broken alone."""

from __future__ import annotations

from dataclasses import replace

import pytest

from seamwright.leakage.fan import analyze_fan_test
from seamwright.leakage.types import (
    Check,
    Conditions,
    Device,
    Envelope,
    FanResult,
    Method,
    Reading,
    Series,
    Target,
)

MILD = Conditions(
    indoor_temperature=20.0,
    outdoor_temperature=15.0,
    barometric_pressure=101325.0,
    wind_speed=1.0,
    height=6.0,
)
RIPPLE = (1.01, 0.99, 1.005, 0.995, 1.01, 0.99)


def series(
    pressures: tuple[float, ...] = (10.0, 20.0, 30.0, 40.0, 50.0, 60.0),
    exponent: float = 0.65,
    sign: float = -1.0,
) -> Series:
    """Return a sound series, its readings on the device range ``low``."""
    readings = tuple(
        Reading(pressure=sign * p, flow=0.01 * p**exponent * r, line=k + 2, device="low")
        for k, (p, r) in enumerate(zip(pressures, RIPPLE, strict=False))
    )
    return Series(
        direction="depressurize" if sign < 0 else "pressurize",
        readings=readings,
        baseline_before=(0.5, -0.5),
        baseline_after=(0.5,),
    )


def broken(result: FanResult) -> list[Check]:
    """Return every check that does not hold."""
    every = [c for one in result.series for c in one.checks] + list(result.checks)
    return [c for c in every if not c.holds]


def analyzed(one: Series, air: Conditions = MILD, method: Method = "iso_9972") -> FanResult:
    """Return the result of one direction in a house of 300 m³ against a loose target."""
    target = Target(measure="ach50", limit=100.0, source="test")
    return analyze_fan_test([one], air, Envelope(volume=300.0), method=method, target=target)


@pytest.mark.parametrize("method", ["iso_9972", "astm_e779"])
def test_a_sound_test_breaks_no_required_rule(method: Method) -> None:
    """Nothing is found wrong with a sound test, and it passes."""
    result = analyzed(series(), method=method)
    assert [c for c in broken(result) if c.required] == []
    assert result.outcome == "passes"


@pytest.mark.parametrize(
    ("one", "rule"),
    [
        (replace(series(), baseline_before=(6.0, -6.0)), "baseline before"),
        (replace(series(), baseline_after=(5.5,)), "baseline after"),
        (replace(series(), baseline_before=()), "baseline before was read"),
        (series((25.0, 30.0, 40.0, 50.0, 60.0)), "lowest pressure near 10 Pa"),
        (series((10.0, 18.0, 26.0, 34.0, 42.0)), "highest pressure"),
        (series((10.0, 25.0, 36.0, 45.0, 55.0)), "steps between readings"),
        (series(exponent=0.42), "exponent n"),
        (series(exponent=1.1), "exponent n"),
        (series((20.0, 30.0, 40.0, 50.0)), "at least 5 readings"),
        (
            replace(series(), readings=(*series().readings, Reading(pressure=-0.1, flow=0.01)),
                    baseline_before=(-0.5,), baseline_after=(-0.5,)),
            "signs right once the baseline is off",
        ),
        (
            replace(series(), baseline_before=(-3.0,), baseline_after=(-3.0,)),
            "lowest pressure against five times the baseline",
        ),
    ],
)  # fmt: skip
def test_each_rule_of_iso_9972_blocks_the_verdict(one: Series, rule: str) -> None:
    """Gusts that cancel, too little span, wide steps, odd exponents: each is named."""
    result = analyzed(one)
    assert rule in [c.rule for c in broken(result)]
    assert result.outcome == "cannot tell"
    assert rule in result.reason


def test_scatter_breaks_r_squared() -> None:
    """Readings that scatter by tens of percent do not fit a line."""
    rough = tuple(
        replace(r, flow=r.flow * f)
        for r, f in zip(series().readings, (1.3, 0.7, 1.3, 0.7, 1.3, 0.7), strict=True)
    )
    rules = {c.rule for c in broken(analyzed(replace(series(), readings=rough)))}
    assert {"fit r²", "standard error at 10 Pa, for EqLA"} <= rules


def test_advice_is_told_and_blocks_nothing() -> None:
    """A breeze, a cold day and one direction only are advice of ASTM E779, not rules."""
    breezy = replace(MILD, wind_speed=3.0, outdoor_temperature=2.0)
    result = analyzed(series(), breezy, "astm_e779")
    advice = {c.rule for c in broken(result)}
    assert advice == {"wind", "outdoor temperature", "both directions tested"}
    assert result.outcome == "passes"


def test_readings_outside_the_range_of_the_fan_are_named_by_line() -> None:
    """A flow below what the ring can measure breaks a rule that names its line."""
    device = Device(name="LOW", low=0.05, high=0.2)
    result = analyze_fan_test([series()], MILD, Envelope(), devices=(device,))
    (found,) = [c for c in result.checks if c.rule.startswith("readings within")]
    assert found.measured == "1 of 6 outside (line 2)"
    assert not found.holds


def test_a_range_nobody_used_is_not_checked() -> None:
    """Ranges without readings make no rule."""
    device = Device(name="high", low=1.0, high=2.0)
    result = analyze_fan_test([series()], MILD, Envelope(), devices=(device,))
    assert not [c for c in result.checks if c.rule.startswith("readings within")]


def test_directions_far_apart_are_told() -> None:
    """Flows a third apart between blowing and drawing hint at a flap or a slip."""
    other = series(sign=1.0)
    other = replace(other, readings=tuple(replace(r, flow=1.4 * r.flow) for r in other.readings))
    result = analyze_fan_test([series(), other], MILD, Envelope())
    assert [c.rule for c in broken(result)] == ["both directions agree at 50 Pa"]
