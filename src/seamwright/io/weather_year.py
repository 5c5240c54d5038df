"""Read a typical year of hourly weather: TMY3 tables and the EPW text of building simulation.

Columns by the TMY3 user's manual (NREL/TP-581-43156) and the EPW data dictionary (from memory for
the latter). Hours are local standard time; the value stamped 01:00 is the hour that ends then.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from seamwright.climate.arrays import Floats
from seamwright.climate.sun import Place
from seamwright.climate.weather import HOUR, HourlyWeather
from seamwright.climate.year import YEAR_HOURS
from seamwright.errors import FormatError, InputError, Problem
from seamwright.io.weather_forecast import ForecastFile, read_forecast
from seamwright.io.yaml_text import read_text

NEW_YEAR = 978_307_200.0
"""2001-01-01T00:00Z, a common year that stands for any. [s]"""

_TYPICAL = "Typical weather, not a forecast: it says what to expect of a season, never of a day."
_NO_RAIN = (
    "Rain is not known in {share:.0%} of the hours and counted as none: plan for more wet days."
)
_RAIN_TOLD = "Amounts of rain in such years are often wrong: every wet hour counts as 1 mm."
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


_EPW = (
    _Field(name="temperature", at=6, size=1.0, low=-70.0, high=60.0),
    _Field(name="humidity", at=8, size=0.01, low=0.0, high=1.1),
    _Field(name="irradiance", at=13, size=1.0, low=0.0, high=1500.0),
    _Field(name="wind", at=21, size=1.0, low=0.0, high=40.0),
    _Field(name="cloud", at=23, size=0.1, low=0.0, high=1.0),
    _Field(name="rain", at=33, size=1.0, low=0.0, high=200.0, may_miss=True),
)
_TMY3 = {
    "temperature": ("Dry-bulb (C)", 1.0, -70.0, 60.0),
    "humidity": ("RHum (%)", 0.01, 0.0, 1.1),
    "irradiance": ("GHI (W/m^2)", 1.0, 0.0, 1500.0),
    "wind": ("Wspd (m/s)", 1.0, 0.0, 60.0),
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
    return _year(lines, first, _EPW, where, label)


def _from_tmy3(text: str, label: str | None) -> ForecastFile:
    lines = text.splitlines()
    where = _place(lines[0].split(","), (4, 5, 3, 6), label)
    titles = [title.strip() for title in lines[1].split(",")]
    missing = [title for title, *_ in _TMY3.values() if title not in titles]
    if missing:
        told = f"the table has no column {', '.join(missing)}"
        raise FormatError([_problem(label, 2, told, "take a whole TMY3 file")])
    fields = [
        _Field(
            name=key, at=titles.index(title), size=size, low=low, high=high, may_miss=key == "rain"
        )
        for key, (title, size, low, high) in _TMY3.items()
    ]
    return _year(lines, 2, fields, where, label)


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


def _year(
    lines: Sequence[str],
    first: int,
    fields: Sequence[_Field],
    where: tuple[Place, float],
    label: str | None,
) -> ForecastFile:
    place, offset = where
    rows = [line.split(",") for line in lines[first:] if line.strip()]
    if len(rows) != YEAR_HOURS:
        told = f"the year has {len(rows)} hours, not {YEAR_HOURS}"
        raise FormatError([_problem(label, first + 1, told, "take a whole common year")])
    problems: list[Problem] = []

    def tell(row: int, told: str) -> None:
        if len(problems) < 20:
            remedy = "take the file as it was published"
            problems.append(_problem(label, first + row + 1, told, remedy))

    found = {field.name: _column(rows, field, tell) for field in fields}
    if problems:
        raise InputError(problems)
    rain = found["rain"]
    lost = float(np.mean(np.isnan(rain)))
    notes = (_TYPICAL, _RAIN_TOLD, *((_NO_RAIN.format(share=lost),) if lost > 0.005 else ()))
    weather = HourlyWeather(
        start=NEW_YEAR - offset,
        utc_offset=offset,
        air=found["temperature"],
        humidity=np.minimum(found["humidity"], 1.0),
        wind=found["wind"],
        rain=np.where(np.nan_to_num(rain) > 0.0, WET_HOUR, 0.0),
        cloud=found["cloud"],
        sun=found["irradiance"],
        source="" if label is None else label,
    )
    return ForecastFile(weather=weather, place=place, notes=notes)


def _column(
    rows: Sequence[Sequence[str]], field: _Field, tell: Callable[[int, str], None]
) -> Floats:
    """Return a column in SI; what may be missing is nan where it is."""
    values = np.array([_float(row, field.at) * field.size for row in rows], dtype=np.float64)
    if field.may_miss:  # the next column says over how many hours the depth was gathered
        hours = np.array([_float(row, field.at + 1) for row in rows], dtype=np.float64)
        values[(hours != 1.0) & (values > 0.0)] = math.nan
    wrong = ~((values >= field.low) & (values <= field.high))
    if field.may_miss:
        values[wrong] = math.nan
        return values
    for row in np.flatnonzero(wrong)[:20]:
        shown = rows[row][field.at].strip()[:20] if field.at < len(rows[row]) else "nothing"
        tell(int(row), f"{field.name} ‘{shown}’ is not possible")
    return values


def _float(cells: Sequence[str], at: int) -> float:
    try:
        return float(cells[at])
    except (ValueError, IndexError):
        return math.nan


def _problem(label: str | None, line: int, sentence: str, remedy: str) -> Problem:
    return Problem(subject="weather", sentence=sentence, remedy=remedy, file=label, line=line)
