"""The XLSX workbook, read back with another library."""

from __future__ import annotations

import zipfile
from pathlib import Path
from typing import Any

import openpyxl
import pytest

from seamwright.io.spreadsheet import write_workbook
from seamwright.report.types import Quantity, Table


def length(value: float) -> Quantity:
    """Return a length. [m]"""
    return Quantity(value=value, dimension="length")


TABLE = Table(
    columns=("Joint", "Length", "Side"),
    rows=(
        ("A.1-A.2", length(2.4384), "inner, UNSIGNED"),
        ("=HYPERLINK()", length(1 / 3), "inner, signed"),
    ),
    widths=(1, 1, 2),
    right=(1,),
    caption="Seals & sides",
    total=("Total", length(2.4384 + 1 / 3), None),
)


@pytest.fixture
def book(tmp_path: Path) -> Any:
    """Return the workbook of two sheets, read back."""
    target = tmp_path / "book.xlsx"
    write_workbook(target, [("Seals", TABLE), ("Seals", TABLE)], "us")
    return openpyxl.load_workbook(target)


def test_numbers_are_numbers_with_their_unit_in_the_title(book: Any) -> None:
    """A length is a number in feet, in full, under a title that says feet."""
    sheet = book["Seals"]
    assert [cell.value for cell in sheet[1]] == ["Joint", "Length [ft]", "Side"]
    assert sheet["B2"].value == pytest.approx(8.0, rel=1e-12)
    assert sheet["B3"].value == pytest.approx(1 / 3 / 0.3048, rel=1e-15)
    assert sheet["B2"].number_format == "#,##0.00"
    assert sheet["B4"].value == pytest.approx(8 + 1 / 3 / 0.3048)


def test_the_header_stays_and_filters(book: Any) -> None:
    """The header is frozen and repeated in print; the filter covers the rows, not the total."""
    sheet = book["Seals"]
    assert sheet.freeze_panes == "A2"
    assert sheet.auto_filter.ref == "A1:C3"
    assert sheet.print_title_rows == "$1:$1"
    assert sheet.sheet_properties.pageSetUpPr.fitToPage
    assert sheet.page_setup.fitToHeight == 0
    assert sheet.page_setup.orientation == "landscape"


def test_unsigned_stands_out_by_fill_frame_and_word(book: Any) -> None:
    """Only the unsigned cell is filled and framed, and it says so in words."""
    sheet = book["Seals"]
    assert sheet["C2"].fill.fgColor.rgb == "FFE69F00"
    assert sheet["C2"].border.left.style == "medium"
    assert "UNSIGNED" in sheet["C2"].value
    assert sheet["C3"].fill.fill_type is None


def test_text_like_a_formula_stays_text(book: Any) -> None:
    """A joint name that begins with an equals sign is written as text."""
    cell = book["Seals"]["A3"]
    assert (cell.value, cell.data_type) == ("=HYPERLINK()", "s")


def test_sheet_names_are_made_legal_and_single(tmp_path: Path) -> None:
    """Names lose what the format forbids, are cut to 31 signs, and never repeat."""
    target = tmp_path / "names.xlsx"
    names = ["Seals: inner/outer", "x" * 40, "X" * 40, ""]
    write_workbook(target, [(name, TABLE) for name in names], "metric")
    found = openpyxl.load_workbook(target).sheetnames
    assert found == ["Seals- inner-outer", "x" * 31, "X" * 29 + " 2", "Sheet"]


def test_an_empty_table_is_a_header(tmp_path: Path) -> None:
    """A table without rows gives a sheet with its header."""
    target = tmp_path / "empty.xlsx"
    write_workbook(target, [("None", Table(columns=("A",), rows=(), widths=(1,)))], "metric")
    sheet = openpyxl.load_workbook(target)["None"]
    assert [cell.value for cell in sheet[1]] == ["A"]
    assert sheet.page_setup.paperSize == 9


def test_the_same_tables_give_the_same_file(tmp_path: Path) -> None:
    """Nothing in the file depends on when it was written."""
    for name in ("a.xlsx", "b.xlsx"):
        write_workbook(tmp_path / name, [("Seals", TABLE)], "us")
    first, second = (zipfile.ZipFile(tmp_path / name) for name in ("a.xlsx", "b.xlsx"))
    with first, second:
        assert {n: first.read(n) for n in first.namelist()} == {
            n: second.read(n) for n in second.namelist()
        }


def test_long_text_gets_a_row_tall_enough(tmp_path) -> None:
    """Wrapped text stands in a row of its own height, so that no program prints rows over it."""
    target = tmp_path / "long.xlsx"
    table = Table(columns=("A", "B"), rows=(("x " * 200, "y"), ("short", "z")), widths=(1, 1))
    write_workbook(target, [("Long", table)], "us")
    sheet = openpyxl.load_workbook(target)["Long"]
    assert sheet.row_dimensions[2].height >= 6 * 15
    assert sheet.row_dimensions[3].height is None
