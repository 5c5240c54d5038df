"""Documents as data: what a sheet says, before any edge decides how it looks or in which units."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal, TypeAlias

from seamwright.seals.types import Sentence

Dimension: TypeAlias = Literal[
    "length", "width", "area", "volume", "sealant_volume", "angle", "time", "count", "money",
    "flow", "leak_area", "leak_line", "leak_rate", "permeability", "power", "air_change", "share",
]  # fmt: skip


@dataclass(frozen=True, kw_only=True, slots=True)
class Quantity:
    """A number in SI with its dimension; edges print it in feet-inches or millimetres.

    `width` is a small length (in, mm), `length` a run (ft-in, m), `angle` is in radians. Of air:
    `flow` in m³/s, `leak_area` in m², along a line `leak_line` in m²/m and `leak_rate` in
    m³/(s·m), `permeability` of a shell in m³/(s·m²), `power` in W, `air_change` in 1/h; `share` is
    a part from 0 to 1. `before` are words that bound it, such as ``over``: printed before it, and
    such a number is text in a workbook.
    """

    value: float
    dimension: Dimension
    before: str = ""


Cell: TypeAlias = str | Quantity | Sentence | None


@dataclass(frozen=True, kw_only=True, slots=True)
class Heading:
    """A heading; level 1 opens a new sheet."""

    text: str
    level: int = 2


@dataclass(frozen=True, kw_only=True, slots=True)
class Paragraph:
    """Running text."""

    text: Sentence


@dataclass(frozen=True, kw_only=True, slots=True)
class Caution:
    """A safety caution, boxed."""

    text: str


@dataclass(frozen=True, kw_only=True, slots=True)
class Table:
    """A table: column titles, rows of cells, and the relative widths and alignment of columns.

    `marks` are words that must stand out in a cell (UNSIGNED). `form` gives the rows room to be
    filled in by hand.
    """

    columns: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]
    widths: tuple[float, ...]
    right: tuple[int, ...] = ()
    caption: str = ""
    total: tuple[Cell, ...] | None = None
    marks: tuple[str, ...] = ("UNSIGNED",)
    form: bool = False


@dataclass(frozen=True, kw_only=True, slots=True)
class Figure:
    """A drawing by the name of its file; `full_sheet` gives it a sheet of its own.

    `title` is its line in the list of sheets; drawings of one `group` share one line there, the
    group's.
    """

    name: str
    caption: str
    full_sheet: bool = False
    title: str = ""
    group: str = ""


Block: TypeAlias = Heading | Paragraph | Caution | Table | Figure


@dataclass(frozen=True, kw_only=True, slots=True)
class Document:
    """A packet: title, what identifies it (project, revision, date), and its blocks."""

    title: str
    subtitle: str
    facts: tuple[tuple[str, str], ...]
    blocks: tuple[Block, ...] = field(default_factory=tuple)
