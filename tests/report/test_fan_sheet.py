"""The test sheet: cautions on every one, every rule and reading in its tables."""

from __future__ import annotations

from pathlib import Path

import pytest

import seamwright
from seamwright.io.fan_readings import read_fan_test
from seamwright.leakage.fan import analyze_fan_test
from seamwright.leakage.types import Target
from seamwright.report.fan_cautions import FAN_CAUTIONS
from seamwright.report.fan_sheet import fan_document
from seamwright.report.fan_tables import FanSheet, readings_table, rules_table
from seamwright.report.fan_words import FLOW, in_units, result_rows
from seamwright.report.types import Caution, Paragraph, Table

EXAMPLE = Path(seamwright.__file__).parent / "data" / "examples" / "heron_house_fan_test.csv"


def sheet(limit: float | None = None, volume: float | None = 504.5) -> FanSheet:
    """Return the sheet of the built-in example."""
    test = read_fan_test(EXAMPLE)
    from_us = None if limit is None else Target(measure="ach50", limit=limit, source="a test")
    house = test.envelope if volume is not None else type(test.envelope)()
    result = analyze_fan_test(test.series, test.conditions, house, target=from_us)
    return FanSheet(
        result=result, series=test.series, conditions=test.conditions, envelope=house,
        facts=(("House", "Heron House"),), notes=test.notes,
    )  # fmt: skip


@pytest.mark.parametrize("limit", [None, 0.6, 3.0])
def test_every_sheet_carries_the_cautions(limit: float | None) -> None:
    """Combustion, fire, dust, loose things, ventilation and fog are on every sheet."""
    blocks = fan_document(sheet(limit)).blocks
    assert tuple(b.text for b in blocks if isinstance(b, Caution)) == FAN_CAUTIONS
    told = " ".join(FAN_CAUTIONS)
    for word in ("tag every fuel-burning", "24 hours", "asbestos", "Tie down", "smoke alarms"):
        assert word in told


def test_the_verdict_stands_first_and_the_deferral_last() -> None:
    """The verdict opens the text; that the standard and the code outrank it closes it."""
    texts = [b.text.text for b in fan_document(sheet(3.0)).blocks if isinstance(b, Paragraph)]
    assert texts[0].startswith("PASSES: 1.88")
    assert "no certificate" in texts[-1]


def test_every_rule_and_reading_has_its_row() -> None:
    """Rules of both directions and of the whole test, and all 16 readings, are listed."""
    one = sheet()
    count = sum(len(s.checks) for s in one.result.series) + len(one.result.checks)
    assert len(rules_table(one.result).rows) == count
    assert len(readings_table(one).rows) == 16
    assert {row[4] for row in rules_table(one.result).rows} == {"holds"}


def test_measures_without_a_volume_are_left_out() -> None:
    """Without volume and area neither ACH50 nor q50 is shown."""
    names = [row[0] for row in result_rows(sheet(volume=None).result)]
    assert not [name for name in names if "ACH50" in name or "q50" in name]
    assert len(names) == 5


def test_both_unit_systems_stand_side_by_side() -> None:
    """1,000 cfm is 1,699 m³/h."""
    assert in_units(FLOW, 1000 * 0.3048**3 / 60) == "1000 cfm (1699 m³/h)"


def test_tables_have_a_width_for_every_column() -> None:
    """No table of the sheet is laid out wrong."""
    tables = [b for b in fan_document(sheet(3.0)).blocks if isinstance(b, Table)]
    assert len(tables) == 6
    for table in tables:
        assert len(table.columns) == len(table.widths)
        assert all(len(row) == len(table.columns) for row in table.rows)
