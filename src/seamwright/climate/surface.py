"""How warm an outer skin is under sun, wind and night sky."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from seamwright.climate.arrays import Floats, Values
from seamwright.climate.moist_air import KELVIN, saturation_pressure
from seamwright.climate.sky import STEFAN_BOLTZMANN, sky_temperature

LATENT_HEAT = 2.5e6
"""Heat to evaporate water near 0 °C. [J/kg] ASHRAE Fundamentals 2017, chapter 1."""

LEWIS = 7e-9
"""Vapor transfer per heat transfer by convection, β = LEWIS · h. [s/m per W/(m²·K)]
Lewis relation for air at 10 °C (from memory)."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Skin:
    """What the outer skin does with light and heat, and the panel behind it.

    `absorptance` of sunlight, `emissivity` of heat rays [-]; `conductance` from the skin to the
    air inside [W/(m²·K)].
    """

    absorptance: float = 0.65
    """Bare OSB, common practice, no source."""

    emissivity: float = 0.9
    """Wood and most coatings. ASHRAE Fundamentals, chapter 4 (from memory)."""

    conductance: float = 0.25
    """A panel of some 6 in of foam, common practice, no source."""


OSB = Skin()
DARK_UNDERLAY = Skin(absorptance=0.9)
"""A dark roof underlay, common practice, no source."""


def convection(wind: Values) -> Floats:
    """Return the heat transfer by wind along an outer face. [W/(m²·K)]

    5.7 + 3.8 v, for v [m/s] from 0 to 5; used above, where it is some 10 to 30 % too high, which
    draws the skin toward the air. Source: W. H. McAdams, Heat Transmission, 3rd edition 1954, as
    rounded in J. A. Duffie, W. A. Beckman, Solar Engineering of Thermal Processes (seen
    second-hand).
    """
    return 5.7 + 3.8 * np.maximum(np.asarray(wind, dtype=np.float64), 0.0)


def surface_temperature(
    air: Values,
    *,
    dew_point: Values,
    wind: Values,
    cloud: Values,
    sun: Values,
    tilt: float,
    skin: Skin = OSB,
    inside: Values | None = None,
    wet: bool = False,
) -> Floats:
    """Return the temperature of an outer skin in balance with sun, sky, wind and inside. [°C]

    Steady: a skin of 11 mm follows within a quarter of an hour. `sun` is what falls on the face
    [W/m²], `tilt` its slope [rad], `inside` the air behind the panel (None: as outdoors, an
    unheated shell). A `wet` skin also gives up the heat of evaporation, a cold one takes that of
    dew; the heat of freezing is left out.

    The sky is seen by (1 + cos tilt)/2 of the view, less toward the horizon where it is nearly as
    warm as the air (Walton, NBSIR 83-2655, 1983); ground and surroundings count as warm as the
    air.
    """
    ta = np.asarray(air, dtype=np.float64)
    room = ta if inside is None else np.asarray(inside, dtype=np.float64)
    view = (1.0 + np.cos(tilt)) / 2.0
    to_sky = view * np.sqrt(view)
    black_sky = (sky_temperature(ta, dew_point, cloud) + KELVIN) ** 4
    coming = to_sky * black_sky + (1.0 - to_sky) * (ta + KELVIN) ** 4
    h = convection(wind)
    gain = skin.absorptance * np.asarray(sun, dtype=np.float64)
    vapor = saturation_pressure(dew_point)
    ts = np.asarray(ta + 0.0 * (gain + h + coming + room), dtype=np.float64)
    for _ in range(12):
        rays = skin.emissivity * STEFAN_BOLTZMANN
        T = ts + KELVIN
        net = gain + rays * (coming - T**4) + h * (ta - ts) + skin.conductance * (room - ts)
        slope = -4.0 * rays * T**3 - h - skin.conductance
        if wet:
            step = 0.01
            p, above = saturation_pressure(ts), saturation_pressure(ts + step)
            net = net - LATENT_HEAT * LEWIS * h * (p - vapor)
            slope = slope - LATENT_HEAT * LEWIS * h * (above - p) / step
        ts = ts - np.clip(net / slope, -20.0, 20.0)
    return np.asarray(ts, dtype=np.float64)


def evaporation(surface: Values, vapor: Values, wind: Values) -> Floats:
    """Return the water leaving a wet skin, positive from skin to air. [kg/(m²·s)]

    Negative where dew or frost settles. `vapor` is the vapor pressure of the air [Pa].
    """
    excess = saturation_pressure(surface) - np.asarray(vapor, dtype=np.float64)
    return LEWIS * convection(wind) * excess
