"""Zones of counties and stations against what is published.

Degree-day limits: ANSI/ASHRAE/IES Standard 90.1-2010 table B-4 as coded in a public weather
library. County zones: general knowledge of well-known places, each beside the line that says it.
"""

from __future__ import annotations

import pytest

from seamwright.climate.counties import find_counties
from seamwright.climate.zones import EDITIONS, zone_by_criteria, zone_number, zone_parts
from seamwright.io.climate_tables import counties, stations


@pytest.mark.source("doe-county-zones", "ten counties, both editions")
@pytest.mark.parametrize(
    ("state", "county", "old", "new", "humid"),
    [
        ("WA", "King", "4C", "4C", False),
        ("MN", "Hennepin", "6A", "6A", False),
        ("FL", "Miami-Dade", "1A", "1A", True),
        ("TX", "Harris", "2A", "2A", True),
        ("AZ", "Maricopa", "2B", "2B", False),
        ("CA", "San Francisco", "3C", "3C", False),
        ("IL", "Cook", "5A", "5A", False),
        ("CO", "Denver", "5B", "5B", False),
        ("AK", "Fairbanks North Star", "8", "8", False),
        ("AK", "Juneau", "7", "6A", False),
        ("WA", "Clallam", "4C", "5C", False),
        ("LA", "Orleans", "2A", "2A", True),
    ],
)
def test_zones_of_known_counties(state: str, county: str, old: str, new: str, humid: bool) -> None:
    """Counties carry the published zone of each edition and the mark of warm-humid."""
    (found,) = find_counties(counties(), state, county)
    assert (found.old_zone, found.new_zone) == (old, new)
    assert found.warm_humid is humid


@pytest.mark.source("doe-county-zones", "how many counties change their zone")
def test_the_editions_part_company_in_many_counties() -> None:
    """373 counties change zone: no zone is a fact without its edition."""
    both = [(c.zone("2004-2018"), c.zone("2021")) for c in counties()]
    changed = [1 for a, b in both if a is not None and b is not None and a.name != b.name]
    assert len(changed) == 373
    assert len(counties()) == 3228
    assert sum(c.warm_humid is True for c in counties()) == 516


@pytest.mark.source("ashrae-90-1-2010", "table B-4, degree days in °F·d over 1.8")
@pytest.mark.parametrize(
    ("heating_f", "cooling_f", "number"),
    [
        (0, 9001, 1), (0, 9000, 2), (0, 6301, 2), (3600, 6300, 3), (3600, 4501, 3),
        (5400, 4500, 4), (5401, 4500, 5), (7200, 3000, 5), (7201, 3000, 6), (9001, 2000, 7),
        (12600, 1000, 7), (12601, 1000, 8),
    ],
)  # fmt: skip
def test_the_limits_of_the_table(heating_f: int, cooling_f: int, number: int) -> None:
    """The printed limits in Fahrenheit, turned into K·d, part the zones where the table does."""
    assert zone_number(heating_f / 1.8, cooling_f / 1.8, "2004-2018") == number


@pytest.mark.source("ashrae-169", "published zones of 966 stations, edition of 2021")
def test_criteria_agree_with_published_stations() -> None:
    """The number by degree days is the published one at five stations in six, else next to it.

    The published zones rest on other years than the degree days, so borders shift.
    """
    pairs = []
    for s in stations():
        if s.zone is None:
            continue
        parts = zone_parts(s.zone)
        assert parts is not None
        ours = zone_by_criteria(
            s.months.temperature, None, heating=s.heating, cooling=s.cooling, edition="2021"
        )
        pairs.append((ours.number, parts[0]))
    assert len(pairs) == 966
    assert sum(a == b for a, b in pairs) / len(pairs) > 0.83
    assert sum(abs(a - b) <= 1 for a, b in pairs) / len(pairs) > 0.99


def test_each_edition_is_named() -> None:
    """There are two editions, and every finding says which it is of."""
    assert EDITIONS == ("2004-2018", "2021")
    king = find_counties(counties(), "WA", "King")[0]
    assert [zone.edition for e in EDITIONS if (zone := king.zone(e)) is not None] == list(EDITIONS)
