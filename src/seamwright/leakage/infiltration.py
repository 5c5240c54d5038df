"""Air that comes in by itself: the basic and the enhanced model of the ASHRAE Handbook.

Both turn leakage into a flow from the temperature difference and the wind; neither knows rooms,
single openings, or fans that run.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal, TypeAlias

import numpy as np
from numpy.typing import ArrayLike, NDArray

from seamwright.errors import SeamwrightError
from seamwright.leakage.combine import EXPONENT, TEST_PRESSURE, area_of_flow

Floats = NDArray[np.float64]
Foundation: TypeAlias = Literal["basement_or_slab", "crawl_space"]

SOURCE = "ASHRAE Handbook of Fundamentals 2001, chapter 26 (2005, chapter 27): seen"

_LITRE = 1e-3
_SQUARE_CM = 1e-4

BASIC_STACK = (0.000145, 0.000290, 0.000435)
"""Stack coefficient for one, two and three storeys. [(L/s)²/(cm⁴·K)] Source: `SOURCE`, as all
tables below."""

BASIC_WIND: Mapping[int, tuple[float, float, float]] = MappingProxyType(
    {
        1: (0.000319, 0.000420, 0.000494),
        2: (0.000246, 0.000325, 0.000382),
        3: (0.000174, 0.000231, 0.000271),
        4: (0.000104, 0.000137, 0.000161),
        5: (0.000032, 0.000042, 0.000049),
    }
)
"""Wind coefficient by shelter class (1 open, 5 hemmed in) and storeys. [(L/s)²/(cm⁴·(m/s)²)]"""

ENHANCED_STACK: Mapping[bool, tuple[float, float, float]] = MappingProxyType(
    {False: (0.054, 0.078, 0.098), True: (0.069, 0.089, 0.107)}
)
"""Stack coefficient without and with a flue, by storeys. [(Pa/K)^n]"""

ENHANCED_WIND: Mapping[tuple[Foundation, bool], tuple[float, float, float]] = MappingProxyType(
    {
        ("basement_or_slab", True): (0.142, 0.156, 0.167),
        ("basement_or_slab", False): (0.156, 0.170, 0.170),
        ("crawl_space", True): (0.128, 0.142, 0.154),
        ("crawl_space", False): (0.128, 0.142, 0.151),
    }
)
"""Wind coefficient by foundation and flue, by storeys. [(Pa·s²/m²)^n]"""

SHELTER: Mapping[tuple[int, bool], tuple[float, float, float]] = MappingProxyType(
    {
        (1, False): (1.00, 1.00, 1.00),
        (2, False): (0.90, 0.90, 0.90),
        (3, False): (0.70, 0.70, 0.70),
        (4, False): (0.50, 0.50, 0.50),
        (5, False): (0.30, 0.30, 0.30),
        (1, True): (1.10, 1.07, 1.06),
        (2, True): (1.02, 0.98, 0.97),
        (3, True): (0.86, 0.81, 0.79),
        (4, True): (0.70, 0.64, 0.61),
        (5, True): (0.54, 0.47, 0.43),
    }
)
"""Shelter factor by class and flue, by storeys. [-]"""

AIR_HEAT = 1.2 * 1006.0
"""Heat that a cubic metre of room air carries per kelvin. [J/(m³·K)]

