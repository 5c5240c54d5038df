"""The words of a fan-test file: facts above the table, columns of the table, cells and problems."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import TypeAlias

from seamwright.errors import Problem
from seamwright.io.explain import nearest, one_line
from seamwright.io.fan_units import SHOWN, Measure, to_si, unit_named

MOST_PROBLEMS = 40
DELIMITERS = (",", ";", "\t", "|", "^", "~", ":")
"""The first of those that part most cells of the header parts the file."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Fact:
    """A number that may stand above the table: its measure and the range it must lie in, in SI."""

    measure: Measure
    low: float
    high: float


FACTS: dict[str, Fact] = {
    "indoor temperature": Fact(measure="temperature", low=-60.0, high=60.0),
    "outdoor temperature": Fact(measure="temperature", low=-60.0, high=60.0),
    "indoor humidity": Fact(measure="share", low=0.0, high=1.0),
    "outdoor humidity": Fact(measure="share", low=0.0, high=1.0),
    "barometric pressure": Fact(measure="air pressure", low=50e3, high=110e3),
    "elevation": Fact(measure="length", low=-450.0, high=5500.0),
    "wind": Fact(measure="speed", low=0.0, high=60.0),
    "height": Fact(measure="length", low=1.0, high=200.0),
    "volume": Fact(measure="volume", low=5.0, high=1e6),
    "area": Fact(measure="area", low=10.0, high=1e6),
    "floor area": Fact(measure="area", low=2.0, high=1e6),
    "flow uncertainty": Fact(measure="share", low=0.0, high=0.5),
    "pressure uncertainty": Fact(measure="pressure", low=0.0, high=10.0),
    "volume uncertainty": Fact(measure="share", low=0.0, high=0.5),
    "area uncertainty": Fact(measure="share", low=0.0, high=0.5),
}
"""Ranges are what can be on earth and at a house, our own choice; no standard is meant."""

TEXTS = ("house", "tester", "date", "stage", "standard", "remark", "volume rule", "direction")
RANGE = "device range"
COLUMNS = ("direction", "phase", "pressure", "flow", "range", "remark")
SPELLINGS = {
    "pressure difference": "pressure",
    "house pressure": "pressure",
    "building pressure": "pressure",
    "fan flow": "flow",
    "ring": "range",
    "device": "range",
    "note": "remark",
    "remarks": "remark",
    "notes": "remark",
    "step": "phase",
    "wind speed": "wind",
    "building height": "height",
    "barometer": "barometric pressure",
    "altitude": "elevation",
    "inside temperature": "indoor temperature",
    "outside temperature": "outdoor temperature",
    "envelope area": "area",
    "shell area": "area",
}

Cells: TypeAlias = Sequence[str]
_NAMED = re.compile(r"\s*([^\[\]()]*?)\s*(?:[\[(]\s*([^\[\]()]*?)\s*[\])])?\s*:?\s*", re.DOTALL)
_NUMBER = re.compile(r"[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d{1,3})?", re.IGNORECASE)
_SIGNS = str.maketrans({"−": "-", "–": "-", "‒": "-", "﹣": "-", "－": "-", "\u00a0": " "})


def with_tabs(line: str) -> str:
    """Return a line laid out in columns of blanks with a tab for each run of two or more."""
    return re.sub(r" {2,}", "\t", line.strip())


@dataclass(kw_only=True, slots=True)
class Told:
    """The problems found so far in one file."""

    file: str | None
    problems: list[Problem] = field(default_factory=list)

    @property
    def full(self) -> bool:
        """Whether more problems would only repeat themselves."""
        return len(self.problems) >= MOST_PROBLEMS

    def tell(self, subject: str, sentence: str, remedy: str, line: int | None) -> None:
        """Note one problem."""
        if not self.full:
            self.problems.append(
                Problem(
                    subject=subject,
                    sentence=one_line(sentence),
                    remedy=one_line(remedy),
                    file=self.file,
                    line=line,
                )
            )


@dataclass(frozen=True, kw_only=True, slots=True)
class Spot:
    """Where a cell stands, how its line is parted, and where problems go."""

    line: int
    delimiter: str
    told: Told


def named(cell: str) -> tuple[str, str | None]:
    """Return the plain name of a fact or column and its unit, if one stands in brackets."""
    found = _NAMED.fullmatch(cell)
    if found is None:
        return " ".join(cell.lower().split()), None
    name = " ".join(found[1].lower().replace("_", " ").split())
    return SPELLINGS.get(name, name), found[2]


def number(text: str, delimiter: str) -> float | None:
    """Return a written number, or None. A comma is a decimal point where it parts no columns."""
    plain = text.translate(_SIGNS).strip()
    if delimiter != "," and plain.count(",") == 1 and "." not in plain:
        plain = plain.replace(",", ".")
    elif re.fullmatch(r"[+-]?\d{1,3}(?:,\d{3})+(?:\.\d*)?", plain):
        plain = plain.replace(",", "")
    if not _NUMBER.fullmatch(plain):
        return None
    value = float(plain)
    return value if math.isfinite(value) else None


def measured(cell: str, name: str, unit: str, spot: Spot) -> float | None:
    """Return the value of a fact in SI, or None after telling what is wrong with it."""
    fact, told, line = FACTS[name], spot.told, spot.line
    value = number(cell, spot.delimiter)
    if value is None:
        shown = cell.strip()[:30]
        told.tell(name, f"{name}: ‘{shown}’ is not a number", "write one number", line)
        return None
    si = to_si(value, fact.measure, unit)
    if fact.low <= si <= fact.high:
        return si
    remedy = "check the value and its unit"
    if fact.measure == "temperature" and unit == "c" and 32.0 <= value <= 130.0:
        remedy = f"it looks like degrees Fahrenheit: write {name} [F]"
    elif fact.measure == "share" and 0.0 <= value / 100.0 <= 1.0 < value:
        remedy = "write it in percent"
    told.tell(name, f"{name} {value:g} {unit} is not possible at a house", remedy, line)
    return None


def unit_of(name: str, measure: Measure, unit: str | None, line: int, told: Told) -> str | None:
    """Return the unit of a fact or column, or None after telling that it is missing or unknown."""
    if unit is None or not unit:
        if measure == "share":
            return "%"
        remedy = f"write it in the name: {name} [{SHOWN[measure].split(',')[0].split(' or ')[0]}]"
        told.tell(name, f"{name} has no unit", remedy, line)
        return None
    known = unit_named(unit, measure)
    if known is None:
        told.tell(name, f"{name}: ‘{unit[:20]}’ is no unit of it", f"use {SHOWN[measure]}", line)
    return known


def unknown(kind: str, name: str, known: Sequence[str], line: int, told: Told) -> None:
    """Tell that a name is not known, with the nearest that is."""
    told.tell(name, f"there is no {kind} called ‘{name[:40]}’", nearest(name, known), line)
