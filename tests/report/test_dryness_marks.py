"""What the seal schedule says of each joint's dryness."""

from __future__ import annotations

from tests.report.test_schedule_tables import SEALS, TYPES

from seamwright.report.dryness_marks import DryMark
from seamwright.report.schedule_tables import schedule_table
from seamwright.report.types import Quantity
from seamwright.units import format_quantity

KIND = "wall_spline"
FIRST = next(seal.joint.id for seal in SEALS if seal.joint.kind == KIND)


def _columns(marks: dict[str, DryMark]) -> tuple[str, ...]:
    return schedule_table(SEALS, TYPES, KIND, marks).columns


def test_without_answers_the_schedule_has_no_column_for_dryness() -> None:
    """A table without marks is as wide as before."""
    assert "Dryness" not in _columns({})


def test_the_short_answer_has_a_verdict_and_no_leak() -> None:
    """Where no largest leak was looked for, its column is left out."""
    columns = _columns({FIRST: DryMark(verdict="J4 within +0.30")})
    assert "Dryness" in columns
    assert "May leak at 50 Pa" not in columns


def test_a_joint_that_is_wetter_when_tighter_says_so() -> None:
    """Words stand where a leakage would, also where no joint of the table has a number."""
    mark = DryMark(verdict="J2 within +0.30", bound="wetter when tighter")
    table = schedule_table(SEALS, TYPES, KIND, {FIRST: mark})
    assert "May leak at 50 Pa" in table.columns
    assert [row[-1] for row in table.rows if row[-1]] == ["wetter when tighter"]


def test_a_joint_that_tolerates_no_leak_says_so() -> None:
    """A leak outside at the lowest level reads so; every row is as wide as the head."""
    mark = DryMark(verdict="J4 OUTSIDE", leak=0.01 / 3600.0, bound="not even")
    table = schedule_table(SEALS, TYPES, KIND, {FIRST: mark})
    told = [format_quantity(r[-1], "metric") for r in table.rows if isinstance(r[-1], Quantity)]
    assert told == ["not even 0.010 m³/(h·m)"]
    assert {len(row) for row in (*table.rows, table.total)} == {len(table.columns)}
    assert len(table.widths) == len(table.columns)
