"""Hourly forecasts from files."""

from __future__ import annotations

import json
import re
from pathlib import Path

import numpy as np
import pytest

import seamwright
from seamwright.errors import FormatError, InputError
from seamwright.io.weather_forecast import read_forecast

EXAMPLE = Path(seamwright.__file__).parent / "data" / "examples" / "heron_house_forecast.csv"
GOOD = """\
# a remark
latitude, 47.9
longitude, -123.6
time, temperature [F], humidity [%], wind [mph], gust [mph], rain [in], cloud [%], irradiance [W/m2]
2026-04-18T06:00-07:00, 50, 80, 10, 15, 0, 20, 0
2026-04-18T07:00-07:00, 52, 75, 10, 15, 0.1, 20, 120
2026-04-18T08:00-07:00, 54, 70, 0, 5, 0, 100, 300
"""


def problems(text: str) -> list[str]:
    """Return what is told about a forecast that cannot be used."""
    with pytest.raises(InputError) as caught:
        read_forecast(text, name="f.csv")
    return [str(problem) for problem in caught.value.problems]


def test_units_of_the_header_are_heeded() -> None:
    """Fahrenheit, miles and inches come back as °C, m/s and kg/m², and the place with them."""
    file = read_forecast(GOOD)
    weather = file.weather
    assert weather.hours == 3
    assert weather.air == pytest.approx([10.0, 11.1111, 12.2222], abs=1e-4)
    assert weather.humidity == pytest.approx([0.8, 0.75, 0.7])
    assert weather.wind[0] == pytest.approx(4.4704)
    assert weather.gust is not None
    assert weather.gust[2] == pytest.approx(5 * 0.44704)
    assert weather.rain[1] == pytest.approx(2.54)
    assert weather.sun is not None
    assert weather.sun[2] == 300.0
    assert weather.utc_offset == -7 * 3600
    assert weather.start == 1_776_517_200.0
    assert file.place is not None
    assert np.degrees(file.place.latitude) == pytest.approx(47.9)
    assert file.notes == ()


def test_dew_point_stands_for_humidity() -> None:
    """With the dew point of 6.71 °C, air of 10 °C has 80 %, and what is missing is noted."""
    text = (
        "time;temperature [C];dew point [C];wind [m/s];rain [mm]\n2026-04-18T06:00Z;10;6.711;2;0\n"
    )
    file = read_forecast(text)
    assert file.weather.humidity == pytest.approx([0.8], abs=1e-3)
    assert len(file.notes) == 2
    assert "clear" in file.notes[0]


def test_the_examples_of_the_docs_are_read() -> None:
    """The CSV and the JSON shown in the docs are forecasts as they stand, and agree."""
    page = (Path(__file__).parents[2] / "docs" / "weather.md").read_text()
    blocks = re.findall(r"```\w*\n(.*?)```", page, flags=re.DOTALL)
    table, document = (read_forecast(block) for block in blocks[:2])
    assert table.weather.hours == 2
    assert document.weather.hours == 1
    assert document.weather.air[0] == table.weather.air[0]
    assert document.place == table.place


def test_json_gives_the_same_weather() -> None:
    """The same hours as JSON, keys ending in their unit, read the same."""
    hours = [
        {
            "time": f"2026-04-18T0{6 + k}:00-07:00",
            "temperature_f": 50 + 2 * k,
            "humidity_percent": 80 - 5 * k,
            "wind_mph": [10, 10, 0][k],
            "rain_in": [0, 0.1, 0][k],
            "cloud_percent": [20, 20, 100][k],
        }
        for k in range(3)
    ]
    text = json.dumps({"latitude": 47.9, "longitude": -123.6, "hours": hours}, indent=1)
    ours, theirs = read_forecast(text).weather, read_forecast(GOOD).weather
    for name in ("air", "humidity", "wind", "rain", "cloud"):
        assert getattr(ours, name) == pytest.approx(getattr(theirs, name)), name
    assert ours.start == theirs.start


def test_the_built_in_example_is_read() -> None:
    """The invented forecast of the built-in house holds three days without a remark."""
    file = read_forecast(EXAMPLE)
    assert file.weather.hours == 72
    assert file.place is not None
    assert file.notes == ()


