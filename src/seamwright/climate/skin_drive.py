"""What the outdoors asks of a face, hour by hour: the drive of a moisture study.

The sun, the sky and the wind are folded into one temperature, the **sol-air** temperature: that of
a skin with nothing behind it. A section then sees this temperature through `transfer`.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from seamwright.climate.arrays import Floats
from seamwright.climate.face import Face
from seamwright.climate.moist_air import KELVIN
from seamwright.climate.rain import driving_rain
from seamwright.climate.sky import STEFAN_BOLTZMANN
from seamwright.climate.sun import Place, cloudy_global, irradiance, sun_position
from seamwright.climate.surface import convection, surface_temperature
from seamwright.climate.weather import HOUR, HourlyWeather


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class FaceDrive:
    """What drives a face in each hour.

    Outdoor air and sol-air temperature [°C], vapor pressure of the air [Pa], heat transfer by wind
    and rays together [W/(m²·K)], sun on the face [W/m²], wind [m/s], rain that meets it [kg/m²].
    `source` is that of the weather.
    """

    face: Face
    air: Floats
    sol_air: Floats
    vapor: Floats
    transfer: Floats
    sun: Floats
    wind: Floats
    rain: Floats
    source: str


def face_drive(
    weather: HourlyWeather,
    face: Face,
    place: Place | None,
    *,
    rain: bool = False,
    exposure: float = 1.0,
) -> FaceDrive:
    """Return what drives a face of the shell in each hour.

    `rain` adds what falls and what the wind drives, less by `exposure` (1 for an open field). [-]
    Without a `place` there is no sun. An inner face feels the air alone.

    Raises
    ------
    InputError
        When rain is asked for and the weather tells none.
    """
    sun = _sun_on(weather, face, place)
    sol_air = weather.air.copy()
    if not face.inner:
        sol_air = surface_temperature(
            weather.air,
            dew_point=weather.condensation,
            wind=weather.wind,
            cloud=weather.cloud,
            sun=sun,
            tilt=face.tilt,
            skin=replace(face.skin, conductance=0.0),
        )
    met = np.zeros(weather.hours)
    if rain and not (face.covered or face.inner):
        met = driving_rain(weather, face.azimuth, face.tilt, exposure=exposure)
    rays = 4.0 * face.skin.emissivity * STEFAN_BOLTZMANN
    return FaceDrive(
        face=face,
        air=weather.air,
        sol_air=sol_air,
        vapor=weather.vapor,
        transfer=convection(weather.wind) + rays * ((weather.air + sol_air) / 2.0 + KELVIN) ** 3,
        sun=sun,
        wind=weather.wind,
        rain=met,
        source=weather.source,
    )


def _sun_on(weather: HourlyWeather, face: Face, place: Place | None) -> Floats:
    if face.inner or place is None:
        return np.zeros(weather.hours)
    sun = sun_position(weather.instants + HOUR / 2.0, place)
    flat = cloudy_global(sun, weather.cloud) if weather.sun is None else weather.sun
    return irradiance(sun, flat, face.azimuth, face.tilt, around_sun=True)
