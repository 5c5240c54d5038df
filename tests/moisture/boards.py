"""Made-up boards in the open: one material, tight behind, its face to rain, dew and sun."""

from __future__ import annotations

import numpy as np

from seamwright.climate.moist_air import saturation_pressure
from seamwright.moisture.transient.line import SEALED, line_mesh
from seamwright.moisture.transient.materials import HYGRO
from seamwright.moisture.transient.types import Case, Drive
from seamwright.moisture.types import Floats

EVEN = np.linspace(0.0, 0.011, 12)
"""Volumes of a millimetre in a board of 7/16 in. [m]"""

FINE = 0.011 - np.concatenate([[0.0], np.geomspace(0.0005, 0.011, 13)])[::-1]
"""Half a millimetre at the face, wider behind. [m]"""

WIND_FILM = 7.1e6
"""Resistance of the film of air on a face in wind: 1 / (7e-9 · 20). [m²·s·Pa/kg]"""


def in_the_open(
    points: Floats, face: Floats, air: Floats, humidity: Floats, rain: Floats, *,
    board: str = "osb", film: float = WIND_FILM, start: float = 0.6,
) -> Case:  # fmt: skip
    """Return a board under a sky: temperatures of face and air [°C], rain [kg/(m²·s)]."""

    def twice(values: Floats) -> Floats:
        return np.column_stack([values, values])

    n = len(points)
    mesh = line_mesh(points, (0,) * (n - 1), heat=(SEALED, 0.04), vapor=(SEALED, film),
                     rain=(0.0, 1.0))  # fmt: skip
    drive = Drive(temperature=twice(air), face=twice(face), rain=twice(rain),
                  vapor=twice(humidity * saturation_pressure(air)))  # fmt: skip
    return Case(mesh=mesh, materials=(HYGRO[board],), drive=drive,
                temperature=np.full(n, float(air[0])), humidity=np.full(n, start))  # fmt: skip


def damp_year(points: Floats, hours: int = 8760, *, rainy: bool) -> Case:
    """Return a board through a year of clear dewy nights, with or without rain."""
    day = np.arange(hours) / 24.0
    rng = np.random.default_rng(5)
    air = 8.0 - 10.0 * np.cos(day / 58.0) - 4.0 * np.cos(2 * np.pi * day)
    air += rng.normal(0, 0.5, hours)
    night = np.cos(2 * np.pi * day) > 0.0
    sun = np.maximum(0.0, -np.cos(2 * np.pi * day)) * (8.0 + 8.0 * np.sin(1.7 * day))
    humidity = 0.88 + 0.10 * np.cos(2 * np.pi * day) + rng.normal(0.0, 0.03, hours)
    showers = np.sin(2.1 * day) + 0.5 * np.sin(7.0 * day) > 1.1
    rain = 3e-4 * rng.random(hours) * showers * rainy
    return in_the_open(points, air + sun - 4.0 * night, air, np.clip(humidity, 0.3, 1.0), rain)


def any_weather(seed: int, hours: int = 240) -> Case:
    """Return a board of any kind in a random sequence of rain, dew and sun."""
    rng = np.random.default_rng(seed)
    day = np.arange(hours) / 24.0
    air = (rng.uniform(-5, 25) - rng.uniform(1, 8) * np.cos(2 * np.pi * day)
           + rng.normal(0.0, 1.0, hours))  # fmt: skip
    sun = np.maximum(0, -np.cos(2 * np.pi * day)) * rng.uniform(0, 40) * rng.random(hours)
    sky = rng.uniform(0, 8) * (np.cos(2 * np.pi * day) > 0) * rng.random(hours)
    humidity = (rng.uniform(0.5, 1.0) + rng.uniform(0.0, 0.3) * np.cos(2 * np.pi * day)
                + rng.normal(0.0, 0.05, hours))  # fmt: skip
    wet = rng.random(hours).cumsum() % rng.uniform(5, 60) < rng.uniform(1, 30)
    rain = wet * 10 ** rng.uniform(-6.0, -2.2, hours) * rng.random(hours)
    board = ("osb", "plywood", "softwood", "gypsum", "spruce")[seed % 5]
    points = (EVEN, FINE)[int(rng.integers(2))]
    return in_the_open(
        points, air + sun - sky, air, np.clip(humidity, 0.2, 1.0), rain, board=board,
        film=10 ** rng.uniform(6.5, 7.8), start=rng.uniform(0.4, 1.0),
    )  # fmt: skip
