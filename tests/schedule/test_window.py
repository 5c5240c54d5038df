"""Windows of weather."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from seamwright.climate.face import Face
from seamwright.climate.weather import HourlyWeather
from seamwright.schedule.tape_limits import PRODUCTS
from seamwright.schedule.window import (
    Window,
    dry_ahead,
    hours_of,
    lifting_windows,
    roof_windows,
    windows,
    windows_of,
)

INSIDE = Face(id="inside", azimuth=0.0, tilt=1.57, inner=True)
ROOF = Face(id="roof", azimuth=0.0, tilt=0.5)


def weather(hours: int = 24, **changes: object) -> HourlyWeather:
    """Return even, cloudy, dry weather of 15 °C and 50 %, with changes."""
    base = HourlyWeather(
        start=0.0,
        utc_offset=0.0,
        air=np.full(hours, 15.0),
        humidity=np.full(hours, 0.5),
        wind=np.full(hours, 3.0),
        rain=np.zeros(hours),
        cloud=np.ones(hours),
    )
    return replace(base, **changes)


def test_runs_become_windows_and_back() -> None:
    """Runs of hours that suit become windows whose hours are the same; short ones are left out."""
    suits = np.array([True, True, False, True, False, True, True, True])
    found = windows_of(suits)
    assert found == (Window(start=0, end=2), Window(start=3, end=4), Window(start=5, end=8))
    assert hours_of(found) == (0, 1, 3, 5, 6, 7)
    assert windows_of(suits, shortest=2) == (found[0], found[2])
    assert windows_of(np.zeros(0, dtype=bool)) == ()


def test_inside_all_hours_suit_on_an_even_day() -> None:
    """On a mild dry day the room side can be taped at any hour of the forecast."""
    assert windows(weather(), INSIDE, PRODUCTS["acrylic"]) == (Window(start=0, end=24),)


def test_cold_hours_are_no_window() -> None:
    """Butyl waits until the skin is a degree above its least."""
    air = np.concatenate([np.full(10, 5.0), np.full(14, 6.0)])
    found = windows(weather(air=air), INSIDE, PRODUCTS["butyl"])
    assert found == (Window(start=10, end=24),)


def test_rain_shuts_the_hours_before_it_on_an_open_face() -> None:
    """Rain at hour 12 shuts the four hours before it, itself, and those until it has dried."""
    rain = np.zeros(24)
    rain[12] = 3.0
    found = hours_of(windows(weather(rain=rain), ROOF, PRODUCTS["acrylic"]))
    assert found
    assert not set(found) & set(range(8, 13))
    covered = windows(weather(rain=rain), replace(ROOF, covered=True), PRODUCTS["acrylic"])
    assert covered == (Window(start=0, end=24),)


def test_nothing_is_promised_past_the_forecast() -> None:
    """The last hours are open only where their dry hours lie in the forecast."""
    dry = dry_ahead(weather(10), 4)
    assert dry.tolist() == [True] * 6 + [False] * 4
    assert not dry_ahead(weather(3), 4).any()


def test_gusts_stop_lifting() -> None:
    """Panels are lifted while the gust is below the limit; without gusts 1.5 times the wind."""
    wind = np.full(24, 5.0)
    wind[6:9] = 7.0
    assert hours_of(lifting_windows(weather(wind=wind))) == tuple(
        h for h in range(24) if h not in {6, 7, 8}
    )
    gust = np.full(24, 12.0)
    assert lifting_windows(weather(wind=wind, gust=gust)) == ()


def test_a_roof_is_set_only_where_it_can_be_covered_dry() -> None:
    """Setting windows need calm and no rain until the cover is on."""
    rain = np.zeros(24)
    rain[20] = 1.0
    found = hours_of(roof_windows(weather(rain=rain), cover_hours=6))
    assert found == tuple(range(14))


@pytest.mark.parametrize("name", PRODUCTS)
def test_windows_lie_in_the_record(name: str) -> None:
    """No window begins before or ends after the forecast."""
    for window in windows(weather(), ROOF, PRODUCTS[name]):
        assert 0 <= window.start < window.end <= 24
