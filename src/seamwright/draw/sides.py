"""Dimension chains around a view, one side at a time, and the scale that leaves room for them."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from seamwright.draw.dimension import Chain, draw_chain, stations
from seamwright.draw.scale import HOUSE, fitting_scale
from seamwright.draw.sheet import Sheet
from seamwright.draw.types import Rect
from seamwright.draw.view import Axes, View, centered_view
from seamwright.geometry.types import Vec2
from seamwright.units import format_length

FIRST, PITCH = 12.5, 6.5
"""Distance of the first chain from the drawing, and between chains. [mm]"""
BARE = 14.0
"""Room for labels on a side without chains. [mm]"""
SAME = 0.02
"""Stations nearer than this are one. [m]"""
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
    rows: tuple[tuple[Run, int], ...]


def frame_view(sheet: Sheet, axes: Axes, box: tuple[Vec2, Vec2], runs: Iterable[Run]) -> Framed:
    """Return the view of `box` [m] at the largest standard scale that leaves room for the runs.

    Runs of one side that do not overlap share a row; the others stack outward in their order.
    """
    rows = _rows([run for run in runs if len(stations(run.values, SAME)) > 1])
    left, right = _margin(rows, LEFT), _margin(rows, RIGHT)
    top, bottom = _margin(rows, ABOVE), _margin(rows, BELOW)
    size = (box[1][0] - box[0][0], box[1][1] - box[0][1])
    scales = HOUSE[sheet.head.system]
    scale = fitting_scale(scales, size, sheet.window, (left + right, top + bottom))
    shift = ((left - right) / 2, (top - bottom) / 2)
    view = centered_view(axes, box, scale, sheet.window, shift)
    low, high = view.on_paper(box[0]), view.on_paper(box[1])
    return Framed(view=view, around=Rect(x0=low[0], y0=high[1], x1=high[0], y1=low[1]), rows=rows)


def draw_runs(sheet: Sheet, framed: Framed) -> None:
    """Draw the runs around the view."""
    for run, row in framed.rows:
        values = stations(run.values, SAME)
        points = tuple(_outside(framed, run.side, value, FIRST + PITCH * row) for value in values)
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


def _margin(rows: Sequence[tuple[Run, int]], side: Vec2) -> float:
    numbers = [row for run, row in rows if run.side == side]
    return FIRST + PITCH * max(numbers) + 5.0 if numbers else BARE


def _outside(framed: Framed, side: Vec2, value: float, distance: float) -> Vec2:
    x, y = framed.view.on_paper((value, value))
    around = framed.around
    if side == BELOW:
        return (x, around.y1 + distance)
    if side == ABOVE:
        return (x, around.y0 - distance)
    if side == RIGHT:
        return (around.x1 + distance, y)
    return (around.x0 - distance, y)
