"""The forecast as two charts: how likely each result is, and what it is made of and hangs on."""

from __future__ import annotations

from collections.abc import Sequence

from seamwright.draw.axis import Axis, nice_axis
from seamwright.draw.ink import BLACK, BLUE, GREY, ORANGE, RED, SKY, SMALL, TEXT, WHITE, Pen
from seamwright.draw.page import Page, text_width
from seamwright.draw.types import Drawing, Rect
from seamwright.leakage.forecast_types import Driver, Forecast, KindShare
from seamwright.report.forecast_words import driver_word, place_word
from seamwright.units import System
from seamwright.units.air import format_flow, format_share

WIDTH = 249.0
"""Width between the margins of a landscape letter sheet of the packet. [mm]"""

_FRAME = Pen(width=0.25)
_GRID = Pen(width=0.13, color="#cfcfcf")
_WHISKER = Pen(width=0.25)
_LIMIT = Pen(width=0.7, color=RED, dash=(2.4, 1.2))
_MIDDLE = Pen(width=0.5, color=BLACK)
_ROW = 5.6
_MOST_ROWS = 10
_PER_FLOW = {"us": 60.0 / 0.3048**3, "metric": 3600.0}
_UNIT = {"us": "cfm", "metric": "m³/h"}


def forecast_chart(result: Forecast, system: System) -> Drawing:
    """Return the distribution of the flow at 50 Pa against the target.

    Bars hold equal steps of flow and are as high as the part of drawn houses in them; those beyond
    the limit are hatched as well as colored. A second scale below gives air changes.
    """
    height = 80.0
    page = Page(WIDTH, height)
    box = Rect(x0=6.0, y0=14.0, x1=WIDTH - 8.0, y1=height - 21.0)
    factor = _PER_FLOW[system]
    axis = nice_axis(0.0, _right_end(result) * factor, box.x0, box.x1, steps=14)
    top = max(bar.part for bar in result.histogram)
    _flow_scale(page, box, axis, f"flow at 50 Pa [{_UNIT[system]}]")
    if result.ach50 is not None and result.flow_50.mean > 0.0:
        _air_change_scale(page, box, axis, result.ach50.mean / (result.flow_50.mean * factor))
    for bar in result.histogram:
        _bar(page, box, axis, result, (bar.low * factor, bar.high * factor, bar.part / top))
    page.line((box.x0, box.y1), (box.x1, box.y1), _FRAME)
    _percentiles(page, box, axis, result, system)
    _limit(page, box, axis, result, system)
    page.text((1.5, 4.0), "How likely each result is", TEXT + 0.3, bold=True)
    page.text(
        (box.x1, 4.0),
        f"{result.draws:,} drawn houses, {result.workmanship} work",
        SMALL, anchor="end", color=GREY,
    )  # fmt: skip
    return _drawing("forecast", page, "Forecast of the fan test", height)


def parts_chart(result: Forecast, system: System) -> Drawing:
    """Return two charts side by side: where the leakage is, and what the uncertainty hangs on."""
    kinds, drivers = result.by_kind[:_MOST_ROWS], result.drivers[:_MOST_ROWS]
    height = 27.0 + _ROW * max(len(kinds), len(drivers))
    page = Page(WIDTH, height)
    half = WIDTH / 2
    _kind_bars(page, Rect(x0=42.0, y0=12.0, x1=half - 14.0, y1=height - 13.0), kinds, system)
    _tornado(
        page, Rect(x0=half + 43.0, y0=12.0, x1=WIDTH - 12.0, y1=height - 13.0), drivers,
        result.flow_50.p50, system,
    )  # fmt: skip
    page.text((1.5, 4.0), "Where the leakage is expected", TEXT + 0.3, bold=True)
    page.text((half + 3.0, 4.0), "What the uncertainty hangs on", TEXT + 0.3, bold=True)
    return _drawing("forecast-parts", page, "What the forecast is made of", height)


