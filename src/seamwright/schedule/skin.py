"""How wet the outer board is, hour by hour: a run of moisture through the bare skin.

The skin is a strip of OSB, tight behind, its face to the weather: rain that meets it, dew, sun, sky
and wind. What counts for a strip is the outermost two millimetres. Wind carries heat and vapor off
by the hour: its least part through a fixed film, the rest as moving air that comes to the balance
of the face (Lewis factor one). The face takes the rain it can draw in and keeps a film; the rest
runs off.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from seamwright.climate.arrays import Floats
from seamwright.climate.face import Face
from seamwright.climate.rain import driven_rain, falling_rain
from seamwright.climate.skin_drive import FaceDrive, face_drive
from seamwright.climate.sun import Place
from seamwright.climate.surface import LEWIS, convection
from seamwright.climate.weather import HOUR, HourlyWeather
from seamwright.errors import InputError, Problem
from seamwright.moisture.transient.line import SEALED, line_mesh
from seamwright.moisture.transient.materials import HYGRO
from seamwright.moisture.transient.run import run_cases
from seamwright.moisture.transient.types import AirWay, Case, Drive, HygroMaterial, Probe, Settings

THICKNESS = 0.011
"""Of the skin. [m] 7/16 in."""

OUTER = 0.002
"""How deep a strip feels the board. [m] Our own choice."""

PINS = 0.005
"""How deep the pins of a meter feel the board. [m] Common practice, no source."""

BOARD = HYGRO["osb"]
"""The board of the skin; sources with its row in the library of materials."""

ABSORPTION = 0.002
"""Water absorption of the face. [kg/(m²·s^0.5)] That of the board in the library of materials."""

AT_FIRST = 0.60
"""Relative humidity the board is in balance with when it comes. [-] Common practice, no source."""

BEHIND = 4.0
"""Resistance to heat between the skin and the air behind the panel. [m²·K/W] As in
`seamwright.climate.surface.Skin`."""

HOTTEST = 100.0
"""Most that sun and wind together may ask of the fixed film. [°C] Bounds of the engine; a face that
would be hotter dries a little too slowly."""

STILL = float(convection(0.0))
"""Heat transfer in still air. [W/(m²·K)]"""

AIR_HEAT = 1006.0
"""Heat capacity of dry air. [J/(kg·K)] ASHRAE Fundamentals 2017, chapter 1."""

POINTS = 12
"""Volumes of the skin but one. Our own choice: 16 of them change few dryings by over 2 h."""

STEPS = Settings(step=1200.0, least_step=1.0, tolerance=1e-2)
"""Steps of twenty minutes. What an iteration leaves over is carried on, so a loose one loses
nothing. Our own choice."""

LONG_STEPS = Settings(step=3600.0, least_step=1.0, tolerance=1e-2)
"""Steps for records of more than `LONG` hours: faces then dry some 2 h too early on the mean."""

LONG = 60 * 24
"""Hours up to which steps are short. Our own choice."""

WORKERS = 2


def drawn_in(hours: float, fallen: float) -> float:
    """Return what the board draws in during so many hours of rain: with the root of time. [kg/m²]

    `fallen` is all that reached the face; no more can be drawn in. [kg/m²]
    """
    return min(fallen, ABSORPTION * float(np.sqrt(max(0.0, hours) * HOUR)))


def board_water(
    weather: HourlyWeather,
    faces: Sequence[Face],
    place: Place | None = None,
    *,
    at_first: float = AT_FIRST,
    film: float = 0.0,
    depth: float = OUTER,
) -> tuple[Floats, ...]:
    """Return the water of each face's outermost board at the end of each hour.

    Parameters
    ----------
    faces
        Outer faces that stand bare; a covered one feels no rain.
    at_first
        Relative humidity that the whole board is in balance with before the first hour. [-]
    film
        Water that stands on the face then. [kg/m²]
    depth
        Of the board that is looked at, from its face. [m]

    Returns
    -------
    One array (hours,) for each face. [kg/kg dry]

    Raises
    ------
    InputError
        When the moisture engine is not installed, or does not come to rest.
    """
    cases = [
        _watched(_case(weather, face, place, at_first, film), depth) for face in faces
    ]  # fmt: skip
    found = []
    steps = STEPS if weather.hours <= LONG else LONG_STEPS
    for face, run in zip(faces, run_cases(cases, steps, workers=WORKERS), strict=True):
        if not run.converged:
            raise InputError(
                [Problem(subject=face.id, sentence="the drying of the skin could not be worked "
                         f"out: {run.advice}", remedy="use the estimate of the film of water")]
            )  # fmt: skip
        found.append(run.water[:, 0])
    return tuple(found)


def balanced_humidity(water: float, board: HygroMaterial = BOARD) -> float:
    """Return the relative humidity that a board of this water is in balance with. [-]

    `water` [kg/kg dry] as a meter corrected for the board reads it; more than the board can hold
    counts as full.
    """
    curve = board.sorption
    return float(np.interp(water * board.density, curve.y, curve.x))


def met_rain(weather: HourlyWeather, face: Face) -> Floats:
    """Return the rain that meets a face in each hour, falling and driven. [kg/m²]"""
    if face.covered or face.inner:
        return np.zeros(weather.hours)
    return falling_rain(weather, face.tilt) + driven_rain(weather, face.azimuth, face.tilt)


def _case(
    weather: HourlyWeather, face: Face, place: Place | None, at_first: float, film: float
) -> Case:
    """Return the run of one face: the last volume meets the weather."""
    depths = np.concatenate([[0.0], np.geomspace(OUTER / 4, THICKNESS, POINTS)])
    points = THICKNESS - depths[::-1]
    hours = face_drive(weather, face, place)
    wind = convection(weather.wind) - STILL
    fixed = float(np.mean(hours.transfer - wind))
    mesh = line_mesh(
        points, (0,) * POINTS, heat=(BEHIND, 1.0 / fixed),
        vapor=(SEALED, 1.0 / (LEWIS * STILL)), rain=(0.0, 1.0),
    )  # fmt: skip
    rain = met_rain(weather, face)
    rain[:1] += film
    return Case(
        mesh=mesh,
        materials=(BOARD,),
        drive=_drive(hours, wind, fixed, rain),
        ways=(
            AirWay(first=1, last=1, cells=np.array([len(points) - 1]), contact=np.array([np.inf]),
                   flow=wind / AIR_HEAT),
        ),
        temperature=np.full(len(points), float(weather.air[0])),
        humidity=np.full(len(points), at_first),
    )  # fmt: skip


def _watched(case: Case, depth: float) -> Case:
    """Return the run with an eye on the board as deep as that."""
    places = case.mesh.points[case.mesh.part_cell, 0]
    outer = np.flatnonzero(places >= THICKNESS - depth * (1.0 + 1e-9))
    return replace(case, probes=(Probe(name="outermost", parts=outer),))


def _drive(hours: FaceDrive, wind: Floats, fixed: float, rain: Floats) -> Drive:
    """Return the air behind (as outdoors) and the weather on the face.

    The fixed film meets a temperature that, with the wind's own part, leads to the sol-air one.
    """
    felt = hours.sol_air + wind * (hours.sol_air - hours.air) / fixed
    offered = rain / HOUR
    return Drive(
        temperature=np.column_stack([hours.air, hours.air]),
        face=np.column_stack([hours.air, np.minimum(felt, HOTTEST)]),
        vapor=np.column_stack([hours.vapor, hours.vapor]),
        rain=np.column_stack([np.zeros(len(offered)), offered]),
    )
