"""Laws of moist air, sun and skins."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from seamwright.climate.face import Face, face_hours
from seamwright.climate.moist_air import (
    condensation_point,
    density,
    dew_point,
    enthalpy,
    frost_point,
    humidity_ratio,
    relative_humidity,
    saturation_over_water,
    saturation_pressure,
    vapor_pressure,
    wet_bulb,
)
from seamwright.climate.sky import sky_temperature
from seamwright.climate.sun import Place, incidence, irradiance, sun_position
from seamwright.climate.surface import surface_temperature
from seamwright.climate.weather import HourlyWeather

LAW = settings(derandomize=True, max_examples=60, deadline=None)
TEMPERATURES = st.floats(-40.0, 60.0)
SHARES = st.floats(0.01, 1.0)


@LAW
@given(TEMPERATURES, SHARES)
def test_dew_and_frost_points_undo_saturation(temperature: float, humidity: float) -> None:
    """Saturation at the condensation point is the vapor pressure, and no point is above the air.

    The handbook's curves over water and ice miss each other at 0 °C by 97 parts in a million.
    """
    vapor = vapor_pressure(temperature, humidity)
    point = condensation_point(vapor)
    assert float(saturation_pressure(point)) == pytest.approx(float(vapor), rel=1.5e-4)
    assert float(point) <= temperature + 1e-3
    assert float(saturation_over_water(dew_point(vapor))) == pytest.approx(float(vapor), rel=1e-9)
    assert float(relative_humidity(temperature, vapor)) == pytest.approx(humidity, rel=1e-12)
    if point < 0.0:
        assert float(frost_point(vapor)) >= float(dew_point(vapor)) - 1e-3


@LAW
@given(TEMPERATURES, SHARES)
def test_warmer_or_wetter_air_condenses_sooner(temperature: float, humidity: float) -> None:
    """The condensation point rises with temperature and with humidity."""

    def point(t: float, h: float) -> float:
        return float(condensation_point(vapor_pressure(t, h, over_water=True)))

    here = point(temperature, humidity)
    assert point(temperature + 0.5, humidity) > here
    assert point(temperature, humidity * 1.05) > here


@LAW
@given(TEMPERATURES, SHARES)
def test_the_wet_bulb_lies_between_dew_point_and_air(temperature: float, humidity: float) -> None:
    """Evaporation cools no further than the dew point and never warms."""
    vapor = vapor_pressure(temperature, humidity)
    wet = float(wet_bulb(temperature, vapor))
    assert wet <= temperature + 1e-6
    assert wet >= float(condensation_point(vapor)) - 0.01


@LAW
@given(TEMPERATURES, SHARES)
def test_damp_air_is_lighter_and_holds_more_heat(temperature: float, humidity: float) -> None:
    """Vapor lowers the density of air and raises its enthalpy."""
    vapor = float(vapor_pressure(temperature, humidity))
    assert float(density(temperature, vapor)) < float(density(temperature, 0.0))
    ratio = humidity_ratio(vapor)
    assert float(enthalpy(temperature, ratio)) > float(enthalpy(temperature, 0.0))


@LAW
@given(st.floats(-1.2, 1.2), st.floats(-3.1, 3.1), st.floats(1.7e9, 1.9e9))
def test_the_sun_goes_round_in_a_day(latitude: float, longitude: float, instant: float) -> None:
    """Over a day the sun's mean height is that of its declination, and it never jumps."""
    hours = instant + 600.0 * np.arange(145)
    sun = sun_position(hours, Place(latitude=latitude, longitude=longitude))
    assert np.abs(np.diff(sun.elevation)).max() < np.radians(2.6)
    assert ((sun.azimuth >= 0.0) & (sun.azimuth <= 2.0 * np.pi)).all()
    mean = np.sin(sun.elevation[:-1]).mean()
    highest = np.sin(latitude) * np.sin(np.radians(23.45))
    assert abs(mean) <= abs(highest) + 1e-3


@LAW
@given(st.floats(0.0, 6.28), st.floats(0.0, 1.57), st.floats(0.0, 900.0))
def test_no_face_takes_more_than_there_is(azimuth: float, tilt: float, flat: float) -> None:
    """Angles are cosines, a flat face takes what falls on the ground, and no face takes less than
    nothing.
    """
    sun = sun_position(1.7765e9 + 3600.0 * np.arange(24), Place(latitude=0.8, longitude=-2.1))
    cosine = incidence(sun, azimuth, tilt)
    assert ((cosine >= 0.0) & (cosine <= 1.0 + 1e-12)).all()
    assert (irradiance(sun, flat, azimuth, tilt) >= 0.0).all()
    on_flat = irradiance(sun, flat, azimuth, 0.0)
    assert on_flat == pytest.approx(np.full(24, flat), rel=1e-9, abs=1e-9)


@LAW
@given(TEMPERATURES, SHARES, st.floats(0.0, 15.0), st.floats(0.0, 1.0), st.floats(0.0, 1.57))
def test_without_sun_a_skin_lies_between_sky_and_air(
    air: float, humidity: float, wind: float, cloud: float, tilt: float
) -> None:
    """At night a skin is between sky and air; wind, cloud and sun warm it."""
    dew = float(condensation_point(vapor_pressure(air, humidity)))

    def skin(blowing: float, cover: float, sun: float = 0.0) -> float:
        return float(
            surface_temperature(air, dew_point=dew, wind=blowing, cloud=cover, sun=sun, tilt=tilt)
        )

    here = skin(wind, cloud)
    sky = float(sky_temperature(air, dew, cloud))
    assert min(sky, air) - 1e-9 <= here <= max(air, sky) + 1e-9
    assert skin(wind + 1.0, cloud) >= here - 1e-9
    assert skin(wind, min(cloud + 0.1, 1.0)) >= here - 0.05
    assert skin(wind, cloud, 100.0) > here


@settings(derandomize=True, max_examples=25, deadline=None)
@given(
    st.lists(st.floats(0.0, 5.0), min_size=12, max_size=12),
    st.floats(0.3, 1.0),
    st.floats(0.0, 1.5),
)
def test_more_rain_never_leaves_a_skin_drier(
    rain: list[float], humidity: float, tilt: float
) -> None:
    """Adding rain in an hour adds water on the face at every later hour, or leaves it."""

    def water(falls: list[float]) -> np.ndarray:
        weather = HourlyWeather(
            start=0.0,
            utc_offset=0.0,
            air=np.full(12, 8.0),
            humidity=np.full(12, humidity),
            wind=np.full(12, 2.0),
            rain=np.array(falls),
            cloud=np.ones(12),
        )
        return face_hours(weather, Face(id="f", azimuth=0.0, tilt=tilt)).water

    more = [*rain]
    more[4] += 1.0
    assert (water(more) >= water(rain) - 0.0101).all()
