"""Dimension chains around a plan or roof plan: one side of the drawing at a time."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

from seamwright.draw.dimension import Chain, draw_chain, stations
from seamwright.draw.ink import TEXT
from seamwright.draw.sheet import Sheet
from seamwright.draw.types import Rect
from seamwright.geometry.types import Vec2
from seamwright.units import format_length

FIRST, PITCH = 13.0, 6.0
"""Distance of the first chain from the drawing, and between chains. [mm]"""
SAME = 0.02
"""Stations nearer than this are one. [m]"""


@dataclass(frozen=True, kw_only=True, slots=True)
class Run:
    """Stations along one axis of the drawing, in metres and on paper, seen from one side.

    `side` is the unit direction on paper toward the outside: (0, 1) is below the drawing.
    """

    side: Vec2
    spots: tuple[tuple[float, Vec2], ...]


def draw_side_chains(sheet: Sheet, runs: Sequence[Run], around: Rect, first: float = FIRST) -> None:
    """Draw the runs outside `around`, those of one side stacked outward in the order given.

    Runs on one side that do not overlap share a row.
    """
    for side in ((0.0, 1.0), (0.0, -1.0), (1.0, 0.0), (-1.0, 0.0)):
        rows: list[list[tuple[float, float]]] = []
        for run in (run for run in runs if run.side == side):
            values = [value for value, _ in run.spots]
            low, high = min(values), max(values)
            row = _free_row(rows, low, high)
            _draw(sheet, run, around, first + PITCH * row)


def _free_row(rows: list[list[tuple[float, float]]], low: float, high: float) -> int:
    for index, taken in enumerate(rows):
        if all(high <= a + SAME or low >= b - SAME for a, b in taken):
            taken.append((low, high))
            return index
    rows.append([(low, high)])
    return len(rows) - 1


def _draw(sheet: Sheet, run: Run, around: Rect, distance: float) -> None:
    system = sheet.head.system
    by_value = dict(sorted(run.spots))
    values = stations(list(by_value), SAME)
    points = tuple(_outside(by_value[value], run.side, around, distance) for value in values)
    texts = tuple(format_length(b - a, system) for a, b in itertools.pairwise(values))
    draw_chain(sheet, Chain(points=points, texts=texts, out=run.side, size=TEXT))


def _outside(at: Vec2, side: Vec2, around: Rect, distance: float) -> Vec2:
    if side[1] > 0:
        return (at[0], around.y1 + distance)
    if side[1] < 0:
        return (at[0], around.y0 - distance)
    if side[0] > 0:
        return (around.x1 + distance, at[1])
    return (around.x0 - distance, at[1])
