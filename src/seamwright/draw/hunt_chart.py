"""The leak hunt as charts: places before and after, the order step by step, the house and target.

Each line or mark is told apart by dashes, shape or its own label as well as by color.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from seamwright.draw.axis import Axis, nice_axis
from seamwright.draw.ink import (
    BLACK,
    BLUE,
    GREEN,
    GREY,
    ORANGE,
    PURPLE,
    RED,
    SMALL,
    TEXT,
    WHITE,
    Pen,
)
from seamwright.draw.page import Page, text_width
from seamwright.draw.types import Drawing, Rect
from seamwright.leakage.hunt_story import Step
from seamwright.leakage.hunt_types import FanTest, Look, Mend, Standing
from seamwright.units import System

WIDTH = 236.0
_ROW = 7.0
_MOST_PLACES = 12
_FRAME = Pen(width=0.25)
_GRID = Pen(width=0.13, color="#cfcfcf")
_BEFORE = Pen(width=0.35, color=GREY, dash=(1.4, 0.8))
_AFTER = Pen(width=0.5, color=BLUE)
_LIMIT = Pen(width=0.7, color=RED, dash=(2.4, 1.2))
_SPAN = Pen(width=0.25, color=BLUE)
_STEPS = (1.0, 2.0, 5.0)
_LINES = tuple(
    Pen(width=0.6, color=color, dash=dash)
    for dash in ((), (3.0, 1.0), (1.0, 0.8))
    for color in (BLUE, RED, GREEN, PURPLE, ORANGE, BLACK)
)
_PER_FLOW: Mapping[System, float] = {"us": 60.0 / 0.3048**3, "metric": 3600.0}
_UNIT: Mapping[System, str] = {"us": "cfm", "metric": "m³/h"}


def hunt_charts(
    steps: Sequence[Step], *, system: System, target: float | None = None
) -> tuple[Drawing, ...]:
    """Return the charts of a hunt, the forecast as its first step.

    `target` is the flow at 50 Pa to reach. [m³/s]
    """
    return (
        house_chart(steps, system=system, target=target),
        order_chart(steps),
        places_chart(steps, system=system),
    )


def house_chart(steps: Sequence[Step], *, system: System, target: float | None = None) -> Drawing:
    """Return the leak of the whole house after each step, with the fan tests and the target."""
    height = 92.0
    page = Page(WIDTH, height)
    box = Rect(x0=19.0, y0=12.0, x1=WIDTH - 34.0, y1=height - 32.0)
    factor = _PER_FLOW[system]
    tests = [s.event for s in steps if isinstance(s.event, FanTest)]
    top = max(s.hunt.total.high for s in steps)
    top = max([top, *(t.high for t in tests), 0.0 if target is None else target])
    up = nice_axis(0.0, top * factor, box.y1, box.y0)
    _level_lines(page, box, up)
    _step_names(page, box, steps)
    page.text((1.5, 4.0), f"Leak of the house at 50 Pa [{_UNIT[system]}]", TEXT + 0.3, bold=True)
    points = [(_x(box, steps, k), up.at(s.hunt.total.value * factor)) for k, s in enumerate(steps)]
    page.path(points, _SPAN)
    for k, step in enumerate(steps):
        x, total = _x(box, steps, k), step.hunt.total
        _upright(page, x, (up.at(total.low * factor), up.at(total.high * factor)), _SPAN)
        page.circle((x, up.at(total.value * factor)), 1.0, _SPAN, BLUE)
        if isinstance(step.event, FanTest):
            _test(page, x + 2.6, step.event, up, factor)
    if target is not None:
        y = up.at(target * factor)
        page.line((box.x0, y), (box.x1, y), _LIMIT)
        page.text((box.x1 + 1.5, y + 0.7), f"target {target * factor:,.0f}", TEXT, bold=True,
                  color=RED)  # fmt: skip
    _house_key(page, box)
    return _drawing("hunt-house", page, "The house after each step", height)


def order_chart(steps: Sequence[Step]) -> Drawing:
    """Return the place in the order, after each step, of those that ever led it."""
    shown = _leaders(steps)
    height = 118.0
    page = Page(WIDTH, height)
    box = Rect(x0=19.0, y0=12.0, x1=WIDTH - 34.0, y1=height - 32.0)
    page.text((1.5, 4.0), "Where to look next: place in the order after each step", TEXT + 0.3,
              bold=True)  # fmt: skip
    last = math.log(max(len(steps[-1].order), 2))
    for place in (1, 2, 3, 5, 10, 20, 50, 100, 200, 500, 1000, 5000, 20000):
        if place <= len(steps[-1].order):
            y = _level(box, place, last)
            page.line((box.x0, y), (box.x1, y), _GRID)
            page.text((box.x0 - 2.0, y + 0.7), f"{place:,}", SMALL, anchor="end")
    _step_names(page, box, steps)
    ends: list[tuple[float, str, Pen]] = []
    for pen, place_id in zip(_LINES, shown, strict=False):
        points = [
            (_x(box, steps, k), _level(box, step.order.index(place_id) + 1, last))
            for k, step in enumerate(steps)
        ]
        page.path(points, pen)
        for (x, y), step in zip(points, steps, strict=True):
            _touched(page, (x, y), step, place_id, pen)
        ends.append((points[-1][1], place_id, pen))
    _end_names(page, box.x1 + 2.0, ends)
    page.text((box.x1, box.y0 - 3.5), "square: looked at; cross: mended", SMALL, color=GREY,
              anchor="end")  # fmt: skip
    return _drawing("hunt-order", page, "How the order changes", height)


def places_chart(steps: Sequence[Step], *, system: System) -> Drawing:
    """Return the leak of the places that led or were touched, forecast against now."""
    shown = _leaders(steps)
    first = {s.place.id: s for s in steps[0].hunt.standings}
    last = {s.place.id: s for s in steps[-1].hunt.standings}
    height = 30.0 + _ROW * len(shown)
    page = Page(WIDTH, height)
    box = Rect(x0=46.0, y0=14.0, x1=WIDTH - 30.0, y1=14.0 + _ROW * len(shown))
    factor = _PER_FLOW[system]
    both = [table[i] for i in shown for table in (first, last)]
    low = math.log10(min(s.low for s in both) * factor)
    high = math.log10(max(s.high for s in both) * factor)
    across = Axis(start=low, end=high, x0=box.x0, x1=box.x1, ticks=_log_ticks(low, high))
    for tick in across.ticks:
        x = across.at(tick)
        page.line((x, box.y0), (x, box.y1), _GRID)
        page.text((x, box.y1 + 3.6), f"{10**tick:,.6g}", SMALL, anchor="middle")
    page.text((box.x1, box.y1 + 8.0), f"leak at 50 Pa [{_UNIT[system]}]", SMALL, anchor="end",
              color=GREY)  # fmt: skip
    page.text((1.5, 4.0), "Leak of each place: forecast, and now", TEXT + 0.3, bold=True)
    page.text((box.x1 + 28.0, box.y0 - 1.8), "defect: before, now", SMALL, anchor="end", color=GREY)
    for k, place_id in enumerate(shown):
        y = box.y0 + (k + 0.5) * _ROW
        kind = last[place_id].place.kind.replace("_", " ").split("+")[0]
        page.text((box.x0 - 2.0, y - 0.3), place_id, SMALL, anchor="end", bold=True)
        page.text((box.x0 - 2.0, y + 2.1), kind, SMALL, anchor="end", color=GREY)
        _span(page, across, first[place_id], factor=factor, y=y - 1.3, pen=_BEFORE)
        _span(page, across, last[place_id], factor=factor, y=y + 1.3, pen=_AFTER)
        words = f"{first[place_id].defect * 100:.0f} %, {last[place_id].defect * 100:.0f} %"
        page.text((box.x1 + 28.0, y + 0.7), words, SMALL, anchor="end")
    _places_key(page, box)
    return _drawing("hunt-places", page, "Places before and after", height)


def _leaders(steps: Sequence[Step]) -> tuple[str, ...]:
    """Return places touched by the diary and those that ever stood first, then today's best."""
    touched = [s.event.place for s in steps if isinstance(s.event, Look | Mend)]
    first = [step.order[0] for step in steps if step.order]
    found = dict.fromkeys([*touched, *first, *steps[-1].order])
    return tuple(found)[:_MOST_PLACES]


