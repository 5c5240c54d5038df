"""The zone of a house by its county, and the plan's against it."""

from __future__ import annotations

import pytest

from seamwright.errors import InputError
from seamwright.io.site_zone import site_zones, zone_warning
from seamwright.shell.plan import Site


def site(**said: object) -> Site:
    """Return an invented site."""
    return Site(name="Heron", **said)  # type: ignore[arg-type]


def test_a_named_county_gives_both_editions() -> None:
    """A county by name gives its zone in each edition without a guess."""
    found = site_zones(site(county="Clallam", state="WA"))
    assert found is not None
    assert found.named
    zones = {edition: zone.name for edition, zone in found.zones if zone is not None}
    assert zones == {"2004-2018": "4C", "2021": "5C"}
    assert "nearest" not in found.origin


def test_coordinates_give_the_nearest_county_as_a_guess() -> None:
    """Without a county the nearest middle is taken, and the origin asks to confirm it."""
    found = site_zones(site(latitude_deg=47.5, longitude_deg=-121.8))
    assert found is not None
    assert not found.named
    assert found.county.name == "King"
    assert "confirm" in found.origin


def test_no_place_or_one_abroad_gives_no_zone() -> None:
    """A plan without a place, or one beyond the table, has no zone by county."""
    assert site_zones(site()) is None
    assert site_zones(site(latitude_deg=60.2, longitude_deg=24.9)) is None


@pytest.mark.parametrize(
    ("zone", "edition", "told"),
    [
        ("4C", "IECC 2018", None),
        ("5C", "IECC 2021", None),
        ("4C", "IECC 2021", "editions from 2021 on have 5C"),
        ("5c", "IRC 2018", "editions of 2004 to 2018 have 4C"),
        ("4C", None, "without an edition"),
        ("6A", None, "4C of 2004 to 2018, 5C from 2021 on"),
        ("cold", "IECC 2021", "is none"),
        (None, "IECC 2021", None),
    ],
)
def test_a_plan_that_disagrees_is_told_with_the_edition(
    zone: str | None, edition: str | None, told: str | None
) -> None:
    """The plan's zone is compared in the edition it names; the sentence names that edition."""
    house = site(county="Clallam", state="WA", climate_zone=zone, zone_edition=edition)
    warning = zone_warning(house, site_zones(house))
    if told is None:
        assert warning is None
    else:
        assert warning is not None
        assert told in warning


def test_an_edition_need_not_be_named_where_both_agree() -> None:
    """Where the county has one zone in both editions a plan without an edition is not bothered."""
    house = site(county="King", state="WA", climate_zone="4C")
    assert zone_warning(house, site_zones(house)) is None


@pytest.mark.parametrize(
    ("county", "state", "told"),
    [
        ("Clallam", None, "without its state"),
        ("Clallam", "Washington", "no state of the county table"),
        ("Clalam", "WA", "no county ‘Clalam’ in WA; did you mean ‘Clallam’"),
    ],
)
def test_a_county_that_is_not_there_is_told(county: str, state: str | None, told: str) -> None:
    """A county without its state, or misspelled, is told with the way out."""
    with pytest.raises(InputError, match=told):
        site_zones(site(county=county, state=state))
