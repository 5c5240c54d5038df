"""The columns of a weather forecast file: their names, units and what is possible in each."""

from __future__ import annotations

import difflib
import re
from dataclasses import dataclass, field

from seamwright.errors import Problem
from seamwright.io.explain import nearest, one_line
from seamwright.units.weather import SHOWN, WeatherMeasure, to_si, unit_named

MOST_PROBLEMS = 40


@dataclass(frozen=True, kw_only=True, slots=True)
class Column:
    """A column: its measure and the range in which its values are possible, in SI."""

    measure: WeatherMeasure
    low: float
    high: float


COLUMNS: dict[str, Column] = {
    "temperature": Column(measure="temperature", low=-70.0, high=60.0),
    "humidity": Column(measure="share", low=0.0, high=1.0),
    "dew point": Column(measure="temperature", low=-90.0, high=40.0),
    "wind": Column(measure="speed", low=0.0, high=80.0),
    "gust": Column(measure="speed", low=0.0, high=120.0),
    "rain": Column(measure="rain", low=0.0, high=300.0),
    "cloud": Column(measure="share", low=0.0, high=1.0),
    "irradiance": Column(measure="sun", low=0.0, high=1500.0),
}
"""What can be on earth in an hour, our own bounds."""

FACTS = {"latitude": 90.0, "longitude": 180.0, "elevation": 6000.0}
"""Facts about the place and the most either way, degrees and metres."""

TIME = "time"
SPELLINGS = {
    "air temperature": "temperature",
    "temp": "temperature",
    "relative humidity": "humidity",
    "rh": "humidity",
    "dewpoint": "dew point",
    "dew point temperature": "dew point",
    "wind speed": "wind",
    "wind gust": "gust",
    "gusts": "gust",
    "precipitation": "rain",
    "cloud cover": "cloud",
    "clouds": "cloud",
    "global horizontal irradiance": "irradiance",
    "ghi": "irradiance",
    "sun": "irradiance",
    "hour": TIME,
    "date": TIME,
}
_KEYS = {
    "c": "c",
    "f": "f",
    "percent": "%",
    "m_s": "m/s",
    "mph": "mph",
    "km_h": "km/h",
    "kn": "kn",
    "mm": "mm",
    "in": "in",
    "w_m2": "w/m2",
}
"""Units as they end a JSON key: ``temperature_c``, ``wind_m_s``."""

_NAMED = re.compile(r"\s*([^\[\]()]*?)\s*(?:[\[(]\s*([^\[\]()]*?)\s*[\])])?\s*")


@dataclass(kw_only=True, slots=True)
class Report:
    """The problems found so far in one file."""

    file: str | None
    problems: list[Problem] = field(default_factory=list)
    left_out: list[str] = field(default_factory=list)

    def tell(self, subject: str, sentence: str, remedy: str, line: int | None) -> None:
        """Note one problem; more than forty would only repeat themselves."""
        if len(self.problems) < MOST_PROBLEMS:
            self.problems.append(
                Problem(
                    subject=one_line(subject),
                    sentence=one_line(sentence),
                    remedy=one_line(remedy),
                    file=self.file,
                    line=line,
                )
            )


def named(cell: str) -> tuple[str, str | None]:
    """Return the plain name of a column and its unit: of ``wind [m/s]`` or of ``wind_m_s``."""
    found = _NAMED.fullmatch(cell)
    name, unit = (cell, None) if found is None else (found[1], found[2])
    key = name.strip().lower()
    if unit is None:
        for end, spelled in _KEYS.items():
            if key.endswith(f"_{end}"):
                key, unit = key.removesuffix(f"_{end}"), spelled
                break
    plain = " ".join(key.replace("_", " ").split())
    return SPELLINGS.get(plain, plain), unit


def column_unit(cell: str, line: int | None, report: Report) -> tuple[str, str] | None:
    """Return the name and unit of a column, ``time`` with an empty unit; None for another.

    A name near a known one is told as a slip; anything else is left out and noted.
    """
    name, unit = named(cell)
    if name == TIME:
        return TIME, ""
    if name not in COLUMNS:
        if difflib.get_close_matches(name[:60], [TIME, *COLUMNS], n=1, cutoff=0.75):
            told = f"there is no column called ‘{name[:40]}’"
            report.tell(name, told, nearest(name, [TIME, *COLUMNS]), line)
        elif one_line(name[:40]) not in report.left_out:
            report.left_out.append(one_line(name[:40]))
        return None
    measure = COLUMNS[name].measure
    if unit is None and measure == "share":
        return name, "%"
    if unit is None:
        first = SHOWN[measure].split(" or ")[0].split(",")[0]
        report.tell(name, f"column {name} has no unit", f"write it as {name} [{first}]", line)
        return None
    known = unit_named(unit, measure)
    if known is None:
        told = f"‘{unit[:20]}’ is no unit of {name}"
        report.tell(name, told, f"use {SHOWN[measure]}", line)
        return None
    return name, known


def valued(text: str, name: str, unit: str, line: int | None, report: Report) -> float | None:
    """Return a value in SI, or None after telling what is wrong with it."""
    column = COLUMNS[name]
    try:
        value = float(text.strip().replace("−", "-"))
    except ValueError:
        value = float("nan")
    if value != value:  # noqa: PLR0124 nan is the one number that is not itself
        told = f"{name} ‘{text.strip()[:30]}’ is not a number" if text.strip() else f"no {name}"
        report.tell(name, told, "write one number, or leave the whole column out", line)
        return None
    si = to_si(value, column.measure, unit)
    if column.low <= si <= column.high:
        return si
    remedy = "check the value and the unit of the column"
    if column.measure == "temperature" and unit == "c" and 60.0 < value <= 130.0:
        remedy = f"it looks like Fahrenheit: name the column {name} [F]"
    report.tell(name, f"{name} {value:g} {unit.upper()} is not possible", remedy, line)
    return None
