"""Drying of the skin after rain: a run of moisture through the board beside the estimate."""

from __future__ import annotations

import numpy as np
import pytest

from seamwright.climate.face import Face, FaceHours, drying_hours, face_hours
from seamwright.climate.weather import HOUR, HourlyWeather
from seamwright.moisture.transient.materials import HYGRO
from seamwright.schedule.skin import ABSORPTION, drawn_in, drying_by_run, outer_water

ROOF = Face(id="roof", azimuth=0.0, tilt=0.5)
BOARD = HYGRO["osb"]


def after_rain(humidity: float, hours: int = 96) -> FaceHours:
    """Return an overcast roof at 10 °C with a light wind once the rain has ended."""
    weather = HourlyWeather(
        start=1_776_513_600.0, utc_offset=-7 * HOUR, air=np.full(hours, 10.0),
        humidity=np.full(hours, humidity), wind=np.full(hours, 2.0), rain=np.zeros(hours),
        cloud=np.ones(hours),
    )  # fmt: skip
    return face_hours(weather, ROOF)


def test_a_board_draws_in_with_the_root_of_time_and_no_more_than_falls() -> None:
    """Four hours draw in twice what one does, and a drizzle no more than itself."""
    assert drawn_in(4.0, 99.0) == pytest.approx(2 * drawn_in(1.0, 99.0))
    assert drawn_in(1.0, 99.0) == pytest.approx(ABSORPTION * 60.0)
    assert drawn_in(9.0, 0.05) == 0.05


@pytest.mark.parametrize("humidity", [0.5, 0.7, 0.85])
def test_after_a_shower_run_and_estimate_are_within_three_hours(humidity: float) -> None:
    """What the board drew in during one hour is gone about when the film of water is."""
    hours = after_rain(humidity)
    run, film = drying_by_run(hours, BOARD, drawn_in(1.0, 5.0)), drying_hours(hours.weather, ROOF)
    assert run is not None
    assert film is not None
    assert abs(run - film) <= 3


def test_after_long_rain_the_board_dries_far_later_than_the_film() -> None:
    """Half a day of rain, dried under cloud, takes a run over ten hours more than the estimate."""
    hours = after_rain(0.7)
    run, film = drying_by_run(hours, BOARD, drawn_in(12.0, 20.0)), drying_hours(hours.weather, ROOF)
    assert run is not None
    assert film is not None
    assert run > film + 10


def test_damper_air_dries_later_and_the_face_only_loses_water() -> None:
    """The water of the outer part falls toward balance, the slower the damper the air."""
    water = drawn_in(4.0, 9.0)
    dry, damp = (outer_water(after_rain(h), BOARD, water) for h in (0.5, 0.85))
    assert (np.diff(dry) < 0.002).all()
    assert (damp[5:] >= dry[5:]).all()
