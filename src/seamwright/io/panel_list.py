"""Panel lists as CSV: one panel to a row, in any order of columns, with units in the header.

Columns: ``id``, ``type``, ``role``, ``x``, ``y``, ``z`` (origin: lower start corner of the inner
face), ``along`` and ``up`` (directions), then ``length`` and ``height``, or ``outline`` as points
``u, v`` parted by semicolons. ``storey``, ``plane`` and ``bevels`` may follow. A unit in a header
(``length [mm]``, ``x (ft)``) serves for bare numbers of that column.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from pathlib import Path
from typing import get_args

from seamwright.errors import FormatError, InputError, Problem
from seamwright.io.direction import DIRECTION_EXAMPLE, Direction, parse_direction
from seamwright.io.explain import nearest, one_line
from seamwright.io.yaml_text import read_text
from seamwright.shell.plan import GivenPanel, Point2
from seamwright.shell.types import PanelRole
from seamwright.units import LengthUnit, parse_length

REQUIRED = ("id", "type", "role", "x", "y", "z", "along", "up")
OPTIONAL = ("length", "height", "outline", "storey", "plane", "bevels")
MOST_PROBLEMS = 40

_HEADER = re.compile(r"\s*([a-z_ ]+?)\s*(?:[\[(]\s*([a-z]+)\s*[\])])?\s*", re.IGNORECASE)
_DELIMITERS = (",", ";", "\t", "|")
_ROLES: tuple[str, ...] = get_args(PanelRole)
_UNITS: tuple[str, ...] = get_args(LengthUnit)
_ID = re.compile(r"\w[\w.\-]{0,39}")


@dataclass(frozen=True, kw_only=True, slots=True)
class _Columns:
    """Where each column stands, and the unit of its bare numbers."""

    index: Mapping[str, int]
    units: Mapping[str, LengthUnit | None]


@dataclass(kw_only=True, slots=True)
class _Row:
    """One row being read; problems gather in the list shared by all rows."""

    cells: Sequence[str]
    line: int
    columns: _Columns
    file: str | None
    problems: list[Problem]
    name: str = field(default="")

    def cell(self, column: str) -> str:
        at = self.columns.index.get(column)
        return self.cells[at].strip() if at is not None and at < len(self.cells) else ""

    def tell(self, column: str, sentence: str, remedy: str) -> None:
        subject = f"panel {self.name}" if self.name else f"row {self.line}"
        self.problems.append(
            Problem(
                subject=subject,
                sentence=one_line(f"{subject}, {column}: {sentence}"),
                remedy=remedy,
                file=self.file,
                line=self.line,
            )
        )

    def length(self, column: str, text: str, *, above_zero: bool = False) -> Fraction:
        try:
            value = parse_length(text, self.columns.units.get(column))
        except InputError as error:
            self.tell(column, error.problems[0].sentence, error.problems[0].remedy)
            return Fraction(1)
        if above_zero and value <= 0:
            self.tell(column, f"‘{text}’ is not more than zero", "give the size as built")
            return Fraction(1)
        return value


def read_panel_list(
    path_or_text: Path | str | bytes,
    *,
    default_unit: LengthUnit | None = None,
    name: str | None = None,
) -> tuple[GivenPanel, ...]:
    """Return the panels of a CSV list, in file order, lengths exact. [m]

    The delimiter is a comma, semicolon, tab or bar, whichever the header uses. Inch marks may
    stand as they are or doubled in quotes. `default_unit` serves for bare numbers of columns whose
    header has no unit. A string with a line break, or bytes, is the text itself.

    Raises
    ------
    FormatError
        When the file is missing, too large, binary, empty, or its header lacks a column.
    InputError
        With every wrong cell, its line and a remedy.
    """
    text, label = read_text(path_or_text, "panel list", name)
    lines = text.splitlines()
    first = next((i for i, line in enumerate(lines) if _is_content(line)), None)
    if first is None:
        remedy = f"start it with a header: {', '.join(REQUIRED)}, length, height"
        told = "the panel list is empty"
        raise FormatError([Problem(subject="panel list", sentence=told, remedy=remedy, file=label)])
    delimiter = max(_DELIMITERS, key=lines[first].count)
    columns = _columns(split_row(lines[first], delimiter), default_unit, label, first + 1)
    problems: list[Problem] = []
    panels: list[GivenPanel] = []
    seen: set[str] = set()
    for number, line in enumerate(lines[first + 1 :], start=first + 2):
        if not _is_content(line):
            continue
        cells = split_row(line, delimiter)
        row = _Row(cells=cells, line=number, columns=columns, file=label, problems=problems)
        panels.append(_panel(row, seen))
    if not panels:
        told, remedy = "the panel list has a header and no panels", "add a row for each panel"
        raise FormatError([Problem(subject="panel list", sentence=told, remedy=remedy, file=label)])
    if problems:
        raise InputError(problems[:MOST_PROBLEMS])
    return tuple(panels)


def write_panel_list(panels: Iterable[GivenPanel]) -> str:
    """Return panels as CSV text that `read_panel_list` reads back; lengths in metres.

    Lengths that are no finite decimal of a metre are written with 12 decimals.
    """
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    metres = [f"{axis} [m]" for axis in "xyz"]
    writer.writerow(
        ["id", "type", "role", "storey", "plane", *metres, "along", "up", "outline [m]", "bevels"]
    )
    for panel in panels:
        writer.writerow(
            [
                panel.id,
                panel.panel_type,
                panel.role,
                "" if panel.storey is None else panel.storey,
                "" if panel.plane is None else panel.plane,
                *(_decimal(value) for value in panel.origin),
                " ".join(repr(float(value)) for value in panel.along),
                " ".join(repr(float(value)) for value in panel.up),
                "; ".join(f"{_decimal(u)}, {_decimal(v)}" for u, v in panel.outline),
                "" if panel.bevels_deg is None else "; ".join(map(repr, panel.bevels_deg)),
            ]
        )
    return out.getvalue()


def split_row(line: str, delimiter: str) -> list[str]:
    """Return the cells of a line; an inch mark inside an unquoted cell is kept as it stands.

    >>> split_row('A.1;4 6";"x ""y"" z"', ";")
    ['A.1', '4 6"', 'x "y" z']
    """
    return list(_cells(line, delimiter))


def _cells(line: str, delimiter: str) -> Iterator[str]:
    rest = line
    while True:
        quoted = re.match(r'\s*"((?:[^"]|"")*)"\s*(?=$|' + re.escape(delimiter) + ")", rest)
        if quoted is not None:
            yield quoted[1].replace('""', '"')
            rest = rest[quoted.end() :]
        else:
            cell, _, _ = rest.partition(delimiter)
            yield cell
            rest = rest[len(cell) :]
        if not rest:
            return
        rest = rest[len(delimiter) :]


def _is_content(line: str) -> bool:
    return bool(line.strip(" ,;\t|")) and not line.lstrip().startswith("#")


def _columns(
    header: Sequence[str], default: LengthUnit | None, file: str | None, line: int
) -> _Columns:
    index: dict[str, int] = {}
    units: dict[str, LengthUnit | None] = {}
    problems: list[Problem] = []

    def tell(sentence: str, remedy: str) -> None:
        problems.append(
            Problem(
                subject="panel list",
                sentence=one_line(sentence),
                remedy=remedy,
                file=file,
                line=line,
            )
        )

    for at, title in enumerate(header):
        match = _HEADER.fullmatch(title)
        word = "" if match is None else match[1].strip().lower().replace(" ", "_")
        if word not in REQUIRED + OPTIONAL:
            if title.strip():
                tell(f"unknown column ‘{title.strip()[:40]}’", nearest(word, REQUIRED + OPTIONAL))
            continue
        if word in index:
            tell(f"the column {word} stands twice in the header", "drop one")
        unit = None if match is None or match[2] is None else match[2].lower()
        if unit is not None and unit not in _UNITS:
            tell(f"the column {word} has the unknown unit ‘{unit[:20]}’", nearest(unit, _UNITS))
        index[word] = at
        own: LengthUnit | None = next((u for u in get_args(LengthUnit) if u == unit), None)
        units[word] = default if unit is None else own
    missing = [word for word in REQUIRED if word not in index]
    if missing:
        tell(f"the header lacks {', '.join(missing)}", "add the column to the first line")
    if "outline" not in index and not {"length", "height"} <= set(index):
        tell("the header lacks length and height, or outline", "add them to the first line")
    if problems:
        raise FormatError(problems)
    return _Columns(index=index, units=units)


def _panel(row: _Row, seen: set[str]) -> GivenPanel:
    row.name = row.cell("id") if _ID.fullmatch(row.cell("id")) is not None else ""
    if not row.name:
        row.tell("id", f"‘{row.cell('id')[:40]}’ cannot serve as an id", "write one such as A.1")
    if row.name in seen:
        row.tell("id", "the id is used before", "give each panel its own id")
    seen.add(row.name)
    if len(row.cells) > max(row.columns.index.values()) + 1 and any(
        cell.strip() for cell in row.cells[max(row.columns.index.values()) + 1 :]
    ):
        remedy = "put a cell that holds the delimiter in double quotes"
        row.tell("row", "there are more cells than columns", remedy)
    role = row.cell("role").lower()
    if role not in _ROLES:
        row.tell("role", f"‘{role[:40]}’ is not a known role", nearest(role, _ROLES))
    if not row.cell("type"):
        row.tell("type", "the panel type is missing", "name a panel type of the plan")
    along, up = _direction(row, "along"), _direction(row, "up")
    outline = _outline(row)
    return GivenPanel(
        id=row.name,
        panel_type=row.cell("type"),
        role=next((known for known in get_args(PanelRole) if known == role), "wall"),
        origin=(
            row.length("x", row.cell("x")),
            row.length("y", row.cell("y")),
            row.length("z", row.cell("z")),
        ),
        along=along,
        up=up,
        outline=outline,
        storey=row.cell("storey") or None,
        plane=row.cell("plane") or None,
        bevels_deg=_bevels(row, len(outline)),
    )


def _direction(row: _Row, column: str) -> Direction:
    try:
        return parse_direction(row.cell(column))
    except InputError as error:
        row.tell(column, error.problems[0].sentence, f"write it as {DIRECTION_EXAMPLE}")
        return (1.0, 0.0, 0.0)


def _outline(row: _Row) -> tuple[Point2, ...]:
    written = row.cell("outline")
    if not written:
        length = row.length("length", row.cell("length"), above_zero=True)
        height = row.length("height", row.cell("height"), above_zero=True)
        zero = Fraction(0)
        return ((zero, zero), (length, zero), (length, height), (zero, height))
    if row.cell("length") or row.cell("height"):
        row.tell("outline", "an outline and a length or height are given", "keep one of them")
    points: list[Point2] = []
    for pair in written.split(";"):
        parts = pair.split(",")
        if len(parts) != 2:
            remedy = "write points as u, v; u, v; u, v"
            row.tell("outline", f"‘{pair.strip()[:40]}’ is not a point", remedy)
            return ()
        points.append((row.length("outline", parts[0]), row.length("outline", parts[1])))
    if len(points) < 3:
        row.tell("outline", "there are fewer than three points", "give every corner")
    return tuple(points)


def _bevels(row: _Row, edges: int) -> tuple[float, ...] | None:
    written = row.cell("bevels")
    if not written:
        return None
    parts = [part.strip() for part in written.split(";")]
    if not all(re.fullmatch(r"[-+]?[0-9]{1,2}(?:\.[0-9]+)?", part) for part in parts):
        row.tell("bevels", "not every bevel is a number of degrees", "write them as 0; 0; 33.7; 0")
        return None
    if len(parts) != edges:
        remedy = "give one for each edge, 0 for square"
        row.tell("bevels", f"{len(parts)} bevels are given for {edges} edges", remedy)
    return tuple(float(part) for part in parts)


def _decimal(value: Fraction) -> str:
    scaled = round(abs(value) * 10**12)
    whole, rest = divmod(scaled, 10**12)
    sign = "-" if value < 0 and scaled else ""
    return f"{sign}{whole}.{rest:012d}".rstrip("0").rstrip(".")
