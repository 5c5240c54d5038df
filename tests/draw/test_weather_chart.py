"""The chart of a face through the hours."""

from __future__ import annotations

import math
import xml.etree.ElementTree as ET
from pathlib import Path

import seamwright
from seamwright.climate.face import Face, face_hours
from seamwright.draw.ink import GREEN, RED, SKY
from seamwright.draw.weather_chart import weather_chart
from seamwright.io.weather_forecast import read_forecast
from seamwright.schedule.window import Window

EXAMPLE = Path(seamwright.__file__).parent / "data" / "examples" / "heron_house_forecast.csv"
FILE = read_forecast(EXAMPLE)
HOURS = face_hours(FILE.weather, Face(id="north roof", azimuth=0.0, tilt=0.59), FILE.place)


def chart(windows: dict[str, tuple[Window, ...]], system: str = "metric"):
    """Return the chart of the example's north roof."""
    return weather_chart(HOURS, windows, title="A < B & C", system=system)  # type: ignore[arg-type]


def test_the_chart_is_sound_and_names_what_it_shows() -> None:
    """It is well-formed, holds its title, lines and days, and says that the skin is an estimate."""
    drawn = chart({"acrylic": (Window(start=3, end=14),)})
    root = ET.fromstring(drawn.svg)
    words = " ".join("".join(text.itertext()) for text in root.iter() if text.tag.endswith("text"))
    for word in ("A < B & C", "skin", "grows wet below", "rain", "acrylic", "Sat Apr 18", "[°C]"):
        assert word in words
    assert "estimates" in drawn.caption


def test_each_window_is_a_bar() -> None:
    """A window more is a green bar more; none leaves the row empty and drawn."""
    two = chart({"tape": (Window(start=3, end=14), Window(start=20, end=22))}).svg
    none = chart({"tape": ()}).svg
    assert two.count(GREEN) > none.count(GREEN)
    assert "tape" in none


def test_units_and_lines_change_with_what_is_drawn() -> None:
    """Fahrenheit has other ticks; the skin's line and the rain are there in both."""
    metric, us = chart({}), chart({}, "us")
    assert "[°F]" in us.svg
    assert metric.svg != us.svg
    for drawn in (metric, us):
        assert RED in drawn.svg
        assert SKY in drawn.svg
        assert drawn.height_mm > 100.0


def test_a_dry_hour_alone_can_be_drawn() -> None:
    """A forecast of one hour makes a chart."""
    one = face_hours(FILE.weather.from_hour(71), Face(id="deck", azimuth=0.0, tilt=0.0))
    drawn = weather_chart(one, {}, title="one hour", system="metric")
    assert math.isfinite(drawn.height_mm)
    ET.fromstring(drawn.svg)
