"""How cold the sky is to a surface that looks at it."""

from __future__ import annotations

import numpy as np

from seamwright.climate.arrays import Floats, Values
from seamwright.climate.moist_air import KELVIN

STEFAN_BOLTZMANN = 5.670374e-8
"""[W/(m²·K⁴)] CODATA 2018."""


def clear_sky_emissivity(dew_point: Values) -> Floats:
    """Return the emissivity of a clear sky from the dew point at the ground [°C]. [-]

    Martin and Berdahl's form with the coefficients refitted by M. Li, Y. Jiang and C. F. M.
    Coimbra, On the determination of atmospheric longwave irradiance under all-sky conditions,
    Solar Energy 144 (2017) 40-48, on seven stations in the United States (seen second-hand).
    Fitted to dew points from about -30 to 25 °C; held to 0.5 and 1 beyond.
    """
    x = np.asarray(dew_point, dtype=np.float64) / 100.0
    return np.clip(0.758 + 0.521 * x + 0.625 * x**2, 0.5, 1.0)


def clear_sky_emissivity_1984(dew_point: Values, solar_hour: Values) -> Floats:
    """Return the same by the older fit, which depends on the hour after solar midnight. [-]

    Source: P. Berdahl, M. Martin, Emissivity of clear skies, Solar Energy 32 (1984) 663-664
    (seen second-hand). Kept as a second opinion: its sky is colder, some 3 K by night, 5 K by day.
    """
    x = np.asarray(dew_point, dtype=np.float64) / 100.0
    day = 0.013 * np.cos(2.0 * np.pi * np.asarray(solar_hour, dtype=np.float64) / 24.0)
    return np.clip(0.711 + 0.56 * x + 0.73 * x**2 + day, 0.5, 1.0)


def clear_sky_emissivity_1978(dew_point: Values) -> Floats:
    """Return the same by the oldest fit of the three. [-]

    Source: G. Clark, C. Allen, The estimation of atmospheric radiation for clear and cloudy skies,
    2nd National Passive Solar Conference (1978) 675-678, as in G. N. Walton, NBSIR 83-2655, 1983,
    page 21 (seen second-hand). Kept as a second opinion.
    """
    dew = np.asarray(dew_point, dtype=np.float64) + KELVIN
    return np.clip(0.787 + 0.764 * np.log(dew / 273.0), 0.5, 1.0)


def cloud_factor(cloud: Values) -> Floats:
    """Return by how much clouds (opaque cover, 0 to 1) raise the emissivity of the sky. [-]

    Source: G. N. Walton, Thermal Analysis Research Program Reference Manual, NBSIR 83-2655, 1983
    (seen second-hand): 1 + 0.0224 N - 0.0035 N² + 0.00028 N³ with N in tenths.
    """
    n = 10.0 * np.clip(np.asarray(cloud, dtype=np.float64), 0.0, 1.0)
    return np.asarray(1.0 + n * (0.0224 + n * (-0.0035 + n * 0.00028)), dtype=np.float64)


def sky_radiation(air: Values, dew_point: Values, cloud: Values) -> Floats:
    """Return the long-wave radiation of the sky on flat ground. [W/m²]"""
    emissivity = np.minimum(clear_sky_emissivity(dew_point) * cloud_factor(cloud), 1.0)
    return emissivity * STEFAN_BOLTZMANN * (np.asarray(air, dtype=np.float64) + KELVIN) ** 4


def sky_temperature(air: Values, dew_point: Values, cloud: Values) -> Floats:
    """Return the temperature of a black sky that radiates as much. [°C]"""
    return (sky_radiation(air, dew_point, cloud) / STEFAN_BOLTZMANN) ** 0.25 - KELVIN
