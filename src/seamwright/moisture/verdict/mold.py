r"""The mold index of a surface from 0 (none) to 6 (covered), hour by hour.

Growth after Hukka and Viitanen (1999) with the classes of Ojanen et al. (2010). Within an hour the
climate is constant and growth is integrated exactly, so a result does not hang on the step.

.. math:: \frac{dM}{dt} = \frac{k_1 k_2}{7 \exp(-0.68 \ln T - 13.9 \ln RH + 66.02)}

per day, :math:`k_2 = 1 - \exp(2.3 (M - M_{max}))`. While conditions do not let it grow the index
falls in the first six hours, rests up to a day and falls slowly after.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np

from seamwright.moisture.types import Flags, Floats
from seamwright.moisture.verdict.types import MoldClass

_BEND = 2.3
_FIRST_HOURS, _REST_HOURS = 6, 24
_FALL_FIRST, _FALL_LATER = -0.00133, -0.000667


@dataclass(frozen=True, kw_only=True, slots=True)
class GrowthClass:
    """How fast and how far mold grows on a class of material."""

    k1_below_1: float
    k1_above_1: float
    a: float
    b: float
    c: float
    least_humidity: float


GROWTH: Mapping[MoldClass, GrowthClass] = MappingProxyType(
    {
        "very_sensitive": GrowthClass(
            k1_below_1=1.0, k1_above_1=2.0, a=1.0, b=7.0, c=2.0, least_humidity=80.0
        ),
        "sensitive": GrowthClass(
            k1_below_1=0.578, k1_above_1=0.386, a=0.3, b=6.0, c=1.0, least_humidity=80.0
        ),
        "medium_resistant": GrowthClass(
            k1_below_1=0.072, k1_above_1=0.097, a=0.0, b=5.0, c=1.5, least_humidity=85.0
        ),
        "resistant": GrowthClass(
            k1_below_1=0.033, k1_above_1=0.014, a=0.0, b=3.0, c=1.0, least_humidity=85.0
        ),
    }
)
"""Coefficients by class, Ojanen et al. 2010 (seen second-hand; 0.033 where one copy has 0.33)."""

DECLINE: Mapping[str, float] = MappingProxyType(
    {"pine": 1.0, "significant": 0.5, "relatively low": 0.25, "almost none": 0.1}
)
"""Share of the decline on pine by class, Ojanen et al. 2010 (from memory). [-]"""

MEANING: tuple[str, ...] = (
    "no growth",
    "growth under a microscope only",
    "several colonies under a microscope",
    "visible on less than a tenth of the surface",
    "visible on a tenth to a half",
    "visible on more than half",
    "covered",
)
"""What each whole number of the index means. Hukka and Viitanen 1999 (seen second-hand)."""


@dataclass(frozen=True, kw_only=True, slots=True)
class MoldState:
    """What the index carries on: its value, and hours since growth stopped."""

    index: float = 0.0
    resting: int = 0


def critical_humidity(temperature: Floats | float, least: float = 80.0) -> Floats:
    """Return the relative humidity from which mold grows. [%] `temperature` [°C]

    Source: Hukka and Viitanen 1999; `least` is the class's own floor, which holds above 20 °C.

    >>> round(float(critical_humidity(10.0)), 2)
    82.03
    """
    t = np.asarray(temperature, dtype=float)
    cubic = -0.00267 * t**3 + 0.160 * t**2 - 3.13 * t + 100.0
    return np.maximum(np.where(t <= 20.0, cubic, least), least)


def mold_index(
    temperature: Floats,
    humidity: Floats,
    mold_class: MoldClass = "sensitive",
    decline: float = 1.0,
    state: MoldState | None = None,
) -> tuple[Floats, MoldState]:
    """Return the mold index at the end of every hour (hours,) [-], and the state it ends in.

    `temperature` [°C] and relative `humidity` [-] are (hours,); humidity above 1 counts as 1.
    `decline` is the share of the decline on pine. Give `state` to go on from an earlier series.
    """
    growing, rate, most = _hourly(temperature, humidity, GROWTH[mold_class])
    begin = MoldState() if state is None else state
    kind = GROWTH[mold_class]
    index, rest = begin.index, begin.resting
    fall_first, fall_later = decline * _FALL_FIRST, decline * _FALL_LATER
    found = []
    for grows, pace, top in zip(growing.tolist(), rate.tolist(), most.tolist(), strict=True):
        if grows:
            rest = 0
            if index < top:
                index = _grown(index, pace, top, kind)
        else:
            rest += 1
            if rest <= _FIRST_HOURS:
                index = max(index + fall_first, 0.0)
            elif rest > _REST_HOURS:
                index = max(index + fall_later, 0.0)
        found.append(index)
    return np.array(found), MoldState(index=index, resting=rest)


def _hourly(
    temperature: Floats, humidity: Floats, kind: GrowthClass
) -> tuple[Flags, Floats, Floats]:
    """Return whether mold grows, how fast per hour before k1 and k2, and how far it can go."""
    t, rh = np.asarray(temperature, dtype=float), 100.0 * np.minimum(humidity, 1.0)
    needed = critical_humidity(t, kind.least_humidity)
    growing = (t > 0.0) & (t < 50.0) & (rh >= needed)
    warm, moist = np.where(growing, t, 1.0), np.where(growing, rh, 100.0)
    rate = 1.0 / (24 * 7 * np.exp(-0.68 * np.log(warm) - 13.9 * np.log(moist) + 66.02))
    reach = np.where(growing, (needed - rh) / np.minimum(needed - 100.0, -1e-9), 0.0)
    most = np.maximum(kind.a + kind.b * reach - kind.c * reach**2, 0.0)
    return growing, rate, most


def _grown(index: float, pace: float, top: float, kind: GrowthClass) -> float:
    """Return the index after an hour of growth from below `top`."""
    left = 1.0
    if index < 1.0:
        after = _after(index, pace * kind.k1_below_1, top)
        if after < 1.0 or top <= 1.0:
            return after
        ahead = math.expm1(_BEND * (top - index)) / math.expm1(_BEND * (top - 1.0))
        left = max(1.0 - math.log(ahead) / (_BEND * pace * kind.k1_below_1), 0.0)
        index = 1.0
    return _after(index, left * pace * kind.k1_above_1, top)


def _after(index: float, growth: float, top: float) -> float:
    """Return the index after an unhindered `growth`, slowing toward `top`."""
    gap = math.expm1(_BEND * (top - index)) * math.exp(-_BEND * growth)
    return top - math.log1p(gap) / _BEND
