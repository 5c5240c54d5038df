"""Dimension lines: chains with oblique ticks, their figures placed like every other label."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from seamwright.draw.ink import CUT, DIMENSION, TEXT, Pen
from seamwright.draw.labels import Label
from seamwright.draw.page import text_width
from seamwright.draw.sheet import Sheet
from seamwright.geometry.types import Vec2

TICK = 0.9
STUB = 2.2
OVERRUN = 1.0
_TICK_PEN = Pen(width=0.3, color=CUT.color)


@dataclass(frozen=True, kw_only=True, slots=True)
class Chain:
    """Points along one line on paper [mm], what to write between them, and the outward side.

    `out` is the unit direction away from the thing measured.
    """

    points: tuple[Vec2, ...]
    texts: tuple[str, ...]
    out: Vec2
    stub: float = STUB
    size: float = TEXT


def draw_chain(sheet: Sheet, chain: Chain) -> None:
    """Draw a chain of dimensions; a figure with no room on its line is led away."""
    points, out = chain.points, chain.out
    if len(points) < 2:
        return
    sheet.page.line(points[0], points[-1], DIMENSION)
    sheet.placer.draw_ink(points[0], points[-1], 1.0)
    along = _unit(points[0], points[-1])
    for point in points:
        foot = (point[0] - out[0] * chain.stub, point[1] - out[1] * chain.stub)
        head = (point[0] + out[0] * OVERRUN, point[1] + out[1] * OVERRUN)
        sheet.page.line(foot, head, DIMENSION)
        sheet.placer.draw_ink(foot, head, 1.0)
        slant = ((along[0] + out[0]) * TICK * 0.7, (along[1] + out[1]) * TICK * 0.7)
        sheet.page.line(
            (point[0] - slant[0], point[1] - slant[1]),
            (point[0] + slant[0], point[1] + slant[1]),
            _TICK_PEN,
        )
    for start, end, text in zip(points, points[1:], chain.texts, strict=False):
        _write(sheet, (start, end), text, chain)


def _write(sheet: Sheet, ends: tuple[Vec2, Vec2], text: str, chain: Chain) -> None:
    start, end = ends
    room = math.dist(start, end) - 0.8
    size = chain.size
    while size > 1.6 and text_width(text, size) > room:
        size -= 0.1
    if text_width(text, size) > room:
        size = chain.size - 0.3
    level = abs(end[0] - start[0]) >= abs(end[1] - start[1])
    away = (0.0, -1.0) if level else (-1.0, 0.0)
    label = Label(
        text=text, start=start, end=end, size=size, away=away, kind="dimension", keyed=False
    )
    sheet.label(label)


def stations(values: Sequence[float], tolerance: float) -> list[float]:
    """Return the values sorted, those nearer than `tolerance` to the last one left out."""
    kept: list[float] = []
    for value in sorted(values):
        if not kept or value - kept[-1] > tolerance:
            kept.append(value)
    return kept


def _unit(a: Vec2, b: Vec2) -> Vec2:
    length = math.dist(a, b)
    return ((b[0] - a[0]) / length, (b[1] - a[1]) / length) if length else (1.0, 0.0)
