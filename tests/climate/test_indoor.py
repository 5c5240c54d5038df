"""The air of rooms by rule."""

from __future__ import annotations

import numpy as np
import pytest

from seamwright.climate.indoor import (
    INDOOR_NAMES,
    IndoorChoice,
    cold_skin_drive,
    indoor_hours,
    indoor_named,
    running_mean,
    vapor_excess,
)
from seamwright.climate.moist_air import saturation_pressure
from seamwright.climate.weather import HourlyWeather
from seamwright.errors import InputError


def steady(air: float, humidity: float = 0.8, hours: int = 72) -> HourlyWeather:
    """Return hours that are all alike."""
    ones = np.ones(hours)
    return HourlyWeather(
        start=0.0,
        utc_offset=0.0,
        air=air * ones,
        humidity=humidity * ones,
        wind=ones,
        rain=0.0 * ones,
        cloud=ones,
    )


@pytest.mark.parametrize(
    ("outside", "humidity_class", "excess"),
    [(-10.0, 1, 270.0), (0.0, 3, 810.0), (10.0, 4, 540.0), (20.0, 2, 0.0), (30.0, 5, 0.0)],
)
def test_vapor_excess_falls_from_0_to_20_degrees(
    outside: float, humidity_class: int, excess: float
) -> None:
    """The excess of a class is full at 0 °C, half at 10 °C and gone at 20 °C."""
    assert float(vapor_excess(np.array(outside), humidity_class)) == pytest.approx(excess)


def test_rooms_by_iso_13788_have_the_vapor_outdoors_and_the_excess() -> None:
    """Class 3 at 5 °C outside: vapor outdoors and three quarters of 810 Pa more."""
    weather = steady(5.0)
    rooms = indoor_hours(weather, IndoorChoice(kind="iso_13788", humidity_class=3))
    assert rooms.temperature == pytest.approx(20.0)
    assert rooms.vapor == pytest.approx(weather.vapor + 607.5)
    assert "class 3" in rooms.source
    assert rooms.mark == "from memory"


@pytest.mark.parametrize(
    ("name", "outside", "room", "humidity"),
    [
        ("EN 15026 normal", -15.0, 20.0, 0.30),
        ("EN 15026 normal", 5.0, 20.0, 0.45),
        ("EN 15026 normal", 15.0, 22.5, 0.55),
        ("EN 15026 high", 25.0, 25.0, 0.70),
        ("ASHRAE 160", 5.0, 21.1, 0.55),
        ("ASHRAE 160", 19.7, 22.5, 0.697),
        ("ASHRAE-160", 30.0, 23.9, 0.70),
    ],
)
def test_rooms_follow_the_day_outdoors(
    name: str, outside: float, room: float, humidity: float
) -> None:
    """Temperature and humidity of the rooms on a steady day are those of the rule."""
    rooms = indoor_hours(steady(outside), indoor_named(name))
    assert rooms.temperature == pytest.approx(room, abs=1e-6)
    assert rooms.humidity == pytest.approx(humidity, abs=1e-6)


def test_a_stated_climate_is_as_stated() -> None:
    """A fixed climate keeps its values in every hour and is marked as stated."""
    rooms = indoor_hours(steady(-20.0), indoor_named("fixed", temperature=21.0, humidity=0.4))
    assert rooms.temperature == pytest.approx(21.0)
    assert rooms.vapor == pytest.approx(0.4 * float(saturation_pressure(21.0)))
    assert rooms.mark == "stated"


def test_the_running_mean_looks_back_over_a_day() -> None:
    """It is the mean of an hour and the 23 before it, around the end of the year."""
    values = np.arange(100.0)
    assert running_mean(values)[30] == pytest.approx(values[7:31].mean())
    assert running_mean(values)[0] == pytest.approx((values[77:].sum() + values[0]) / 24.0)
    assert running_mean(values).mean() == pytest.approx(values.mean())


def test_rooms_hold_no_more_vapor_than_air_can() -> None:
    """Where a rule asks for more than saturation it is held there, and the hours are counted."""
    wet = steady(19.0, humidity=1.0)
    rooms = indoor_hours(wet, IndoorChoice(kind="iso_13788", humidity_class=5, temperature=18.0))
    assert rooms.capped == wet.hours
    assert rooms.humidity == pytest.approx(1.0)


def test_every_name_gives_hours_with_a_source() -> None:
    """Each rule can be asked for by its name; the five classes differ."""
    for name in INDOOR_NAMES:
        stated = name == "fixed"
        choice = indoor_named(
            name, temperature=21.0 if stated else None, humidity=0.4 if stated else None
        )
        assert indoor_hours(steady(0.0), choice).source
    wetter = [
        indoor_hours(steady(0.0), indoor_named(f"iso 13788 class {n}")).vapor[0]
        for n in range(1, 6)
    ]
    assert wetter == sorted(set(wetter))


@pytest.mark.parametrize(
    ("name", "temperature", "humidity", "told"),
    [
        ("iso 13788 class 7", None, None, "did you mean iso 13788 class"),
        ("tropical", None, None, "known are"),
        ("fixed", 21.0, None, "lacks its temperature or humidity"),
        ("fixed", 21.0, 40.0, "part of one"),
        ("fixed", 70.0, 0.4, "outside 5 to 35"),
        ("ashrae 160", 21.0, None, "brings its own temperature"),
        ("en 15026 high", None, 0.4, "brings its own humidity"),
    ],
)
def test_a_choice_that_cannot_be_is_told(
    name: str, temperature: float | None, humidity: float | None, told: str
) -> None:
    """Unknown names and values out of place are refused in a sentence with a remedy."""
    with pytest.raises(InputError, match=told):
        indoor_named(name, temperature=temperature, humidity=humidity)


def test_the_cold_skin_drive_is_the_excess_of_vapor_over_the_skin() -> None:
    """At 0 °C outside and 20 °C, 50 % inside the skin is at 2 °C; warm weather has no drive."""
    choice = indoor_named("fixed", temperature=20.0, humidity=0.5)
    cold, warm = steady(0.0), steady(18.0)
    excess = float(0.5 * saturation_pressure(20.0) - saturation_pressure(2.0))
    assert cold_skin_drive(cold, indoor_hours(cold, choice)) == pytest.approx(72 * excess)
    assert cold_skin_drive(warm, indoor_hours(warm, choice)) == 0.0
