"""Stations near a house, and their months at another height."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from seamwright.climate.moist_air import saturation_over_water
from seamwright.climate.monthly import cold_year
from seamwright.climate.stations import at_height, distance_between, near_stations
from seamwright.climate.sun import Place
from seamwright.io.climate_tables import stations

HERE = Place(latitude=np.radians(47.45), longitude=np.radians(-122.31), elevation=120.0)


def test_a_degree_of_latitude_is_111_kilometres() -> None:
    """The way along a meridian is the arc; a point is nowhere from itself."""
    north = replace(HERE, latitude=HERE.latitude + np.radians(1.0))
    assert distance_between(HERE, north) == pytest.approx(111_195.0, abs=1.0)
    assert distance_between(HERE, HERE) == 0.0


def test_the_nearest_station_comes_first_with_its_height() -> None:
    """A house beside an airport finds its station, how far it is and how much higher it stands."""
    near = near_stations(stations(), HERE, count=3)
    assert near[0].station.id == "727930"
    assert near[0].distance < 3000.0
    assert near[0].rise == near[0].station.place.elevation - 120.0
    assert near[0].distance <= near[1].distance


def test_height_counts_where_it_is_known() -> None:
    """A station on the same height outranks one nearer but a kilometre higher."""
    one = stations()[0]
    high = replace(one, id="high", place=replace(HERE, elevation=1120.0))
    level = replace(one, id="level", place=replace(HERE, latitude=HERE.latitude + 0.005))
    assert near_stations([high, level], HERE, count=1)[0].station.id == "level"
    blind = near_stations([high, level], HERE, count=1, height_known=False)[0]
    assert blind.station.id == "high"
    assert blind.rise is None


def test_air_above_a_station_is_colder_and_as_damp() -> None:
    """A kilometre up the months and extremes are 6.5 K colder at the same relative humidity."""
    months = stations()[0].months
    above = at_height(months, 1000.0)
    assert np.array(above.temperature) == pytest.approx(np.array(months.temperature) - 6.5)
    before = np.array(months.vapor) / saturation_over_water(np.array(months.temperature))
    after = np.array(above.vapor) / saturation_over_water(np.array(above.temperature))
    assert after == pytest.approx(before)
    assert above.extremes is not None
    assert months.extremes is not None
    assert above.extremes.cold_01 == pytest.approx(months.extremes.cold_01 - 6.5)
    assert at_height(replace(months, extremes=None), 10.0).extremes is None


def test_every_station_has_possible_months() -> None:
    """The table holds 1,020 stations whose months lie in what is possible on earth."""
    table = stations()
    assert len(table) == 1020
    assert len({s.id for s in table}) == 1020
    for s in table:
        assert -40.0 < min(s.months.temperature) <= max(s.months.temperature) < 45.0
        full = saturation_over_water(np.array(s.months.temperature))
        assert np.all(np.array(s.months.vapor) < 1.6 * full)
        assert 0.0 <= min(s.months.sun) <= max(s.months.sun) < 380.0
        assert s.months.extremes is not None
        assert s.months.extremes.cold_004 <= s.months.extremes.cold_01 < s.months.extremes.warm_01


def test_a_cold_year_has_a_colder_quarter_and_nothing_else() -> None:
    """The three coldest months fall by the spread of their means; summer and warm end stay."""
    months = next(s for s in stations() if s.id == "727930").months
    cold = cold_year(months)
    fallen = np.array(cold.temperature) - np.array(months.temperature)
    assert sorted(np.flatnonzero(fallen < 0.0).tolist()) in ([0, 1, 11], [0, 10, 11])
    drop = -fallen.min()
    assert 0.5 < drop < 3.5
    assert cold.extremes is not None
    assert months.extremes is not None
    assert cold.extremes.cold_01 == pytest.approx(months.extremes.cold_01 - drop)
    assert cold.extremes.warm_01 == months.extremes.warm_01
    assert f"{drop:.1f} K below" in cold.source
