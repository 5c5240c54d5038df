"""What drives a face: sol-air temperature, sun, rain."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests.real_years import real_year

from seamwright.climate.face import Face
from seamwright.climate.rain import driven_rain, driving_rain, falling_rain, has_rain
from seamwright.climate.skin_drive import face_drive
from seamwright.climate.weather import HourlyWeather
from seamwright.errors import InputError

SOUTH = Face(id="A", azimuth=np.pi, tilt=np.pi / 2.0)
NORTH = Face(id="C", azimuth=0.0, tilt=np.pi / 2.0)
ROOF = Face(id="R1", azimuth=np.pi, tilt=0.5)


def drizzle(direction: float | None = None) -> HourlyWeather:
    """Return a day of steady rain, 1 mm an hour at 4 m/s."""
    ones = np.ones(24)
    return HourlyWeather(
        start=0.0, utc_offset=0.0, air=8.0 * ones, humidity=0.95 * ones, wind=4.0 * ones,
        rain=ones, cloud=ones, direction=None if direction is None else direction * ones,
    )  # fmt: skip


def test_the_sunny_face_is_driven_warmer() -> None:
    """Over a year a south wall is warmer than a north one; both warmer than a clear-sky roof."""
    weather, place = real_year("Greensboro, NC")
    south, north = (face_drive(weather, face, place) for face in (SOUTH, NORTH))
    assert south.sol_air.mean() > north.sol_air.mean() + 1.0
    night = weather.sun == 0.0
    roof = face_drive(weather, ROOF, place)
    assert roof.sol_air[night].mean() < south.sol_air[night].mean() < weather.air[night].mean()
    assert np.all(south.transfer > 8.0)
    assert south.source == weather.source


def test_an_inner_face_feels_the_air_alone() -> None:
    """The room side of an open shell has the air's temperature, no sun and no rain."""
    weather, place = real_year("Greensboro, NC")
    inner = face_drive(weather, replace(SOUTH, inner=True), place, rain=True)
    assert np.array_equal(inner.sol_air, weather.air)
    assert inner.sun.sum() == inner.rain.sum() == 0.0


def test_rain_is_driven_on_the_face_the_wind_blows_at() -> None:
    """2/9 v R^(8/9) toward the wind, none on the lee side, half where the direction is unknown."""
    toward = driven_rain(drizzle(np.pi), np.pi, np.pi / 2.0)
    assert toward == pytest.approx(2.0 / 9.0 * 4.0)
    assert driven_rain(drizzle(0.0), np.pi, np.pi / 2.0) == pytest.approx(0.0)
    assert driven_rain(drizzle(), np.pi, np.pi / 2.0) == pytest.approx(0.5 * toward)
    assert driven_rain(drizzle(np.pi), np.pi, np.pi / 2.0, exposure=0.25) == pytest.approx(
        0.25 * toward
    )


def test_a_flat_roof_gets_what_falls() -> None:
    """All of the rain falls on a flat roof and none of it on a wall."""
    assert falling_rain(drizzle(), 0.0) == pytest.approx(1.0)
    assert falling_rain(drizzle(), np.pi / 2.0) == pytest.approx(0.0, abs=1e-12)
    assert driving_rain(drizzle(), 0.0, 0.0) == pytest.approx(1.0)


def test_a_study_of_rain_is_refused_without_rain() -> None:
    """A record without any rain gives no driving rain: dry would say nothing."""
    dry = replace(drizzle(), rain=np.zeros(24))
    assert not has_rain(dry)
    with pytest.raises(InputError, match="tells no rain"):
        face_drive(dry, SOUTH, None, rain=True)
    assert face_drive(dry, SOUTH, None).rain.sum() == 0.0


def test_a_covered_face_stays_dry() -> None:
    """No rain meets a face under cover, though rain is asked for."""
    covered = replace(SOUTH, covered=True)
    assert face_drive(drizzle(), covered, None, rain=True).rain.sum() == 0.0
