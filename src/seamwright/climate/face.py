"""What an hour of weather makes of one face of the shell: sun, skin temperature, water on it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from seamwright.climate.arrays import Flags, Floats
from seamwright.climate.rain import driven_rain, falling_rain
from seamwright.climate.sun import Place, cloudy_global, irradiance, sun_position
from seamwright.climate.surface import OSB, Skin, evaporation, surface_temperature
from seamwright.climate.weather import HOUR, HourlyWeather

HELD = 0.3
"""Most water a bare skin keeps on and in its face; more runs off. [kg/m²]
Our own estimate: a film of 0.15 mm and as much soaked in; no measurement behind it."""

TOUCH_DRY = 0.01
"""Below this a skin counts as dry to the touch. [kg/m²] Our own estimate."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Face:
    """A face of the shell: where it looks (azimuth from north, tilt from flat) [rad].

    `covered` keeps rain off (an underlay, a tarp, the inside of a wall); `inner` is the room side
    of an unheated shell, which is as warm as the air and sees neither sun nor sky.
    """

    id: str
    azimuth: float
    tilt: float
    covered: bool = False
    inner: bool = False
    skin: Skin = OSB


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class FaceHours:
    """One face hour by hour: sun on it [W/m²], skin temperature and condensation point of the air
    [°C], water on the skin at the end of the hour [kg/m²].

    The water is an **estimate** until a moisture simulation gives it.
    """

    face: Face
    weather: HourlyWeather
    sun: Floats
    surface: Floats
    condensation: Floats
    water: Floats

    @property
    def margin(self) -> Floats:
        """How far the skin is above the condensation point; below zero it grows wet. [K]"""
        return self.surface - self.condensation

    @property
    def dry(self) -> Flags:
        """Whether the skin is dry to the touch through the hour."""
        before = np.concatenate([self.water[:1], self.water[:-1]])
        return np.asarray(np.maximum(before, self.water) < TOUCH_DRY, dtype=np.bool_)


def face_hours(
    weather: HourlyWeather, face: Face, place: Place | None = None, *, water: float = 0.0
) -> FaceHours:
    """Return a face hour by hour, beginning with `water` on it [kg/m²].

    Without a `place` the sun of the forecast is unknown on a face and left out: by day the skin is
    then taken too cold, which is the careful side for condensation and not for an upper limit.
    """
    sun = _sun_on(weather, face, place)
    dew = weather.condensation
    if face.inner:
        dry_skin = wet_skin = weather.air.copy()
    else:
        dry_skin, wet_skin = (
            surface_temperature(
                weather.air,
                dew_point=dew,
                wind=weather.wind,
                cloud=weather.cloud,
                sun=sun,
                tilt=face.tilt,
                skin=face.skin,
                wet=wet,
            )
            for wet in (False, True)
        )
    rain = np.zeros(weather.hours)
    if not (face.covered or face.inner):
        driven = driven_rain(weather, face.azimuth, face.tilt)
        rain = falling_rain(weather, face.tilt) + driven
    held, surface = _water(weather, rain, dry_skin, wet_skin, water)
    return FaceHours(
        face=face, weather=weather, sun=sun, surface=surface, condensation=dew, water=held
    )


def drying_hours(
    weather: HourlyWeather, face: Face, place: Place | None = None, *, water: float = HELD
) -> int | None:
    """Return after how many hours a face that begins with `water` [kg/m²] is dry to the touch.

    None when it is not within the record. An estimate: see `HELD`.
    """
    dry = np.flatnonzero(face_hours(weather, face, place, water=water).dry)
    return int(dry[0]) if len(dry) else None


def _sun_on(weather: HourlyWeather, face: Face, place: Place | None) -> Floats:
    if face.inner or place is None:
        return np.zeros(weather.hours)
    sun = sun_position(weather.instants + HOUR / 2.0, place)
    flat = cloudy_global(sun, weather.cloud) if weather.sun is None else weather.sun
    return irradiance(sun, flat, face.azimuth, face.tilt)


def _water(
    weather: HourlyWeather, rain: Floats, dry_skin: Floats, wet_skin: Floats, start: float
) -> tuple[Floats, Floats]:
    """Return the water held at the end of each hour and the skin's temperature in it."""
    leaving = evaporation(wet_skin, weather.vapor, weather.wind) * HOUR
    settling = np.maximum(-evaporation(dry_skin, weather.vapor, weather.wind) * HOUR, 0.0)
    held, surface, now = np.empty(weather.hours), dry_skin.copy(), min(max(start, 0.0), HELD)
    for k in range(weather.hours):
        wet = now + rain[k] > TOUCH_DRY
        surface[k] = wet_skin[k] if wet else dry_skin[k]
        change = -leaving[k] if wet else settling[k]
        now = min(max(now + rain[k] + change, 0.0), HELD)
        held[k] = now
    return held, surface
