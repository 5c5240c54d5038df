"""The validity rules of the fan-test standards, each checked and named."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from statistics import fmean

from seamwright.leakage.types import Check, Conditions, PowerLaw, Series, SeriesResult

ISO = "ISO 9972:2015 (from memory)"
E779 = "ASTM E779 (from memory)"

MOST_BASELINE = 5.0
"""[Pa] ISO 9972:2015: a zero-flow pressure above 5 Pa makes the test invalid (from memory)."""

MOST_WIND = 6.0
"""[m/s] ISO 9972:2015, note: meteorological wind above 6 m/s (3 Beaufort) (from memory)."""

MOST_STACK = 250.0
"""[m·K] ISO 9972:2015, note: height times temperature difference (from memory)."""


def series_checks(
    series: Series, pressures: Sequence[float], fit: PowerLaw, *, dropped: int
) -> tuple[Check, ...]:
    """Return the rules of one direction: baselines, number and span of points, exponent, fit."""
    n = fit.exponent.value
    low, high = min(pressures), max(pressures)
    ordered = sorted(pressures)
    step = max(b - a for a, b in pairwise(ordered))
    return (
        *_baseline_checks(series),
        _check("at least 5 readings", f"{len(pressures)}", "5", len(pressures) >= 5, E779),
        _check(
            "every reading has the right sign after the baseline is taken off",
            f"{dropped} left out",
            "0",
            dropped == 0,
            ISO,
        ),
        _check("lowest pressure near 10 Pa", f"{low:.1f} Pa", "at most 20 Pa", low <= 20.0, ISO),
        _check("highest pressure", f"{high:.1f} Pa", "at least 50 Pa", high >= 50.0, ISO),
        _check("steps between readings", f"{step:.1f} Pa", "at most 12 Pa", step <= 12.0, ISO),
        _check("exponent n", f"{n:.3f}", "0.5 to 1.0", 0.5 <= n <= 1.0, ISO),
        _check("fit r²", f"{fit.r_squared:.4f}", "at least 0.98", fit.r_squared >= 0.98, ISO),
    )


def house_checks(results: Sequence[SeriesResult], conditions: Conditions) -> tuple[Check, ...]:
    """Return the rules of the whole test: weather, and both directions agreeing."""
    checks = []
    if conditions.wind_speed is not None:
        wind = conditions.wind_speed
        checks.append(_check("wind", f"{wind:.1f} m/s", "6 m/s", wind <= MOST_WIND, ISO))
    if conditions.height is not None:
        warmth = abs(conditions.indoor_temperature - conditions.outdoor_temperature)
        stack = conditions.height * warmth
        checks.append(
            _check(
                "height times temperature difference",
                f"{stack:.0f} m·K",
                "250 m·K",
                stack <= MOST_STACK,
                ISO,
            )
        )
    if len(results) > 1:
        flows = [r.flow_50.value for r in results]
        apart = (max(flows) - min(flows)) / fmean(flows)
        checks.append(
            _check(
                "both directions agree at 50 Pa",
                f"{100 * apart:.0f} % apart",
                "25 %, common practice, no source",
                apart <= 0.25,
                "common practice, no source",
            )
        )
    return tuple(checks)


def _baseline_checks(series: Series) -> tuple[Check, ...]:
    checks = []
    for name, part in (("before", series.baseline_before), ("after", series.baseline_after)):
        if not part:
            checks.append(_check(f"baseline {name} was read", "none", "1 or more", False, ISO))
            continue
        sides = ([p for p in part if p > 0], [p for p in part if p < 0])
        worst = max((abs(fmean(side)) for side in sides if side), default=0.0)
        checks.append(
            _check(
                f"baseline {name}", f"{worst:.1f} Pa", "at most 5 Pa", worst <= MOST_BASELINE, ISO
            )
        )
    return tuple(checks)


def _check(rule: str, measured: str, limit: str, holds: bool, source: str) -> Check:  # noqa: FBT001 - one private row of a table
    return Check(rule=rule, measured=measured, limit=limit, holds=holds, source=source)
