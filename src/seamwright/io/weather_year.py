"""Read a typical year of hourly weather: TMY3 tables and the EPW text of building simulation.

Columns by the TMY3 user's manual (NREL/TP-581-43156) and the EPW data dictionary (from memory for
the latter). Hours are local standard time; the value stamped 01:00 is the hour that ends then.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from seamwright.climate.arrays import Floats
from seamwright.climate.generated import NEW_YEAR
from seamwright.climate.sun import Place
from seamwright.climate.weather import HOUR, HourlyWeather
from seamwright.errors import FormatError, InputError, Problem
from seamwright.io.weather_forecast import ForecastFile, read_forecast
from seamwright.io.weather_hours import (
    WHOLE,
    Tell,
    check_order,
    check_units,
    column_in_other_unit,
    epw_stamps,
    tmy3_stamps,
)
from seamwright.io.yaml_text import read_text

_TYPICAL = "Typical weather, not a forecast: it says what to expect of a season, never of a day."
_NO_RAIN = (
    "Rain is not known in {share:.0%} of the hours and counted as none: plan for more wet days."
)
_RAIN_TOLD = "Amounts of rain in such years are often wrong: every wet hour counts as 1 mm."
_FEW = 0.005
"""Part of the hours that may lack a value before it is told. [-] Our own choice."""

MOST_PROBLEMS = 20
WET_HOUR = 1.0
"""What falls in a wet hour of a typical year. [kg/m²] Our own choice, since skins hold less."""


@dataclass(frozen=True, kw_only=True, slots=True)
class _Field:
    """Where a value stands in a row, what one of it is, and what is possible."""

    name: str
    at: int
    size: float
    low: float
    high: float
    may_miss: bool = False


@dataclass(frozen=True, kw_only=True, slots=True)
class _Table:
    """The rows of a year, the hour each is stamped with, and how many lines stand above."""

    rows: Sequence[Sequence[str]]
    stamps: Sequence[int | None]
    above: int
    label: str | None


_EPW = (
    _Field(name="temperature", at=6, size=1.0, low=-70.0, high=60.0),
    _Field(name="humidity", at=8, size=0.01, low=0.0, high=1.1),
    _Field(name="irradiance", at=13, size=1.0, low=0.0, high=1500.0),
    _Field(name="direction", at=20, size=math.pi / 180, low=0.0, high=6.284, may_miss=True),
    _Field(name="wind", at=21, size=1.0, low=0.0, high=40.0),
    _Field(name="cloud", at=23, size=0.1, low=0.0, high=1.0),
    _Field(name="rain", at=33, size=1.0, low=0.0, high=200.0, may_miss=True),
)
_TMY3 = {
    "temperature": ("Dry-bulb (C)", 1.0, -70.0, 60.0),
    "humidity": ("RHum (%)", 0.01, 0.0, 1.1),
    "irradiance": ("GHI (W/m^2)", 1.0, 0.0, 1500.0),
    "wind": ("Wspd (m/s)", 1.0, 0.0, 60.0),
    "direction": ("Wdir (degrees)", math.pi / 180.0, 0.0, 6.284),
    "cloud": ("OpqCld (tenths)", 0.1, 0.0, 1.0),
    "rain": ("Lprecip depth (mm)", 1.0, 0.0, 200.0),
}


def read_weather(source: Path | str | bytes, *, name: str | None = None) -> ForecastFile:
    """Return the weather of a file: an hourly forecast, a TMY3 table or an EPW year.

    Raises
    ------
    InputError
        With what is wrong, its line and a remedy.
    """
    text, label = read_text(source, "weather", name)
    first, _, rest = text.partition("\n")
    if first.startswith("LOCATION,"):
        return _from_epw(text, label)
    if rest.startswith("Date (MM/DD/YYYY)"):
        return _from_tmy3(text, label)
    return read_forecast(text if "\n" in text else f"{text}\n", name=label)


def _from_epw(text: str, label: str | None) -> ForecastFile:
    lines = text.splitlines()
    head = lines[0].split(",")
    where = _place(head, (6, 7, 8, 9), label)
    first = next((k for k, line in enumerate(lines) if line[:4].isdigit()), len(lines))
    rows = _rows(lines, first)
    table = _Table(rows=rows, stamps=epw_stamps(rows), above=first, label=label)
    return _year(table, _EPW, where)


def _from_tmy3(text: str, label: str | None) -> ForecastFile:
    lines = text.splitlines()
    where = _place(lines[0].split(","), (4, 5, 3, 6), label)
    titles = [title.strip() for title in lines[1].split(",")]
    missing = [t for key, (t, *_) in _TMY3.items() if t not in titles and key != "direction"]
    if missing:
        told = f"the table has no column {', '.join(missing)}"
        other = column_in_other_unit(missing[0], titles)
        remedy = f"it has {other}: convert it to the unit of TMY3" if other is not None else (
            "take a whole TMY3 file"
        )  # fmt: skip
        raise FormatError([_problem(label, 2, told, remedy)])
    fields = [
        _Field(name=key, at=titles.index(title), size=size, low=low, high=high,
               may_miss=key in ("rain", "direction"))
        for key, (title, size, low, high) in _TMY3.items() if title in titles
    ]  # fmt: skip
    rows = _rows(lines, 2)
    table = _Table(rows=rows, stamps=tmy3_stamps(rows), above=2, label=label)
    return _year(table, fields, where)


def _rows(lines: Sequence[str], first: int) -> list[list[str]]:
    """Return the rows of the table; blank lines stand only at its end."""
    rows = [line.split(",") for line in lines[first:]]
    while rows and rows[-1] == [""]:
        rows.pop()
    return rows


def _place(
    head: Sequence[str], at: tuple[int, int, int, int], label: str | None
) -> tuple[Place, float]:
    """Return the place and offset from universal time [s] in the first line of a year."""
    latitude, longitude, zone, elevation = (_float(head, k) for k in at)
    known = abs(latitude) <= 90 and abs(longitude) <= 180 and abs(zone) <= 14
    if not (known and abs(elevation) <= 9000):
        told = "the first line does not say latitude, longitude, time zone and elevation"
        raise FormatError([_problem(label, 1, told, "take the file as it was published")])
    place = Place(
        latitude=math.radians(latitude), longitude=math.radians(longitude), elevation=elevation
    )
    return place, HOUR * zone


def _year(table: _Table, fields: Sequence[_Field], where: tuple[Place, float]) -> ForecastFile:
    problems: list[Problem] = []

    def tell(row: int, told: str, remedy: str) -> None:
        if len(problems) < MOST_PROBLEMS:
            problems.append(_problem(table.label, table.above + row + 1, told, remedy))

    if not table.rows:
        raise FormatError([_problem(table.label, table.above, "the year has no hours", WHOLE)])
    check_order(table.stamps, tell)
    found = {field.name: _column(table.rows, field, tell) for field in fields}
    if not problems:
        check_units(found, tell)
    if problems:
        raise InputError(problems)
    return _file(found, where, table.label)


def _file(found: dict[str, Floats], where: tuple[Place, float], label: str | None) -> ForecastFile:
    place, offset = where
    rain, direction = found["rain"], found.get("direction")
    lost = float(np.mean(np.isnan(rain)))
    notes = (_TYPICAL, _RAIN_TOLD, *((_NO_RAIN.format(share=lost),) if lost > _FEW else ()))
    if direction is not None and np.mean(np.isnan(direction)) > _FEW:
        direction = None
    weather = HourlyWeather(
        start=NEW_YEAR - offset,
        utc_offset=offset,
        air=found["temperature"],
        humidity=np.minimum(found["humidity"], 1.0),
        wind=found["wind"],
        rain=np.where(np.nan_to_num(rain) > 0.0, WET_HOUR, 0.0),
        cloud=found["cloud"],
        sun=found["irradiance"],
        direction=None if direction is None else np.nan_to_num(direction),
        source="" if label is None else label,
    )
    return ForecastFile(weather=weather, place=place, notes=notes)


def _column(rows: Sequence[Sequence[str]], field: _Field, tell: Tell) -> Floats:
    """Return a column in SI; what may be missing is nan where it is."""
    values = np.array([_float(row, field.at) * field.size for row in rows], dtype=np.float64)
    if field.name == "rain":  # the next column says over how many hours the depth was gathered
        hours = np.array([_float(row, field.at + 1) for row in rows], dtype=np.float64)
        values[(hours != 1.0) & (values > 0.0)] = math.nan
    wrong = ~((values >= field.low) & (values <= field.high))
    if field.may_miss:
        values[wrong] = math.nan
        return values
    for row in np.flatnonzero(wrong)[:20]:
        shown = rows[row][field.at].strip()[:20] if field.at < len(rows[row]) else "nothing"
        remedy = WHOLE
        if field.name == "temperature" and 60.0 < values[row] <= 130.0:
            remedy = "it looks like Fahrenheit: give temperatures in °C"
        tell(int(row), f"{field.name} ‘{shown}’ is not possible", remedy)
    return values


def _float(cells: Sequence[str], at: int) -> float:
    try:
        return float(cells[at])
    except (ValueError, IndexError):
        return math.nan


def _problem(label: str | None, line: int, sentence: str, remedy: str) -> Problem:
    return Problem(subject="weather", sentence=sentence, remedy=remedy, file=label, line=line)
