"""Curves of a quantity over another, panel beside panel, each with its key."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from seamwright.draw.axis import Axis, nice_axis
from seamwright.draw.ink import (
    BLACK,
    BLUE,
    EDGE,
    GREEN,
    GREY,
    ORANGE,
    PURPLE,
    RED,
    SMALL,
    TEXT,
    Pen,
)
from seamwright.draw.page import Page
from seamwright.draw.types import Drawing, Rect

PENS: tuple[Pen, ...] = (
    Pen(width=0.6, color=BLUE),
    Pen(width=0.6, color=RED, dash=(3.0, 1.0)),
    Pen(width=0.6, color=GREEN, dash=(4.0, 0.9, 0.9, 0.9)),
    Pen(width=0.6, color=PURPLE, dash=(1.0, 0.9)),
    Pen(width=0.6, color=ORANGE),
    Pen(width=0.5, color=BLACK, dash=(2.0, 0.8)),
)
"""Pens in order; color and dashes each tell them apart."""

_GRID = Pen(width=0.13, color="#cfcfcf")
_LIMIT = Pen(width=0.4, color=GREY, dash=(0.7, 0.9))
_WIDTH, _TALL, _KEY_ROW, _GAP = 236.0, 70.0, 5.0, 22.0
_ROW, _BETWEEN = 30.0, 19.0


@dataclass(frozen=True, kw_only=True, slots=True)
class Trace:
    """One curve: what it is called, and its points."""

    name: str
    x: tuple[float, ...]
    y: tuple[float, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class Panel:
    """One pair of axes. `limits` are levels drawn across with a word; `log` counts y in powers.

    `x_ticks` are places and words where the axis needs words, such as months.
    """

    title: str
    x_title: str
    y_title: str
    traces: tuple[Trace, ...]
    x_range: tuple[float, float]
    y_range: tuple[float, float]
    log: bool = False
    limits: tuple[tuple[float, str], ...] = ()
    x_ticks: tuple[tuple[float, str], ...] = ()


def curves_chart(name: str, title: str, panels: Sequence[Panel], caption: str) -> Drawing:
    """Return the panels side by side with their keys below."""
    rows = max(math.ceil(len(panel.traces) / 2) for panel in panels)
    height = 12.0 + _TALL + 13.0 + _KEY_ROW * rows
    page = Page(_WIDTH, height)
    page.text((2.0, 4.6), title, 3.0, bold=True)
    wide = (_WIDTH - 6.0 - _GAP * len(panels)) / len(panels)
    for k, panel in enumerate(panels):
        x0 = _GAP + k * (wide + _GAP)
        _draw(page, panel, Rect(x0=x0, y0=12.0, x1=x0 + wide, y1=12.0 + _TALL))
    return Drawing(
        name=name,
        title=title,
        svg=page.finish(),
        width_mm=_WIDTH,
        height_mm=height,
        scale="not to scale",
        caption=caption,
    )


@dataclass(frozen=True, kw_only=True, slots=True)
class Row:
    """Panels side by side under a title of their own, with a line of words below it."""

    title: str
    words: str
    panels: tuple[Panel, ...]


def rows_chart(name: str, title: str, rows: Sequence[Row], caption: str) -> Drawing:
    """Return rows of panels one below another, with one key above for the curves of all."""
    height = 6.0 + (_ROW + _BETWEEN) * len(rows) + 4.0
    page = Page(_WIDTH, height)
    keyed = max((row.panels[0] for row in rows), key=lambda panel: len(panel.traces))
    for k, (trace, pen) in enumerate(zip(keyed.traces, PENS, strict=False)):
        x = _GAP + 58.0 * k
        page.line((x, 3.2), (x + 9.0, 3.2), pen)
        page.text((x + 11.0, 4.2), trace.name, TEXT)
    for at, row in enumerate(rows):
        top = 6.0 + (_ROW + _BETWEEN) * at
        wide = (_WIDTH - 6.0 - _GAP * len(row.panels)) / len(row.panels)
        page.text((2.0, top + 4.0), row.title, 2.9, bold=True)
        page.text((_WIDTH - 6.0, top + 4.0), row.words, SMALL, anchor="end")
        for k, panel in enumerate(row.panels):
            x0 = _GAP + k * (wide + _GAP)
            box = Rect(x0=x0, y0=top + 10.0, x1=x0 + wide, y1=top + 10.0 + _ROW)
            _draw(page, panel, box, keyed=False)
    return Drawing(
        name=name,
        title=title,
        svg=page.finish(),
        width_mm=_WIDTH,
        height_mm=height,
        scale="not to scale",
        caption=caption,
    )


def _draw(page: Page, panel: Panel, box: Rect, *, keyed: bool = True) -> None:
    across = _across(panel, box)
    low, high = (_shown(panel, v) for v in panel.y_range)
    up = nice_axis(low, high, box.y1, box.y0, steps=6 if keyed else 3)
    page.text((box.x0, box.y0 - 2.0), panel.title, TEXT, bold=True)
    words = panel.x_ticks or tuple((t, f"{t:g}") for t in across.ticks)
    for at, word in words:
        x = across.at(at)
        page.line((x, box.y0), (x, box.y1), _GRID)
        page.text((x, box.y1 + 4.0), word, SMALL, anchor="middle")
    for tick in (t for t in up.ticks if not panel.log or t == round(t)):
        y = up.at(tick)
        page.line((box.x0, y), (box.x1, y), _GRID)
        word = f"{10.0**tick:g}" if panel.log else f"{tick:g}"
        page.text((box.x0 - 1.5, y + 0.7), word, SMALL, anchor="end")
    page.text((box.center[0], box.y1 + 8.0), panel.x_title, SMALL, anchor="middle")
    page.text((box.x0 - 12.0, box.center[1]), panel.y_title, SMALL, anchor="middle", angle=-90)
    _limits(page, panel, box, across, up)
    for trace, pen in zip(panel.traces, PENS, strict=False):
        points = zip(trace.x, trace.y, strict=True)
        page.path([(across.at(x), up.at(_shown(panel, y))) for x, y in points], pen)
    page.path(_corners(box), EDGE, closed=True)
    if keyed:
        _key(page, panel, box)


def _across(panel: Panel, box: Rect) -> Axis:
    low, high = panel.x_range
    if panel.x_ticks:
        return Axis(start=low, end=high, x0=box.x0, x1=box.x1, ticks=())
    return nice_axis(low, high, box.x0, box.x1, steps=6)


def _limits(page: Page, panel: Panel, box: Rect, across: Axis, up: Axis) -> None:
    """Draw the limits, each with its word at the end where fewer curves run."""
    for level, word in panel.limits:
        y = up.at(_shown(panel, level))
        page.line((box.x0, y), (box.x1, y), _LIMIT)
        wide = 0.6 * SMALL * len(word) + 3.0
        crowd = [
            sum(
                abs(up.at(_shown(panel, v)) - (y - 1.5)) < 2.5
                and start <= across.at(x) <= start + wide
                for trace in panel.traces
                for x, v in zip(trace.x, trace.y, strict=True)
            )
            for start in (box.x0, box.x1 - wide)
        ]
        if crowd[0] < crowd[1]:
            page.text((box.x0 + 1.5, y - 1.0), word, SMALL, color=GREY)
        else:
            page.text((box.x1 - 1.5, y - 1.0), word, SMALL, color=GREY, anchor="end")


def _key(page: Page, panel: Panel, box: Rect) -> None:
    for k, (trace, pen) in enumerate(zip(panel.traces, PENS, strict=False)):
        x, y = box.x0 + k % 2 * box.width / 2, box.y1 + 12.5 + k // 2 * _KEY_ROW
        page.line((x, y), (x + 9.0, y), pen)
        page.text((x + 11.0, y + 0.8), trace.name, SMALL)


def _shown(panel: Panel, value: float) -> float:
    return math.log10(value) if panel.log else value


def _corners(rect: Rect) -> tuple[tuple[float, float], ...]:
    return ((rect.x0, rect.y0), (rect.x1, rect.y0), (rect.x1, rect.y1), (rect.x0, rect.y1))
