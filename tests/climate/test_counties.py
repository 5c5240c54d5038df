"""Counties by name and by place."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from seamwright.climate.counties import find_counties, nearest_county
from seamwright.climate.sun import Place
from seamwright.io.climate_tables import counties


@pytest.mark.parametrize(
    ("state", "name", "number"),
    [
        ("WA", "King", "53033"),
        ("wa", "king county", "53033"),
        ("LA", "East Baton Rouge", "22033"),
        ("LA", "Orleans Parish", "22071"),
        ("NM", "Dona Ana", "35013"),
        ("MO", "Saint Louis County", "29189"),
        ("MO", "St. Louis city", "29510"),
        ("AK", "Juneau", "02110"),
    ],
)
def test_a_county_is_found_as_people_write_it(state: str, name: str, number: str) -> None:
    """Words such as County may be there or not; capitals and accents do not matter."""
    found = find_counties(counties(), state, name)
    assert [c.id for c in found] == [number]


def test_a_name_that_means_two_counties_gives_both() -> None:
    """A city and a county of one name in one state are both given unless one is written out."""
    table = [replace(counties()[0], id=k, name=f"Heron {k}") for k in ("city", "Parish")]
    assert len(find_counties(table, table[0].state, "Heron")) == 2
    assert len(find_counties(table, table[0].state, "Heron city")) == 1
    assert len(find_counties(counties(), "MD", "Baltimore city")) == 1
    assert find_counties(counties(), "WA", "Nowhere") == ()


def test_a_county_without_a_zone_in_an_edition_says_so() -> None:
    """Renamed areas have a zone in one edition alone; None is given for the other."""
    old = next(c for c in counties() if c.id == "46113")
    assert old.zone("2021") is None
    before = old.zone("2004-2018")
    assert before is not None
    assert before.name == "6A"
    assert "county table" in before.origin


def test_the_nearest_county_is_told_with_its_distance() -> None:
    """A place in a county's middle finds it at no distance."""
    king = next(c for c in counties() if c.id == "53033")
    assert king.middle is not None
    found, way = nearest_county(counties(), king.middle)
    assert found.id == "53033"
    assert way == 0.0
    off = Place(latitude=king.middle.latitude, longitude=king.middle.longitude + np.radians(0.1))
    assert nearest_county(counties(), off)[1] > 5000.0
