r"""Moist air: saturation, dew and frost points, humidity, heat content, density, wet bulb.

Relations of the ASHRAE Handbook Fundamentals, chapter 1 (2017): saturation by Hyland and Wexler
(equations 5 and 6), within 0.04 % of the IAPWS releases between -40 and 50 °C.

Below 0 °C `saturation_pressure` is that over **ice**, as building physics counts (ISO 13788).
Hygrometers and weather stations count over **water** also below 0 °C (WMO No. 8): say
``over_water=True`` for their readings.

>>> round(float(dew_point(vapor_pressure(10.0, 0.80))), 2)
6.71
"""

from __future__ import annotations

import numpy as np

from seamwright.climate.arrays import Floats, Values

KELVIN = 273.15
STANDARD_PRESSURE = 101_325.0
"""[Pa] U.S. Standard Atmosphere, 1976."""

MASS_RATIO = 0.621945
"""Molar mass of water over that of dry air. [-] ASHRAE Fundamentals 2017, chapter 1."""

DRY_AIR_GAS = 287.042
"""Gas constant of dry air. [J/(kg·K)] ASHRAE Fundamentals 2017, chapter 1, equation 1."""

_ICE = (-5.6745359e3, 6.3925247, -9.677843e-3, 6.2215701e-7, 2.0747825e-9, -9.484024e-13, 4.1635019)
_WATER = (-5.8002206e3, 1.3914993, -4.8640239e-2, 4.1764768e-5, -1.4452093e-8, 0.0, 6.5459673)
"""Coefficients of 1/T, 1, T, T², T³, T⁴ and ln T. [T in K] ASHRAE Fundamentals 2017, chapter 1,
equations 5 (ice, -100 to 0 °C) and 6 (water, 0 to 200 °C)."""

_COLDEST, _HOTTEST = -100.0, 200.0
_LEAST_PRESSURE = 1e-3


def saturation_over_water(temperature: Values) -> Floats:
    """Return the saturation pressure over liquid water, supercooled below 0 °C. [Pa]

    Valid from 0 to 200 °C; used down to -40 °C for what a hygrometer calls 100 %.
    """
    return np.asarray(np.exp(_log_saturation(_kelvin(temperature), _WATER)), dtype=np.float64)


def saturation_over_ice(temperature: Values) -> Floats:
    """Return the saturation pressure over ice. [Pa] Valid from -100 to 0 °C."""
    return np.asarray(np.exp(_log_saturation(_kelvin(temperature), _ICE)), dtype=np.float64)


def saturation_pressure(temperature: Values) -> Floats:
    """Return the saturation pressure over what is there: ice below 0 °C, else water. [Pa]

    Valid from -100 to 200 °C; temperatures beyond are taken at the bound.
    """
    t = np.asarray(temperature, dtype=np.float64)
    return np.where(t < 0.0, saturation_over_ice(t), saturation_over_water(t))


def vapor_pressure(temperature: Values, humidity: Values, *, over_water: bool = False) -> Floats:
    """Return the vapor pressure of air. [Pa]

    `humidity` is a part of one, of saturation over ice below 0 °C, or over water at every
    temperature with `over_water` (readings of instruments and weather stations).
    """
    full = saturation_over_water(temperature) if over_water else saturation_pressure(temperature)
    return np.asarray(humidity, dtype=np.float64) * full


def relative_humidity(temperature: Values, pressure: Values, *, over_water: bool = False) -> Floats:
    """Return the relative humidity of air with a vapor pressure [Pa], as a part of one."""
    full = saturation_over_water(temperature) if over_water else saturation_pressure(temperature)
    return np.asarray(pressure, dtype=np.float64) / full


def dew_point(pressure: Values) -> Floats:
    """Return the temperature at which liquid water condenses from a vapor pressure [Pa]. [°C]

    Below 0 °C it is the dew point over supercooled water. No vapor at all gives -100 °C.
    """
    return _inverse(pressure, _WATER, 17.62, 243.12)


def frost_point(pressure: Values) -> Floats:
    """Return the temperature at which ice forms from a vapor pressure [Pa]. [°C]

    Meaningful up to 0 °C (611 Pa).
    """
    return _inverse(pressure, _ICE, 22.46, 272.62)


def condensation_point(pressure: Values) -> Floats:
    """Return the temperature of a surface that first grows wet or white. [°C]

    The dew point from 0 °C up, else the frost point.
    """
    p = np.asarray(pressure, dtype=np.float64)
    over_water = p >= saturation_over_water(0.0)
    return np.where(over_water, dew_point(p), np.minimum(frost_point(p), 0.0))


