"""The analysis of a fan test: corrections, fit, leakage at the reference pressures, verdict."""

from __future__ import annotations

import math
from collections.abc import Sequence
from statistics import fmean

from seamwright.leakage.air import REFERENCE_DENSITY, density, viscosity
from seamwright.leakage.checks import house_checks, series_checks
from seamwright.leakage.power_law import fit_power_law, flow_at
from seamwright.leakage.types import (
    Conditions,
    Envelope,
    FanResult,
    Interval,
    Method,
    Series,
    SeriesResult,
    Target,
)
from seamwright.leakage.verdict import judge

CGSB_DISCHARGE = 0.611
"""Discharge coefficient of a sharp-edged hole. CAN/CGSB-149.10 (from memory)."""


def analyze_fan_test(
    series: Sequence[Series],
    conditions: Conditions,
    envelope: Envelope,
    *,
    method: Method = "iso_9972",
    target: Target | None = None,
) -> FanResult:
    """Return what a fan test says, with every validity rule checked and an honest verdict.

    Valid for one zone at uniform pressure. Flow through the envelope is the fan's flow times the
    density ratio of the air it moves and the air that leaks; the baseline (mean of before and
    after, fan off) is taken off every pressure. With both directions the results are averaged.

    Raises SeamwrightError (from `fit_power_law`) where a direction has too few usable readings.

    Source: ISO 9972:2015, clause 6; ASTM E779; CAN/CGSB-149.10 for the area at 10 Pa (all
    ``from memory``; the fit is checked in ``tests/published/test_fan_test.py``).
    """
    results = tuple(_analyze_series(one, conditions, method) for one in series)
    flow_50 = mean_interval([r.flow_50 for r in results])
    ach50 = scaled(flow_50, 3600.0 / envelope.volume) if envelope.volume is not None else None
    q50 = scaled(flow_50, 3600.0 / envelope.area) if envelope.area is not None else None
    checks = house_checks(results, conditions)
    valid = all(c.holds for r in results for c in r.checks) and all(c.holds for c in checks)
    outcome, reason = judge(target, ach50=ach50, q50=q50, flow_50=flow_50, valid=valid)
    return FanResult(
        method=method,
        series=results,
        flow_50=flow_50,
        ach50=ach50,
        q50=q50,
        ela_4=mean_interval([r.ela_4 for r in results]),
        eqla_10=mean_interval([r.eqla_10 for r in results]),
        checks=checks,
        target=target,
        outcome=outcome,
        reason=reason,
    )


def scaled(interval: Interval, factor: float) -> Interval:
    """Return the interval times a positive factor."""
    return Interval(
        value=interval.value * factor, low=interval.low * factor, high=interval.high * factor
    )


def mean_interval(intervals: Sequence[Interval]) -> Interval:
    """Return the mean of independent estimates; half-widths add in quadrature."""
    count = len(intervals)
    value = fmean(i.value for i in intervals)
    below = math.sqrt(math.fsum((i.value - i.low) ** 2 for i in intervals)) / count
    above = math.sqrt(math.fsum((i.high - i.value) ** 2 for i in intervals)) / count
    return Interval(value=value, low=value - below, high=value + above)


def leakage_area(flow: Interval, pressure: float, discharge: float) -> Interval:
    """Return the area of the hole that would leak `flow` at `pressure`. [m²]

    A = Q √(ρ0 / (2 Δp)) / Cd. Source: ASTM E779 and ISO 9972 with Cd = 1 at 4 Pa; CGSB 149.10 with
    0.611 at 10 Pa (from memory).
    """
    return scaled(flow, math.sqrt(REFERENCE_DENSITY / (2.0 * pressure)) / discharge)


def _analyze_series(series: Series, conditions: Conditions, method: Method) -> SeriesResult:
    before, after = series.baseline_before, series.baseline_after
    known = [fmean(part) for part in (before, after) if part]
    offset = fmean(known) if known else 0.0
    rho_in = density(
        conditions.indoor_temperature, conditions.barometric_pressure, conditions.indoor_humidity
    )
    rho_out = density(
        conditions.outdoor_temperature, conditions.barometric_pressure, conditions.outdoor_humidity
    )
    draws_out = series.direction == "depressurize"
    ratio = rho_in / rho_out if draws_out else rho_out / rho_in
    sign = -1.0 if draws_out else 1.0
    used = [(sign * (r.pressure - offset), r.flow * ratio) for r in series.readings]
    used = sorted((p, q) for p, q in used if p > 0 and q > 0)
    pressures, flows = tuple(p for p, _ in used), tuple(q for _, q in used)
    fit = fit_power_law(pressures, flows)
    outside_in = (rho_out, conditions.outdoor_temperature)
    inside_out = (rho_in, conditions.indoor_temperature)
    factor = _to_standard(*(outside_in if draws_out else inside_out), fit.exponent.value, method)
    flow_50 = scaled(flow_at(fit, 50.0), factor)
    flow_4, flow_10 = (scaled(flow_at(fit, p), factor) for p in (4.0, 10.0))
    return SeriesResult(
        direction=series.direction,
        pressures=pressures,
        flows=flows,
        offset=offset,
        fit=fit,
        standard_coefficient=fit.coefficient.value * factor,
        flow_50=flow_50,
        ela_4=leakage_area(flow_4, 4.0, 1.0),
        eqla_10=leakage_area(flow_10, 10.0, CGSB_DISCHARGE),
        checks=series_checks(series, pressures, fit, dropped=len(series.readings) - len(used)),
    )


def _to_standard(rho: float, temperature: float, exponent: float, method: Method) -> float:
    """Return the factor from the coefficient as fitted to the one at 20 °C and 101,325 Pa."""
    factor = (rho / REFERENCE_DENSITY) ** (1.0 - exponent)
    if method == "astm_e779":
        factor *= (viscosity(temperature) / viscosity(20.0)) ** (2.0 * exponent - 1.0)
    return float(factor)
