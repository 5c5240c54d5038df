"""Dimension chains around a view, one side at a time, and the scale that leaves room for them."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from seamwright.draw.dimension import Chain, draw_chain, stations
from seamwright.draw.scale import HOUSE
from seamwright.draw.sheet import Sheet
from seamwright.draw.types import Rect
from seamwright.draw.view import Axes, View, centered_view
from seamwright.geometry.types import Vec2
from seamwright.units import format_length

FIRST, PITCH = 11.5, 6.0
"""Distance of the first chain from the drawing, and between chains. [mm]"""
BARE = 14.0
"""Room for labels on a side without chains. [mm]"""
SAME = 0.02
"""Stations nearer than this are one. [m]"""
Box: TypeAlias = tuple[Vec2, Vec2]
BELOW: Vec2 = (0.0, 1.0)
ABOVE: Vec2 = (0.0, -1.0)
RIGHT: Vec2 = (1.0, 0.0)
LEFT: Vec2 = (-1.0, 0.0)


@dataclass(frozen=True, kw_only=True, slots=True)
class Run:
    """Stations along one axis of a view, drawn on one side of it. [m]"""

    side: Vec2
    values: tuple[float, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class Framed:
    """A view on its sheet: what it takes up there [mm], and which row each run has."""

    view: View
    around: Rect
    spill: float
    rows: tuple[tuple[Run, int], ...]


def frame_view(
    sheet: Sheet, axes: Axes, box: Box, runs: Iterable[Run], spill: float = 0.0
) -> Framed:
    """Return the view of `box` [m] at the largest standard scale that leaves room for the runs.

    Runs of one side that do not overlap share a row; the others stack outward in their order.
    `spill` is how far the drawing reaches beyond the box at its left and right (a roof beyond the
    walls); chains stand clear of it. [m]
    """
    rows = _rows([run for run in runs if len(stations(run.values, SAME)) > 1])
    size = (box[1][0] - box[0][0], box[1][1] - box[0][1])
    for scale in HOUSE[sheet.head.system]:
        beyond = spill * scale.mm_per_m
        left, right = _margin(rows, LEFT, beyond), _margin(rows, RIGHT, beyond)
        top, bottom = _margin(rows, ABOVE), _margin(rows, BELOW)
        room = (sheet.window.width - left - right, sheet.window.height - top - bottom)
        if size[0] * scale.mm_per_m <= room[0] and size[1] * scale.mm_per_m <= room[1]:
            break
    shift = ((left - right) / 2, (top - bottom) / 2)
    view = centered_view(axes, box, scale, sheet.window, shift)
    low, high = view.on_paper(box[0]), view.on_paper(box[1])
    around = Rect(x0=low[0], y0=high[1], x1=high[0], y1=low[1])
    return Framed(view=view, around=around, spill=beyond, rows=rows)


def draw_runs(sheet: Sheet, framed: Framed) -> None:
    """Draw the runs around the view."""
    for run, row in framed.rows:
        values = stations(run.values, SAME)
        points = tuple(_outside(framed, run.side, value, row) for value in values)
        system = sheet.head.system
        texts = tuple(format_length(b - a, system) for a, b in itertools.pairwise(values))
        draw_chain(sheet, Chain(points=points, texts=texts, out=run.side))


def _rows(runs: Sequence[Run]) -> tuple[tuple[Run, int], ...]:
    taken: dict[Vec2, list[list[tuple[float, float]]]] = {}
    found = []
    for run in runs:
        rows = taken.setdefault(run.side, [])
        low, high = min(run.values), max(run.values)
        free = (
            number
            for number, row in enumerate(rows)
            if all(high <= a + SAME or low >= b - SAME for a, b in row)
        )
        index = next(free, len(rows))
        if index == len(rows):
            rows.append([])
        rows[index].append((low, high))
        found.append((run, index))
    return tuple(found)


def _margin(rows: Sequence[tuple[Run, int]], side: Vec2, beyond: float = 0.0) -> float:
    numbers = [row for run, row in rows if run.side == side]
    bare = max(BARE, beyond + 3.0)
    return max(FIRST, beyond + 4.0) + PITCH * max(numbers) + 4.0 if numbers else bare


def _outside(framed: Framed, side: Vec2, value: float, row: int) -> Vec2:
    x, y = framed.view.on_paper((value, value))
    around = framed.around
    off = FIRST + PITCH * row
    if side == BELOW:
        return (x, around.y1 + off)
    if side == ABOVE:
        return (x, around.y0 - off)
    off = max(FIRST, framed.spill + 4.0) + PITCH * row
    if side == RIGHT:
        return (around.x1 + off, y)
    return (around.x0 - off, y)
