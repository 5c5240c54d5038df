"""Figures of a fan test in words: both unit systems side by side, since testers use both."""

from __future__ import annotations

from dataclasses import dataclass

from seamwright.leakage.types import FanResult, Interval, Method, Target

CFM = 0.3048**3 / 60.0
"""One cubic foot a minute. [m³/s]"""

METHODS: dict[Method, str] = {
    "iso_9972": "ISO 9972:2015",
    "astm_e779": "ASTM E779",
    "astm_e1827": "ASTM E1827",
}
DIRECTIONS = {"depressurize": "depressurization", "pressurize": "pressurization"}


@dataclass(frozen=True, kw_only=True, slots=True)
class Shown:
    """A unit figures are shown in: its size in SI, its name, and how many decimals."""

    size: float
    name: str
    decimals: int

    def text(self, *values: float) -> str:
        """Return values in this unit, parted by ``to``."""
        told = " to ".join(f"{value / self.size:.{self.decimals}f}" for value in values)
        return f"{told} {self.name}"


FLOW = (
    Shown(size=CFM, name="cfm", decimals=0),
    Shown(size=1.0 / 3600.0, name="m³/h", decimals=0),
)
HOLE = (
    Shown(size=0.0254**2, name="in²", decimals=1),
    Shown(size=1e-4, name="cm²", decimals=0),
)
PER_AREA = (
    Shown(size=0.3048 * 60.0, name="cfm/ft²", decimals=3),
    Shown(size=1.0, name="m³/(h·m²)", decimals=2),
)
PER_HOUR = (Shown(size=1.0, name="1/h", decimals=2),)


def in_units(shown: tuple[Shown, ...], *values: float) -> str:
    """Return values in the first unit, and in brackets in the others."""
    first, *others = (unit.text(*values) for unit in shown)
    return f"{first} ({', '.join(others)})" if others else first


def result_rows(result: FanResult) -> tuple[tuple[str, str, str], ...]:
    """Return each measure of a test with its value and its 95 % interval, in both unit systems."""
    rows = [_row("Flow at 50 Pa, Q50", result.flow_50, FLOW)]
    if result.ach50 is not None:
        rows.append(_row("Air changes at 50 Pa, ACH50 (n50)", result.ach50, PER_HOUR))
    if result.q50 is not None:
        rows.append(_row("Flow per shell area at 50 Pa, q50", result.q50, PER_AREA))
    if result.per_floor_50 is not None:
        rows.append(_row("Flow per floor area at 50 Pa, qF50", result.per_floor_50, PER_AREA))
    rows.append(_row("Leakage area at 4 Pa, ELA (Cd 1)", result.ela_4, HOLE))
    rows.append(_row("Leakage area at 10 Pa, EqLA (Cd 0.611)", result.eqla_10, HOLE))
    rows += [
        _row(f"Flow at {pressure:g} Pa", flow, FLOW)
        for pressure, flow in result.flows_at
        if pressure not in {4.0, 10.0, 50.0}
    ]
    return tuple(rows)


def target_text(target: Target) -> str:
    """Return a target with its limit, unit and source."""
    limit = {
        "ach50": f"{target.limit:g} ACH50",
        "q50": f"q50 of {in_units(PER_AREA, target.limit)}",
        "flow_50": in_units(FLOW, target.limit),
    }[target.measure]
    return f"{limit}, {target.source}"


def verdict_line(result: FanResult) -> str:
    """Return the verdict in one line, or that no target was given."""
    if result.outcome is None:
        return "No target given: figures only."
    return f"{result.outcome.upper()}: {result.reason}."


def _row(name: str, interval: Interval, shown: tuple[Shown, ...]) -> tuple[str, str, str]:
    return (name, in_units(shown, interval.value), in_units(shown, interval.low, interval.high))
