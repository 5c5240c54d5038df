"""Tables as one XLSX workbook: real numbers with number formats, units in the header, filters."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any, TypeAlias

import xlsxwriter

from seamwright.io.tables import Grid, Plain, lay_grid
from seamwright.report.types import Dimension, Table
from seamwright.units import System

_Format: TypeAlias = Any

_DECIMALS: Mapping[tuple[System, Dimension], str] = {
    ("us", "length"): "#,##0.00",
    ("us", "width"): "0.000",
    ("us", "area"): "#,##0.0",
    ("us", "volume"): "#,##0.00",
    ("us", "sealant_volume"): "#,##0.0",
    ("metric", "length"): "#,##0.000",
    ("metric", "width"): "#,##0.0",
    ("metric", "area"): "#,##0.00",
    ("metric", "volume"): "#,##0.000",
    ("metric", "sealant_volume"): "#,##0",
}
_PLAIN_DECIMALS: Mapping[Dimension, str] = {
    "angle": "0.0",
    "time": "#,##0.00",
    "count": "#,##0.##",
    "money": "#,##0.00",
}
_MARK_FILL = "#E69F00"
"""Orange of a set told apart with every kind of color vision (okabe-ito-2008); the word in the
cell says the same without color, and the bold frame shows in black and white."""

_PAPER: Mapping[System, int] = {"us": 1, "metric": 9}
"""Letter and A4, as the file format numbers them (ECMA-376, paper sizes)."""

_WIDEST, _NARROWEST, _LONGEST_NAME = 60.0, 6.0, 31
_PAGE = 150.0
"""Characters across a landscape sheet that still print large enough to read."""
_LINE, _TALLEST = 15.0, 400.0
"""Height of a line of text and of the tallest row the format allows. [pt]"""
_FIXED_DATE = dt.datetime(2000, 1, 1)  # noqa: DTZ001 - the format holds no time zone


def write_workbook(path: Path | str, tables: Sequence[tuple[str, Table]], system: System) -> None:
    """Write a workbook with one sheet for each table, in the given order.

    Numbers are stored in full and only shown rounded; the unit stands in the column's title. The
    header row stays in view, repeats on every printed sheet and carries a filter. A cell that
    holds one of the table's marks (UNSIGNED) is framed and filled, beside saying so. The same
    tables give the same file.

    Parameters
    ----------
    path : path
        The file to write, replaced when it is there.
    tables : sequence of (str, Table)
        Name of each sheet, shortened and numbered where the format asks for it, and its table.
    system : {'us', 'metric'}
        Units of the numbers, and the paper: letter or A4.
    """
    options = {"strings_to_formulas": False, "strings_to_urls": False, "nan_inf_to_errors": True}
    with xlsxwriter.Workbook(str(path), options) as book:
        book.set_properties({"created": _FIXED_DATE})
        styles = _Styles(book, system)
        taken: set[str] = set()
        for name, table in tables:
            sheet = book.add_worksheet(_sheet_name(name, taken))
            _write_sheet(sheet, lay_grid(table, system), table, styles)
            _set_up_print(sheet, table, system)


class _Styles:
    """Cell formats of one workbook, each made once."""

    def __init__(self, book: Any, system: System) -> None:  # noqa: ANN401 - untyped library
        self._book = book
        self._system: System = system
        self._made: dict[tuple[Any, ...], _Format] = {}

    def head(self) -> _Format:
        """Return the format of the header row."""
        return self._make(bold=True, text_wrap=True, valign="vcenter", bottom=2, bg_color="#EDEDED")

    def cell(self, kind: Dimension | None, *, right: bool, marked: bool, total: bool) -> _Format:
        """Return the format of a cell of a column of `kind`."""
        look: dict[str, Any] = {"valign": "top"}
        if kind is None:
            look |= {"text_wrap": True}
            look |= {} if right else {"align": "left", "indent": 1}
        else:
            shown = _DECIMALS.get((self._system, kind), _PLAIN_DECIMALS.get(kind, "General"))
            look["num_format"] = shown
        if right or kind is not None:
            look["align"] = "right"
        if marked:
            look |= {"bold": True, "bg_color": _MARK_FILL, "border": 2}
        if total:
            look |= {"bold": True, "top": 6}
        return self._make(**look)

    def _make(self, **look: Any) -> _Format:  # noqa: ANN401 - what the library takes
        key = tuple(sorted(look.items()))
        if key not in self._made:
            self._made[key] = self._book.add_format(look)
        return self._made[key]


def _write_sheet(sheet: Any, grid: Grid, table: Table, styles: _Styles) -> None:  # noqa: ANN401
    """Write titles, rows and total of one table."""
    for c, title in enumerate(grid.titles):
        sheet.write_string(0, c, title, styles.head())
    rows = [*grid.rows, *([] if grid.total is None else [grid.total])]
    for r, row in enumerate(rows, start=1):
        total = grid.total is not None and r == len(rows)
        for c, cell in enumerate(row):
            kind = grid.kinds[c] if not isinstance(cell, str) else None
            marked = isinstance(cell, str) and any(mark in cell for mark in table.marks)
            right = grid.sources[c] in table.right and grid.kinds[c] is not None
            style = styles.cell(kind, right=right, marked=marked, total=total)
            _write_cell(sheet, r, c, cell, style)
    widths = _widths(grid, rows)
    for c, width in enumerate(widths):
        sheet.set_column(c, c, width)
    for r, row in enumerate(rows, start=1):
        lines = max((_lines(cell, widths[c]) for c, cell in enumerate(row)), default=1)
        if lines > 1:
            sheet.set_row(r, min(_TALLEST, _LINE * lines))
    sheet.set_row(0, 2.2 * _LINE)
    sheet.freeze_panes(1, 0)
    sheet.autofilter(0, 0, max(1, len(grid.rows)), max(0, len(grid.titles) - 1))


def _write_cell(sheet: Any, r: int, c: int, cell: Plain, style: _Format) -> None:  # noqa: ANN401
    if cell is None:
        sheet.write_blank(r, c, None, style)
    elif isinstance(cell, str):
        sheet.write_string(r, c, cell, style)
    else:
        sheet.write_number(r, c, cell, style)


def _set_up_print(sheet: Any, table: Table, system: System) -> None:  # noqa: ANN401
    """Lay the sheet out for paper: landscape, all columns on one page, header on each."""
    sheet.set_landscape()
    sheet.set_paper(_PAPER[system])
    sheet.fit_to_pages(1, 0)
    sheet.repeat_rows(0)
    sheet.set_margins(left=0.4, right=0.4, top=0.7, bottom=0.6)
    title = table.caption.replace("&", "&&")[:200]
    sheet.set_header(f"&L{title}" if title else "&L&A")
    sheet.set_footer("&L&A&RPage &P of &N")


def _widths(grid: Grid, rows: Sequence[Sequence[Plain]]) -> list[float]:
    """Return the columns' widths in characters; wide columns of text give way to fit the page."""
    widths = [_width(grid.titles[c], [row[c] for row in rows]) for c in range(len(grid.titles))]
    over = sum(widths) - _PAGE
    roomy = [width for width in widths if width > _WIDEST / 3]
    if over <= 0 or not roomy:
        return widths
    share = max(0.4, 1.0 - over / sum(roomy))
    return [max(_WIDEST / 3, share * w) if w > _WIDEST / 3 else w for w in widths]


