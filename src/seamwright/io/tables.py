"""Tables as CSV: real numbers in stated units, one row under a header, nothing rounded.

Also what the spreadsheet shares: numbers in a stated unit, and tables laid out as plain cells.
"""

from __future__ import annotations

import csv
import io
import math
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from typing import TypeAlias

from seamwright.report.types import Cell, Dimension, Quantity, Table
from seamwright.seals.types import Sentence
from seamwright.units import (
    CUBIC_FOOT,
    FLUID_OUNCE,
    FOOT,
    INCH,
    SQUARE_FOOT,
    System,
    fill,
    format_quantity,
)

Plain: TypeAlias = str | float | None
"""A cell without a unit of its own: text, a number, or nothing."""

_FORMULA = ("=", "+", "@", "\t", "\r")
_HOUR = Fraction(3600)
_DEGREE = Fraction(math.pi) / 180

_US: dict[Dimension, tuple[Fraction, str]] = {
    "length": (FOOT, "ft"),
    "width": (INCH, "in"),
    "area": (SQUARE_FOOT, "ft²"),
    "volume": (CUBIC_FOOT, "ft³"),
    "sealant_volume": (FLUID_OUNCE, "fl oz"),
    "flow": (CUBIC_FOOT / 60, "cfm"),
    "leak_area": (INCH**2, "in²"),
    "leak_line": (INCH**2 / FOOT, "in²/ft"),
    "leak_rate": (SQUARE_FOOT / 60, "cfm/ft"),
    "permeability": (FOOT / 60, "cfm/ft²"),
    "power": (1 / Fraction("3.412141633"), "Btu/h"),
}
_METRIC: dict[Dimension, tuple[Fraction, str]] = {
    "length": (Fraction(1), "m"),
    "width": (Fraction(1, 1000), "mm"),
    "area": (Fraction(1), "m²"),
    "volume": (Fraction(1), "m³"),
    "sealant_volume": (Fraction(1, 1_000_000), "ml"),
    "flow": (1 / _HOUR, "m³/h"),
    "leak_area": (Fraction(1, 10_000), "cm²"),
    "leak_line": (Fraction(1, 10_000), "cm²/m"),
    "leak_rate": (1 / _HOUR, "m³/(h·m)"),
    "permeability": (1 / _HOUR, "m³/(h·m²)"),
    "power": (Fraction(1), "W"),
}
_EITHER: dict[Dimension, tuple[Fraction, str]] = {
    "angle": (_DEGREE, "°"),
    "time": (_HOUR, "h"),
    "count": (Fraction(1), ""),
    "money": (Fraction(1), ""),
    "air_change": (Fraction(1), "1/h"),
    "share": (Fraction(1, 100), "%"),
}


@dataclass(frozen=True, kw_only=True, slots=True)
class Grid:
    """A table as plain cells: `titles` with their units, `rows`, the `total` row or None.

    `kinds` is the dimension of each column's numbers, None for text. `sources` is the column of
    the table that each column comes from; a unit column follows the numbers it belongs to.
    """

    titles: tuple[str, ...]
    rows: tuple[tuple[Plain, ...], ...]
    total: tuple[Plain, ...] | None
    kinds: tuple[Dimension | None, ...]
    sources: tuple[int, ...]


def to_number(quantity: Quantity, system: System) -> tuple[float, str]:
    """Return a quantity as a plain number and the unit it is in, unrounded.

    Feet, inches, square and cubic feet and fluid ounces, or metres, millimetres, square and cubic
    metres and millilitres; degrees, hours, counts and money in both, and the units of air as
    printed. The unit is empty for counts and money.
    """
    table = {**(_US if system == "us" else _METRIC), **_EITHER}
    size, unit = table[quantity.dimension]
    return (float(Fraction(quantity.value) / size), unit)


def lay_grid(table: Table, system: System) -> Grid:
    """Return a table as plain cells, the unit in the title of each column of numbers.

    A column that mixes units keeps its numbers and gets a column of units after it.
    """
    rows = (*table.rows, *(() if table.total is None else (table.total,)))
    columns = [_column(table, c, rows, system) for c in range(len(table.columns))]
    flat = [part for column in columns for part in column]
    laid = tuple(zip(*(part.cells for part in flat), strict=True)) if rows else ()
    body = laid if table.total is None else laid[:-1]
    return Grid(
        titles=tuple(part.title for part in flat),
        rows=body,
        total=None if table.total is None else laid[-1],
        kinds=tuple(part.kind for part in flat),
        sources=tuple(c for c, column in enumerate(columns) for _ in column),
    )


def table_text(table: Table, system: System) -> str:
    """Return a table as CSV text with a header row (RFC 4180), the total row last.

    Text that a spreadsheet would take for a formula gets an apostrophe in front.
    """
    grid = lay_grid(table, system)
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow([_safe(title) for title in grid.titles])
    for row in (*grid.rows, *(() if grid.total is None else (grid.total,))):
        writer.writerow([_safe(cell) for cell in row])
    return out.getvalue()


def write_table(path: Path | str, table: Table, system: System) -> None:
    """Write a table as a CSV file in UTF-8, with the mark that makes spreadsheets read it so."""
    Path(path).write_text(table_text(table, system), encoding="utf-8-sig", newline="")


@dataclass(frozen=True, kw_only=True, slots=True)
class _Column:
    title: str
    cells: tuple[Plain, ...]
    kind: Dimension | None


def _column(
    table: Table, at: int, rows: tuple[tuple[Cell, ...], ...], system: System
) -> list[_Column]:
    """Return one column of a table as one plain column, or two when it mixes units."""
    title = table.columns[at]
    cells = [row[at] if at < len(row) else None for row in rows]
    numbers = [cell for cell in cells if isinstance(cell, Quantity)]
    plain = tuple(_plain(cell, lambda q: to_number(q, system)[0], system) for cell in cells)
    if not numbers:
        return [_Column(title=title, cells=plain, kind=None)]
    units = {to_number(number, system)[1] for number in numbers}
    kind = numbers[0].dimension
    if len(units) == 1:
        unit = units.pop()
        return [_Column(title=f"{title} [{unit}]" if unit else title, cells=plain, kind=kind)]
    beside = tuple(
        to_number(cell, system)[1] if isinstance(cell, Quantity) else None for cell in cells
    )
    return [
        _Column(title=title, cells=plain, kind=kind),
        _Column(title=f"{title}: unit", cells=beside, kind=None),
    ]


def _plain(cell: Cell, number: Callable[[Quantity], float], system: System) -> Plain:
    if isinstance(cell, Quantity):
        return format_quantity(cell, system) if cell.before else number(cell)
    return fill(cell, system) if isinstance(cell, Sentence) else cell


def _safe(cell: Plain) -> str:
    """Return the cell as CSV text; numbers in full, text never as a formula."""
    if cell is None:
        return ""
    if isinstance(cell, str):
        return f"'{cell}" if cell.startswith(_FORMULA) else cell
    whole = float(cell)
    return str(int(whole)) if whole.is_integer() and abs(whole) < 1e15 else repr(whole)
