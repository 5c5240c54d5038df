r"""Monthly condensation and drying between plane layers, after ISO 13788 (Glaser's method).

Vapor moves by diffusion alone, at monthly means; materials hold no moisture, water stays where it
condenses, air does not leak. It is a check of a layer stack, not of a joint.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from seamwright.errors import InputError, Problem
from seamwright.moisture.layers import RSE, temperatures
from seamwright.moisture.materials import DELTA_AIR
from seamwright.moisture.types import Flags, Floats, Layer

DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
THICKEST = 0.25
"""A layer with more thermal resistance is cut into equal parts no larger than this. [m²·K/W]
ISO 13788:2012, 6.3 (from memory)."""

RSI_VAPOR = 0.25
"""Resistance of the inner surface for condensation inside walls. [m²·K/W] ISO 13788:2012 (from
memory)."""


@dataclass(frozen=True, kw_only=True, slots=True)
class MonthlyAir:
    """Monthly means on both sides, January first: temperatures [°C] and vapor pressures [Pa]."""

    inside: tuple[float, ...]
    outside: tuple[float, ...]
    vapor_inside: tuple[float, ...]
    vapor_outside: tuple[float, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class WetPlane:
    """One plane in the stack that gets wet, and its water by month. [kg/m²]

    `depth` from the inner face [m]; `between` names the layers on both sides; `rate` is what
    condenses (or, below zero, evaporates) in each month and `held` what is there at its end,
    January first.
    """

    depth: float
    between: tuple[str, str]
    rate: tuple[float, ...]
    held: tuple[float, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class Condensation:
    """A year of condensation and drying. `most` is the largest amount held at the
    end of a month, all planes together. [kg/m²]

    `first_month` (0 for January) is where the count starts: the first month that condenses after
    one that does not; None when no month does. `dries` says whether all of it is gone within the
    twelve months.
    """

    planes: tuple[WetPlane, ...]
    most: float
    first_month: int | None
    dries: bool


def iso_saturation(temperature: float | Floats) -> Floats:
    """Return the saturation pressure by the standard's own formulas. [Pa]

    Source: ISO 13788:2012, annex E (seen in a public script); 0.1 to 0.25 % below IAPWS between 0
    and 50 °C, 1.8 % below at -40 °C.
    """
    t = np.asarray(temperature, dtype=np.float64)
    water = 610.5 * np.exp(17.269 * t / (237.3 + t))
    ice = 610.5 * np.exp(21.875 * t / (265.5 + t))
    return np.where(t >= 0.0, water, ice)


def iso_dew_point(pressure: float | Floats) -> Floats:
    """Return the temperature of saturation from a vapor pressure [Pa]. [°C] ISO 13788, annex E."""
    log = np.log(np.asarray(pressure, dtype=np.float64) / 610.5)
    return np.where(log >= 0.0, 237.3 * log / (17.269 - log), 265.5 * log / (21.875 - log))


def least_factor(inside: float, outside: float, vapor: float, limit: float = 0.8) -> float:
    """Return the temperature factor an inner surface needs to stay below a relative humidity. [-]

    `vapor` is the vapor pressure of the room [Pa]; `limit` 0.8 guards against mold, 1.0 against
    condensation. Source: ISO 13788:2012, 5.3.

    >>> round(least_factor(20.0, -5.0, 0.5 * float(iso_saturation(20.0))), 3)
    0.705
    """
    wanted = float(iso_dew_point(vapor / limit))
    if inside - outside < 1e-9:
        return 0.0
    return max(0.0, (wanted - outside) / (inside - outside))


def monthly_condensation(
    layers: Sequence[Layer], air: MonthlyAir, *, rsi: float = RSI_VAPOR, rse: float = RSE
) -> Condensation:
    """Return what condenses between layers in each month of a year, and whether it dries.

    Parameters
    ----------
    layers
        From inside out, with their resistances and `sd`.
    air
        Monthly means on both sides.
    rsi, rse
        Surface resistances. [m²·K/W]

    Raises
    ------
    InputError
        When a month is missing, a vapor pressure is above saturation of its air, or no layer
        resists vapor.

    Source
    ------
    ``iso-13788``, clause 6. In each month the vapor pressure is the lower convex hull under the
    saturation pressures at the planes, held at saturation where water lies. Water that would dry
    to below none within a month is set to none.
    """
    _check(layers, air)
    stack = _subdivided(layers)
    sd = np.concatenate([[0.0], np.cumsum([layer.sd for layer in stack])])
    full = np.array([
        iso_saturation(temperatures(stack, air.inside[m], air.outside[m], rsi, rse))
        for m in range(12)
    ])  # fmt: skip
    first = _first_month(sd, full, air)
    if first is None:
        return Condensation(planes=(), most=0.0, first_month=None, dries=True)
    rates, held = np.zeros((12, len(sd))), np.zeros((12, len(sd)))
    water = np.zeros(len(sd))
    for month in ((first + k) % 12 for k in range(12)):
        flow = _inflow(sd, full[month], water > 0.0, air, month)
        change = flow * DAYS[month] * 86_400.0
        fresh = np.maximum(water + change, 0.0)
        rates[month], held[month], water = fresh - water, fresh, fresh
    wet = np.flatnonzero(held.max(axis=0) > 1e-12).tolist()
    return Condensation(
        planes=tuple(_plane(stack, i, rates[:, i], held[:, i]) for i in wet),
        most=float(held.sum(axis=1).max()),
        first_month=first,
        dries=bool(water.max() <= 1e-12),
    )


def vapor_line(sd: Floats, full: Floats, inside: float, outside: float) -> Floats:
    """Return the vapor pressures at planes: the lower convex hull below saturation. [Pa]

    `sd` (n,) ascending from 0; `full` (n,) saturation there; `inside` and `outside` are the
    pressures at both ends. Where the line touches `full`, water condenses.
    """
    height = np.concatenate([[inside], full[1:-1], [outside]])
    hull = [0]
    for i in range(1, len(sd)):
        while len(hull) > 1 and _is_above(sd, height, hull[-2], hull[-1], i):
            hull.pop()
        hull.append(i)
    return np.asarray(np.interp(sd, sd[hull], height[hull]), dtype=np.float64)


def _is_above(sd: Floats, height: Floats, a: int, b: int, c: int) -> bool:
    """Return whether point b lies on or above the line from a to c."""
    left = (height[b] - height[a]) * (sd[c] - sd[a])
    return bool(left >= (height[c] - height[a]) * (sd[b] - sd[a]))


def _inflow(sd: Floats, full: Floats, wet: Flags, air: MonthlyAir, month: int) -> Floats:
    """Return what each plane gains; below zero it dries. [kg/(m²·s)]"""
    ends = [0, *np.flatnonzero(wet[1:-1]) + 1, len(sd) - 1]
    height = full.copy()
    height[0], height[-1] = air.vapor_inside[month], air.vapor_outside[month]
    p = height.copy()
    for a, b in itertools.pairwise(ends):
        p[a : b + 1] = vapor_line(sd[a : b + 1], full[a : b + 1], height[a], height[b])
    gap = np.diff(sd)
    flow = np.where(gap > 0, -DELTA_AIR * np.diff(p) / np.where(gap > 0, gap, 1.0), 0.0)
    gain = np.zeros(len(sd))
    gain[1:-1] = flow[:-1] - flow[1:]
    gain[np.abs(gain) < 1e-9 * max(float(np.abs(flow).max()), 1e-30)] = 0.0
    return gain


def _first_month(sd: Floats, full: Floats, air: MonthlyAir) -> int | None:
    dry = np.zeros(len(sd), dtype=bool)
    condenses = [bool((_inflow(sd, full[m], dry, air, m) > 0).any()) for m in range(12)]
    if not any(condenses):
        return None
    starts = [m for m in range(12) if condenses[m] and not condenses[m - 1]]
    after_summer = sorted(starts, key=lambda m: (m - 6) % 12)
    return after_summer[0] if after_summer else 9


def _subdivided(layers: Sequence[Layer]) -> tuple[Layer, ...]:
    """Return the layers cut so that none insulates too much; films join the layer before them."""
    found: list[Layer] = []
    for layer in layers:
        parts = max(1, int(np.ceil(layer.resistance / THICKEST)))
        found += [
            Layer(name=layer.name, thickness=layer.thickness / parts,
                  resistance=layer.resistance / parts, sd=layer.sd / parts)
        ] * parts  # fmt: skip
    return tuple(layer for layer in found if layer.sd > 0.0 or layer.resistance > 0.0)


def _plane(stack: Sequence[Layer], i: int, rate: Floats, held: Floats) -> WetPlane:
    return WetPlane(
        depth=float(sum(layer.thickness for layer in stack[:i])),
        between=(stack[i - 1].name, stack[i].name),
        rate=tuple(rate.tolist()),
        held=tuple(held.tolist()),
    )


def _check(layers: Sequence[Layer], air: MonthlyAir) -> None:
    problems = []
    rows = (air.inside, air.outside, air.vapor_inside, air.vapor_outside)
    if any(len(row) != 12 for row in rows):
        counts = ", ".join(str(len(row)) for row in rows)
        raise InputError([_problem(f"a year has 12 months, not {counts}", "give 12 means")])
    if not sum(layer.sd for layer in layers) > 0.0:
        problems.append(_problem("no layer resists vapor", "give each layer its mu or sd"))
    for name, warmth, vapor in (("inside", air.inside, air.vapor_inside),
                                ("outside", air.outside, air.vapor_outside)):  # fmt: skip
        for month, (t, p) in enumerate(zip(warmth, vapor, strict=True), start=1):
            most = float(iso_saturation(t))
            if not 0.0 < p <= most * 1.01:
                given = f"month {month} {name}: {p:.0f} Pa at {t:.1f} °C"
                told = f"{given} is not between 0 and {most:.0f} Pa, where air is saturated"
                problems.append(_problem(told, "check units and relative humidity"))
    if problems:
        raise InputError(problems)


def _problem(sentence: str, remedy: str) -> Problem:
    return Problem(subject="monthly condensation", sentence=sentence, remedy=remedy)
