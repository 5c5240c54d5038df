"""Laws of the fan-test analysis."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from seamwright.leakage.air import barometric_pressure, density
from seamwright.leakage.power_law import fit_power_law, flow_at

PRESSURES = (10.0, 17.0, 25.0, 34.0, 43.0, 52.0, 61.0)


@settings(derandomize=True, max_examples=60, deadline=None)
@given(
    st.lists(st.floats(-0.1, 0.1), min_size=7, max_size=7),
    st.floats(0.5, 1.0),
    st.floats(1e-3, 1.0),
    st.floats(0.01, 100.0),
)
def test_flow_unit_only_scales_the_coefficient(
    noise: list[float], exponent: float, coefficient: float, unit: float
) -> None:
    """Readings in another unit give the same exponent and a scaled coefficient and interval."""
    flows = [coefficient * p**exponent * (1 + e) for p, e in zip(PRESSURES, noise, strict=True)]
    one, other = (
        fit_power_law(PRESSURES, flows),
        fit_power_law(PRESSURES, [unit * q for q in flows]),
    )
    assert other.exponent.value == pytest.approx(one.exponent.value, rel=1e-9)
    assert flow_at(other, 50.0).high == pytest.approx(unit * flow_at(one, 50.0).high, rel=1e-8)


@settings(derandomize=True, max_examples=60, deadline=None)
@given(st.floats(-40, 45), st.floats(0, 1), st.floats(0, 3000))
def test_damp_warm_and_high_air_is_lighter(
    temperature: float, humidity: float, elevation: float
) -> None:
    """Density falls with temperature, humidity and elevation."""
    here = density(temperature, barometric_pressure(elevation), humidity)
    assert density(temperature + 1, barometric_pressure(elevation), humidity) < here
    assert density(temperature, barometric_pressure(elevation + 10), humidity) < here
    assert density(temperature, barometric_pressure(elevation), 0.0) >= here
