"""The analysis of a fan test: corrections, fit, leakage at the reference pressures, verdict."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial
from statistics import fmean

from seamwright.leakage.accuracy import device_error, mean_interval, scaled, widened
from seamwright.leakage.air import REFERENCE_DENSITY
from seamwright.leakage.checks import device_checks, house_checks, series_checks, short_checks
from seamwright.leakage.corrections import Corrected, corrected, to_standard
from seamwright.leakage.power_law import fit_power_law, flow_at
from seamwright.leakage.short_form import short_flow, short_law, stations, with_defaults
from seamwright.leakage.types import (
    Accuracy,
    Check,
    Conditions,
    Device,
    Envelope,
    FanResult,
    Interval,
    Method,
    PowerLaw,
    Series,
    SeriesResult,
    Target,
)
from seamwright.leakage.verdict import judge

CGSB_DISCHARGE = 0.611
"""Discharge coefficient of a sharp-edged hole. CAN/CGSB-149.10 (from memory)."""

REFERENCES = (4.0, 10.0, 25.0, 50.0, 75.0)
"""Pressures at which the flow is given. [Pa] 4 and 10 for leakage areas, 25, 50 and 75 as codes
ask for them."""


def analyze_fan_test(
    series: Sequence[Series],
    conditions: Conditions,
    envelope: Envelope,
    *,
    method: Method = "iso_9972",
    target: Target | None = None,
    devices: Sequence[Device] = (),
    accuracy: Accuracy | None = None,
) -> FanResult:
    """Return what a fan test says, with every validity rule checked and an honest verdict.

    Valid for one zone at uniform pressure. Flow through the envelope is the fan's flow times the
    density ratio of the air it moves and the air that leaks; the baseline (mean of before and
    after, fan off) is taken off every pressure. With both directions the results are averaged.

    Parameters
    ----------
    series : sequence of Series
        One direction or both.
    method : Method
        ``iso_9972`` and ``astm_e779`` fit a power law to five or more readings; they differ in the
        viscosity correction and in their rules. ``astm_e1827`` is for one or two pressures.
    devices : sequence of Device
        The ranges of the fan; readings outside theirs break a rule.
    accuracy : Accuracy or None
        Errors that all readings share: they widen the intervals of the flow and of ACH50 and q50,
        and do not shrink with the number of readings. ASTM E1827 takes defaults without it.

    Raises
    ------
    SeamwrightError
        Where a direction has too few usable readings for the method (or, E1827, too many).

    Source: ISO 9972:2015, clause 6; ASTM E779; ASTM E1827; CAN/CGSB-149.10 for the area at 10 Pa
    (all ``from memory``; the fit is checked in ``tests/published/test_fan_test.py``).
    """
    known = with_defaults(accuracy) if method == "astm_e1827" else accuracy
    one_way = [_direction(one, conditions, method, known) for one in series]
    flows_at = tuple((p, _mean_flow(one_way, p, method, known)) for p in REFERENCES)
    flow_50 = dict(flows_at)[50.0]
    checks = (
        *house_checks([way.result for way in one_way], conditions, method),
        *device_checks(series, devices),
    )
    broken = [
        check
        for check in (*(c for way in one_way for c in way.result.checks), *checks)
        if check.required and not check.holds
    ]
    ach50 = _per(flow_50, envelope.volume, None if known is None else known.volume)
    q50 = _per(flow_50, envelope.area, None if known is None else known.area)
    outcome, reason = judge(target, ach50=ach50, q50=q50, flow_50=flow_50, broken=broken)
    return FanResult(
        method=method,
        series=tuple(way.result for way in one_way),
        flow_50=flow_50,
        ach50=ach50,
        q50=q50,
        ela_4=leakage_area(dict(flows_at)[4.0], 4.0, 1.0),
        eqla_10=leakage_area(dict(flows_at)[10.0], 10.0, CGSB_DISCHARGE),
        checks=checks,
        target=target,
        outcome=outcome,
        reason=reason,
        flows_at=flows_at,
        accuracy=known,
        per_floor_50=_per(flow_50, envelope.floor_area, None),
    )


def leakage_area(flow: Interval, pressure: float, discharge: float) -> Interval:
    """Return the area of the hole that would leak `flow` at `pressure`. [m²]

    A = Q √(ρ0 / (2 Δp)) / Cd. Source: ASTM E779 and ISO 9972 with Cd = 1 at 4 Pa; CGSB 149.10 with
    0.611 at 10 Pa (from memory).
    """
    return scaled(flow, math.sqrt(REFERENCE_DENSITY / (2.0 * pressure)) / discharge)


@dataclass(frozen=True, kw_only=True, slots=True)
class _Way:
    """One direction analysed: its result, and its flow at any pressure [Pa] with the errors of
    this direction alone.
    """

    result: SeriesResult
    flow: Callable[[float], Interval]


def _mean_flow(
    ways: Sequence[_Way], pressure: float, method: Method, accuracy: Accuracy | None
) -> Interval:
    """Return the mean flow of the directions [m³/s]; errors they share are added once.

    Where the gauges' errors are all there is (ASTM E1827), they are common to both directions.
    """
    if method == "astm_e1827":
        return mean_interval([way.flow(pressure) for way in ways], shared=True)
    exponent = fmean(way.result.fit.exponent.value for way in ways)
    mean = mean_interval([way.flow(pressure) for way in ways])
    return widened(mean, device_error(accuracy, pressure, exponent))


def _direction(
    series: Series, conditions: Conditions, method: Method, accuracy: Accuracy | None
) -> _Way:
    part = corrected(series, conditions)
    if method == "astm_e1827":
        held = stations(part, with_defaults(accuracy))
        law = short_law(held)
        checks = short_checks(
            series, [s.pressure for s in held], law.exponent.value, dropped=part.dropped
        )
        raw: Callable[[float], Interval] = partial(short_flow, held, law)
        shared: Accuracy | None = None
    else:
        law = fit_power_law(part.pressures, part.flows)
        checks = series_checks(series, part.pressures, law, dropped=part.dropped, method=method)
        raw, shared = partial(flow_at, law), accuracy
    factor = to_standard(part, law.exponent.value, method)

    def alone(pressure: float) -> Interval:
        return scaled(raw(pressure), factor)

    def whole(pressure: float) -> Interval:
        return widened(alone(pressure), device_error(shared, pressure, law.exponent.value))

    return _Way(result=_result(series, part, law, factor, whole, checks), flow=alone)


def _result(  # noqa: PLR0917 - one private record put together
    series: Series,
    part: Corrected,
    law: PowerLaw,
    factor: float,
    flow: Callable[[float], Interval],
    checks: tuple[Check, ...],
) -> SeriesResult:
    return SeriesResult(
        direction=series.direction,
        pressures=part.pressures,
        flows=part.flows,
        offset=part.offset,
        fit=law,
        standard_coefficient=law.coefficient.value * factor,
        flow_50=flow(50.0),
        ela_4=leakage_area(flow(4.0), 4.0, 1.0),
        eqla_10=leakage_area(flow(10.0), 10.0, CGSB_DISCHARGE),
        checks=checks,
    )


def _per(flow: Interval, size: float | None, error: float | None) -> Interval | None:
    """Return flow an hour over a volume or area, with the error of that size."""
    return None if size is None else widened(scaled(flow, 3600.0 / size), error)
