"""Read an hourly weather forecast from CSV or JSON, with units in its column names.

CSV: lines starting with ``#`` are remarks; facts about the place (``latitude, 47.6``) may stand
above the table; the table's header names its columns, each with its unit in brackets.
JSON: ``{"latitude": 47.6, "longitude": -122.3, "hours": [{"time": "...", "temperature_c": 9.5}]}``.
"""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np

from seamwright.climate.arrays import Floats
from seamwright.climate.generated import GENERATED
from seamwright.climate.moist_air import relative_humidity, saturation_over_water
from seamwright.climate.sun import Place
from seamwright.climate.weather import HOUR, HourlyWeather
from seamwright.errors import FormatError, InputError, Problem
from seamwright.io.panel_list import split_row
from seamwright.io.weather_words import FACTS, TIME, Report, column_unit, named, valued
from seamwright.io.yaml_text import YamlText, read_text, read_yaml

MOST_HOURS = 9000
_NEEDED = ("temperature", "wind", "rain")
_EXAMPLE = "2026-03-14T08:00-07:00"


@dataclass(frozen=True, kw_only=True, slots=True)
class ForecastFile:
    """A forecast, the place it is for where the file says so, and what was taken for granted."""

    weather: HourlyWeather
    place: Place | None
    notes: tuple[str, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class _Row:
    """One hour as text: cells by column name, and where it stands."""

    line: int | None
    cells: Mapping[str, str]


def read_forecast(source: Path | str | bytes, *, name: str | None = None) -> ForecastFile:
    """Return the hourly forecast of a CSV or JSON file, or of its text.

    Hours must follow each other without a gap. Humidity may be given as dew point. Without cloud
    the sky is taken as clear, which makes nights cold.

    Raises
    ------
    FormatError
        When the file cannot be read as a forecast at all.
    InputError
        With every value that cannot be, its line and a remedy.
    """
    text, label = read_text(source, "forecast", name)
    report = Report(file=label)
    if text.lstrip().startswith("{"):
        facts, units, rows = _from_json(text, label, report)
    else:
        facts, units, rows = _from_csv(text, report)
    if report.problems:
        raise InputError(report.problems)
    _require(units, rows, report)
    file = _forecast(facts, units, rows, report)
    return file if not _tells_generated(text) else _generated(file)


def _tells_generated(text: str) -> bool:
    """Return whether a remark or the word ``source`` says that the hours were generated."""
    head = text[:2000].splitlines()
    return any(GENERATED in line and line.lstrip().startswith(("#", '"source"')) for line in head)


def _generated(file: ForecastFile) -> ForecastFile:
    weather = replace(file.weather, source=f"{GENERATED}, read from {file.weather.source}")
    return replace(file, weather=weather)


def _from_csv(text: str, report: Report) -> tuple[dict[str, float], dict[str, str], list[_Row]]:
    facts: dict[str, float] = {}
    header: list[str] | None = None
    delimiter = ","
    units: dict[str, str] = {}
    rows: list[_Row] = []
    for number, line in enumerate(text.splitlines(), start=1):
        if not line.strip() or line.lstrip().startswith("#"):
            continue
        if header is None:
            delimiter = next((d for d in (";", "\t", ",") if d in line), ",")
            cells = split_row(line, delimiter)
            if not any(named(cell)[0] == TIME for cell in cells):
                _fact(cells, number, facts, report)
                continue
            header = _header(cells, number, units, report)
            continue
        cells = [cell.strip() for cell in split_row(line, delimiter)]
        if len(cells) < len(header):
            told = f"the row has {len(cells)} cells and the header {len(header)} columns"
            report.tell("row", told, "give a value for every column", number)
            continue
        rows.append(_Row(line=number, cells=dict(zip(header, cells, strict=False))))
    if header is None:
        told = "no line names the columns; one of them must be time"
        raise FormatError([_problem(report, told, "start the table with time, temperature [C]")])
    return facts, units, rows


def _header(cells: Sequence[str], number: int, units: dict[str, str], report: Report) -> list[str]:
    """Return the plain names of the columns, noting their units; an unknown one gets no name."""
    names: list[str] = []
    for cell in cells:
        found = column_unit(cell, number, report)
        name = "" if found is None else found[0]
        if name and name in names:
            report.tell(name, f"column {name} is there twice", "leave one of them out", number)
        if found is not None:
            units[name] = found[1]
        names.append(name)
    return names


def _fact(cells: Sequence[str], line: int, facts: dict[str, float], report: Report) -> None:
    name = named(cells[0])[0]
    value = cells[1].strip() if len(cells) > 1 else ""
    if name not in FACTS:
        told = f"‘{cells[0].strip()[:40]}’ is no fact about the place and no table begins here"
        report.tell(name, told, f"known here: {', '.join(FACTS)}, or a table with time", line)
        return
    _note_fact(name, value, line, facts, report)


def _note_fact(
    name: str, text: str, line: int | None, facts: dict[str, float], report: Report
) -> None:
    try:
        value = float(text)
    except ValueError:
        value = math.nan
    if not abs(value) <= FACTS[name]:
        unit = "metres" if name == "elevation" else "degrees"
        told = f"{name} ‘{text[:30]}’ is no number within ±{FACTS[name]:g}"
        report.tell(name, told, f"write it as a number in {unit}", line)
        return
    facts[name] = value


def _from_json(
    text: str, label: str | None, report: Report
) -> tuple[dict[str, float], dict[str, str], list[_Row]]:
    yaml = read_yaml(text.encode(), what="forecast", name=label)
    tree = yaml.tree
    hours = tree.get("hours") if isinstance(tree, dict) else None
    if not isinstance(tree, dict) or not isinstance(hours, list):
        told = "the forecast has no list called hours"
        raise FormatError([_problem(report, told, 'write {"hours": [{"time": "...", ...}]}')])
    facts: dict[str, float] = {}
    for name in FACTS:
        key = f"{name}_m" if name == "elevation" and name not in tree else name
        if key in tree:
            _note_fact(name, str(tree[key]), _line(yaml, (key,)), facts, report)
    units: dict[str, str] = {}
    rows = [_json_row(yaml, k, entry, units, report) for k, entry in enumerate(hours)]
    return facts, units, rows


def _json_row(yaml: YamlText, k: int, entry: object, units: dict[str, str], report: Report) -> _Row:
    line = _line(yaml, ("hours", k))
    if not isinstance(entry, dict):
        report.tell("hours", f"hour no. {k + 1} is not a group of values", "use {...}", line)
        return _Row(line=line, cells={})
    cells: dict[str, str] = {}
    for key, value in entry.items():
        if len(report.problems) >= 8:
            break  # the same keys are wrong in every hour
        found = column_unit(str(key), _line(yaml, ("hours", k, str(key))), report)
        if found is None:
            continue
        name, unit = found
        if units.setdefault(name, unit) != unit:
            report.tell(name, f"{name} changes its unit here", "keep one unit throughout", line)
        cells[name] = "" if value is None else str(value)
    return _Row(line=line, cells=cells)


def _line(yaml: YamlText, path: tuple[str | int, ...]) -> int | None:
    place = yaml.place(path)
    return None if place is None else place.line


def _require(units: Mapping[str, str], rows: Sequence[_Row], report: Report) -> None:
    missing = [column for column in (TIME, *_NEEDED) if column not in units]
    if "humidity" not in units and "dew point" not in units:
        missing.append("humidity or dew point")
    if missing:
        told = f"the forecast has no column {', '.join(missing)}"
        raise FormatError([_problem(report, told, "add it, with its unit in brackets")])
    if not rows:
        told = "the forecast has a header and no hours"
        raise FormatError([_problem(report, told, "add a row for each hour")])
    if len(rows) > MOST_HOURS:
        told = f"the forecast has {len(rows)} hours, more than {MOST_HOURS}"
        raise FormatError([_problem(report, told, "give at most one year")])


def _forecast(
    facts: Mapping[str, float],
    units: Mapping[str, str],
    rows: Sequence[_Row],
    report: Report,
) -> ForecastFile:
    start, offset = _times(rows, report)
    columns = {
        name: _column(rows, name, unit, report) for name, unit in units.items() if name != TIME
    }
    if report.problems:
        raise InputError(report.problems)
    notes = [f"Columns left out: {', '.join(report.left_out)}."] if report.left_out else []
    count = len(rows)
    air = columns["temperature"]
    humidity = columns.get("humidity")
    if humidity is None:
        humidity = _from_dew_point(air, columns["dew point"], rows, report)
    cloud = columns.get("cloud")
    if cloud is None:
        cloud = np.zeros(count)
        notes.append("The forecast has no cloud: the sky is taken as clear, nights as cold.")
    place = _place(facts)
    if place is None:
        notes.append(
            "The forecast names no place (latitude, longitude): the sun on a face is left out."
        )
    if report.problems:
        raise InputError(report.problems)
    weather = HourlyWeather(
        start=start,
        utc_offset=offset,
        air=air,
        humidity=humidity,
        wind=columns["wind"],
        rain=columns["rain"],
        cloud=cloud,
        gust=columns.get("gust"),
        sun=columns.get("irradiance"),
        source="" if report.file is None else report.file,
    )
    return ForecastFile(weather=weather, place=place, notes=tuple(notes))


def _place(facts: Mapping[str, float]) -> Place | None:
    if "latitude" not in facts or "longitude" not in facts:
        return None
    return Place(
        latitude=math.radians(facts["latitude"]),
        longitude=math.radians(facts["longitude"]),
        elevation=facts.get("elevation", 0.0),
    )


def _times(rows: Sequence[_Row], report: Report) -> tuple[float, float]:
    """Return the first instant and its offset from universal time, in seconds."""
    first: dt.datetime | None = None
    expected: dt.datetime | None = None
    for row in rows:
        text = row.cells.get(TIME, "")
        at = _instant(text)
        if at is None:
            told = f"time ‘{text[:40]}’ is not a date and hour with its offset"
            report.tell(TIME, told, f"write it as {_EXAMPLE}", row.line)
            expected = None
            continue
        if expected is not None and at != expected:
            hours = (at - expected).total_seconds() / HOUR
            told = (
                f"{hours:g} hours are missing before {text}" if hours > 0 else f"{text} goes back"
            )
            report.tell(TIME, told, "give every hour once, in order", row.line)
        first = at if first is None else first
        expected = at + dt.timedelta(hours=1)
    if first is None:
        return 0.0, 0.0
    offset = first.utcoffset()
    return first.timestamp(), 0.0 if offset is None else offset.total_seconds()


def _instant(text: str) -> dt.datetime | None:
    try:
        at = dt.datetime.fromisoformat(text.strip())
    except ValueError:
        return None
    return None if at.tzinfo is None else at


def _column(rows: Sequence[_Row], name: str, unit: str, report: Report) -> Floats:
    values = [valued(row.cells.get(name, ""), name, unit, row.line, report) for row in rows]
    if (
        name == "humidity"
        and len(values) > 5
        and all(v is not None and v <= 0.0101 for v in values)
    ):
        told = "no hour has a humidity above 1 %"
        report.tell(name, told, "write humidity in percent, 70 for 70 %", rows[0].line)
    return np.array([math.nan if value is None else value for value in values], dtype=np.float64)


def _from_dew_point(air: Floats, dew: Floats, rows: Sequence[_Row], report: Report) -> Floats:
    for k in np.flatnonzero(dew > air + 0.6):
        told = f"the dew point {dew[k]:.1f} °C is above the air at {air[k]:.1f} °C"
        report.tell("dew point", told, "check both columns and their units", rows[int(k)].line)
    humidity = relative_humidity(air, saturation_over_water(dew), over_water=True)
    return np.minimum(humidity, 1.0)


def _problem(report: Report, sentence: str, remedy: str) -> Problem:
    return Problem(subject="forecast", sentence=sentence, remedy=remedy, file=report.file)