def humidity_ratio(vapor: Values, pressure: Values = STANDARD_PRESSURE) -> Floats:
    """Return the mass of vapor per mass of dry air from the vapor pressure [Pa]. [kg/kg]

    Source: ASHRAE Fundamentals 2017, chapter 1, equation 20.
    """
    p = np.asarray(vapor, dtype=np.float64)
    return MASS_RATIO * p / (np.asarray(pressure, dtype=np.float64) - p)


def enthalpy(temperature: Values, ratio: Values) -> Floats:
    """Return the enthalpy of moist air per mass of dry air, zero for dry air at 0 °C. [J/kg]

    Source: ASHRAE Fundamentals 2017, chapter 1, equation 30.
    """
    t = np.asarray(temperature, dtype=np.float64)
    return 1006.0 * t + np.asarray(ratio, dtype=np.float64) * (2.501e6 + 1860.0 * t)


def specific_volume(
    temperature: Values, ratio: Values, pressure: Values = STANDARD_PRESSURE
) -> Floats:
    """Return the volume of moist air per mass of dry air. [m³/kg]

    Source: ASHRAE Fundamentals 2017, chapter 1, equation 26.
    """
    wet = 1.0 + 1.607858 * np.asarray(ratio, dtype=np.float64)
    return DRY_AIR_GAS * (np.asarray(temperature, dtype=np.float64) + KELVIN) * wet / pressure


def density(temperature: Values, vapor: Values, pressure: Values = STANDARD_PRESSURE) -> Floats:
    """Return the density of moist air from its vapor pressure [Pa]. [kg/m³]

    Source: ASHRAE Fundamentals 2017, chapter 1, equation 9a.
    """
    ratio = humidity_ratio(vapor, pressure)
    return (1.0 + ratio) / specific_volume(temperature, ratio, pressure)


def wet_bulb(temperature: Values, vapor: Values, pressure: Values = STANDARD_PRESSURE) -> Floats:
    """Return the thermodynamic wet-bulb temperature, over ice below 0 °C. [°C]

    Between -100 °C and the dry bulb, by halving to 1e-6 K. Where the air is saturated it is the
    dry bulb. Source: ASHRAE Fundamentals 2017, chapter 1, equations 33 and 35.
    """
    t, p = np.broadcast_arrays(
        np.asarray(temperature, dtype=np.float64), np.asarray(vapor, dtype=np.float64)
    )
    ratio = humidity_ratio(p, pressure)
    low, high = np.full(t.shape, _COLDEST), t.copy()
    for _ in range(48):
        middle = (low + high) / 2.0
        too_wet = _ratio_at_wet_bulb(t, middle, pressure) > ratio
        low, high = np.where(too_wet, low, middle), np.where(too_wet, middle, high)
    return np.asarray((low + high) / 2.0, dtype=np.float64)


def _ratio_at_wet_bulb(t: Floats, wet: Floats, pressure: Values) -> Floats:
    full = humidity_ratio(saturation_pressure(wet), pressure)
    water = ((2501.0 - 2.326 * wet) * full - 1.006 * (t - wet)) / (2501.0 + 1.86 * t - 4.186 * wet)
    ice = ((2830.0 - 0.24 * wet) * full - 1.006 * (t - wet)) / (2830.0 + 1.86 * t - 2.1 * wet)
    return np.where(wet < 0.0, ice, water)


def _kelvin(temperature: Values) -> Floats:
    t = np.asarray(temperature, dtype=np.float64)
    return np.clip(t, _COLDEST, _HOTTEST) + KELVIN


def _log_saturation(T: Floats, c: tuple[float, ...]) -> Floats:
    power = c[1] + T * (c[2] + T * (c[3] + T * (c[4] + T * c[5])))
    return np.asarray(c[0] / T + power + c[6] * np.log(T), dtype=np.float64)


def _slope(T: Floats, c: tuple[float, ...]) -> Floats:
    """Return d ln p / dT. [1/K]"""
    power = c[2] + T * (2 * c[3] + T * (3 * c[4] + T * 4 * c[5]))
    return np.asarray(-c[0] / T**2 + power + c[6] / T, dtype=np.float64)


def _inverse(pressure: Values, c: tuple[float, ...], a: float, b: float) -> Floats:
    """Return the temperature of saturation, from a Magnus guess by Newton's method on ln p."""
    p = np.maximum(np.asarray(pressure, dtype=np.float64), _LEAST_PRESSURE)
    log = np.log(p)
    x = np.minimum(np.log(p / 611.2), a - 1.0)
    T = np.clip(b * x / (a - x), _COLDEST, _HOTTEST) + KELVIN
    for _ in range(6):
        T = np.clip(T - (_log_saturation(T, c) - log) / _slope(T, c), 150.0, 480.0)
    return np.clip(T - KELVIN, _COLDEST, _HOTTEST)
