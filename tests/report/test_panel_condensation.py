"""Monthly condensation in the panels of a built-in house."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from seamwright.climate.indoor import indoor_hours, indoor_named
from seamwright.io.plan import builtin_house, read_plan
from seamwright.io.weather_source import resolve_climate
from seamwright.moisture.condensation import iso_saturation
from seamwright.moisture.covers import VENTED_ROOFING, Covers
from seamwright.moisture.outdoors import RunClimate
from seamwright.report.panel_condensation import monthly_air, panel_waters, water_table
from seamwright.workflow import register_joints


@pytest.fixture(scope="module")
def climate() -> RunClimate:
    """Return the generated year of the smallest house."""
    weather = resolve_climate(read_plan(builtin_house("first_house")).plan.site).weather
    rooms = indoor_hours(weather, indoor_named("en 15026 normal", temperature=None, humidity=None))
    return RunClimate(weather=weather, temperature=rooms.temperature, vapor=rooms.vapor,
                      room=rooms.source)  # fmt: skip


def test_means_are_those_of_the_hours_and_no_wetter_than_air_can_be(climate) -> None:
    """January is the mean of its 744 hours; no month is above saturation."""
    air = monthly_air(climate)
    assert air is not None
    assert air.outside[0] == pytest.approx(climate.weather.air[:744].mean())
    assert air.inside[11] == pytest.approx(climate.temperature[-744:].mean())
    assert np.all(np.array(air.vapor_outside) <= iso_saturation(np.array(air.outside)) + 1e-9)


def test_part_of_a_year_has_no_monthly_means(climate) -> None:
    """A climate that is no whole year gives none."""
    assert monthly_air(replace(climate, temperature=climate.temperature[:100])) is None


def test_a_roof_that_lets_vapor_out_holds_no_more_water(climate) -> None:
    """Walls and roofs are told apart, and a vented roof holds no more than a closed one."""
    shell, _ = register_joints(read_plan(builtin_house("first_house")).plan)
    air = monthly_air(climate)
    closed = panel_waters(shell, air, Covers())
    vented = panel_waters(shell, air, Covers(roof=VENTED_ROOFING))
    assert {one.where for one in closed} == {"wall", "roof"}
    for one, other in zip(closed, vented, strict=True):
        assert other.found.most <= one.found.most + 1e-12
    table = water_table(closed)
    assert len(table.rows) == len(closed)
    assert {len(row) for row in table.rows} == {len(table.columns)}
