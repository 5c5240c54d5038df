"""Moist air as a fan test needs it: density, viscosity, pressure at height."""

from __future__ import annotations

import math

from seamwright.climate.moist_air import saturation_over_water

GAS_CONSTANT_DRY_AIR = 287.055
"""[J/(kg·K)] ISO 9972:2015 annex (from memory)."""

REFERENCE_DENSITY = 1.204
"""Air at 20 °C and 101,325 Pa. [kg/m³] ISO 9972:2015 (from memory)."""


def density(temperature: float, pressure: float, humidity: float) -> float:
    """Return the density of moist air. [kg/m³]

    `temperature` in °C, `pressure` absolute in Pa, `humidity` 0 to 1.
    Source: ISO 9972:2015: ρ = (p − 0.378 φ p_sat) / (287.055 T) (from memory).
    """
    wet = 0.37802 * humidity * float(saturation_over_water(temperature))
    return (pressure - wet) / (GAS_CONSTANT_DRY_AIR * (temperature + 273.15))


def viscosity(temperature: float) -> float:
    """Return the dynamic viscosity of air. [Pa·s]

    Source: Sutherland's relation with b = 1.458e-6 and s = 110.4 K, as in ASTM E779 (from memory).
    """
    kelvin = temperature + 273.15
    return 1.458e-6 * math.sqrt(kelvin) / (1.0 + 110.4 / kelvin)


def barometric_pressure(elevation: float) -> float:
    """Return the standard pressure at an elevation above sea level in metres. [Pa]

    Source: U.S. Standard Atmosphere, 1976: 101325 (1 − 2.25577e-5 z)^5.25588.
    """
    return float(101325.0 * (1.0 - 2.25577e-5 * elevation) ** 5.25588)
