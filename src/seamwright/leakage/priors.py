"""What a joint, node, service or window is likely to leak before anybody has tested it.

Every figure is an effective leakage area at 4 Pa (discharge coefficient 1), the form in which such
figures are published, per metre of line or per piece. A line leaks through its seals one behind
another and through the bare contact of the parts behind them.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field

from seamwright.leakage.combine import EXPONENT, TEST_PRESSURE, flow_of_area, in_series
from seamwright.leakage.places import Layer, Place
from seamwright.leakage.prior_rows import (
    BARE_LINES,
    BARE_PIECES,
    LINE_SEALS,
    NODE_SEALS,
    PIECE_SEALS,
    LeakRow,
    Workmanship,
)

WORKMANSHIPS: tuple[Workmanship, ...] = ("careful", "ordinary", "careless")


@dataclass(frozen=True, kw_only=True, slots=True)
class Spreads:
    """How far the truth may lie from the table: standard deviations of natural logarithms.

    `overall` moves every place of a house alike (does the table fit panel houses at all), `crew`
    all places of one crew, `kind` all places of one kind; `line` is the coefficient of variation
    of one metre of line from metre to metre, `piece` that of one node or service by workmanship.
    `exponent` is the standard deviation of the flow exponent between 4 Pa and 50 Pa. [-]

    All are `common practice, no source` save the exponent, whose spread is that of the Handbook's
    0.6 to 0.7 taken as a 90 % range.
    """

    overall: float = 0.35
    crew: float = 0.35
    kind: float = 0.40
    line: Mapping[Workmanship, float] = field(
        default_factory=lambda: {"careful": 1.0, "ordinary": 1.5, "careless": 2.5}
    )
    piece: Mapping[Workmanship, float] = field(
        default_factory=lambda: {"careful": 1.0, "ordinary": 1.5, "careless": 2.5}
    )
    exponent: float = 0.03


@dataclass(frozen=True, kw_only=True, slots=True)
class LeakTable:
    """The whole table, to be replaced row by row: by kind, by seal, and how far it may be off.

    `exponent` is the flow exponent from 4 Pa to 50 Pa. [-]
    """

    bare_lines: Mapping[str, LeakRow] = field(default_factory=lambda: BARE_LINES)
    line_seals: Mapping[Layer, LeakRow] = field(default_factory=lambda: LINE_SEALS)
    bare_pieces: Mapping[str, LeakRow] = field(default_factory=lambda: BARE_PIECES)
    piece_seals: Mapping[Layer, LeakRow] = field(default_factory=lambda: PIECE_SEALS)
    node_seals: Mapping[Layer, LeakRow] = field(default_factory=lambda: NODE_SEALS)
    spreads: Spreads = field(default_factory=Spreads)
    exponent: float = EXPONENT


@dataclass(frozen=True, kw_only=True, slots=True)
class Prior:
    """What one place may leak: its mean flow at 50 Pa in a house as the table has it [m³/s], and
    the coefficient of variation from one such place to the next. The factors that places share
    (overall, crew, kind) come on top.
    """

    flow: float
    variation: float
    rows: tuple[LeakRow, ...]

    @property
    def sigma(self) -> float:
        """Standard deviation of the logarithm. [-]"""
        return math.sqrt(math.log1p(self.variation**2))


DEFAULT_TABLE = LeakTable()


def prior_of(place: Place, workmanship: Workmanship, table: LeakTable = DEFAULT_TABLE) -> Prior:
    """Return what a place may leak under this workmanship.

    The coefficient of variation of a line falls with the root of its length, as if its leaks were
    scattered along it: cutting a joint in two changes neither mean nor variance of its flow.

    Raises KeyError for a kind that has no row.
    """
    rows = rows_of(place, table)
    area = in_series([row.area(workmanship) for row in rows], table.exponent)
    flow = flow_of_area(area, TEST_PRESSURE, table.exponent)
    spreads = table.spreads
    if not is_line(place):
        return Prior(flow=flow, variation=spreads.piece[workmanship], rows=rows)
    variation = 0.0
    if place.length > 0.0:
        variation = spreads.line[workmanship] / math.sqrt(place.length)
    return Prior(flow=flow * place.length, variation=variation, rows=rows)


def is_line(place: Place) -> bool:
    """Return whether a place leaks by the metre: a joint, or the edge of a window's sash."""
    return place.sort == "joint" or place.kind.endswith("_unit")


def rows_of(place: Place, table: LeakTable = DEFAULT_TABLE) -> tuple[LeakRow, ...]:
    """Return the rows that stand one behind another at a place, the bare contact first."""
    if place.sort == "node":
        corner = "node_corner" if place.kind.count("+") >= 2 else "node"
        return _layered(table.bare_pieces[corner], table.node_seals, place.layers)
    if is_line(place):
        return _layered(table.bare_lines[place.kind], table.line_seals, place.layers)
    return _layered(table.bare_pieces[place.kind], table.piece_seals, place.layers)


def _layered(
    bare: LeakRow, seals: Mapping[Layer, LeakRow], layers: tuple[Layer, ...]
) -> tuple[LeakRow, ...]:
    return (bare, *(seals[layer] for layer in dict.fromkeys(layers) if layer in seals))
