"""Where the sun stands and how much of it falls on a face.

Directions: azimuth clockwise from north, tilt from horizontal facing up (0: flat roof, π/2: wall,
beyond π/2: a soffit). Instants are seconds since 1970-01-01T00:00Z (POSIX, no leap seconds).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from seamwright.climate.arrays import Floats, Values

ALBEDO = 0.2
"""Reflectance of the ground. [-] Liu and Jordan 1963; snow is 0.6 and more (from memory)."""

SOLAR_CONSTANT = 1361.0
"""[W/m²] Kopp and Lean 2011."""

_J2000 = 2_451_545.0
_LEAST_COSINE = 0.05
"""Below this the sun is so low (2.9°) that parting beam from diffuse means nothing. [-]"""


@dataclass(frozen=True, kw_only=True, slots=True)
class Place:
    """A place on earth. [rad] North and east positive. `elevation` above sea level. [m]"""

    latitude: float
    longitude: float
    elevation: float = 0.0


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class Sun:
    """Where the sun stands: elevation above the horizon (no refraction) and azimuth. [rad]

    `distance` is in astronomical units.
    """

    elevation: Floats
    azimuth: Floats
    distance: Floats


def sun_position(instant: Values, place: Place) -> Sun:
    """Return where the sun stands at instants [s]: within 0.02° from 1950 to 2050.

    Source: J. Meeus, Astronomical Algorithms, 2nd edition 1998, chapter 25 (low accuracy), in the
    form of the NOAA solar calculation sheets.
    """
    time = np.asarray(instant, dtype=np.float64)
    t = (time / 86_400.0 + 2_440_587.5 - _J2000) / 36_525.0
    declination, equation, distance = _orbit(t)
    solar_minutes = (time / 60.0) % 1440.0 + equation + 4.0 * np.degrees(place.longitude)
    hour = np.radians(solar_minutes / 4.0 - 180.0)
    lat = place.latitude
    up = np.sin(lat) * np.sin(declination) + np.cos(lat) * np.cos(declination) * np.cos(hour)
    east = -np.cos(declination) * np.sin(hour)
    north = np.cos(lat) * np.sin(declination) - np.sin(lat) * np.cos(declination) * np.cos(hour)
    return Sun(
        elevation=np.arcsin(np.clip(up, -1.0, 1.0)),
        azimuth=np.arctan2(east, north) % (2.0 * np.pi),
        distance=distance,
    )


def declination(instant: Values) -> Floats:
    """Return how far north of the equator the sun stands overhead at instants [s]. [rad]"""
    time = np.asarray(instant, dtype=np.float64)
    tilt, _, _ = _orbit((time / 86_400.0 + 2_440_587.5 - _J2000) / 36_525.0)
    return tilt


def incidence(sun: Sun, azimuth: float, tilt: float) -> Floats:
    """Return the cosine of the angle between the sun and a face's normal, zero behind it. [-]"""
    flat = np.cos(sun.elevation) * np.sin(tilt) * np.cos(sun.azimuth - azimuth)
    cosine = np.sin(sun.elevation) * np.cos(tilt) + flat
    return np.where(sun.elevation > 0.0, np.maximum(cosine, 0.0), 0.0)


def clear_global(sun: Sun) -> Floats:
    """Return the sun on the flat ground under a clear sky. [W/m²]

    Source: B. Haurwitz, Insolation in relation to cloudiness and cloud density, Journal of
    Meteorology 2 (1945) 154-166.
    """
    height = np.maximum(np.sin(sun.elevation), 1e-6)
    return np.where(sun.elevation > 0.0, 1098.0 * height * np.exp(-0.059 / height), 0.0)


def cloudy_global(sun: Sun, cloud: Values) -> Floats:
    """Return the sun on the flat ground under a cloud cover from 0 to 1. [W/m²]

    Source: F. Kasten, G. Czeplak, Solar and terrestrial radiation dependent on the amount and type
    of cloud, Solar Energy 24 (1980) 177-189: 1 - 0.75 N^3.4.
    """
    cover = np.clip(np.asarray(cloud, dtype=np.float64), 0.0, 1.0)
    return clear_global(sun) * (1.0 - 0.75 * cover**3.4)


