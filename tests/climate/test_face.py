"""A face of the shell through the hours."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from seamwright.climate.face import HELD, Face, drying_hours, face_hours
from seamwright.climate.sun import Place
from seamwright.climate.weather import HOUR, HourlyWeather

PLACE = Place(latitude=np.radians(47.9), longitude=np.radians(-123.6))
DAWN = 1_776_513_600.0  # 2026-04-18T12:00Z, 05:00 local
ROOF = Face(id="north roof", azimuth=0.0, tilt=0.5)


def weather(hours: int = 24, **changes: object) -> HourlyWeather:
    """Return a day of 10 °C and 80 % under a clear sky, calm and dry, with changes."""
    base = HourlyWeather(
        start=DAWN,
        utc_offset=-7 * HOUR,
        air=np.full(hours, 10.0),
        humidity=np.full(hours, 0.8),
        wind=np.full(hours, 1.0),
        rain=np.zeros(hours),
        cloud=np.zeros(hours),
    )
    return replace(base, **changes)


def test_a_roof_under_a_clear_night_sky_takes_dew_and_the_room_side_does_not() -> None:
    """The roof falls below the dew point and wets; the room side stays at the air's temperature."""
    roof = face_hours(weather(6), ROOF)
    assert (roof.margin < 0).all()
    assert roof.water[-1] > 0.0
    inside = face_hours(weather(6), replace(ROOF, inner=True))
    assert inside.surface == pytest.approx(10.0)
    assert inside.dry.all()


def test_a_south_roof_is_warmer_than_a_north_roof_by_day() -> None:
    """The sun warms the slope that looks at it, and neither falls below the air at noon."""
    north = face_hours(weather(), ROOF, PLACE)
    south = face_hours(weather(), replace(ROOF, azimuth=np.pi), PLACE)
    noon = 8
    assert south.surface[noon] > north.surface[noon] + 5.0
    assert north.surface[noon] > 10.0
    assert south.sun[noon] > north.sun[noon] > 0.0
    assert north.sun[22] == 0.0


def test_rain_wets_what_it_reaches() -> None:
    """Rain fills an open roof to what it holds, wets a wall less, a covered roof not at all."""
    rain = np.zeros(24)
    rain[3] = 1.5
    cloudy = weather(rain=rain, cloud=np.ones(24), humidity=np.full(24, 0.6))
    roof = face_hours(cloudy, ROOF)
    wall = face_hours(cloudy, replace(ROOF, tilt=np.pi / 2))
    covered = face_hours(cloudy, replace(ROOF, covered=True))
    assert roof.water[3] == pytest.approx(HELD, abs=0.15)
    assert 0.0 < wall.water[3] < roof.water[3]
    assert covered.water[3] == 0.0
    assert not roof.dry[3]
    assert roof.dry[0]


def test_drying_takes_longer_in_damp_still_air() -> None:
    """Dry wind dries a wetted skin sooner than damp calm; in saturated air it does not dry."""
    overcast = np.ones(48)
    damp = weather(48, cloud=overcast, humidity=np.full(48, 0.85))
    windy = weather(48, cloud=overcast, humidity=np.full(48, 0.4), wind=np.full(48, 5.0))
    soon, late = drying_hours(windy, ROOF), drying_hours(damp, ROOF)
    assert soon is not None
    assert late is None or late > soon
    assert drying_hours(weather(48, humidity=np.ones(48)), ROOF) is None


def test_weather_can_be_cut_at_an_hour() -> None:
    """The weather from an hour on begins there and keeps every column."""
    day = weather(sun=np.arange(24.0), gust=np.arange(24.0))
    rest = day.from_hour(5)
    assert rest.start == day.start + 5 * HOUR
    assert rest.hours == 19
    assert rest.sun is not None
    assert rest.gust is not None
    assert rest.sun[0] == rest.gust[0] == 5.0
    assert rest.instants[0] == day.instants[5]
