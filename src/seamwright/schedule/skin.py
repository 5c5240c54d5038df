"""How long the outer skin takes to dry after rain, from a run of moisture through the board.

The skin is a strip of OSB, tight behind, its face to the weather. What the board drew in during the
rain stands in its outermost part when the run begins; vapor leaves through the film of air. What
counts for a strip is the outermost two millimetres. Beside it stands the estimate of a film of
water (`seamwright.climate.face.drying_hours`), which needs no run and is used for the windows.
"""

from __future__ import annotations

import numpy as np

from seamwright.climate.arrays import Floats
from seamwright.climate.face import FaceHours
from seamwright.climate.surface import LEWIS, convection
from seamwright.climate.weather import HOUR
from seamwright.errors import InputError, Problem
from seamwright.moisture.transient.line import SEALED, line_mesh
from seamwright.moisture.transient.run import run_case
from seamwright.moisture.transient.types import Case, Drive, HygroMaterial, Probe, Settings

THICKNESS = 0.011
"""Of the skin. [m] 7/16 in."""

OUTER = 0.002
"""How deep a strip feels the board. [m] Our own choice."""

DRY_BOARD = 0.16
"""Water of that part up to which strips go on. [kg/kg] The default of
`seamwright.schedule.tape_limits`: common practice, no source."""

ABSORPTION = 0.002
"""Water absorption of the face. [kg/(m²·s^0.5)] That of the board in the library of materials."""

AT_FIRST = 0.60
"""Relative humidity the board was in balance with before. [-] Common practice, no source."""

WETTEST = 0.98
"""Relative humidity up to which the wetted part is filled. [-] Our own choice."""

FINE = Settings(step=600.0, least_step=1.0)
"""Steps of ten minutes: a face changes within the hour. Our own choice."""


def drawn_in(hours: float, fallen: float) -> float:
    """Return what the board draws in during so many hours of rain: with the root of time. [kg/m²]

    `fallen` is all that reached the face; no more can be drawn in. [kg/m²]
    """
    return min(fallen, ABSORPTION * float(np.sqrt(max(0.0, hours) * HOUR)))


def drying_by_run(hours: FaceHours, board: HygroMaterial, water: float) -> int | None:
    """Return after how many hours a face that drew in `water` [kg/m²] takes strips again.

    `hours` begins when the rain has ended; None when it is not dry within the record. The face is
    as warm as `hours` says, the film of air that of the mean wind.

    Raises
    ------
    InputError
        When the moisture engine is not installed, or does not come to rest.
    """
    found = outer_water(hours, board, water)
    dry = np.flatnonzero(found <= DRY_BOARD)
    return int(dry[0]) + 1 if dry.size else None


def outer_water(hours: FaceHours, board: HygroMaterial, water: float) -> Floats:
    """Return the water of the outermost two millimetres at the end of each hour. [kg/kg dry]"""
    depths = np.concatenate([[0.0], np.geomspace(OUTER / 4, THICKNESS, 13)])
    points = THICKNESS - depths[::-1]
    film = 1.0 / (LEWIS * float(np.mean(convection(hours.weather.wind))))
    mesh = line_mesh(points, (0,) * (len(points) - 1), heat=(SEALED, 0.04), vapor=(SEALED, film))
    outer = np.flatnonzero(points[mesh.part_cell] >= THICKNESS - OUTER)
    run = run_case(
        Case(
            mesh=mesh, materials=(board,), drive=_drive(hours),
            temperature=np.full(len(points), float(hours.surface[0])),
            humidity=_wetted(points, board, water),
            probes=(Probe(name="outermost", parts=outer),),
        ),
        FINE,
    )  # fmt: skip
    if not run.converged:
        raise InputError(
            [Problem(subject=hours.face.id, sentence="the drying of the skin could not be worked "
                     f"out: {run.advice}", remedy="use the estimate of the film of water")]
        )  # fmt: skip
    return run.water[:, 0]


def _wetted(points: Floats, board: HygroMaterial, water: float) -> Floats:
    """Return the humidity of each volume once the water stands in the board from outside on. [-]"""
    curve = board.sorption
    full, before = (float(np.interp(h, curve.x, curve.y)) for h in (WETTEST, AT_FIRST))
    half = np.diff(points) / 2.0
    sizes = np.concatenate([[0.0], half]) + np.concatenate([half, [0.0]])
    found = np.full(len(points), AT_FIRST)
    left = water
    for k in range(len(points) - 1, -1, -1):
        taken = min(left, (full - before) * sizes[k])
        found[k] = np.interp(before + taken / sizes[k], curve.y, curve.x)
        left -= taken
    return found


def _drive(hours: FaceHours) -> Drive:
    """Return the air behind (as outdoors) and the weather on the face, hour by hour."""
    weather = hours.weather

    def pair(values: Floats) -> Floats:
        return np.column_stack([values, values])

    return Drive(
        temperature=pair(weather.air), face=pair(hours.surface), vapor=pair(weather.vapor),
        rain=np.zeros((weather.hours, 2)),
    )  # fmt: skip