def _bar(
    page: Page, box: Rect, axis: Axis, result: Forecast, bar: tuple[float, float, float]
) -> None:
    """Draw one step of the histogram; from low to high, in the unit shown, and its height."""
    low, high, part = bar
    if part <= 0.0:
        return
    beyond = _is_beyond(result, low, high)
    x0, x1 = axis.at(low), axis.at(high)
    y = box.y1 - part * (box.height - 8.0)
    corners = ((x0, box.y1), (x0, y), (x1, y), (x1, box.y1))
    page.path(corners, Pen(width=0.13, color=WHITE), ORANGE if beyond else SKY, closed=True)
    if beyond:
        _hatch(page, (x0, x1), y, box.y1)


def _hatch(page: Page, sides: tuple[float, float], top: float, bottom: float) -> None:
    """Draw slanted lines over a bar, so that it is told apart without color."""
    x0, x1 = sides
    rise = x1 - x0
    y = bottom
    while y - rise > top:
        page.line((x0, y), (x1, y - rise), Pen(width=0.13))
        y -= rise


def _is_beyond(result: Forecast, low: float, high: float) -> bool:
    if result.target_flow is None or result.histogram[-1].high <= 0.0:
        return False
    widest = result.histogram[0].high
    step = result.target_flow / widest
    return (low + high) / 2 / (high - low) > step


def _right_end(result: Forecast) -> float:
    end = result.histogram[-1].high
    limit = result.target_flow
    return end if limit is None or limit > 2.5 * end else max(end, 1.1 * limit)


def _flow_scale(page: Page, box: Rect, axis: Axis, title: str) -> None:
    for value in axis.ticks:
        x = axis.at(value)
        page.line((x, box.y0 + 8.0), (x, box.y1), _GRID)
        page.line((x, box.y1), (x, box.y1 + 1.2), _FRAME)
        page.text((x, box.y1 + 4.0), f"{value:,g}", SMALL, anchor="middle")
    page.text((box.x1, box.y1 + 7.6), title, SMALL, anchor="end", color=GREY)


def _air_change_scale(page: Page, box: Rect, axis: Axis, per_unit: float) -> None:
    y = box.y1 + 11.5
    own = nice_axis(0.0, axis.end * per_unit, box.x0, box.x1, steps=14)
    page.line((box.x0, y), (box.x1, y), _FRAME)
    for value in own.ticks:
        if value > axis.end * per_unit:
            continue
        x = axis.at(value / per_unit)
        page.line((x, y), (x, y + 1.2), _FRAME)
        page.text((x, y + 4.0), f"{value:,g}", SMALL, anchor="middle")
    page.text((box.x1, y + 7.6), "air changes at 50 Pa, ACH50 [1/h]", SMALL, anchor="end",
              color=GREY)  # fmt: skip


def _percentiles(page: Page, box: Rect, axis: Axis, result: Forecast, system: System) -> None:
    """Draw the span that holds 90 % of the houses, and the middle one."""
    factor = _PER_FLOW[system]
    y = box.y0 + 5.0
    low, middle, high = (
        axis.at(v * factor) for v in (result.flow_50.p05, result.flow_50.p50, result.flow_50.p95)
    )
    page.line((low, y), (high, y), _WHISKER)
    for x in (low, high):
        page.line((x, y - 1.2), (x, y + 1.2), _WHISKER)
    page.line((middle, y - 1.6), (middle, box.y1), _MIDDLE)
    words = f"half of the houses below {format_flow(result.flow_50.p50, system)}"
    page.text((middle + 1.2, y - 1.2), words, SMALL)
    page.text((high + 1.2, y + 0.8), "9 in 10 lie on this line", SMALL, color=GREY)


