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


STAMPS = [
    (str(month + 1), str(day + 1), str(hour + 1))
    for month, days in enumerate((31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31))
    for day in range(days)
    for hour in range(24)
]


def epw(hours: int = 8760) -> str:
    """Return an invented EPW year: 10 °C, 80 %, sun at noon, rain in every hundredth hour."""
    rows = ["LOCATION,Invented,-,-,-,0,47.9,-123.6,-8.0,12.0", *["REMARK"] * 7]
    for k in range(hours):
        cells = ["0"] * 35
        cells[:5] = ["1999", *STAMPS[k], "0"]
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
        (
            epw().replace("LOCATION,Invented,-,-,-,0,47.9", "LOCATION,Invented,-,-,-,0,x"),
            "latitude",
        ),
        ("1,a,b,-5,36,-79,3\nDate (MM/DD/YYYY),Time (HH:MM)\n", "no column"),
    ],
)
def test_a_broken_year_is_refused(text: str, told: str) -> None:
    """A year without a place, a table without columns or with none of its hours is refused."""
    with pytest.raises(FormatError, match=told):
        read_weather(text, name="year")


def test_impossible_values_are_told_with_their_line() -> None:
    """A temperature that cannot be is told with its line."""
    lines = epw().splitlines()
    lines[20] = lines[20].replace(",10.0,", ",99.9,")
    with pytest.raises(InputError, match=r"year:21: temperature ‘99.9’"):
        read_weather("\n".join(lines), name="year")


def with_rows(change) -> str:
    """Return the invented year with its rows changed."""
    lines = epw().splitlines()
    return "\n".join([*lines[:8], *change(lines[8:])])


@pytest.mark.parametrize(
    ("change", "told"),
    [
        (lambda r: [*r[:20], *r[21:]], r"year:29: 1 hour is missing before 01/01 22:00"),
        (lambda r: [*r[:20], *r[68:]], r"year:29: 48 hours are missing before 01/03 21:00"),
        (lambda r: [*r[:20], r[19], *r[20:]], r"year:29: 01/01 20:00 goes back or is there twice"),
        (lambda r: r[:100], r"year:108: the year ends after 01/05 04:00"),
        (lambda r: [*r[:9], r[9].replace("1999,1,", "1999,13,"), *r[10:]], "year:18: the date"),
        (lambda r: [*r[:1416], r[0].replace("1999,1,1", "2000,2,29"), *r[1416:]], "29 February"),
        (lambda r: [*r[:4], "", *r[5:]], "year:13: the date"),
    ],
)
def test_an_hour_out_of_order_is_told_with_its_line(change, told: str) -> None:
    """A missing, doubled or misplaced hour, and a year cut short, are told with their line."""
    with pytest.raises(InputError, match=told):
        read_weather(with_rows(change), name="year")


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        (",10.0,", ",50.0,", "looks like Fahrenheit"),
        (",80,", ",0.8,", "humidity in percent"),
        (",500,", ",0.5,", "looks like kW/m²"),
        (",500,", ",1800,", "irradiance ‘1800’ is not possible"),
        (",3.0,", ",-1,", "wind ‘-1’ is not possible"),
        (",80,", ",,", "humidity ‘’ is not possible"),
    ],
)
def test_a_column_in_another_unit_is_told(old: str, new: str, told: str) -> None:
    """Degrees Fahrenheit, parts of one and kilowatts are recognized and refused."""
    with pytest.raises(InputError, match=told):
        read_weather(epw().replace(old, new), name="year")


def test_a_table_in_fahrenheit_names_the_column_it_has() -> None:
    """A TMY3 table whose column names another unit is refused by name."""
    text = GREENSBORO.read_text().replace("Dry-bulb (C)", "Dry-bulb (F)", 1)
    with pytest.raises(FormatError, match=r"it has Dry-bulb \(F\)"):
        read_weather(text, name="year")


def test_the_direction_of_the_wind_is_read() -> None:
    """Directions come in radians from north, clockwise, for every hour of a published year."""
    direction = read_weather(GREENSBORO).weather.direction
    assert direction is not None
    assert direction.min() >= 0.0
    assert 5.0 < direction.max() < 6.2832
