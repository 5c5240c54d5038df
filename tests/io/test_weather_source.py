"""Where the weather of a house comes from."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import numpy as np
import pytest
from tests.real_years import FOLDER, YEARS

from seamwright.climate.generated import is_generated
from seamwright.climate.monthly import monthly_means
from seamwright.errors import InputError
from seamwright.io.weather_source import resolve_climate, resolve_weather, site_place
from seamwright.io.weather_write import weather_csv
from seamwright.io.weather_year import read_weather
from seamwright.shell.plan import Site

GREENSBORO = FOLDER / YEARS["Greensboro, NC"]
HOUSE = Site(name="Heron", latitude_deg=47.44, longitude_deg=-122.31, elevation=Fraction(113))


def test_a_house_without_a_file_gets_a_generated_year_that_says_so() -> None:
    """The nearest station's months are made into a year whose source begins with GENERATED."""
    climate = resolve_climate(HOUSE)
    assert climate.weather.hours == 8760
    assert is_generated(climate.weather)
    assert climate.origin.startswith("GENERATED from monthly figures, seed 1: station 727930")
    assert any("no ground for a sign-off" in note for note in climate.notes)
    assert climate.near[0].station.id == "727930"
    assert climate.months is not None
    assert monthly_means(climate.weather.air) == pytest.approx(climate.months.temperature)


def test_the_seed_is_the_callers() -> None:
    """Another seed gives another year, the same seed the same."""
    one, two = (resolve_weather(HOUSE, seed=seed).air for seed in (1, 2))
    assert not np.array_equal(one, two)
    assert np.array_equal(one, resolve_weather(HOUSE, seed=1).air)


def test_a_file_outranks_the_station() -> None:
    """A file given is read and named; nothing is generated."""
    climate = resolve_climate(HOUSE, GREENSBORO)
    assert not is_generated(climate.weather)
    assert climate.origin == "year of a weather file 723170TYA.CSV"
    assert climate.weather.source == climate.origin
    assert any("km from the house" in note for note in climate.notes)


def test_the_plan_may_name_its_file() -> None:
    """A file named in the plan is looked for beside it."""
    house = replace(HOUSE, weather="723170TYA.CSV")
    assert resolve_weather(house, folder=GREENSBORO.parent).source.endswith("723170TYA.CSV")


def test_the_plan_may_name_its_station() -> None:
    """A station by number is taken though another is nearer, and an unknown one is told."""
    climate = resolve_climate(replace(HOUSE, station="727885"))
    assert "station 727885" in climate.origin
    with pytest.raises(InputError, match=r"no station ‘1’; near by are 727930"):
        resolve_climate(replace(HOUSE, station="1"))


def test_a_house_above_its_station_is_colder() -> None:
    """Six hundred metres up the year is 3.25 K colder, and a note says how it was done."""
    level, high = (
        resolve_climate(HOUSE),
        resolve_climate(replace(HOUSE, station="727930", elevation=Fraction(622))),
    )
    drop = 0.0065 * (622.0 - 122.0)
    assert level.weather.air.mean() - high.weather.air.mean() == pytest.approx(drop, abs=0.1)
    assert any("6.5 K a kilometre" in note for note in high.notes)


def test_an_elevation_that_is_not_given_is_the_stations() -> None:
    """Without an elevation nothing is brought to another height, and a note says so."""
    climate = resolve_climate(replace(HOUSE, elevation=Fraction(0)))
    assert any("no elevation" in note for note in climate.notes)
    assert climate.place is not None
    assert climate.place.elevation == climate.near[0].station.place.elevation


def test_a_county_stands_in_for_coordinates() -> None:
    """The middle of the county is taken, and said."""
    house = Site(name="Heron", county="King", state="WA")
    place, notes = site_place(house)
    assert np.degrees(place.latitude) == pytest.approx(47.5, abs=0.3)
    assert "middle of King, WA" in notes[0]
    assert any("middle of King" in note for note in resolve_climate(house).notes)


@pytest.mark.parametrize(
    ("house", "told"),
    [
        (Site(name="Heron"), "does not say where the house stands"),
        (Site(name="Heron", latitude_deg=60.2, longitude_deg=24.9), "nearest station is .* km"),
    ],
)
def test_a_house_nowhere_is_told(house: Site, told: str) -> None:
    """Without a place, or far from every station, the way out is a file."""
    with pytest.raises(InputError, match=told):
        resolve_weather(house)


def test_a_generated_year_stays_generated_through_a_file(tmp_path: Path) -> None:
    """Written out and read back the hours are the same and still say GENERATED."""
    climate = resolve_climate(HOUSE)
    path = tmp_path / "year.csv"
    path.write_text(weather_csv(climate.weather, climate.place), encoding="utf-8")
    again = resolve_climate(HOUSE, path)
    assert is_generated(again.weather)
    assert any("no ground for a sign-off" in note for note in again.notes)
    assert again.weather.air == pytest.approx(climate.weather.air, abs=0.006)
    assert again.weather.humidity == pytest.approx(climate.weather.humidity, abs=6e-5)
    assert again.weather.start == climate.weather.start
    assert again.place is not None
    assert np.degrees(again.place.latitude) == pytest.approx(47.44)


def test_hours_without_sun_are_written_without_the_column() -> None:
    """A record without sun is written and read back without it."""
    weather = replace(resolve_weather(HOUSE), sun=None)
    assert read_weather(weather_csv(weather, None)).weather.sun is None


def test_rain_comes_from_several_stations() -> None:
    """No month of a wet coast is without rain, though single stations report none."""
    months = resolve_climate(HOUSE).months
    assert months is not None
    assert months.rain is not None
    assert min(months.rain) > 5.0
    assert 600.0 < sum(months.rain) < 1900.0


def test_a_cold_winter_is_asked_for_and_told() -> None:
    """The cold winter is colder than the typical one and named in the origin."""
    typical, cold = resolve_climate(HOUSE), resolve_climate(HOUSE, cold=True)
    assert cold.weather.air[:744].mean() < typical.weather.air[:744].mean() - 0.5
    assert cold.weather.air[4344:5088].mean() == pytest.approx(
        typical.weather.air[4344:5088].mean(), abs=0.01
    )
    assert "cold winter" in cold.origin
