"""Materials and air as tables, so that an hour costs look-ups instead of powers.

Relative humidity runs from 0 to 1 in three even stretches, the finest next to saturation, where the
pores of wood fill. Between the points everything is linear.
"""

from __future__ import annotations

import numpy as np

from seamwright.climate.moist_air import KELVIN, saturation_pressure
from seamwright.moisture.transient.curves import values_of
from seamwright.moisture.transient.types import HygroMaterial
from seamwright.moisture.types import Floats

COARSE, MIDDLE, FINE = 400.0, 2000.0, 20000.0
"""Points per unit of humidity below 0.9, up to 0.99, and up to 1. Numbers of the method: common
practice, no source."""

FIRST_FINER, FINEST = 360, 540
"""Places of 0.9 and 0.99 in the grid."""

HUMIDITIES: Floats = np.concatenate(
    [np.arange(360) / COARSE, 0.9 + np.arange(180) / MIDDLE, 0.99 + np.arange(201) / FINE]
)
"""The grid of relative humidity (741,). [-]"""

WATER, OPENNESS, PUSH, DRAG = range(4)
"""Columns of a material's table."""

COLDEST, HOTTEST, PER_KELVIN = -60.0, 110.0, 16.0
"""Range of the table of air [°C] and its points per kelvin: common practice, no source."""

VAPOR_GAS = 461.5
"""Gas constant of water vapor. [J/(kg·K)] (from memory)"""

WATER_DENSITY = 1000.0
"""[kg/m³]"""


def material_table(material: HygroMaterial) -> Floats:
    r"""Return a material over `HUMIDITIES`, (741, 4).

    Columns: water content [kg/m³]; one over the vapor factor [-]; the potential of liquid flow

    .. math:: \Phi(\varphi) = \rho_w R_v \int K \, d\ln\varphi

    whose difference times temperature is the flow that humidity drives, exact in between
    whatever the step; and :math:`\rho_w R_v K \ln\varphi`, what a difference of temperature
    drives. Both follow from Kelvin's suction :math:`s = -\rho_w R_v T \ln\varphi` and
    :math:`g = K \nabla s`.
    """
    water = values_of(material.sorption, HUMIDITIES)
    water[0] = 0.0
    openness = 1.0 / values_of(material.vapor_factor, HUMIDITIES)
    push, drag = np.zeros_like(water), np.zeros_like(water)
    if material.liquid is not None:
        k = WATER_DENSITY * VAPOR_GAS * values_of(material.liquid, water)
        logs = np.log(HUMIDITIES[1:])
        rises = np.concatenate([[1.0], np.diff(logs)])
        push[1:] = np.cumsum(0.5 * (k[1:] + k[:-1]) * rises)
        drag[1:] = k[1:] * logs
    return np.column_stack([water, openness, push, drag])


def air_table(pressure: float) -> Floats:
    """Return saturation pressure [Pa] and vapor permeability of still air [kg/(m·s·Pa)].

    (points, 2) from `COLDEST` in steps of 1 / `PER_KELVIN`. Saturation over ice below 0 °C.

    Source: permeability 2.0e-7 T^0.81 / pressure, R. Schirmer 1938 as in H. M. Künzel 1995 (from
    memory); 1.97e-10 at 20 °C beside the flat 2e-10 of ISO 13788.
    """
    t = np.arange(int((HOTTEST - COLDEST) * PER_KELVIN) + 1) / PER_KELVIN + COLDEST
    return np.column_stack([saturation_pressure(t), air_permeability(t, pressure)])


def air_permeability(temperature: Floats | float, pressure: float) -> Floats:
    """Return the vapor permeability of still air at a temperature [°C]. [kg/(m·s·Pa)]"""
    kelvin = np.asarray(temperature, dtype=np.float64) + KELVIN
    return np.asarray(2.0e-7 * kelvin**0.81 / pressure)
