"""The rows of a fan-test table: readings and baselines of each direction, each with its line."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Literal, TypeAlias

from seamwright.io.fan_file import Told, number
from seamwright.io.fan_units import to_si
from seamwright.io.panel_list import split_row
from seamwright.leakage.types import Direction, Reading, Series

PRESSURE, FLOW = "pressure", "flow"
MOST_PRESSURE = 500.0
"""[Pa] Beyond this no house is tested; our own bound, ten times the reference pressure."""

Phase: TypeAlias = Literal["before", "reading", "after"]
_DIRECTIONS: dict[str, Direction] = {
    "depressurize": "depressurize",
    "depressurise": "depressurize",
    "depressurization": "depressurize",
    "depressurisation": "depressurize",
    "dep": "depressurize",
    "pressurize": "pressurize",
    "pressurise": "pressurize",
    "pressurization": "pressurize",
    "pressurisation": "pressurize",
    "press": "pressurize",
}
_PHASES: dict[str, Phase] = {
    "baseline before": "before",
    "before": "before",
    "baseline after": "after",
    "after": "after",
    "reading": "reading",
    "test": "reading",
    "fan on": "reading",
}
_SIGNS: dict[Direction, float] = {"depressurize": -1.0, "pressurize": 1.0}


@dataclass(frozen=True, kw_only=True, slots=True)
class Table:
    """Where each column stands, the units of its numbers, and the header's line."""

    index: Mapping[str, int]
    pressure: str
    flow: str
    delimiter: str
    line: int


@dataclass(frozen=True, kw_only=True, slots=True)
class _Row:
    """One row: the fan's direction (None where the file does not say), phase and values in SI."""

    line: int
    direction: Direction | None
    phase: Phase | None
    pressure: float
    flow: float | None
    device: str


@dataclass(kw_only=True, slots=True)
class Rows:
    """The rows being read; `fixed` is the direction given above the table, for all rows."""

    table: Table
    told: Told
    fixed: str = ""
    found: list[_Row] = field(default_factory=list)


def series_of(rows: Rows, lines: Sequence[tuple[int, str]], notes: list[str]) -> tuple[Series, ...]:
    """Return the readings of each direction with their baselines, in file order.

    Problems are told with their line; `notes` says what was taken for granted.
    """
    for at, line in lines:
        if rows.told.full:
            break
        row = _row(rows, at, [cell.strip() for cell in split_row(line, rows.table.delimiter)])
        if row is not None:
            rows.found.append(row)
    directions = _directed(rows, notes)
    _tell_repeats(rows)
    series = []
    for direction in dict.fromkeys(d for _, d in directions if d is not None):
        mine = [row for row, d in directions if d in {direction, None}]
        series.append(_series(direction, mine, rows.told))
    if not series and not rows.told.problems:
        told, remedy = "the table holds no reading", "add a row for each pressure held"
        rows.told.tell("table", told, remedy, rows.table.line)
    return tuple(series)


def _row(rows: Rows, at: int, cells: Sequence[str]) -> _Row | None:
    def cell(name: str) -> str:
        place = rows.table.index.get(name)
        return cells[place] if place is not None and place < len(cells) else ""

    told, table = rows.told, rows.table
    if len(cells) > len(table.index) and any(cells[max(table.index.values()) + 1 :]):
        remedy = "put quotes around a cell that holds the delimiter"
        told.tell(f"row {at}", "the row has more cells than the table has columns", remedy, at)
        return None
    word = cell("direction") or rows.fixed
    direction = _DIRECTIONS.get(word.lower())
    if word and direction is None:
        remedy = "write depressurize or pressurize"
        told.tell(f"row {at}", f"‘{word[:30]}’ is no direction", remedy, at)
        return None
    phase_word = cell("phase")
    phase = _PHASES.get(" ".join(phase_word.lower().split()))
    if phase_word and phase is None:
        remedy = "write baseline before, reading or baseline after"
        told.tell(f"row {at}", f"‘{phase_word[:30]}’ is no phase of a test", remedy, at)
        return None
    pressure = _pressure(cell(PRESSURE), rows, at)
    flow, flow_is_right = _flow(cell(FLOW), phase, rows, at)
    if pressure is None or not flow_is_right:
        return None
    if phase is None:
        phase = "reading" if flow is not None else None
    if phase == "reading" and flow is None:
        told.tell(f"row {at}", "the reading has no flow", "write it, or call it a baseline", at)
        return None
    return _Row(
        line=at,
        direction=direction,
        phase=phase,
        pressure=pressure,
        flow=flow if phase == "reading" else None,
        device=cell("range")[:30],
    )