def _width(title: str, cells: Sequence[Plain]) -> float:
    """Return a column's width in characters: the longest line it holds, within limits.

    Titles wrap on two lines.
    """
    shown = [
        cell if isinstance(cell, str) else f"{cell:,.3f}" for cell in cells if cell is not None
    ]
    lines = [len(line) for text in shown for line in text.splitlines()]
    words = [len(word) for word in title.split()]
    longest = max([len(title) * 0.6, *lines, *words])
    return min(_WIDEST, max(_NARROWEST, longest * 1.05 + 3))


def _lines(cell: Plain, width: float) -> int:
    """Return how many lines a cell takes in a column of that width."""
    if not isinstance(cell, str):
        return 1
    return sum(max(1, math.ceil(len(line) / (1.1 * width - 2))) for line in cell.splitlines())


def _sheet_name(name: str, taken: set[str]) -> str:
    """Return a name the format allows and no sheet of the workbook has yet."""
    clean = "".join("-" if ch in "[]:*?/\\" else ch for ch in name).strip("'") or "Sheet"
    trial, n = clean[:_LONGEST_NAME], 1
    while trial.lower() in taken:
        n += 1
        ending = f" {n}"
        trial = clean[: _LONGEST_NAME - len(ending)] + ending
    taken.add(trial.lower())
    return trial
