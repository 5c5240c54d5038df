"""The chart of boards through a wet spell: their water, and when a film and the board are dry."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from seamwright.climate.weather import HOUR
from seamwright.draw.axis import Axis
from seamwright.draw.ink import (
    BLUE,
    EDGE,
    GREEN,
    GREY,
    ORANGE,
    RED,
    SKY,
    SMALL,
    TEXT,
    THIN,
    WHITE,
    Pen,
)
from seamwright.draw.page import Page
from seamwright.draw.types import Drawing, Rect
from seamwright.schedule.outlook import Outlook
from seamwright.schedule.window import board_dry, windows_of

WIDTH = 236.0
PLOT = Rect(x0=30.0, y0=15.0, x1=226.0, y1=80.0)
MOST = 0.80
"""Top of the scale. [kg/kg] A full board and the film on it lie just below."""

_ROW = 5.6
_GRID = Pen(width=0.15, color="#d4d4d4")
_PENS = (
    Pen(width=0.6, color=BLUE),
    Pen(width=0.6, color=ORANGE),
    Pen(width=0.6, color=GREEN, dash=(2.4, 0.9)),
    Pen(width=0.6, color=GREY, dash=(0.9, 0.7)),
)
_LIMIT = Pen(width=0.4, color=RED, dash=(3.0, 1.0))
_MOST_RAIN = 6.0
"""Rain that fills a quarter of the chart. [kg/m² in the hour]"""


def board_chart(
    outlook: Outlook, faces: Sequence[tuple[str, str]], limit: float, *, title: str
) -> Drawing:
    """Return the water of some boards hour by hour, and the hours in which film and run are dry.

    `faces` are up to four ids with their words; `limit` [kg/kg] is that of the strips.
    """
    height = PLOT.y1 + 16.0 + 2 * _ROW * len(faces)
    page = Page(WIDTH, height)
    weather = outlook.weather
    across = Axis(start=0.0, end=float(weather.hours), x0=PLOT.x0, x1=PLOT.x1, ticks=())
    ticks = tuple(range(0, round(100 * MOST) + 1, 10))
    up = Axis(start=0.0, end=100.0 * MOST, x0=PLOT.y1, x1=PLOT.y0, ticks=ticks)
    _frame(page, outlook, across, up)
    for (face, _), pen in zip(faces, _PENS, strict=False):
        water = outlook.boards[face]
        points = [
            (across.at(k + 1.0), up.at(100.0 * min(float(value), MOST)))
            for k, value in enumerate(water)
        ]
        page.path(points, pen)
    page.line((PLOT.x0, up.at(100.0 * limit)), (PLOT.x1, up.at(100.0 * limit)), _LIMIT)
    page.path(_corners(PLOT), EDGE, closed=True)
    _key(page, faces, limit, title)
    _bars(page, outlook, faces, limit, across)
    return Drawing(
        name="board-after-rain", title=title, svg=page.finish(), width_mm=WIDTH, height_mm=height,
        scale="not to scale",
        caption="Water of the outer 2 mm of bare board by the run of moisture, and the hours in "
        "which a film of water alone, and film and board together, are dry enough for a strip.",
    )  # fmt: skip


def _frame(page: Page, outlook: Outlook, across: Axis, up: Axis) -> None:
    weather = outlook.weather
    zone = dt.timezone(dt.timedelta(seconds=weather.utc_offset))
    for k, fallen in enumerate(weather.rain):
        if fallen > 0.0:
            depth = max(min(float(fallen) / _MOST_RAIN, 1.0) * PLOT.height / 4.0, 0.8)
            bar = Rect(x0=across.at(k), y0=PLOT.y0, x1=across.at(k + 1), y1=PLOT.y0 + depth)
            page.path(_corners(bar), Pen(width=0.1, color=BLUE), SKY, closed=True)
    for k in range(weather.hours):
        at = dt.datetime.fromtimestamp(weather.start + HOUR * k, tz=zone)
        if at.hour == 0:
            page.line((across.at(k), PLOT.y0), (across.at(k), PLOT.y1), THIN)
        if at.hour == 12:
            words = f"{at:%a %b} {at.day}"
            page.text((across.at(k), PLOT.y1 + 4.2), words, TEXT, anchor="middle", bold=True)
    for tick in up.ticks:
        page.line((PLOT.x0, up.at(tick)), (PLOT.x1, up.at(tick)), _GRID)
        page.text((PLOT.x0 - 2.0, up.at(tick) + 0.7), f"{tick:g}", TEXT, anchor="end")
    page.text((18.0, PLOT.center[1]), "water of the board [%]", TEXT, anchor="middle", angle=-90)


def _key(page: Page, faces: Sequence[tuple[str, str]], limit: float, title: str) -> None:
    page.text((PLOT.x0, 5.0), title, 3.0, bold=True)
    x = PLOT.x0
    words_of = (words for _, words in faces)
    rows = [*zip(words_of, _PENS, strict=False), (f"limit {limit:.0%}", _LIMIT)]
    for words, pen in rows:
        page.line((x, 10.6), (x + 9.0, 10.6), pen)
        page.text((x + 11.0, 11.3), words, SMALL)
        x += 17.0 + 1.5 * len(words)
    page.path(_corners(Rect(x0=x, y0=9.4, x1=x + 3.0, y1=11.8)), Pen(width=0.1, color=BLUE), SKY,
              closed=True)  # fmt: skip
    page.text((x + 5.0, 11.3), "rain", SMALL)


def _bars(
    page: Page, outlook: Outlook, faces: Sequence[tuple[str, str]], limit: float, across: Axis
) -> None:
    """Draw for each face the hours that the film alone opens, and those that the board opens."""
    y = PLOT.y1 + 8.0
    for face, words in faces:
        film = outlook.hours[face].dry
        dry = film & board_dry(outlook.boards[face], limit)
        for name, flags, color in ((f"{words}, film", film, SKY), (f"{words}, board", dry, GREEN)):
            page.text((PLOT.x0 - 2.0, y + 3.1), name, SMALL, anchor="end")
            track = Rect(x0=PLOT.x0, y0=y + 0.7, x1=PLOT.x1, y1=y + 4.1)
            page.path(_corners(track), Pen(width=0.1, color=GREY), WHITE, closed=True)
            for run in windows_of(flags):
                bar = Rect(x0=across.at(run.start), y0=y + 0.7, x1=across.at(run.end), y1=y + 4.1)
                page.path(_corners(bar), Pen(width=0.1, color=color), color, closed=True)
            y += _ROW


def _corners(rect: Rect) -> tuple[tuple[float, float], ...]:
    return ((rect.x0, rect.y0), (rect.x1, rect.y0), (rect.x1, rect.y1), (rect.x0, rect.y1))
