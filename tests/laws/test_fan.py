"""Laws of the fan-test analysis."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from seamwright.io.fan_readings import read_fan_test
from seamwright.leakage.air import barometric_pressure, density
from seamwright.leakage.fan import analyze_fan_test
from seamwright.leakage.power_law import fit_power_law, flow_at
from seamwright.leakage.types import (
    Conditions,
    Direction,
    Envelope,
    Method,
    Reading,
    Series,
)

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


CALM = Conditions(
    indoor_temperature=21.0, outdoor_temperature=4.0, barometric_pressure=99000.0, height=6.0
)
FLOWS = st.lists(st.floats(-0.05, 0.05), min_size=7, max_size=7)


def series_of(errors: list[float], direction: Direction, order: list[int]) -> Series:
    """Return a series of a power law with errors, its readings in the given order."""
    sign = -1.0 if direction == "depressurize" else 1.0
    readings = [
        Reading(pressure=sign * p - 0.7, flow=0.02 * p**0.65 * (1 + e))
        for p, e in zip(PRESSURES, errors, strict=True)
    ]
    return Series(
        direction=direction,
        readings=tuple(readings[i] for i in order),
        baseline_before=(-0.6,),
        baseline_after=(-0.8,),
    )


@settings(derandomize=True, max_examples=40, deadline=None)
@given(FLOWS, FLOWS, st.permutations(range(7)), st.sampled_from(["iso_9972", "astm_e779"]))
def test_order_of_readings_and_directions_does_not_matter(
    one: list[float], other: list[float], order: list[int], method: Method
) -> None:
    """Readings in any order, and either direction first, give the same result."""
    down = series_of(one, "depressurize", list(range(7)))
    up = series_of(other, "pressurize", list(range(7)))
    mixed = series_of(one, "depressurize", order)
    first = analyze_fan_test([down, up], CALM, Envelope(volume=300.0), method=method)
    again = analyze_fan_test([up, mixed], CALM, Envelope(volume=300.0), method=method)
    assert again.flow_50.value == pytest.approx(first.flow_50.value, rel=1e-12)
    assert again.eqla_10.high == pytest.approx(first.eqla_10.high, rel=1e-12)


@settings(derandomize=True, max_examples=40, deadline=None)
@given(FLOWS, st.floats(-20, 30), st.floats(-20, 30), st.floats(70e3, 105e3))
def test_blowing_in_is_drawing_out_with_the_air_swapped(
    errors: list[float], indoor: float, outdoor: float, pressure: float
) -> None:
    """The same readings blown into a house or drawn out of its mirror image say the same."""
    order = list(range(7))
    down, up = (series_of(errors, d, order) for d in ("depressurize", "pressurize"))
    up = replace(
        up, baseline_before=(0.6,), baseline_after=(0.8,),
        readings=tuple(replace(r, pressure=-r.pressure) for r in down.readings),
    )  # fmt: skip
    air = Conditions(
        indoor_temperature=indoor, outdoor_temperature=outdoor, barometric_pressure=pressure
    )
    mirrored = replace(air, indoor_temperature=outdoor, outdoor_temperature=indoor)
    out = analyze_fan_test([down], air, Envelope())
    into = analyze_fan_test([up], mirrored, Envelope())
    assert into.flow_50.value == pytest.approx(out.flow_50.value, rel=1e-9)
    assert into.ela_4.low == pytest.approx(out.ela_4.low, rel=1e-9)


@settings(derandomize=True, max_examples=30, deadline=None)
@given(FLOWS, st.sampled_from([("cfm", 0.3048**3 / 60), ("l/s", 1e-3), ("m3/h", 1 / 3600)]))
def test_a_file_in_other_units_says_the_same(errors: list[float], unit: tuple[str, float]) -> None:
    """The same test written in cfm, l/s or m³/h and °F or °C gives the same air changes."""
    name, size = unit
    flows = [0.02 * p**0.65 * (1 + e) for p, e in zip(PRESSURES, errors, strict=True)]

    def text(flow_unit: str, flow_size: float, *, metric: bool) -> str:
        warm, cold = ("[C], 20", "[C], 5") if metric else ("[F], 68", "[F], 41")
        volume = "volume [m3], 300" if metric else f"volume [ft3], {300 / 0.3048**3!r}"
        facts = f"indoor temperature {warm}\noutdoor temperature {cold}\n{volume}\n"
        rows = [f"{-p!r}, {q / flow_size!r}" for p, q in zip(PRESSURES, flows, strict=True)]
        return f"{facts}pressure [Pa], flow [{flow_unit}]\n" + "\n".join(rows) + "\n"

    results = []
    for content in (text("m3/s", 1.0, metric=True), text(name, size, metric=False)):
        test = read_fan_test(content)
        results.append(analyze_fan_test(test.series, test.conditions, test.envelope).ach50)
    one, other = results
    assert one is not None
    assert other is not None
    assert other.value == pytest.approx(one.value, rel=1e-9)
    assert other.high == pytest.approx(one.high, rel=1e-9)
