"""What drives a section: sun and rain by the way it faces and by its covers, air by its height."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from seamwright.climate.indoor import indoor_hours, indoor_named
from seamwright.climate.rain import driving_rain
from seamwright.climate.weather import HOUR
from seamwright.errors import InputError
from seamwright.io.plan import builtin_house, read_plan
from seamwright.io.weather_source import resolve_climate
from seamwright.moisture.covers import RAIN_SHARE, VENTED_CLADDING, Covers
from seamwright.moisture.outdoors import FALL, RunClimate, airs_of, drive_of

WALL, ROOF = 1, 2
SLOPE = math.radians(35.0)


@pytest.fixture(scope="module")
def climate() -> RunClimate:
    """Return the generated year of a house on a wet coast."""
    site = resolve_climate(read_plan(builtin_house("heron_house")).plan.site)
    rooms = indoor_hours(
        site.weather, indoor_named("en 15026 normal", temperature=None, humidity=None)
    )
    return RunClimate(weather=site.weather, temperature=rooms.temperature, vapor=rooms.vapor,
                      room=rooms.source, place=site.place)  # fmt: skip


def test_away_from_the_sun_is_the_coldest_way_to_face(climate) -> None:
    """North is the default; in the mean south is warmer on wall and roof."""
    shaded, north, south = (
        drive_of(climate, Covers(), tilt=SLOPE, years=1, facing=way).face.mean(axis=0)
        for way in (None, 0.0, math.pi)
    )
    assert shaded == pytest.approx(north)
    assert south[WALL] > north[WALL] + 0.3
    assert south[ROOF] > north[ROOF] + 0.5


def test_a_light_color_is_cooler(climate) -> None:
    """White cladding in the sun stays below dark; what lies under roofs does not change."""

    def faces(absorptance: float) -> np.ndarray:
        cover = replace(VENTED_CLADDING, absorptance=absorptance)
        return drive_of(climate, Covers(wall=cover), tilt=SLOPE, years=1, facing=math.pi).face

    light, dark = faces(0.3), faces(0.9)
    assert (dark - light)[:, WALL].max() > 3.0
    assert np.array_equal(dark[:, ROOF], light[:, ROOF])


def test_rain_is_offered_where_a_share_of_it_gets_in(climate) -> None:
    """Without a share no rain is offered; with one a wall is offered what the wind drives on it."""
    dry = drive_of(climate, Covers(), tilt=SLOPE, years=1)
    assert not dry.rain.any()
    covers = Covers(wall=replace(VENTED_CLADDING, rain=RAIN_SHARE))
    wet = drive_of(climate, covers, tilt=SLOPE, years=1, start=0)
    expected = driving_rain(replace(climate.weather, direction=None), 0.0, math.pi / 2) / HOUR
    assert wet.rain[:, WALL] == pytest.approx(expected)
    assert not wet.rain[:, ROOF].any()
    year = wet.rain[:, WALL].sum() * HOUR
    assert 20.0 < year < 0.5 * climate.weather.rain.sum()


def test_rain_that_the_weather_does_not_tell_is_missed(climate) -> None:
    """A share of no rain would say that nothing gets wet: refused, with what to do."""
    told = replace(climate, weather=replace(climate.weather, rain=np.zeros(8760)))
    covers = Covers(wall=replace(VENTED_CLADDING, rain=RAIN_SHARE))
    with pytest.raises(InputError, match="tells no rain"):
        drive_of(told, covers, tilt=SLOPE, years=1)


def test_wind_and_height_reach_the_airs(climate) -> None:
    """The direction of the wind runs with the hours from October; pressure falls with height:
    89.87 kPa at 1,000 m and 79.50 at 2,000 (ASHRAE Fundamentals, chapter 1, table 1, from memory).
    """
    assert airs_of(climate, 1).direction is None
    told = replace(climate, weather=replace(climate.weather, direction=np.arange(8760.0)))
    airs = airs_of(told, 1)
    assert airs.direction is not None
    assert airs.direction[0] == FALL
    assert climate.place is not None
    for height, kilopascals in ((0.0, 101.325), (1000.0, 89.874), (2000.0, 79.495)):
        place = replace(climate.place, elevation=height)
        assert airs_of(replace(climate, place=place), 1).pressure == pytest.approx(
            1000.0 * kilopascals, rel=1e-4
        )