def _limit(page: Page, box: Rect, axis: Axis, result: Forecast, system: System) -> None:
    """Draw the target and the chance to meet it."""
    if result.target_flow is None or result.chance is None:
        return
    words = (
        f"target {format_flow(result.target_flow, system)}, met by {format_share(result.chance)}"
    )
    value = result.target_flow * _PER_FLOW[system]
    if value > axis.end:
        page.text((box.x1, box.y0 - 1.5), f"{words} (right of the chart)", TEXT, anchor="end",
                  bold=True, color=RED)  # fmt: skip
        return
    x = axis.at(value)
    page.line((x, box.y0 - 3.5), (x, box.y1), _LIMIT)
    fits = x + 1.5 + text_width(words, TEXT) < box.x1
    page.text((x + 1.5 if fits else x - 1.5, box.y0 - 1.5), words, TEXT, bold=True, color=RED,
              anchor="start" if fits else "end")  # fmt: skip


def _kind_bars(page: Page, box: Rect, kinds: Sequence[KindShare], system: System) -> None:
    factor = _PER_FLOW[system]
    axis = nice_axis(0.0, max(kind.high for kind in kinds) * factor, box.x0, box.x1)
    _row_scale(page, box, axis, f"flow at 50 Pa [{_UNIT[system]}]; line: 9 in 10 houses")
    for number, kind in enumerate(kinds):
        y = box.y0 + (number + 0.5) * _ROW
        _row_bar(page, (box.x0, axis.at(kind.flow * factor)), y, SKY)
        low, high = axis.at(kind.low * factor), axis.at(kind.high * factor)
        page.line((low, y), (high, y), _WHISKER)
        page.text((box.x0 - 1.5, y + 0.7), place_word(kind.kind, kind.sort), SMALL, anchor="end")
        page.text((box.x1 + 12.5, y + 0.7), format_share(kind.share), SMALL, anchor="end")


def _tornado(
    page: Page, box: Rect, drivers: Sequence[Driver], middle: float, system: System
) -> None:
    factor = _PER_FLOW[system]
    least, most = min(d.low for d in drivers), max(d.high for d in drivers)
    axis = nice_axis(least * factor, most * factor, box.x0, box.x1)
    _row_scale(page, box, axis, f"middle flow at 50 Pa [{_UNIT[system]}] as each goes 10 % to 90 %")
    center = axis.at(middle * factor)
    for number, driver in enumerate(drivers):
        y = box.y0 + (number + 0.5) * _ROW
        _row_bar(page, (axis.at(driver.low * factor), center), y, SKY)
        _row_bar(page, (center, axis.at(driver.high * factor)), y, ORANGE)
        page.text((box.x0 - 1.5, y + 0.7), driver_word(driver.name), SMALL, anchor="end")
        page.text((box.x1 + 10.5, y + 0.7), format_share(driver.share), SMALL, anchor="end")
    bottom = box.y0 + len(drivers) * _ROW
    page.line((center, box.y0), (center, bottom), Pen(width=0.35, color=BLUE))


def _row_scale(page: Page, box: Rect, axis: Axis, title: str) -> None:
    for value in axis.ticks:
        x = axis.at(value)
        page.line((x, box.y0), (x, box.y1), _GRID)
        page.text((x, box.y1 + 3.4), f"{value:,g}", SMALL, anchor="middle")
    page.line((box.x0, box.y1), (box.x1, box.y1), _FRAME)
    page.text((box.x1, box.y1 + 7.4), title, SMALL, anchor="end", color=GREY)


def _row_bar(page: Page, ends: tuple[float, float], y: float, color: str) -> None:
    a, b = sorted(ends)
    corners = ((a, y - 1.7), (b, y - 1.7), (b, y + 1.7), (a, y + 1.7))
    page.path(corners, Pen(width=0.13), color, closed=True)


def _drawing(name: str, page: Page, title: str, height: float) -> Drawing:
    return Drawing(
        name=name, title=title, svg=page.finish(), width_mm=WIDTH, height_mm=height,
        scale="not to scale", caption=title,
    )  # fmt: skip
