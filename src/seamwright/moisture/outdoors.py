"""What drives a section through the hours: the room, and the outdoors as each side feels it."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from seamwright.climate.face import Face
from seamwright.climate.skin_drive import face_drive
from seamwright.climate.sun import Place
from seamwright.climate.surface import Skin
from seamwright.climate.weather import HOUR, HourlyWeather
from seamwright.climate.year import YEAR_HOURS
from seamwright.moisture.air_ways import Airs
from seamwright.moisture.covers import Covers
from seamwright.moisture.transient.types import Drive
from seamwright.moisture.types import Floats

FALL = 6552
"""First hour of October, where runs begin: before the first winter, after a summer's drying."""

_ROOFING, _CLADDING = 0.85, 0.6
"""Absorptance of sunlight, dark roofing and weathered cladding. [-] common practice, no source"""


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class RunClimate:
    """A year of weather and of room air, hour by hour from January.

    `temperature` [°C] and `vapor` [Pa] (hours,) are the room's, `room` says by which rule. `place`
    is None where the sun's way is not known: faces then get none.
    """

    weather: HourlyWeather
    temperature: Floats
    vapor: Floats
    room: str
    place: Place | None = None

    @property
    def is_generated(self) -> bool:
        """Whether the weather was generated, which rules it out for a sign-off."""
        return self.weather.source.startswith("GENERATED")


def airs_of(climate: RunClimate, years: int, start: int = FALL) -> Airs:
    """Return the airs of so many years from hour `start` of the year on."""

    def laid(values: Floats) -> Floats:
        return _laid(values, years, start)

    return Airs(
        inside=laid(climate.temperature),
        outside=laid(climate.weather.air),
        vapor_inside=laid(climate.vapor),
        vapor_outside=laid(climate.weather.vapor),
        wind=laid(climate.weather.wind),
    )


def drive_of(
    climate: RunClimate, covers: Covers, *, tilt: float, years: int, start: int = FALL
) -> Drive:
    """Return what drives a mesh with the four airs of `joint_mesh`, (hours, 4).

    Walls and roofs (slope `tilt` [rad]) look away from the midday sun, where skins dry least; each
    feels sun and night sky by its cover's share of them. Rain is that on flat ground for the roof
    and a quarter of it for walls (common practice, no source). [kg/(m²·s)]
    """
    weather = climate.weather
    air, vapor = weather.air, weather.vapor
    wall = air + covers.wall.sky * (_sol_air(climate, math.pi / 2, _CLADDING) - air)
    roof = air + covers.roof.sky * (_sol_air(climate, tilt, _ROOFING) - air)
    rain = weather.rain / HOUR
    none = np.zeros(len(air))

    def stacked(*columns: Floats) -> Floats:
        return np.column_stack([_laid(c, years, start) for c in columns])

    return Drive(
        temperature=stacked(climate.temperature, air, air, air),
        face=stacked(climate.temperature, wall, roof, air),
        vapor=stacked(climate.vapor, vapor, vapor, vapor),
        rain=stacked(none, 0.25 * rain, rain, none),
    )


def _sol_air(climate: RunClimate, tilt: float, absorptance: float) -> Floats:
    """Return the temperature of an insulated face under sun, sky and wind. [°C]"""
    south = climate.place is not None and climate.place.latitude < 0.0
    face = Face(
        id="away from the sun", azimuth=math.pi if south else 0.0, tilt=tilt,
        skin=Skin(absorptance=absorptance),
    )  # fmt: skip
    return face_drive(climate.weather, face, climate.place).sol_air


def _laid(values: Floats, years: int, start: int) -> Floats:
    index = (start + np.arange(years * YEAR_HOURS)) % len(values)
    return np.asarray(values[index])
