"""Rain on the faces of a shell: what falls on a slope and what the wind drives on a wall."""

from __future__ import annotations

import numpy as np

from seamwright.climate.arrays import Floats
from seamwright.climate.weather import HourlyWeather
from seamwright.errors import InputError, Problem

DRIVING = 2.0 / 9.0
"""Driving rain through an upright plane across the wind is I = 2/9 · v · R^(8/9), v in m/s, R and I
in mm/h. ISO 15927-3 (from memory)."""

UNKNOWN_DIRECTION = 0.5
"""Share of the wind that blows onto a face whose wind direction is unknown. Our own estimate; a
wind that turns evenly gives 1/π = 0.32."""


def has_rain(weather: HourlyWeather) -> bool:
    """Return whether any rain falls at all; a record without is more likely one that tells none."""
    return bool(np.any(weather.rain > 0.0))


def falling_rain(weather: HourlyWeather, tilt: float) -> Floats:
    """Return the rain that falls on a slope in each hour, by the area of the slope. [kg/m²]"""
    return np.asarray(weather.rain * max(np.cos(tilt), 0.0), dtype=np.float64)


def driven_rain(
    weather: HourlyWeather, azimuth: float, tilt: float, *, exposure: float = 1.0
) -> Floats:
    """Return the rain that the wind drives on a face in each hour. [kg/m²]

    `exposure` is what terrain, neighbors and eaves leave of it, 1 for an open field. [-] Where the
    direction of the wind is known, only wind toward the face counts.
    """
    if weather.direction is None:
        toward = np.full(weather.hours, UNKNOWN_DIRECTION)
    else:
        toward = np.maximum(np.cos(weather.direction - azimuth), 0.0)
    through = DRIVING * weather.wind * toward * weather.rain ** (8.0 / 9.0)
    return np.asarray(exposure * through * np.sin(tilt), dtype=np.float64)


def driving_rain(
    weather: HourlyWeather, azimuth: float, tilt: float, *, exposure: float = 1.0
) -> Floats:
    """Return falling and driven rain on a face together, for a study of wetting. [kg/m²]

    Raises
    ------
    InputError
        When the weather tells no rain at all: a dry result would then say nothing.
    """
    if not has_rain(weather):
        raise InputError(
            [
                Problem(
                    subject="driving rain",
                    sentence="the weather tells no rain in any hour",
                    remedy="bring a measured year with hourly rain, or leave rain out of the study",
                )
            ]
        )
    driven = driven_rain(weather, azimuth, tilt, exposure=exposure)
    return np.asarray(falling_rain(weather, tilt) + driven, dtype=np.float64)