def _level(box: Rect, place: int, last: float) -> float:
    """Return how far down a place of the order stands, by its logarithm, 1 at the top."""
    return box.y0 + 2.0 + (box.height - 5.0) * math.log(place) / last


def _x(box: Rect, steps: Sequence[Step], number: int) -> float:
    return box.x0 + 6.0 + (box.width - 12.0) * number / max(len(steps) - 1, 1)


def _step_names(page: Page, box: Rect, steps: Sequence[Step]) -> None:
    """Write what happened at each step below, turned so that long ids stay apart."""
    page.line((box.x0, box.y1), (box.x1, box.y1), _FRAME)
    for k, step in enumerate(steps):
        x = _x(box, steps, k)
        page.line((x, box.y1), (x, box.y1 + 1.2), _FRAME)
        page.text((x + 1.0, box.y1 + 4.0), step.words, SMALL, anchor="end", angle=-22.0)


def _level_lines(page: Page, box: Rect, up: Axis) -> None:
    for value in up.ticks:
        y = up.at(value)
        page.line((box.x0, y), (box.x1, y), _GRID)
        page.text((box.x0 - 2.0, y + 0.7), f"{value:,g}", SMALL, anchor="end")


def _upright(page: Page, x: float, ends: tuple[float, float], pen: Pen) -> None:
    page.line((x, ends[0]), (x, ends[1]), pen)
    for y in ends:
        page.line((x - 1.1, y), (x + 1.1, y), pen)


