"""A fan test as JSON: SI numbers with the unit in the key, every limit of an interval beside it."""

from __future__ import annotations

from collections.abc import Mapping

from seamwright.io.json_text import Json
from seamwright.leakage.types import (
    Check,
    Conditions,
    Envelope,
    FanResult,
    Interval,
    SeriesResult,
    Target,
)


def fan_document(
    result: FanResult,
    *,
    conditions: Conditions,
    envelope: Envelope,
    texts: Mapping[str, str],
    notes: tuple[str, ...],
) -> Json:
    """Return the result of a fan test with what it was worked out from."""
    return {
        "id": "fan-test",
        "about": dict(texts),
        "method": result.method,
        "flow_50": _span(result.flow_50, "m3_h", 3600.0),
        "ach50": None if result.ach50 is None else _span(result.ach50, "per_h"),
        "q50": None if result.q50 is None else _span(result.q50, "m3_h_m2"),
        "per_floor_50": None
        if result.per_floor_50 is None
        else _span(result.per_floor_50, "m3_h_m2"),
        "ela_4": _span(result.ela_4, "m2"),
        "eqla_10": _span(result.eqla_10, "m2"),
        "flows": [
            {"pressure_pa": pressure, **_span(flow, "m3_h", 3600.0)}
            for pressure, flow in result.flows_at
        ],
        "series": [_series(one) for one in result.series],
        "checks": [_check(check) for check in result.checks],
        "target": None if result.target is None else _target(result.target),
        "outcome": result.outcome,
        "reason": result.reason,
        "conditions": {
            "indoor_temperature_c": conditions.indoor_temperature,
            "outdoor_temperature_c": conditions.outdoor_temperature,
            "indoor_humidity": conditions.indoor_humidity,
            "outdoor_humidity": conditions.outdoor_humidity,
            "barometric_pressure_pa": conditions.barometric_pressure,
            "wind_speed_m_s": conditions.wind_speed,
            "height_m": conditions.height,
        },
        "house": {
            "volume_m3": envelope.volume,
            "area_m2": envelope.area,
            "floor_area_m2": envelope.floor_area,
            "rule": envelope.rule,
        },
        "accuracy": _accuracy(result),
        "notes": list(notes),
    }


def _span(interval: Interval, unit: str, size: float = 1.0) -> Json:
    return {
        f"value_{unit}": interval.value * size,
        f"low_{unit}": interval.low * size,
        f"high_{unit}": interval.high * size,
    }


def _series(one: SeriesResult) -> Json:
    return {
        "id": one.direction,
        "baseline_pa": one.offset,
        "pressures_pa": list(one.pressures),
        "flows_m3_h": [flow * 3600.0 for flow in one.flows],
        "coefficient": _span(one.fit.coefficient, "m3_h_pa_n", 3600.0),
        "standard_coefficient_m3_h_pa_n": one.standard_coefficient * 3600.0,
        "exponent": _span(one.fit.exponent, "of_pressure"),
        "r_squared": one.fit.r_squared if one.fit.count > 2 else None,
        "readings": len(one.pressures),
        "flow_50": _span(one.flow_50, "m3_h", 3600.0),
        "ela_4": _span(one.ela_4, "m2"),
        "eqla_10": _span(one.eqla_10, "m2"),
        "checks": [_check(check) for check in one.checks],
    }


def _check(check: Check) -> Json:
    return {
        "rule": check.rule,
        "measured": check.measured,
        "limit": check.limit,
        "holds": check.holds,
        "required": check.required,
        "source": check.source,
    }


def _target(target: Target) -> Json:
    limits: dict[str, tuple[str, float]] = {
        "ach50": ("limit_per_h", 1.0),
        "q50": ("limit_m3_h_m2", 1.0),
        "flow_50": ("limit_m3_h", 3600.0),
    }
    key, size = limits[target.measure]
    return {"measure": target.measure, key: target.limit * size, "source": target.source}


def _accuracy(result: FanResult) -> Json | None:
    known = result.accuracy
    if known is None:
        return None
    return {
        "flow": known.flow,
        "pressure_pa": known.pressure,
        "volume": known.volume,
        "area": known.area,
    }