@pytest.mark.parametrize(
    ("was", "becomes", "told"),
    [
        ("07:00-07:00, 52", "09:00-07:00, 52", "2 hours are missing"),
        ("07:00-07:00, 52", "06:00-07:00, 52", "goes back"),
        ("07:00-07:00, 52", "07:00, 52", "with its offset"),
        (", 52, 75", ", 252, 75", "temperature 252 F is not possible"),
        (", 52, 75", ", warm, 75", "‘warm’ is not a number"),
        (", 52, 75", ", 52, 175", "humidity 175 % is not possible"),
        (", 0.1, 20, 120", ", -0.1, 20, 120", "rain -0.1 IN is not possible"),
        (", 0.1, 20, 120", ", 0.1, 20", "the row has 7 cells"),
        (", 52, 75", ", nan, 75", "is not a number"),
    ],
)
def test_gaps_and_impossible_values_are_told_with_their_line(
    was: str, becomes: str, told: str
) -> None:
    """A missing or repeated hour, a wrong value or a short row is told with file and line."""
    found = problems(GOOD.replace(was, becomes, 1))
    assert any(told in problem for problem in found)
    assert all(problem.startswith(("f.csv:6:", "f.csv:7:")) for problem in found)


@pytest.mark.parametrize(
    ("was", "becomes", "told"),
    [
        ("temperature [F]", "temperature", "column temperature has no unit"),
        ("temperature [F]", "temperature [mm]", "‘mm’ is no unit of temperature"),
        ("temperature [F]", "temperatur [F]", "no column called"),
        ("latitude, 47.9", "latitude, 147.9", "no number within ±90"),
        ("latitude, 47.9", "sunshine, yes", "no fact about the place"),
        ("gust [mph]", "wind [mph]", "is there twice"),
    ],
)
def test_header_slips_are_told(was: str, becomes: str, told: str) -> None:
    """A wrong name, unit or fact is told with what is right."""
    assert any(told in problem for problem in problems(GOOD.replace(was, becomes, 1)))


def test_fahrenheit_in_a_celsius_column_is_guessed() -> None:
    """72 in a column of °C is told to look like °F."""
    found = problems(GOOD.replace("temperature [F]", "temperature [C]").replace(", 50,", ", 72,"))
    assert any("[F]" in problem for problem in found)


def test_humidity_as_a_part_of_one_is_told() -> None:
    """A column of humidities between 0 and 1 read as percent is told."""
    rows = "".join(f"2026-04-18T{h:02}:00Z, 10, 0.7, 2, 0\n" for h in range(8))
    found = problems(f"time, temperature [C], humidity [%], wind [m/s], rain [mm]\n{rows}")
    assert any("write humidity in percent" in problem for problem in found)


def test_a_dew_point_above_the_air_is_told() -> None:
    """No air has a dew point above its own temperature."""
    text = (
        "time, temperature [C], dew point [C], wind [m/s], rain [mm]\n2026-04-18T06:00Z,5,9,1,0\n"
    )
    assert any("is above the air" in problem for problem in problems(text))


def test_columns_of_no_use_are_left_out_with_a_note() -> None:
    """A column nobody asks for (pressure) is left out, and said to be."""
    text = GOOD.replace("irradiance [W/m2]", "barometer [hPa]")
    assert any("barometer" in note for note in read_forecast(text).notes)


@pytest.mark.parametrize(
    "text",
    [
        "\n",
        "time, temperature [C]\n2026-04-18T06:00Z, 4\n",
        "a, b\n1, 2\n",
        '{"hours": 3}\n',
        '{"hours": [3]}\n',
        '{"hours": [{"time": null}]}\n',
        "{broken\n",
        "time, temperature [C], humidity [%], wind [m/s], rain [mm]\n",
    ],
)
def test_what_is_no_forecast_is_refused(text: str) -> None:
    """Files without columns, hours or sense end in sentences."""
    with pytest.raises(InputError):
        read_forecast(text, name="f")


def test_a_missing_file_is_told(tmp_path: Path) -> None:
    """A path that leads nowhere is told."""
    with pytest.raises(FormatError, match="there is no file"):
        read_forecast(tmp_path / "nowhere.csv")
