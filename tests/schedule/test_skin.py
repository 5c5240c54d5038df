"""Water of the bare board under rain, dew, sun and wind, hour by hour."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from seamwright.climate.face import Face, drying_hours
from seamwright.climate.weather import HOUR, HourlyWeather
from seamwright.moisture.transient.types import FILM
from seamwright.schedule.skin import BOARD, THICKNESS, balanced_humidity, board_water, drawn_in

ROOF = Face(id="roof", azimuth=0.0, tilt=0.5)
LIMIT = 0.16


def gray(
    humidity: float = 0.7, *, wet: int = 0, fall: float = 3.0, hours: int = 96
) -> HourlyWeather:
    """Return overcast hours at 10 °C with a light wind, the first `wet` of them with rain."""
    rain = np.zeros(hours)
    rain[:wet] = fall
    return HourlyWeather(
        start=1_776_513_600.0, utc_offset=-7 * HOUR, air=np.full(hours, 10.0),
        humidity=np.full(hours, humidity), wind=np.full(hours, 2.0), rain=rain,
        cloud=np.ones(hours),
    )  # fmt: skip


def dry_after(wet: int, face: Face = ROOF, fall: float = 3.0) -> int:
    """Return how many hours after the rain the board is back at its limit."""
    (water,) = board_water(gray(wet=wet, fall=fall, hours=240), [face])
    return int(np.flatnonzero(water[wet:] <= LIMIT)[0]) + 1


def test_a_board_draws_in_with_the_root_of_time_and_no_more_than_falls() -> None:
    """Four hours draw in twice what one does, and a drizzle no more than itself."""
    assert drawn_in(4.0, 99.0) == pytest.approx(2 * drawn_in(1.0, 99.0))
    assert drawn_in(1.0, 99.0) == pytest.approx(0.002 * 60.0)
    assert drawn_in(9.0, 0.05) == 0.05


def test_what_a_rain_brings_is_the_root_of_time_and_a_film() -> None:
    """Six hours of rain raise the outer board no further than what is drawn in and stands on it."""
    (water,) = board_water(gray(0.95, wet=6), [ROOF])
    begun = float(np.interp(0.6, BOARD.sorption.x, BOARD.sorption.y)) / BOARD.density
    most = (1.2 * drawn_in(6.0, 99.0) + FILM) / (0.002 * BOARD.density)
    assert 0.3 * most < float(water[5]) - begun < most


def test_longer_rain_dries_later_and_far_later_than_the_film_of_water() -> None:
    """Under cloud half a day of rain takes more than ten hours longer than the film says."""
    times = [dry_after(wet) for wet in (1, 4, 12)]
    assert times == sorted(times)
    film = drying_hours(gray(), ROOF)
    assert film is not None
    assert times[-1] > film + 10


def test_a_covered_board_stays_as_it_came() -> None:
    """Under a cover rain does not reach the board."""
    (water,) = board_water(gray(0.6, wet=12), [replace(ROOF, covered=True)])
    assert float(np.ptp(water)) < 0.01


def test_dew_of_a_clear_night_wets_and_the_sun_dries() -> None:
    """The board gains water in a clear damp night without rain, and no face of cloud does."""
    night = replace(gray(0.95, hours=10), wind=np.full(10, 0.5))
    cloudy, clear = (
        board_water(replace(night, cloud=np.full(10, c)), [ROOF])[0] for c in (1.0, 0.0)
    )
    assert clear[-1] > cloudy[-1] + 0.02


def test_damper_air_dries_later() -> None:
    """After the same rain the board stays at least as wet in damper air."""
    dry, damp = (board_water(gray(h, wet=4), [ROOF])[0] for h in (0.5, 0.85))
    assert (damp >= dry - 1e-4).all()


def test_a_reading_becomes_a_humidity_and_back() -> None:
    """The humidity of 10 % board is that of the sorption curve, and a soaked board is full."""
    assert balanced_humidity(0.10) == pytest.approx(0.65, abs=0.005)
    assert balanced_humidity(9.0) == 1.0
    (water,) = board_water(gray(0.65, hours=2), [ROOF], at_first=balanced_humidity(0.10))
    assert float(water[0]) == pytest.approx(0.10, abs=0.003)
    assert THICKNESS == 0.011