def diffuse_share(sun: Sun, on_ground: Values) -> Floats:
    """Return the share of the sun on flat ground [W/m²] that comes from the whole sky. [-]

    Source: D. G. Erbs, S. A. Klein, J. A. Duffie, Estimation of the diffuse radiation fraction for
    hourly, daily and monthly-average global radiation, Solar Energy 28 (1982) 293-302.
    """
    height = np.maximum(np.sin(sun.elevation), 0.065)
    k = np.clip(np.asarray(on_ground) * sun.distance**2 / (SOLAR_CONSTANT * height), 0.0, 1.0)
    middle = 0.9511 + k * (-0.1604 + k * (4.388 + k * (-16.638 + k * 12.336)))
    return np.where(k <= 0.22, 1.0 - 0.09 * k, np.where(k > 0.8, 0.165, middle))


def irradiance(
    sun: Sun,
    on_ground: Values,
    azimuth: float,
    tilt: float,
    *,
    albedo: float = ALBEDO,
    around_sun: bool = False,
) -> Floats:
    """Return the sun on a face from that on flat ground, beam, sky and ground together. [W/m²]

    The sky counts as equally bright all over, some 10 % too little on a face toward the sun (B. Y.
    H. Liu, R. C. Jordan, The long-term average performance of flat-plate solar-energy collectors,
    Solar Energy 7 (1963) 53-74); with `around_sun` the clear part of it comes from about the sun
    (J. E. Hay, J. A. Davies, Calculation of the solar radiation incident on an inclined surface,
    1st Canadian Solar Radiation Data Workshop, 1980, seen second-hand).
    """
    total = np.maximum(np.asarray(on_ground, dtype=np.float64), 0.0)
    height = np.sin(sun.elevation)
    low = height < _LEAST_COSINE
    diffuse = total * np.where(low, 1.0, diffuse_share(sun, total))
    beam = np.where(low, 0.0, (total - diffuse) / np.maximum(height, _LEAST_COSINE))
    sky = (1.0 + np.cos(tilt)) / 2.0
    toward = incidence(sun, azimuth, tilt)
    even = np.ones_like(total)
    if around_sun:
        even = 1.0 - np.clip(beam * sun.distance**2 / SOLAR_CONSTANT, 0.0, 1.0)
    direct = beam + diffuse * (1.0 - even) / np.maximum(height, _LEAST_COSINE)
    spread = diffuse * even * sky + total * albedo * (1.0 - sky)
    return np.asarray(direct * toward + spread, dtype=np.float64)


def _orbit(t: Floats) -> tuple[Floats, Floats, Floats]:
    """Return declination [rad], equation of time [min] and distance at Julian centuries t."""
    mean = np.radians((280.46646 + t * (36_000.76983 + 0.0003032 * t)) % 360.0)
    M = np.radians(357.52911 + t * (35_999.05029 - 0.0001537 * t))
    e = 0.016708634 - t * (0.000042037 + 0.0000001267 * t)
    center = (
        np.sin(M) * (1.914602 - t * (0.004817 + 0.000014 * t))
        + np.sin(2 * M) * (0.019993 - 0.000101 * t)
        + np.sin(3 * M) * 0.000289
    )
    node = np.radians(125.04 - 1934.136 * t)
    apparent = mean + np.radians(center - 0.00569 - 0.00478 * np.sin(node))
    seconds = 21.448 - t * (46.815 + t * (0.00059 - t * 0.001813))
    tilt = np.radians(23.0 + (26.0 + seconds / 60.0) / 60.0 + 0.00256 * np.cos(node))
    y = np.tan(tilt / 2.0) ** 2
    equation = (
        y * np.sin(2 * mean)
        - 2 * e * np.sin(M)
        + 4 * e * y * np.sin(M) * np.cos(2 * mean)
        - 0.5 * y**2 * np.sin(4 * mean)
        - 1.25 * e**2 * np.sin(2 * M)
    )
    distance = 1.000001018 * (1 - e**2) / (1 + e * np.cos(M + np.radians(center)))
    declination = np.arcsin(np.sin(tilt) * np.sin(apparent))
    return declination, 4.0 * np.degrees(equation), np.asarray(distance, dtype=np.float64)