def _test(page: Page, x: float, test: FanTest, up: Axis, factor: float) -> None:
    """Draw a fan test beside its step: a square and its 95 % limits."""
    pen = Pen(width=0.35, color=BLACK)
    _upright(page, x, (up.at(test.low * factor), up.at(test.high * factor)), pen)
    y = up.at(test.flow * factor)
    _square(page, (x, y), 1.1, pen, ORANGE)


def _square(page: Page, at: tuple[float, float], half: float, pen: Pen, fill: str) -> None:
    x, y = at
    left, right = x - half, x + half
    corners = ((left, y - half), (right, y - half), (right, y + half), (left, y + half))
    page.path(corners, pen, fill, closed=True)


def _touched(page: Page, at: tuple[float, float], step: Step, place_id: str, pen: Pen) -> None:
    """Mark where a place was looked at (square) or mended (cross)."""
    x, y = at
    thin = Pen(width=0.35, color=pen.color)
    if isinstance(step.event, Look) and step.event.place == place_id:
        _square(page, at, 1.2, thin, WHITE)
    elif isinstance(step.event, Mend) and step.event.place == place_id:
        page.line((x - 1.3, y - 1.3), (x + 1.3, y + 1.3), thin)
        page.line((x - 1.3, y + 1.3), (x + 1.3, y - 1.3), thin)


def _end_names(page: Page, x: float, ends: Sequence[tuple[float, str, Pen]]) -> None:
    """Write the ids at the right ends of their lines, pushed down where they would touch."""
    free = 0.0
    for y, place_id, pen in sorted(ends, key=lambda end: (end[0], end[1])):
        level = max(y, free)
        free = level + 2.8
        page.path(((x - 2.0, y), (x, level), (x + 6.0, level)), pen)
        page.text((x + 7.5, level + 0.7), place_id, SMALL)


def _span(page: Page, across: Axis, one: Standing, *, factor: float, y: float, pen: Pen) -> None:
    """Draw the 90 % interval of a place and its expected leak: a ring before, a disc now."""
    at = [across.at(math.log10(v * factor)) for v in (one.low, one.leak, one.high)]
    page.line((at[0], y), (at[2], y), pen)
    for x in (at[0], at[2]):
        page.line((x, y - 0.8), (x, y + 0.8), pen.with_width(0.25))
    page.circle((at[1], y), 0.9, Pen(width=0.3, color=pen.color), WHITE if pen.dash else pen.color)


def _log_ticks(low: float, high: float) -> tuple[float, ...]:
    decades = range(math.floor(low), math.ceil(high) + 1)
    values = [math.log10(step) + decade for decade in decades for step in _STEPS]
    return tuple(v for v in values if low <= v <= high)


def _house_key(page: Page, box: Rect) -> None:
    x = box.x1 - 118.0
    page.circle((x, 3.4), 1.0, _SPAN, BLUE)
    page.line((x, 1.8), (x, 5.0), _SPAN)
    words = "expected, 9 in 10 within"
    page.text((x + 2.5, 4.0), words, SMALL)
    x += 8.0 + text_width(words, SMALL)
    _square(page, (x, 3.4), 1.1, Pen(width=0.35), ORANGE)
    page.text((x + 2.5, 4.0), "fan test, 95 % limits", SMALL)


def _places_key(page: Page, box: Rect) -> None:
    x = box.x0 + 92.0
    for pen, words in ((_BEFORE, "forecast"), (_AFTER, "now")):
        page.line((x, 3.4), (x + 8.0, 3.4), pen)
        page.circle((x + 4.0, 3.4), 0.9, Pen(width=0.3, color=pen.color),
                    WHITE if pen.dash else pen.color)  # fmt: skip
        page.text((x + 10.0, 4.0), words, SMALL)
        x += 14.0 + text_width(words, SMALL)
    page.text((x, 4.0), "mark: expected; line: 9 in 10", SMALL, color=GREY)


def _drawing(name: str, page: Page, title: str, height: float) -> Drawing:
    return Drawing(
        name=name, title=title, svg=page.finish(), width_mm=WIDTH, height_mm=height,
        scale="not to scale", caption=title,
    )  # fmt: skip
