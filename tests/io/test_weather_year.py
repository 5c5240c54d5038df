"""Typical years of hourly weather."""

from __future__ import annotations

from importlib.util import find_spec
from pathlib import Path

import numpy as np
import pytest

import seamwright
from seamwright.climate.sun import sun_position
from seamwright.errors import FormatError, InputError
from seamwright.io.weather_year import read_weather

SPEC = find_spec("pvlib")
assert SPEC is not None
assert SPEC.origin is not None
GREENSBORO = Path(SPEC.origin).parent / "data" / "723170TYA.CSV"
"""TMY3 of the National Renewable Energy Laboratory, station 723170, as shipped with pvlib."""

EXAMPLE = Path(seamwright.__file__).parent / "data" / "examples" / "heron_house_forecast.csv"


def epw(hours: int = 8760) -> str:
    """Return an invented EPW year: 10 °C, 80 %, sun at noon, rain in every hundredth hour."""
    rows = ["LOCATION,Invented,-,-,-,0,47.9,-123.6,-8.0,12.0", *["REMARK"] * 7]
    for k in range(hours):
        cells = ["0"] * 35
        cells[:5] = ["1999", "1", "1", str(k % 24 + 1), "0"]
        cells[6], cells[7], cells[8], cells[9] = "10.0", "6.7", "80", "101000"
        cells[13] = "500" if 8 <= k % 24 < 16 else "0"
        cells[21], cells[23] = "3.0", "5"
        cells[33], cells[34] = ("4.0" if k % 100 == 0 else "0"), "1"
        rows.append(",".join(cells))
    return "\n".join(rows) + "\n"


def test_a_published_year_is_read_whole() -> None:
    """A TMY3 year has 8,760 hours, its place, its zone, and means that fit the place."""
    file = read_weather(GREENSBORO)
    weather = file.weather
    assert weather.hours == 8760
    assert weather.utc_offset == -5 * 3600
    assert file.place is not None
    assert np.degrees(file.place.latitude) == pytest.approx(36.1)
    assert float(np.mean(weather.air)) == pytest.approx(14.4, abs=0.1)
    assert float(np.mean(weather.humidity)) == pytest.approx(0.695, abs=0.01)
    assert "not a forecast" in file.notes[0]


def test_the_hours_of_a_year_stand_where_the_sun_does() -> None:
    """The year's sun and the computed sun rise in the same hours: the stamps are read right."""
    file = read_weather(GREENSBORO)
    assert file.place is not None
    assert file.weather.sun is not None
    up = np.sin(sun_position(file.weather.instants + 1800.0, file.place).elevation)
    together = float(np.corrcoef(np.maximum(up, 0.0), file.weather.sun)[0, 1])
    for shift in (-1, 1):
        assert together > np.corrcoef(np.maximum(np.roll(up, shift), 0.0), file.weather.sun)[0, 1]


def test_an_epw_year_is_read() -> None:
    """Temperature, humidity, wind, cloud, sun and wet hours come from their columns."""
    file = read_weather(epw())
    weather = file.weather
    assert weather.air[0] == 10.0
    assert weather.humidity[0] == pytest.approx(0.8)
    assert weather.wind[0] == 3.0
    assert weather.cloud[0] == 0.5
    assert weather.sun is not None
    assert weather.sun[12] == 500.0
    assert weather.rain.sum() == 88.0
    assert weather.utc_offset == -8 * 3600


def test_a_forecast_is_read_as_before() -> None:
    """What is no typical year is read as a forecast."""
    assert read_weather(EXAMPLE).weather.hours == 72


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (epw(100), "has 100 hours"),
        (
            epw().replace("LOCATION,Invented,-,-,-,0,47.9", "LOCATION,Invented,-,-,-,0,x"),
            "latitude",
        ),
        ("1,a,b,-5,36,-79,3\nDate (MM/DD/YYYY),Time (HH:MM)\n", "no column"),
    ],
)
def test_a_broken_year_is_refused(text: str, told: str) -> None:
    """A part of a year, one without a place, or a table without columns is refused."""
    with pytest.raises(FormatError, match=told):
        read_weather(text, name="year")


def test_impossible_values_are_told_with_their_line() -> None:
    """A temperature that cannot be is told with its line."""
    lines = epw().splitlines()
    lines[20] = lines[20].replace(",10.0,", ",99.9,")
    with pytest.raises(InputError, match=r"year:21: temperature ‘99.9’"):
        read_weather("\n".join(lines), name="year")
