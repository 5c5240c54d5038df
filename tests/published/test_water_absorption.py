"""Rain on board against the law of water absorption: the root of time, until the board is full.

The coefficient of a wetted face is the sorptivity of the diffusion equation (`philip-1957`), worked
out here by the fluxes-over-concentrations iteration of Philip and Knight, Soil Science 117 (1974),
from the material's own tables, its vapor flow at one temperature added. What tests of water
absorption measure (`iso-15148`) is the same slope over the root of time.
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from seamwright.climate.moist_air import KELVIN, saturation_pressure
from seamwright.moisture.transient.line import SEALED, line_mesh
from seamwright.moisture.transient.materials import HYGRO
from seamwright.moisture.transient.run import run_case
from seamwright.moisture.transient.tables import (
    HUMIDITIES,
    OPENNESS,
    PUSH,
    WATER,
    air_permeability,
    material_table,
)
from seamwright.moisture.transient.types import Case, Drive, HygroMaterial, Run, Settings

START, WARM, THIN, POINTS = 0.5, 20.0, 0.01, 90
SHORT = Settings(step=120.0, least_step=1.0)


def sorptivity(material: HygroMaterial) -> float:
    """Return the water that a wetted face draws in over the root of time. [kg/(m²·s^0.5)]"""
    table = material_table(material)
    air = float(air_permeability(WARM, 101325.0) * saturation_pressure(np.array(WARM)))
    opens = 0.5 * (table[1:, OPENNESS] + table[:-1, OPENNESS]) * np.diff(HUMIDITIES)
    drive = (WARM + KELVIN) * table[:, PUSH] + air * np.concatenate([[0.0], np.cumsum(opens)])
    start = np.interp(START, HUMIDITIES, table[:, WATER])
    water = np.linspace(start, table[-1, WATER], 20001)
    rise = np.diff(np.interp(water, table[:, WATER], drive))
    flux, whole = (water - start) / (water[-1] - start), 0.0
    for _ in range(40):
        far = np.concatenate([np.cumsum((rise / (0.5 * (flux[1:] + flux[:-1])))[::-1])[::-1], [0]])
        sums = np.concatenate([[0.0], np.cumsum(0.5 * (far[1:] + far[:-1]) * np.diff(water))])
        flux, whole = sums / sums[-1], float(sums[-1])
    return math.sqrt(2.0 * whole)


def in_the_rain(material: HygroMaterial, thickness: float, hours: int) -> Run:
    """Return the run of a board whose face stands in heavy rain, at one temperature."""
    x = thickness * (1.0 - np.linspace(1.0, 0.0, POINTS) ** 2)
    mesh = line_mesh(x, (0,) * (POINTS - 1), heat=(1e-3, 1e-3), vapor=(SEALED, SEALED),
                     rain=(0.0, 1.0), film=(math.inf, THIN))  # fmt: skip
    t = np.full((hours, 2), WARM)
    drive = Drive(temperature=t, face=t, vapor=np.full_like(t, 1000.0),
                  rain=np.tile([0.0, 5e-3], (hours, 1)))  # fmt: skip
    return run_case(
        Case(mesh=mesh, materials=(material,), drive=drive, temperature=np.full(POINTS, WARM),
             humidity=np.full(POINTS, START)), SHORT,
    )  # fmt: skip


@pytest.mark.source("philip-1957", "equation for sorptivity")
@pytest.mark.parametrize(
    ("key", "thickness"), [("osb", 0.011), ("plywood", 0.011), ("concrete", 0.15)]
)
@pytest.mark.parametrize("hours", [2, 6])
def test_water_goes_in_with_the_root_of_time(key: str, thickness: float, hours: int) -> None:
    """What a face in heavy rain draws in is the sorptivity times the root of time, within 1 %."""
    run = in_the_rain(HYGRO[key], thickness, hours)
    drawn = run.balance.water_stored - THIN
    assert run.converged
    assert drawn / math.sqrt(3600.0 * hours) == pytest.approx(sorptivity(HYGRO[key]), rel=0.01)


@pytest.mark.source("iso-15148", "water absorption coefficient")
@pytest.mark.parametrize(("key", "coefficient"), [("osb", 0.002), ("plywood", 0.003)])
def test_the_coefficient_of_the_library_is_met(key: str, coefficient: float) -> None:
    """The coefficient a board's liquid flow was made from comes back, with vapor, within 10 %."""
    drawn = in_the_rain(HYGRO[key], 0.011, 6).balance.water_stored - THIN
    assert drawn / math.sqrt(6 * 3600.0) == pytest.approx(coefficient, rel=0.10)


@pytest.mark.source("iso-15148", "end of the test, when the specimen is full")
def test_a_full_board_takes_no_more() -> None:
    """Once full the board holds its saturation and the film; all further rain runs off."""
    osb, thickness = HYGRO["osb"], 0.001
    filled, later = (in_the_rain(osb, thickness, hours) for hours in (48, 72))
    room = thickness * (osb.sorption.y[-1] - np.interp(START, osb.sorption.x, osb.sorption.y))
    assert filled.balance.water_stored == pytest.approx(room + THIN, rel=0.005)
    assert later.balance.water_stored == pytest.approx(filled.balance.water_stored, rel=1e-4)
    more = later.balance.ran_off - filled.balance.ran_off
    assert more == pytest.approx(24 * 3600.0 * 5e-3, rel=1e-6)
