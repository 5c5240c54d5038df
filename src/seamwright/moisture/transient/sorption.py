"""How much water a material holds at a relative humidity, and how it moves as a liquid.

Wood follows the equation of the Wood Handbook; boards are shares of it. Between the humidities that
sorption tests reach and saturation, where pores fill by suction, one capillary term of the form of
van Genuchten joins the two; its two constants are from memory and matter above 98 % only.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from seamwright.moisture.transient.types import Curve
from seamwright.moisture.types import Floats

VAPOR_GAS = 461.5
"""Gas constant of water vapor. [J/(kg·K)] (from memory)"""

REFERENCE = 20.0
"""Temperature at which the sorption and liquid curves stand. [°C]"""

_STEPS = (*(k / 20 for k in range(20)), 0.97, 0.98, 0.985, 0.99, 0.995, 0.998, 1.0)
_HIGHEST_TEST = 0.98
_ENTRY = 1e5
_SHARPNESS = 2.0
_RHO_WATER = 1000.0


def wood_moisture(humidity: Floats | float, temperature: Floats | float = REFERENCE) -> Floats:
    """Return the equilibrium moisture content of wood, kg of water per kg dry. [kg/kg]

    `humidity` in parts of one [-], `temperature` [°C]. Valid from -1 to 55 °C, below some 98 %.

    Source: USDA Wood Handbook FPL-GTR-282, equation 4-5, after Hailwood and Horrobin (seen).

    >>> round(float(wood_moisture(0.65)), 3)
    0.12
    """
    t, h = np.asarray(temperature, dtype=float), np.asarray(humidity, dtype=float)
    weight = 349 + 1.29 * t + 0.0135 * t**2
    k = 0.805 + 0.000736 * t - 2.73e-6 * t**2
    k1 = 6.27 - 0.00938 * t - 3.03e-4 * t**2
    k2 = 1.91 + 0.0407 * t - 2.93e-4 * t**2
    solution = k * h / (1 - k * h)
    hydrate = k1 * k * h + 2 * k1 * k2 * k**2 * h**2
    return np.asarray(
        18 / weight * (solution + hydrate / (1 + k1 * k * h + k1 * k2 * (k * h) ** 2))
    )


def suction(humidity: Floats | float, temperature: float = REFERENCE) -> Floats:
    """Return the suction of pore water at a relative humidity above zero, after Kelvin. [Pa]"""
    kelvin = temperature + 273.15
    return np.asarray(-_RHO_WATER * VAPOR_GAS * kelvin * np.log(humidity))


def wood_sorption(
    density: float, saturation: float, tested: Sequence[tuple[float, float]] = ()
) -> Curve:
    """Return the sorption curve of wood, or of a board made of it. [kg/m³]

    `tested` are points of relative humidity [-] and moisture content [kg/kg] of the board; it holds
    the same share of what solid wood holds between and beyond them. `saturation` is the water
    content with every reachable pore full. [kg/m³]

    >>> osb = wood_sorption(650.0, 515.0, ((0.30, 0.05), (0.65, 0.10), (0.85, 0.15)))
    >>> round(osb.y[osb.x.index(0.85)], 3)
    97.5
    """
    steps = np.array([step for step in _STEPS if step <= _HIGHEST_TEST])
    content = wood_moisture(steps)
    if tested:
        at, held = (np.array(column) for column in zip(*tested, strict=True))
        content = content * np.interp(steps, at, held / wood_moisture(at))
    return filled(list(zip(steps, content * density, strict=True)), saturation)


def filled(points: Sequence[tuple[float, float]], saturation: float) -> Curve:
    """Return a sorption curve through tested points, on to saturation by the capillary term.

    `points` are relative humidity [-] and water content [kg/m³], rising from (0, 0).
    """
    last, held = points[-1]
    beyond = np.array([step for step in _STEPS if step > last + 1e-9])
    share = (_full(beyond) - _full(last)) / (1.0 - _full(last))
    water = held + (saturation - held) * share
    pairs = [*points, *zip(beyond, water, strict=True)]
    return Curve(x=tuple(float(x) for x, _ in pairs), y=tuple(float(y) for _, y in pairs))


def liquid_of_diffusivity(sorption: Curve, points: Sequence[tuple[float, float]]) -> Curve:
    """Return the liquid conductivity for the gradient of suction. [s]

    `points` are water content [kg/m³] and liquid diffusivity [m²/s]; the two are tied by the slope
    of the sorption curve and by Kelvin's law at the reference temperature.
    """
    at, diffusivity = zip(*points, strict=True)
    water = np.array(sorption.y)
    return _conductivity(sorption, np.interp(water, at, diffusivity))


def liquid_of_absorption(sorption: Curve, absorption: float) -> Curve:
    """Return the liquid conductivity from a water absorption coefficient [kg/(m²·s^0.5)]. [s]

    Source: H. M. Künzel, 1995: D = 3.8 (A / saturation)² 1000^(w / saturation - 1) (from memory).
    """
    water, full = np.array(sorption.y), sorption.y[-1]
    return _conductivity(sorption, 3.8 * (absorption / full) ** 2 * 1000.0 ** (water / full - 1.0))


def _conductivity(sorption: Curve, diffusivity: Floats) -> Curve:
    humidity, water = np.array(sorption.x), np.array(sorption.y)
    slope = np.gradient(water, humidity)
    fluid = _RHO_WATER * VAPOR_GAS * (REFERENCE + 273.15)
    k = diffusivity * slope * humidity / fluid
    kept = k > 0.0
    return Curve(
        x=tuple(float(w) for w in water[kept]),
        y=tuple(float(value) for value in k[kept]),
        logarithmic=True,
    )


def _full(humidity: Floats | float) -> Floats:
    """Return how full the larger pores stand at a relative humidity. [-]"""
    ratio = suction(humidity) / _ENTRY
    return np.asarray((1.0 + ratio**_SHARPNESS) ** (1.0 / _SHARPNESS - 1.0))