Density 1.2 kg/m³ and specific heat 1006 J/(kg·K) of dry air near 20 °C, ASHRAE Handbook of
Fundamentals (``from memory``).
"""


@dataclass(frozen=True, kw_only=True, slots=True)
class Setting:
    """How a house stands: storeys (1 to 3), shelter class (1 to 5), foundation, an open flue."""

    storeys: int
    shelter: int = 3
    foundation: Foundation = "basement_or_slab"
    flue: bool = False


@dataclass(frozen=True, kw_only=True, slots=True)
class Season:
    """Infiltration summed over the hours given.

    `mean` and `greatest` flow [m³/s]; `heat` lost over the hours that are colder outside than in,
    `gain` over those that are warmer, both above zero and sensible heat only [J]; `hours` counted.
    """

    hours: int
    mean: float
    greatest: float
    heat: float
    gain: float


def basic_flow(area: float, difference: ArrayLike, wind: ArrayLike, setting: Setting) -> Floats:
    r"""Return the infiltration by the basic model. [m³/s]

    .. math:: Q = A_L \sqrt{C_s |\Delta T| + C_w U^2}

    Parameters
    ----------
    area : float
        Effective leakage area at 4 Pa. [m²]
    difference : (n,) float
        Indoor minus outdoor temperature; its sign does not matter. [K]
    wind : (n,) float
        Wind speed of the weather station. [m/s]
    setting : Setting
        Storeys and shelter class; foundation and flue are not in this model.

    Source
    ------
    ASHRAE Handbook of Fundamentals 2001, chapter 26 (2005, chapter 27), after Sherman and Grimsrud.
    """
    row = _row(setting)
    stack = BASIC_STACK[row] * np.abs(np.asarray(difference, float))
    driven = BASIC_WIND[setting.shelter][row] * np.asarray(wind, float) ** 2
    return np.asarray(area / _SQUARE_CM * np.sqrt(stack + driven) * _LITRE)


def enhanced_flow(
    coefficient: float,
    exponent: float,
    difference: ArrayLike,
    wind: ArrayLike,
    setting: Setting,
) -> Floats:
    r"""Return the infiltration by the enhanced model. [m³/s]

    .. math:: Q = \sqrt{Q_s^2 + Q_w^2},\quad Q_s = c\,C_s |\Delta T|^n,\quad
       Q_w = c\,C_w (s U)^{2n}

    Parameters
    ----------
    coefficient : float
        Flow coefficient of the house, from a fan test. [m³/(s·Paⁿ)]
    exponent : float
        Flow exponent; the coefficients are meant for about 0.67. [-]
    difference : (n,) float
        Indoor minus outdoor temperature; its sign does not matter. [K]
    wind : (n,) float
        Wind speed at the height of the eaves, unsheltered. [m/s]
    setting : Setting
        Storeys, shelter class, foundation and flue.

    Source
    ------
    ASHRAE Handbook of Fundamentals 2001, chapter 26 (2005, chapter 27), after Walker and Wilson.
    """
    row = _row(setting)
    stack = ENHANCED_STACK[setting.flue][row] * np.abs(np.asarray(difference, float)) ** exponent
    shelter = SHELTER[setting.shelter, setting.flue][row]
    push = ENHANCED_WIND[setting.foundation, setting.flue][row]
    driven = push * (shelter * np.asarray(wind, float)) ** (2.0 * exponent)
    return np.asarray(coefficient * np.hypot(stack, driven))


def over_hours(flow: ArrayLike, indoor: ArrayLike, outdoor: ArrayLike) -> Season:
    """Return what the infiltration of each hour adds up to.

    Parameters
    ----------
    flow : (n,) float
        Infiltration in each hour. [m³/s]
    indoor, outdoor : (n,) or scalar float
        Air temperatures. [°C]

    Moisture is not in it: in humid air the latent heat can be the larger part. Heat recovery does
    not touch infiltration.
    """
    q = np.atleast_1d(np.asarray(flow, float))
    if not len(q):
        raise SeamwrightError("there are no hours to sum over; give at least one")
    colder = np.asarray(indoor, float) - np.asarray(outdoor, float)
    power = AIR_HEAT * q * colder
    return Season(
        hours=len(q),
        mean=float(q.mean()),
        greatest=float(q.max()),
        heat=float(np.clip(power, 0.0, None).sum() * 3600.0),
        gain=float(np.clip(-power, 0.0, None).sum() * 3600.0),
    )


def infiltration_year(
    flow_50: float,
    setting: Setting,
    *,
    indoor: ArrayLike,
    outdoor: ArrayLike,
    wind: ArrayLike,
    exponent: float = EXPONENT,
) -> tuple[Season, Season]:
    """Return the infiltration over hours of weather by the basic and by the enhanced model.

    Parameters
    ----------
    flow_50 : float
        Flow of the house at 50 Pa. [m³/s]
    setting : Setting
        Storeys, shelter, foundation, flue.
    indoor : (n,) or scalar float
        Room air. [°C]
    outdoor : (n,) float
        Outdoor air in each hour. [°C]
    wind : (n,) float
        Wind of the weather station in each hour. [m/s]
    exponent : float
        Flow exponent of the house. [-]

    Both grow in proportion to the leakage: a house that is twice as leaky has twice the figures.
    The station's wind is taken as it is; the coefficients of both models have the usual step from
    station to house in them.

    Source
    ------
    As `basic_flow` and `enhanced_flow`.
    """
    cold, blow = np.asarray(outdoor, float), np.asarray(wind, float)
    if cold.shape != blow.shape or cold.ndim != 1:
        raise SeamwrightError(
            f"{cold.size} temperatures and {blow.size} winds do not make hours; give one of each "
            "for every hour"
        )
    if not (np.isfinite(cold).all() and np.isfinite(blow).all()):
        raise SeamwrightError("an hour of the weather has no temperature or wind; fill it first")
    difference = np.asarray(indoor, float) - cold
    area = area_of_flow(flow_50, TEST_PRESSURE, exponent)
    coefficient = flow_50 / TEST_PRESSURE**exponent
    flows = (
        basic_flow(area, difference, blow, setting),
        enhanced_flow(coefficient, exponent, difference, blow, setting),
    )
    basic, enhanced = (over_hours(flow, indoor, cold) for flow in flows)
    return basic, enhanced


def _row(setting: Setting) -> int:
    """Return the column of the tables."""
    if setting.storeys not in {1, 2, 3}:
        raise SeamwrightError(
            f"{setting.storeys} storeys: the infiltration models have coefficients for 1, 2 or 3; "
            "take 3 for a higher house and say so"
        )
    if setting.shelter not in BASIC_WIND:
        raise SeamwrightError(
            f"shelter class {setting.shelter} is none of 1 (open) to 5 (hemmed in)"
        )
    return setting.storeys - 1
