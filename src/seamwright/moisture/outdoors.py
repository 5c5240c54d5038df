"""What drives a section through the hours: the room, and the outdoors as each side feels it."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TypeAlias

import numpy as np

from seamwright.climate.face import Face
from seamwright.climate.moist_air import STANDARD_PRESSURE
from seamwright.climate.skin_drive import face_drive
from seamwright.climate.sun import Place
from seamwright.climate.surface import Skin
from seamwright.climate.weather import HOUR, HourlyWeather
from seamwright.climate.year import YEAR_HOURS
from seamwright.moisture.air_ways import Airs
from seamwright.moisture.covers import Cover, Covers
from seamwright.moisture.transient.types import Drive
from seamwright.moisture.types import Floats

FALL = 6552
"""First hour of October, where runs begin: before the first winter, after a summer's drying."""

Orientation: TypeAlias = float | None
"""The way a face looks, clockwise from north [rad]; None for away from the midday sun."""


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
    def pressure(self) -> float:
        """Air pressure at the height of the place, that at the sea where it is not known. [Pa]

        Source: U.S. Standard Atmosphere, as ASHRAE Fundamentals 2017, chapter 1, equation 3.
        """
        height = 0.0 if self.place is None else self.place.elevation
        return float(STANDARD_PRESSURE * (1.0 - 2.25577e-5 * height) ** 5.2559)

    @property
    def south(self) -> bool:
        """Whether the place lies south of the equator."""
        return self.place is not None and self.place.latitude < 0.0

    @property
    def is_generated(self) -> bool:
        """Whether the weather was generated, which rules it out for a sign-off."""
        return self.weather.source.startswith("GENERATED")


def airs_of(climate: RunClimate, years: int, start: int = FALL) -> Airs:
    """Return the airs of so many years from hour `start` of the year on."""
    direction = climate.weather.direction

    def laid(values: Floats) -> Floats:
        return _laid(values, years, start)

    return Airs(
        inside=laid(climate.temperature),
        outside=laid(climate.weather.air),
        vapor_inside=laid(climate.vapor),
        vapor_outside=laid(climate.weather.vapor),
        wind=laid(climate.weather.wind),
        direction=None if direction is None else laid(direction),
        pressure=climate.pressure,
    )


def drive_of(
    climate: RunClimate,
    covers: Covers,
    *,
    tilt: float,
    years: int,
    facing: Orientation = None,
    start: int = FALL,
) -> Drive:
    """Return what drives a mesh with the four airs of `joint_mesh`, (hours, 4).

    Walls and roofs (slope `tilt` [rad]) look the way of `facing`, by default away from the midday
    sun, where skins dry least; each feels sun and night sky by its cover's share of them. Rain is
    what falls on the face and what the wind drives on it; without a facing, or a direction of the
    wind, half of the wind blows that way. [kg/(m²·s)]

    Raises
    ------
    InputError
        When rain is to get behind a cover and the weather tells none.
    """
    weather = climate.weather
    air, vapor = weather.air, weather.vapor
    wall, roof = (_face(climate, t, c, facing) for t, c in ((math.pi / 2, covers.wall),
                                                            (tilt, covers.roof)))  # fmt: skip
    none = np.zeros(len(air))

    def stacked(*columns: Floats) -> Floats:
        return np.column_stack([_laid(c, years, start) for c in columns])

    return Drive(
        temperature=stacked(climate.temperature, air, air, air),
        face=stacked(climate.temperature, wall[0], roof[0], air),
        vapor=stacked(climate.vapor, vapor, vapor, vapor),
        rain=stacked(none, wall[1], roof[1], none),
    )


def _face(
    climate: RunClimate, tilt: float, cover: Cover, facing: Orientation
) -> tuple[Floats, Floats]:
    """Return what a covered face feels of air, sun, sky and wind [°C], and its rain. [kg/(m²·s)]"""
    weather = climate.weather
    if facing is None:
        weather = replace(weather, direction=None)
        facing = math.pi if climate.south else 0.0
    face = Face(id="", azimuth=facing, tilt=tilt, skin=Skin(absorptance=cover.absorptance))
    drive = face_drive(weather, face, climate.place, rain=cover.rain > 0.0)
    return weather.air + cover.sky * (drive.sol_air - weather.air), drive.rain / HOUR


def _laid(values: Floats, years: int, start: int) -> Floats:
    index = (start + np.arange(years * YEAR_HOURS)) % len(values)
    return np.asarray(values[index])
