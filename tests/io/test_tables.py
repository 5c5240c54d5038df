"""Tables as CSV, and quantities as plain numbers."""

from __future__ import annotations

import csv
import io
import math
from pathlib import Path

import pytest

from seamwright.io.tables import lay_grid, table_text, to_number, write_table
from seamwright.report.types import Quantity, Table
from seamwright.seals.types import Sentence


def table() -> Table:
    """Return a small table with text, lengths, a mixed column and a total."""
    return Table(
        columns=("Joint", "Length", "Amount", "Why"),
        rows=(
            (
                "A.1-A.2",
                Quantity(value=2.4384, dimension="length"),
                Quantity(value=3, dimension="count"),
                Sentence(text="lap {lap} short", lengths={"lap": 0.0508}),
            ),
            (
                "=1+1",
                Quantity(value=3.048, dimension="length"),
                Quantity(value=0.0003, dimension="sealant_volume"),
                None,
            ),
        ),
        widths=(1, 1, 1, 2),
        right=(1,),
        total=("", Quantity(value=5.4864, dimension="length"), None, None),
    )


@pytest.mark.parametrize(
    ("value", "dimension", "system", "expected", "unit"),
    [
        (3.048, "length", "us", 10.0, "ft"),
        (3.048, "length", "metric", 3.048, "m"),
        (0.1016, "width", "us", 4.0, "in"),
        (0.1016, "width", "metric", 101.6, "mm"),
        (0.09290304, "area", "us", 1.0, "ft²"),
        (0.028316846592, "volume", "us", 1.0, "ft³"),
        (0.000946352946, "sealant_volume", "us", 32.0, "fl oz"),
        (0.0006, "sealant_volume", "metric", 600.0, "ml"),
        (math.pi, "angle", "us", 180.0, "°"),
        (5400.0, "time", "metric", 1.5, "h"),
        (12.0, "count", "us", 12.0, ""),
        (7.25, "money", "metric", 7.25, ""),
    ],
)
def test_to_number_states_its_unit(
    value: float, dimension: str, system: str, expected: float, unit: str
) -> None:
    """A quantity comes out in the named unit of the system, unrounded."""
    number, named = to_number(Quantity(value=value, dimension=dimension), system)  # type: ignore[arg-type]
    assert number == pytest.approx(expected, rel=1e-12)
    assert named == unit


def test_units_stand_in_the_title_or_beside_mixed_numbers() -> None:
    """One unit goes into the title; a column that mixes units gets a column of units."""
    grid = lay_grid(table(), "us")
    assert grid.titles == ("Joint", "Length [ft]", "Amount", "Amount: unit", "Why")
    assert [row[3] for row in grid.rows] == ["", "fl oz"]
    assert grid.sources == (0, 1, 2, 2, 3)


def test_csv_holds_numbers_as_numbers() -> None:
    """Numbers read back from the text are the quantities, and the total row comes last."""
    rows = list(csv.reader(io.StringIO(table_text(table(), "metric"))))
    assert [float(row[1]) for row in rows[1:]] == [2.4384, 3.048, 5.4864]
    assert rows[1][-1] == "lap 51 mm short"


def test_text_is_never_taken_for_a_formula() -> None:
    """Text that begins like a formula gets an apostrophe, so no spreadsheet runs it."""
    assert "'=1+1" in table_text(table(), "us")


def test_an_empty_table_keeps_its_header() -> None:
    """A table without rows is a header and nothing else."""
    empty = Table(columns=("Joint", "Length"), rows=(), widths=(1, 1))
    assert table_text(empty, "us") == "Joint,Length\r\n"


def test_the_file_reads_back(tmp_path: Path) -> None:
    """The file carries the byte order mark that spreadsheets look for, and the same text."""
    target = tmp_path / "order.csv"
    write_table(target, table(), "us")
    assert target.read_bytes().startswith(b"\xef\xbb\xbf")
    assert target.read_bytes().decode("utf-8-sig") == table_text(table(), "us")
