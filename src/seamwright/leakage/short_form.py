"""Tests at one or two pressures: what they say, and how much less than a full test."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from itertools import pairwise
from statistics import fmean

from seamwright.errors import SeamwrightError
from seamwright.leakage.accuracy import device_error
from seamwright.leakage.corrections import Corrected
from seamwright.leakage.types import Accuracy, Interval, PowerLaw

ASSUMED_EXPONENT = 0.65
"""ASTM E1827, one-point method (from memory)."""

EXPONENT_SPREAD = 0.10
"""95 % spread of n among houses around 0.65; common practice, no source."""

DEFAULT_ACCURACY = Accuracy(flow=0.05, pressure=1.0)
"""Taken where the tester gives none: flow 5 %, pressure 1 Pa; ASTM E1827 (from memory)."""

SAME = 5.0
"""Readings nearer than this are repeats at one station; our own choice. [Pa]"""


@dataclass(frozen=True, kw_only=True, slots=True)
class Station:
    """Repeated readings at one pressure: means, and the 95 % error of ln(flow)."""

    pressure: float
    flow: float
    error: float


def with_defaults(accuracy: Accuracy | None) -> Accuracy:
    """Return the errors of gauges and house, with those of the gauges filled in where not known."""
    if accuracy is None:
        return DEFAULT_ACCURACY
    flow, pressure = accuracy.flow, accuracy.pressure
    return replace(
        accuracy,
        flow=DEFAULT_ACCURACY.flow if flow is None else flow,
        pressure=DEFAULT_ACCURACY.pressure if pressure is None else pressure,
    )


def stations(part: Corrected, accuracy: Accuracy) -> tuple[Station, ...]:
    """Return the one or two pressures a test was held at, the higher first.

    Raises
    ------
    SeamwrightError
        With no usable reading, or with more than two stations: a fit serves those better.
    """
    groups: list[list[tuple[float, float]]] = []
    rows = sorted(zip(part.pressures, part.flows, strict=True), reverse=True)
    for before, row in pairwise([(math.inf, 0.0), *rows]):
        if before[0] - row[0] > SAME:
            groups.append([])
        groups[-1].append(row)
    if not 1 <= len(groups) <= 2:
        raise SeamwrightError(
            f"{len(groups)} pressures were held; ASTM E1827 is for one or two, so use ISO 9972 or "
            "ASTM E779 for this test"
        )
    found = []
    for group in groups:
        pressure, flow = fmean(p for p, _ in group), fmean(q for _, q in group)
        found.append(Station(pressure=pressure, flow=flow, error=_error(pressure, accuracy)))
    return tuple(found)


def short_law(held: tuple[Station, ...]) -> PowerLaw:
    """Return the power law through one station (n assumed) or two, with 95 % intervals.

    Source: ASTM E1827: one point with n = 0.65; two points with n = ln(Q1/Q2) / ln(P1/P2) (from
    memory). Errors of the gauges at the two stations are taken as independent.
    """
    first, last = held[0], held[-1]
    if len(held) == 1:
        n, spread = ASSUMED_EXPONENT, EXPONENT_SPREAD
    else:
        run = math.log(first.pressure / last.pressure)
        n = math.log(first.flow / last.flow) / run
        spread = math.hypot(first.error, last.error) / run
    value = first.flow / first.pressure**n
    half = _log_error(held, 1.0)
    return PowerLaw(
        coefficient=Interval(value=value, low=value * math.exp(-half), high=value * math.exp(half)),
        exponent=Interval(value=n, low=n - spread, high=n + spread),
        r_squared=1.0,
        s_exponent=spread / 1.96,
        s_log_coefficient=half / 1.96,
        mean_x=fmean(math.log(s.pressure) for s in held),
        sum_square_x=0.0,
        residual=0.0,
        count=len(held),
    )


def short_flow(held: tuple[Station, ...], law: PowerLaw, pressure: float) -> Interval:
    """Return the flow at `pressure` [Pa] with gauges and exponent in its interval. [m³/s]"""
    value = law.coefficient.value * pressure**law.exponent.value
    half = _log_error(held, pressure)
    return Interval(value=value, low=value * math.exp(-half), high=value * math.exp(half))


def _log_error(held: tuple[Station, ...], pressure: float) -> float:
    """Return the 95 % error of ln(flow) at a pressure, from the stations around it."""
    first, last = held[0], held[-1]
    if len(held) == 1:
        return math.hypot(first.error, EXPONENT_SPREAD * math.log(pressure / first.pressure))
    weight = math.log(pressure / last.pressure) / math.log(first.pressure / last.pressure)
    return math.hypot(weight * first.error, (1.0 - weight) * last.error)


def _error(pressure: float, accuracy: Accuracy) -> float:
    error = device_error(accuracy, pressure, ASSUMED_EXPONENT)
    return 0.0 if error is None else error
