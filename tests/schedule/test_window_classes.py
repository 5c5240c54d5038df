"""Hours of each class of work."""

from __future__ import annotations

from math import pi
from pathlib import Path

import numpy as np

import seamwright
from seamwright.climate.face import Face
from seamwright.io.weather_forecast import read_forecast
from seamwright.schedule.tape_limits import PRODUCTS
from seamwright.schedule.window_classes import class_hours

EXAMPLE = Path(seamwright.__file__).parent / "data" / "examples" / "heron_house_forecast.csv"
FILE = read_forecast(EXAMPLE)
FACES = (
    Face(id="north", azimuth=0.0, tilt=0.59),
    Face(id="south", azimuth=pi, tilt=0.59),
    Face(id="east wall", azimuth=pi / 2, tilt=pi / 2),
)


def test_each_class_holds_hours_of_the_forecast() -> None:
    """Every class that tasks name is there, with hours in order inside the record."""
    found = dict(class_hours(FILE.weather, FACES, FILE.place))
    assert {
        "lift", "roof_open", "bead", "foam", "tape/inner", "tape/outer/wall", "tape/outer/roof",
        "fan_test", "tape/outer/roof/north", "tape/outer/wall/east wall",
    } <= set(found)  # fmt: skip
    for hours in found.values():
        assert list(hours) == sorted(set(hours))
        assert all(0 <= hour < 72 for hour in hours)
        assert all(type(hour) is int for hour in hours)


def test_a_class_of_faces_holds_what_suits_them_all() -> None:
    """The hours of all roofs are those common to each."""
    found = dict(class_hours(FILE.weather, FACES, FILE.place))
    both = set(found["tape/outer/roof/north"]) & set(found["tape/outer/roof/south"])
    assert set(found["tape/outer/roof"]) == both
    assert both


def test_the_wet_day_opens_no_roof() -> None:
    """No hour in which rain falls, or that rain follows before the cover is on, opens a roof."""
    found = dict(class_hours(FILE.weather, FACES, FILE.place, cover_hours=6.0))
    rainy = np.flatnonzero(FILE.weather.rain >= 0.1)
    closed = {int(hour - ahead) for hour in rainy for ahead in range(7)}
    assert not closed & set(found["roof_open"])
    assert found["roof_open"]


def test_another_product_has_other_hours() -> None:
    """A strip that wants 10 °C has fewer hours inside than one that does not."""
    mild = dict(class_hours(FILE.weather, FACES, FILE.place))
    choosy = dict(
        class_hours(FILE.weather, FACES, FILE.place, products={"tape": PRODUCTS["bitumen"]})
    )
    assert set(choosy["tape/inner"]) < set(mild["tape/inner"])
