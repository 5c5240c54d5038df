"""The blank test sheet: the house's own numbers, room for a whole test, the cautions."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from itertools import pairwise

import pytest

from seamwright.cli.source import built_in
from seamwright.joints.enclosure import measure_enclosure
from seamwright.report.fan_blank import AIMS, blank_fan_sheet, plan_target, readings_form
from seamwright.report.fan_cautions import FAN_CAUTIONS
from seamwright.report.house import SealedHouse
from seamwright.report.types import Caution, Quantity, Table
from seamwright.seals.catalog import default_catalog
from seamwright.workflow import seal_house


@cache
def first_house() -> SealedHouse:
    """Return the smallest built-in house, sealed."""
    return seal_house(built_in("first_house").plan, default_catalog())


def _sheet(house):
    """Return the blocks of the blank sheet, for the house as it is measured."""
    return blank_fan_sheet(house, measure_enclosure(house.shell, house.register))


def test_the_sheet_says_which_flow_meets_the_target() -> None:
    """The flow allowed at 50 Pa is the target's air changes times the shell's volume."""
    house = first_house()
    site = replace(house.plan.site, climate_zone="5B", zone_edition="IECC 2021")
    house = replace(house, plan=replace(house.plan, site=site))
    volume = measure_enclosure(house.shell, house.register).volume
    tables = [b for b in _sheet(house) if isinstance(b, Table)]
    rows = dict(row[:2] for row in tables[0].rows)
    assert rows["Volume"] == Quantity(value=volume, dimension="volume")
    assert str(rows["Flow at 50 Pa that meets it"]).endswith(f"({3 * volume:.0f} m³/h)")


@pytest.mark.parametrize("edition", [None, "a code nobody knows"])
def test_a_plan_without_a_known_edition_has_no_target(edition: str | None) -> None:
    """No target is better than a guessed one."""
    house = first_house()
    site = replace(house.plan.site, zone_edition=edition)
    house = replace(house, plan=replace(house.plan, site=site))
    assert plan_target(house) is None
    tables = [b for b in _sheet(house) if isinstance(b, Table)]
    assert "Target" not in dict(row[:2] for row in tables[0].rows)


def test_there_is_room_for_a_whole_test_and_every_caution() -> None:
    """Eight pressures within the steps of the standards, both baselines, all cautions."""
    assert len(readings_form().rows) == len(AIMS) + 2
    assert (AIMS[0], max(AIMS)) == (10, 60)
    assert max(b - a for a, b in pairwise(AIMS)) <= 10
    told = [b.text for b in _sheet(first_house()) if isinstance(b, Caution)]
    assert tuple(told) == FAN_CAUTIONS
