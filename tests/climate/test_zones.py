"""Climate zones by degree days, rain and mildness."""

from __future__ import annotations

import pytest

from seamwright.climate.generated import generated_year
from seamwright.climate.zones import (
    Edition,
    edition_named,
    is_dry,
    is_marine,
    is_warm_humid,
    warm_humid_hours,
    zone_by_criteria,
    zone_number,
    zone_parts,
)
from seamwright.io.climate_tables import stations

MILD = (5.0, 6.0, 8.0, 10.0, 13.0, 16.0, 18.0, 18.0, 15.0, 11.0, 8.0, 5.0)
WET_WINTER = (150, 120, 100, 70, 50, 40, 20, 25, 50, 90, 150, 160)
EVEN = (70.0,) * 12


@pytest.mark.parametrize(
    ("heating", "cooling", "old", "new"),
    [
        (0.0, 6500.0, 1, 0),
        (100.0, 5500.0, 1, 1),
        (700.0, 4000.0, 2, 2),
        (1500.0, 3000.0, 3, 3),
        (2500.0, 3000.0, 3, 4),
        (2500.0, 2000.0, 4, 4),
        (1900.0, 2000.0, 4, 3),
        (3500.0, 1500.0, 5, 5),
        (4500.0, 1200.0, 6, 6),
        (6000.0, 800.0, 7, 7),
        (8000.0, 300.0, 8, 8),
    ],
)
def test_the_number_follows_the_degree_days(
    heating: float, cooling: float, old: int, new: int
) -> None:
    """Each band gives its number, and the editions part company in zones 0, 3 and 4."""
    assert zone_number(heating, cooling, "2004-2018") == old
    assert zone_number(heating, cooling, "2021") == new


def test_a_limit_belongs_to_the_milder_zone() -> None:
    """Exactly 4,000 heating degree days are still zone 5, exactly 5,000 cooling still zone 2."""
    assert zone_number(4000.0, 1000.0, "2021") == 5
    assert zone_number(4000.1, 1000.0, "2021") == 6
    assert zone_number(0.0, 5000.0, "2021") == 2


def test_a_marine_place_has_a_mild_year_and_a_dry_summer() -> None:
    """A dry summer makes a mild year marine; rain all year does not; a cold month rules it out."""
    assert is_marine(MILD, WET_WINTER) is True
    assert is_marine(MILD, EVEN) is False
    assert is_marine((-4.0, *MILD[1:]), WET_WINTER) is False
    assert is_marine((*MILD[:6], 23.0, *MILD[7:]), WET_WINTER) is False


def test_without_rain_marine_is_open_only_where_rain_decides() -> None:
    """Where the temperature already says no, no rain is needed; elsewhere the letter stays open."""
    assert is_marine(MILD, None) is None
    assert is_marine((-4.0, *MILD[1:]), None) is False
    zone = zone_by_criteria(MILD, None, heating=2500.0, cooling=1000.0, edition="2021")
    assert zone.name == "4"
    assert zone.regime is None


def test_south_of_the_equator_the_halves_of_the_year_change_places() -> None:
    """The same rain six months later is marine in the south."""
    turned = WET_WINTER[6:] + WET_WINTER[:6]
    air = MILD[6:] + MILD[:6]
    assert is_marine(air, turned, north=False) is True
    assert is_marine(air, turned) is False


def test_the_dry_line_knows_the_season_of_the_rain_from_2013_on() -> None:
    """450 mm at 12 °C is humid by the old line; the newer one moves it with the season."""
    air = (12.0,) * 12
    summer = (5, 5, 5, 70, 70, 70, 70, 70, 70, 5, 5, 5)
    winter = (70, 70, 70, 5, 5, 5, 5, 5, 5, 70, 70, 70)
    assert not is_dry(air, summer, "2004-2018")
    assert is_dry(air, summer, "2021")
    assert not is_dry(air, winter, "2021")
    assert is_dry(air, tuple(r / 1.3 for r in winter), "2004-2018")
    assert not is_dry(air, tuple(r / 1.3 for r in winter), "2021")


@pytest.mark.parametrize(
    ("rain", "edition", "name"),
    [(WET_WINTER, "2021", "4C"), (EVEN, "2021", "4A"), ((10.0,) * 12, "2004-2018", "4B")],
)
def test_number_and_letter_make_the_zone(
    rain: tuple[float, ...], edition: Edition, name: str
) -> None:
    """The letter goes with the number, and the finding names its edition."""
    zone = zone_by_criteria(MILD, rain, heating=2500.0, cooling=1000.0, edition=edition)
    assert zone.name == name
    assert zone.edition == edition


def test_cold_zones_carry_no_letter() -> None:
    """Zones 7 and 8 are written without a letter."""
    cold = tuple(t - 15.0 for t in MILD)
    assert zone_by_criteria(cold, EVEN, heating=6000.0, cooling=200.0, edition="2021").name == "7"


@pytest.mark.parametrize(
    ("text", "edition"),
    [
        ("IECC 2021", "2021"),
        ("IECC 2018", "2004-2018"),
        ("2018 IRC", "2004-2018"),
        ("IECC 2024", "2021"),
        ("ASHRAE 169-2013", "2021"),
        ("ASHRAE 169-2006", "2004-2018"),
        ("ASHRAE 90.1-2013", "2004-2018"),
        ("90.1-2019", "2021"),
        ("2004-2018", "2004-2018"),
        ("2021", "2021"),
        ("the newest", None),
    ],
)
def test_a_code_and_year_name_an_edition(text: str, edition: str | None) -> None:
    """Codes took the new zones in different years; a name without a year names none."""
    assert edition_named(text) == edition


def test_a_zone_is_taken_apart() -> None:
    """4c is zone 4, marine; 7 has no letter; anything else is no zone."""
    assert zone_parts("4c") == (4, "C")
    assert zone_parts(" 7 ") == (7, None)
    assert zone_parts("9A") is None
    assert zone_parts("cold") is None


@pytest.mark.parametrize(("number", "humid"), [("722020", True), ("727930", False)])
def test_warm_humid_by_the_hours_of_the_wet_bulb(number: str, humid: bool) -> None:
    """A subtropical coast is warm-humid by its hours; a cold one has next to none of them."""
    station = next(s for s in stations() if s.id == number)
    year = generated_year(station.months, station.place, utc_offset=station.utc_offset)
    assert is_warm_humid(year) is humid
    assert (warm_humid_hours(year)[1] < 20) is not humid
