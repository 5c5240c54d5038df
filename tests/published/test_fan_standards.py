"""Equations of the fan-test standards, each in the form its standard gives, against the analysis.

No standard here was seen in print: the forms are from memory, as the sources say; what is checked
is that the analysis follows them and that they agree with one another.
"""

from __future__ import annotations

import math

import pytest

from seamwright.leakage.air import barometric_pressure, density, viscosity
from seamwright.leakage.corrections import corrected, to_standard
from seamwright.leakage.fan import analyze_fan_test
from seamwright.leakage.types import Conditions, Envelope, FanResult, Method, Reading, Series

COLD = Conditions(
    indoor_temperature=21.0,
    outdoor_temperature=-5.0,
    barometric_pressure=95000.0,
    indoor_humidity=0.4,
    outdoor_humidity=0.7,
)
PRESSURES = (12.0, 20.0, 29.0, 38.0, 47.0, 56.0)
FLOWS = (0.080, 0.113, 0.142, 0.171, 0.195, 0.220)


def one_way(sign: float) -> Series:
    """Return six readings with a baseline of 1 Pa."""
    return Series(
        direction="depressurize" if sign < 0 else "pressurize",
        readings=tuple(
            Reading(pressure=sign * p + 1.0, flow=q) for p, q in zip(PRESSURES, FLOWS, strict=True)
        ),
        baseline_before=(0.8,),
        baseline_after=(1.2,),
    )


def result_by(method: Method, *signs: float) -> FanResult:
    """Return the analysis of one or both directions."""
    return analyze_fan_test(
        [one_way(sign) for sign in signs], COLD, Envelope(volume=250.0), method=method
    )


@pytest.mark.source("iso-9972", "clause 6, from memory")
@pytest.mark.parametrize("sign", [-1.0, 1.0])
def test_iso_leakage_coefficient(sign: float) -> None:
    """C_L = C_env (ρ/ρ0)^(1−n) with the density outside when drawing out, inside otherwise."""
    one = result_by("iso_9972", sign).series[0]
    inside = density(21.0, 95000.0, 0.4)
    outside = density(-5.0, 95000.0, 0.7)
    leak, ratio = (outside, inside / outside) if sign < 0 else (inside, outside / inside)
    assert one.pressures == pytest.approx(PRESSURES)
    assert one.flows == pytest.approx([q * ratio for q in FLOWS])
    n = one.fit.exponent.value
    expected = one.fit.coefficient.value * (leak / 1.204) ** (1 - n)
    assert one.standard_coefficient == pytest.approx(expected, rel=1e-12)


@pytest.mark.source("iso-9972", "clause 6, from memory")
def test_iso_effective_leakage_area() -> None:
    """ELA = C_L (ρ0/2)^½ Δp^(n−½), and the mean of both directions at 50 Pa over the volume."""
    result = result_by("iso_9972", -1.0, 1.0)
    for one in result.series:
        n = one.fit.exponent.value
        area = one.standard_coefficient * math.sqrt(1.204 / 2) * 4.0 ** (n - 0.5)
        assert one.ela_4.value == pytest.approx(area, rel=1e-12)
    down, up = (s.standard_coefficient * 50.0**s.fit.exponent.value for s in result.series)
    assert result.ach50 is not None
    assert result.ach50.value == pytest.approx((down + up) / 2 * 3600 / 250, rel=1e-12)


@pytest.mark.source("astm-e779", "clause 9, from memory")
def test_e779_adds_the_viscosity() -> None:
    """C0 = C (μ/μ0)^(2n−1) (ρ/ρ0)^(1−n): cold thin air is a little less viscous."""
    part = corrected(one_way(-1.0), COLD)
    iso, e779 = (to_standard(part, 0.65, m) for m in ("iso_9972", "astm_e779"))
    assert e779 / iso == pytest.approx((viscosity(-5.0) / viscosity(20.0)) ** 0.3, rel=1e-12)
    assert viscosity(20.0) == pytest.approx(1.81e-5, rel=5e-3)


@pytest.mark.source("cgsb-149-10", "EqLA at 10 Pa, from memory")
def test_cgsb_equivalent_leakage_area() -> None:
    """EqLA = 0.001157 √ρ C 10^(n−½) with C in L/(s·Paⁿ), Cd 0.611 at 10 Pa."""
    one = result_by("iso_9972", -1.0).series[0]
    n, liters = one.fit.exponent.value, 1000.0 * one.standard_coefficient
    expected = 0.001157 * math.sqrt(1.204) * liters * 10.0 ** (n - 0.5)
    assert one.eqla_10.value == pytest.approx(expected, rel=5e-4)


@pytest.mark.source("astm-e1827", "one- and two-point methods, from memory")
def test_e1827_agrees_with_a_fit_on_the_same_law() -> None:
    """Two readings of a power law give the fit's flow at 50 Pa; one reading at 50 Pa nearly so."""
    readings = tuple(Reading(pressure=p, flow=0.02 * p**0.65) for p in (50.0, 12.5))
    full = tuple(Reading(pressure=p, flow=0.02 * p**0.65) for p in PRESSURES)
    still = {"direction": "pressurize", "baseline_before": (0.0,), "baseline_after": (0.0,)}

    def flow(rows: tuple[Reading, ...], method: Method) -> float:
        series = Series(readings=rows, **still)  # type: ignore[arg-type]
        return analyze_fan_test([series], COLD, Envelope(), method=method).flow_50.value

    fitted = flow(full, "astm_e779")
    assert flow(readings, "astm_e1827") == pytest.approx(fitted, rel=1e-9)
    assert flow(readings[:1], "astm_e1827") == pytest.approx(fitted, rel=1e-9)


@pytest.mark.source("us-standard-atmosphere", "table, 0 and 1,000 m, from memory")
def test_standard_atmosphere() -> None:
    """101,325 Pa at sea level and 89,875 Pa at 1,000 m."""
    assert barometric_pressure(0.0) == 101325.0
    assert barometric_pressure(1000.0) == pytest.approx(89875.0, rel=2e-4)