def _pressure(cell: str, rows: Rows, at: int) -> float | None:
    value = number(cell, rows.table.delimiter)
    if value is None:
        told = f"pressure ‘{cell[:30]}’ is not a number" if cell else "the row has no pressure"
        rows.told.tell(f"row {at}", told, "write indoor minus outdoor", at)
        return None
    pressure = to_si(value, "pressure", rows.table.pressure)
    if abs(pressure) > MOST_PRESSURE:
        told = f"pressure {value:g} {rows.table.pressure} is {pressure:.0f} Pa, beyond ±500 Pa"
        rows.told.tell(f"row {at}", told, "check the value and the unit of the column", at)
        return None
    return pressure


def _flow(cell: str, phase: Phase | None, rows: Rows, at: int) -> tuple[float | None, bool]:
    """Return the flow [m³/s] (None for an empty cell) and whether the cell can stand."""
    if not cell or (phase in {"before", "after"} and number(cell, rows.table.delimiter) == 0.0):
        return None, True
    value = number(cell, rows.table.delimiter)
    if value is None:
        rows.told.tell(f"row {at}", f"flow ‘{cell[:30]}’ is not a number", "write one number", at)
        return None, False
    if phase in {"before", "after"}:
        told = f"a baseline is read with the fan off, but the row has a flow of {value:g}"
        rows.told.tell(f"row {at}", told, "leave the flow empty, or call it a reading", at)
        return None, False
    if value <= 0.0:
        told = f"flow {value:g} {rows.table.flow} is not above zero"
        remedy = "write what the fan moved, or leave the row out"
        if value < 0.0:
            remedy += "; if it is a pressure, the two columns have changed places"
        rows.told.tell(f"row {at}", told, remedy, at)
        return None, False
    return to_si(value, "flow", rows.table.flow), True


def _directed(rows: Rows, notes: list[str]) -> list[tuple[_Row, Direction | None]]:
    """Return each row with its direction; where none is said, the sign of readings says it."""
    result: list[tuple[_Row, Direction | None]] = []
    guessed = False
    for row in rows.found:
        direction = row.direction
        if direction is None and row.phase == "reading":
            direction = "depressurize" if row.pressure < 0 else "pressurize"
            guessed = True
        result.append((row, direction))
    if guessed:
        notes.append("Directions taken from the sign of the pressures.")
    for known, sign in _SIGNS.items():
        mine = [row for row, d in result if d == known and row.phase == "reading"]
        wrong = [row for row in mine if row.pressure * sign <= 0.0]
        _tell_wrong_signs(known, mine, wrong, rows.told)
    return result


def _tell_wrong_signs(
    direction: str, mine: Sequence[_Row], wrong: Sequence[_Row], told: Told
) -> None:
    minus = "negative when the fan draws air out, positive when it blows in"
    if wrong and len(wrong) == len(mine):
        sentence = f"all pressures of {direction} have the wrong sign"
        told.tell(direction, sentence, f"write indoor minus outdoor: {minus}", wrong[0].line)
        return
    for row in wrong:
        sentence = f"pressure {row.pressure:g} Pa has the wrong sign for {direction}"
        told.tell(f"row {row.line}", sentence, f"indoor minus outdoor is {minus}", row.line)


def _tell_repeats(rows: Rows) -> None:
    seen: dict[tuple[Direction | None, float, float], int] = {}
    for row in rows.found:
        if row.flow is None:
            continue
        key = (row.direction, row.pressure, row.flow)
        if key in seen:
            told = f"the reading stands there twice, first in line {seen[key]}"
            rows.told.tell(f"row {row.line}", told, "leave one of them out", row.line)
        seen.setdefault(key, row.line)


def _series(direction: Direction, rows: Sequence[_Row], told: Told) -> Series:
    """Return one direction; a row without flow is a baseline before or after the readings."""
    marks = [i for i, row in enumerate(rows) if row.phase == "reading"]
    first = marks[0] if marks else len(rows)
    before, after = [], []
    for i, row in enumerate(rows):
        if row.phase == "before" or (row.phase is None and i < first):
            before.append(row.pressure)
        elif row.phase == "after" or (row.phase is None and i > marks[-1]):
            after.append(row.pressure)
        elif row.phase is None:
            sentence = "a row without flow stands between the readings"
            told.tell(f"row {row.line}", sentence, "write its flow, or say its phase", row.line)
    readings = tuple(
        Reading(pressure=row.pressure, flow=row.flow, line=row.line, device=row.device)
        for row in rows
        if row.phase == "reading" and row.flow is not None
    )
    if not readings and not told.problems:
        sentence = f"{direction} has baselines and no reading"
        told.tell(direction, sentence, "add its readings, or leave the direction out", None)
    return Series(
        direction=direction,
        readings=readings,
        baseline_before=tuple(before),
        baseline_after=tuple(after),
    )
