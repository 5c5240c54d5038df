"""The chart of a face through the hours: air, skin, dew point, rain, and when to work."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence

from seamwright.climate.arrays import Floats
from seamwright.climate.face import FaceHours
from seamwright.climate.weather import HOUR
from seamwright.draw.axis import Axis, nice_axis
from seamwright.draw.ink import BLUE, EDGE, GREEN, GREY, RED, SKY, SMALL, TEXT, THIN, WHITE, Pen
from seamwright.draw.page import Page
from seamwright.draw.types import Drawing, Rect
from seamwright.schedule.window import Window, windows_of
from seamwright.units import System

WIDTH = 236.0
PLOT = Rect(x0=24.0, y0=13.0, x1=226.0, y1=83.0)
_ROW = 6.0
_GRID = Pen(width=0.15, color="#d4d4d4")
_NIGHT = "#eef1f4"
_LINES = (
    ("air", Pen(width=0.25, color=GREY, dash=(1.6, 0.8))),
    ("skin", Pen(width=0.6, color=RED)),
    ("grows wet below", Pen(width=0.4, color=BLUE, dash=(3.0, 0.8, 0.8, 0.8))),
)
_MOST_RAIN = 10.0
"""Rain that fills a third of the chart. [kg/m² in the hour]"""


def weather_chart(
    hours: FaceHours, windows: Mapping[str, Sequence[Window]], *, title: str, system: System
) -> Drawing:
    """Return the chart of one face: temperatures, rain and dew, and a bar for each kind of work.

    `windows` gives the runs of hours of each kind, drawn in its order. Times are local, those of
    the record.
    """
    height = PLOT.y1 + 16.0 + _ROW * (len(windows) + 1)
    page = Page(WIDTH, height)
    across = Axis(start=0.0, end=float(hours.weather.hours), x0=PLOT.x0, x1=PLOT.x1, ticks=())
    lines = (hours.weather.air, hours.surface, hours.condensation)
    up = _temperatures(lines, system)
    _frame(page, hours, across, up, system)
    _rain(page, hours, across)
    for values, (_, pen) in zip(lines, _LINES, strict=True):
        points = [(across.at(k + 0.5), up.at(_shown(t, system))) for k, t in enumerate(values)]
        page.path(points, pen)
    page.path(_corners(PLOT), EDGE, closed=True)
    _key(page, title)
    _bars(page, hours, windows, across)
    return Drawing(
        name=f"weather-{hours.face.id.replace(' ', '-')}",
        title=f"Weather on {hours.face.id}",
        svg=page.finish(),
        width_mm=WIDTH,
        height_mm=height,
        scale="not to scale",
        caption="Where the skin's line falls below the dashed one it grows wet. The skin and its "
        "water are estimates; measure before you tape.",
    )


def _temperatures(lines: Sequence[Floats], system: System) -> Axis:
    low = min(_shown(float(line.min()), system) for line in lines)
    high = max(_shown(float(line.max()), system) for line in lines)
    return nice_axis(low, high, PLOT.y1, PLOT.y0)


def _shown(celsius: float, system: System) -> float:
    return float(celsius) * 1.8 + 32.0 if system == "us" else float(celsius)


def _frame(page: Page, hours: FaceHours, across: Axis, up: Axis, system: System) -> None:
    weather = hours.weather
    zone = dt.timezone(dt.timedelta(seconds=weather.utc_offset))
    for k in range(weather.hours):
        at = dt.datetime.fromtimestamp(weather.start + HOUR * k, tz=zone)
        x = across.at(k)
        if at.hour < 6 or at.hour >= 20:
            night = Rect(x0=x, y0=PLOT.y0, x1=across.at(k + 1), y1=PLOT.y1)
            page.path(_corners(night), Pen(width=0.0, color=_NIGHT), _NIGHT, closed=True)
        if at.hour % 6 == 0:
            page.line((x, PLOT.y0), (x, PLOT.y1), THIN if at.hour == 0 else _GRID)
            page.text((x, PLOT.y1 + 4.0), f"{at.hour:02}", SMALL, anchor="middle")
        if at.hour == 12:
            page.text((x, PLOT.y1 + 8.5), f"{at:%a %b} {at.day}", TEXT, anchor="middle", bold=True)
    for tick in up.ticks:
        page.line((PLOT.x0, up.at(tick)), (PLOT.x1, up.at(tick)), _GRID)
        page.text((PLOT.x0 - 2.0, up.at(tick) + 0.7), f"{tick:g}", TEXT, anchor="end")
    unit = "°F" if system == "us" else "°C"
    page.text((8.0, PLOT.center[1]), f"temperature [{unit}]", TEXT, anchor="middle", angle=-90)


def _rain(page: Page, hours: FaceHours, across: Axis) -> None:
    """Hang the rain from the top of the chart; a full bar is a downpour."""
    for k, fallen in enumerate(hours.weather.rain):
        if fallen <= 0.0:
            continue
        depth = min(float(fallen) / _MOST_RAIN, 1.0) * PLOT.height / 3.0
        bar = Rect(
            x0=across.at(k + 0.15), y0=PLOT.y0, x1=across.at(k + 0.85), y1=PLOT.y0 + max(depth, 0.8)
        )
        page.path(_corners(bar), Pen(width=0.13, color=BLUE), SKY, closed=True)


def _key(page: Page, title: str) -> None:
    page.text((PLOT.x0, 4.6), title, 3.0, bold=True)
    x = PLOT.x1 - 118.0
    for name, pen in _LINES:
        page.line((x, 8.7), (x + 9.0, 8.7), pen)
        page.text((x + 11.0, 9.4), name, SMALL)
        x += 17.0 + 1.3 * len(name)
    page.path(_corners(Rect(x0=x, y0=7.2, x1=x + 3.0, y1=9.6)), Pen(width=0.13, color=BLUE), SKY,
              closed=True)  # fmt: skip
    page.text((x + 5.0, 9.4), "rain", SMALL)


def _bars(
    page: Page, hours: FaceHours, windows: Mapping[str, Sequence[Window]], across: Axis
) -> None:
    """Draw a row for each kind of work, and the hours in which the skin is wet first."""
    y = PLOT.y1 + 12.0
    wet = windows_of(~hours.dry)
    rows = [("wet", wet, SKY), *((name, runs, GREEN) for name, runs in windows.items())]
    for name, runs, color in rows:
        page.text((PLOT.x0 - 2.0, y + 3.2), name, SMALL, anchor="end")
        track = Rect(x0=PLOT.x0, y0=y + 0.6, x1=PLOT.x1, y1=y + 4.4)
        page.path(_corners(track), Pen(width=0.13, color=GREY), WHITE, closed=True)
        for run in runs:
            bar = Rect(x0=across.at(run.start), y0=y + 0.6, x1=across.at(run.end), y1=y + 4.4)
            page.path(_corners(bar), Pen(width=0.13, color=color), color, closed=True)
        y += _ROW


def _corners(rect: Rect) -> tuple[tuple[float, float], ...]:
    return ((rect.x0, rect.y0), (rect.x1, rect.y0), (rect.x1, rect.y1), (rect.x0, rect.y1))
