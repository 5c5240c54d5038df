"""Fan-test files: facts above a table of readings, as CSV with the units in the names.

Facts are lines of two cells (``indoor temperature [F], 70``). The table starts at the line that
names a ``pressure`` and a ``flow`` column; ``direction``, ``phase``, ``range`` and ``remark`` may
follow. Pressures are indoor minus outdoor. Lines that start with ``#`` are passed over.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from seamwright.errors import FormatError, InputError, Problem
from seamwright.io.explain import nearest, one_line
from seamwright.io.fan_file import (
    COLUMNS,
    DELIMITERS,
    FACTS,
    RANGE,
    TEXTS,
    Spot,
    Told,
    measured,
    named,
    number,
    unit_of,
    unknown,
    with_tabs,
)
from seamwright.io.fan_plausible import tell_implausible
from seamwright.io.fan_rows import FLOW, PRESSURE, Rows, Table, series_of
from seamwright.io.fan_units import to_si
from seamwright.io.panel_list import split_row
from seamwright.io.yaml_text import LARGEST_FILE, read_text
from seamwright.leakage.air import barometric_pressure
from seamwright.leakage.types import Accuracy, Conditions, Device, Envelope, Series

_MOST_LINES = 20_000
_EXAMPLE = "start it with a header such as: direction, phase, pressure [Pa], flow [cfm]"


@dataclass(frozen=True, kw_only=True, slots=True)
class FanFile:
    """What a fan-test file says. `notes` are sentences about what the reader had to assume.

    `texts` holds the plain words of the file by name: house, tester, date, remark.
    """

    series: tuple[Series, ...]
    conditions: Conditions
    envelope: Envelope
    devices: tuple[Device, ...] = ()
    accuracy: Accuracy = field(default_factory=Accuracy)
    notes: tuple[str, ...] = ()
    texts: Mapping[str, str] = field(default_factory=dict)
    elevation: float | None = None


@dataclass(kw_only=True, slots=True)
class _Facts:
    """The lines above the table: numbers in SI, words, device ranges, and where each stood."""

    numbers: dict[str, float] = field(default_factory=dict)
    texts: dict[str, str] = field(default_factory=dict)
    devices: list[Device] = field(default_factory=list)
    lines: dict[str, int] = field(default_factory=dict)


def read_fan_test(path_or_text: Path | str | bytes, *, name: str | None = None) -> FanFile:
    """Return the readings, weather and house numbers of a fan-test file, in SI.

    The delimiter is a comma, semicolon, tab, bar, caret, tilde or colon, or two blanks and more. A
    string with a line break, or bytes, is the text itself; anything else is a path.

    Raises
    ------
    FormatError
        When the file is missing, too large, binary, empty, or has no table of readings.
    InputError
        With every wrong line, what is wrong with it and what to do.
    """
    text, label = _text(path_or_text, name)
    lines = [(at, line) for at, line in enumerate(text.splitlines(), start=1) if _is_content(line)]
    if not lines:
        raise _unreadable("the fan test file is empty", _EXAMPLE, label, 1)
    if len(lines) > _MOST_LINES:
        raise _unreadable(f"the fan test file has {len(lines)} lines", "one test a file", label, 1)
    at = _header(lines)
    if at is None:
        lines = [(number, with_tabs(line)) for number, line in lines]
        at = _header(lines)
    if at is None:
        near = [i for i, (_, line) in enumerate(lines) if "pressure" in line.lower()]
        told = "the fan test file has no table with a pressure and a flow column"
        raise _unreadable(told, _EXAMPLE, label, lines[near[-1]][0] if near else None)
    told_all = Told(file=label)
    delimiter = max(DELIMITERS, key=lines[at][1].count)
    facts = _facts(lines[:at], delimiter, told_all)
    table = _table(lines[at], delimiter, told_all)
    series: tuple[Series, ...] = ()
    notes: list[str] = []
    if table is not None:
        rows = Rows(table=table, told=told_all, fixed=facts.texts.get("direction", ""))
        series = series_of(rows, lines[at + 1 :], notes)
        tell_implausible(series, facts.numbers.get("volume"), table, told_all)
    conditions = _conditions(facts, told_all, notes)
    if told_all.problems:
        raise InputError(sorted(told_all.problems, key=lambda p: p.line or 0))
    assert conditions is not None
    return _file(series, conditions, facts, notes)


def _text(source: Path | str | bytes, name: str | None) -> tuple[str, str | None]:
    """Return the text of a file, refusing a large one with a remedy that fits a fan test."""
    try:
        return read_text(source, "fan test", name)
    except FormatError as error:
        problem = error.problems[0]
        if f"{LARGEST_FILE / 1e6:.0f} MB" not in problem.sentence:
            raise
        told = Problem(
            subject=problem.subject,
            sentence=problem.sentence,
            remedy="check that this is the fan test file; one test is a few lines",
            file=problem.file,
        )
        raise FormatError([told]) from None


def _unreadable(told: str, remedy: str, file: str | None, line: int | None) -> FormatError:
    return FormatError(
        [Problem(subject="fan test", sentence=told, remedy=remedy, file=file, line=line)]
    )


def _is_content(line: str) -> bool:
    return bool(line.strip(" ,;\t|^~:\ufeff")) and not line.lstrip().startswith("#")


def _header(lines: Sequence[tuple[int, str]]) -> int | None:
    """Return where the header of the table stands among the lines."""
    return next((i for i, (_, line) in enumerate(lines) if _is_header(line)), None)


def _is_header(line: str) -> bool:
    delimiter = max(DELIMITERS, key=line.count)
    names = {named(cell)[0] for cell in split_row(line, delimiter)}
    return {PRESSURE, FLOW} <= names


def _facts(lines: Sequence[tuple[int, str]], delimiter: str, told: Told) -> _Facts:
    facts = _Facts()
    for at, line in lines:
        cells = [cell.strip() for cell in split_row(line, delimiter)]
        if len(cells) == 1 and ":" in line:
            cells = [part.strip() for part in line.split(":", 1)]
        name, unit = named(cells[0])
        spot = Spot(line=at, delimiter=delimiter, told=told)
        values = [cell for cell in cells[1:] if cell]
        if not values:
            continue
        if name.startswith(RANGE):
            raw = cells[0].split("[")[0].split("(")[0].strip().rstrip(":")
            _device(raw, unit, values, facts, spot)
            continue
        if name not in FACTS and name not in TEXTS:
            unknown("fact", name, (*FACTS, *TEXTS, f"{RANGE} A"), at, told)
            continue
        if name in facts.lines:
            remedy = "keep one of the two lines"
            told.tell(name, f"{name} is given again, first in line {facts.lines[name]}", remedy, at)
            continue
        facts.lines[name] = at
        if name in TEXTS:
            facts.texts[name] = one_line(", ".join(values))[:200]
            continue
        known = unit_of(name, FACTS[name].measure, unit, at, told)
        value = None if known is None else measured(values[0], name, known, spot)
        if value is not None:
            facts.numbers[name] = value
    return facts


def _device(name: str, unit: str | None, values: Sequence[str], facts: _Facts, spot: Spot) -> None:
    at, told = spot.line, spot.told
    known = unit_of(RANGE, "flow", unit, at, told)
    words = " ".join(values).lower().replace(" to ", " ").replace("..", " ").split()
    if len(words) == 1 and words[0].count("-") == 1:
        words = words[0].split("-")
    numbers = [number(word, spot.delimiter) for word in words]
    if known is None:
        return
    low, high = (numbers[0], numbers[1]) if len(numbers) == 2 else (None, None)
    if low is None or high is None or not 0.0 <= low < high:
        remedy = f"write it as: {RANGE} A [cfm], 300 to 1300"
        told.tell(name, f"{name}: ‘{' '.join(values)[:40]}’ is no range of flow", remedy, at)
        return
    short = name[len(RANGE) :].strip()[:30]
    if any(device.name.lower() == short.lower() for device in facts.devices):
        told.tell(name, f"{name} is given again", "give each range a name of its own", at)
        return
    facts.devices.append(
        Device(name=short, low=to_si(low, "flow", known), high=to_si(high, "flow", known))
    )


def _table(header: tuple[int, str], delimiter: str, told: Told) -> Table | None:
    """Return where the columns of the table stand, or None when it cannot be read at all."""
    at, line = header
    index: dict[str, int] = {}
    units: dict[str, str | None] = {}
    for place, cell in enumerate(split_row(line, delimiter)):
        name, unit = named(cell)
        if not name:
            continue
        if name not in COLUMNS:
            unknown("column", name, COLUMNS, at, told)
        elif name in index:
            told.tell(name, f"column {name} stands there twice", "keep one of them", at)
        else:
            index[name], units[name] = place, unit
    pressure = unit_of(PRESSURE, "pressure", units[PRESSURE], at, told)
    flow = unit_of(FLOW, "flow", units[FLOW], at, told)
    if pressure is None or flow is None:
        return None
    return Table(index=index, pressure=pressure, flow=flow, delimiter=delimiter, line=at)


def _conditions(facts: _Facts, told: Told, notes: list[str]) -> Conditions | None:
    numbers = facts.numbers
    for name in ("indoor temperature", "outdoor temperature"):
        if name not in facts.lines:
            remedy = f"add a line above the table: {name} [F], 68"
            told.tell(name, f"the file does not say the {name}", remedy, None)
    if not {"indoor temperature", "outdoor temperature"} <= set(numbers):
        return None
    pressure = numbers.get("barometric pressure")
    if pressure is None and "elevation" in numbers:
        pressure = barometric_pressure(numbers["elevation"])
        notes.append("Barometric pressure taken from the elevation by the standard atmosphere.")
    elif pressure is None:
        pressure = barometric_pressure(0.0)
        notes.append("No barometric pressure and no elevation given: sea level taken.")
    if numbers["indoor temperature"] < 0.0:
        notes.append(
            f"Indoor temperature {numbers['indoor temperature']:.1f} °C is below freezing: check "
            "its unit if the house was heated."
        )
    humidities = ("indoor humidity", "outdoor humidity")
    missing = [humidity for humidity in humidities if humidity not in numbers]
    if missing:
        notes.append(f"{' and '.join(missing).capitalize()} not given: 50 % taken.")
    return Conditions(
        indoor_temperature=numbers["indoor temperature"],
        outdoor_temperature=numbers["outdoor temperature"],
        barometric_pressure=pressure,
        indoor_humidity=numbers.get("indoor humidity", 0.5),
        outdoor_humidity=numbers.get("outdoor humidity", 0.5),
        wind_speed=numbers.get("wind"),
        height=numbers.get("height"),
    )


def _file(
    series: tuple[Series, ...], conditions: Conditions, facts: _Facts, notes: Sequence[str]
) -> FanFile:
    numbers = facts.numbers
    used = {reading.device for one in series for reading in one.readings if reading.device}
    known = {device.name.lower() for device in facts.devices}
    strange = sorted(name for name in used if name.lower() not in known)
    more = [
        f"No device range is given for ‘{name}’, so its readings are not checked against one"
        + (f" ({nearest(name, sorted(known))})." if known else ".")
        for name in strange
    ]
    return FanFile(
        series=series,
        conditions=conditions,
        envelope=Envelope(
            volume=numbers.get("volume"),
            area=numbers.get("area"),
            floor_area=numbers.get("floor area"),
            rule=facts.texts.get("volume rule", "as the tester's file says; rule not stated"),
        ),
        devices=tuple(facts.devices),
        accuracy=Accuracy(
            flow=numbers.get("flow uncertainty"),
            pressure=numbers.get("pressure uncertainty"),
            volume=numbers.get("volume uncertainty"),
            area=numbers.get("area uncertainty"),
        ),
        notes=(*notes, *more),
        texts={k: v for k, v in facts.texts.items() if k not in {"direction", "volume rule"}},
        elevation=numbers.get("elevation"),
    )
