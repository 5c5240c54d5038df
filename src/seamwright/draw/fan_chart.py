"""The chart of a fan test: readings and fit on log axes, both directions, with their intervals."""

from __future__ import annotations

import math
from dataclasses import dataclass

from seamwright.draw.ink import (
    BLACK,
    BLUE,
    CENTER,
    EDGE,
    GREEN,
    GREY,
    RED,
    SMALL,
    TEXT,
    THIN,
    WHITE,
    Pen,
)
from seamwright.draw.page import Page
from seamwright.draw.types import Anchor, Drawing, Rect
from seamwright.geometry.types import Vec2
from seamwright.leakage.power_law import flow_at
from seamwright.leakage.types import Direction, FanResult, Interval, SeriesResult
from seamwright.units import System

WIDTH, HEIGHT = 236.0, 148.0
PLOT = Rect(x0=19.0, y0=13.0, x1=163.0, y1=103.0)
REST = Rect(x0=PLOT.x0, y0=109.0, x1=PLOT.x1, y1=134.0)
_GRID = Pen(width=0.15, color="#d4d4d4")
_CFM = 0.3048**3 / 60.0
_UNITS: dict[System, tuple[str, float]] = {"us": ("cfm", _CFM), "metric": ("m³/h", 1.0 / 3600.0)}
_OTHER: dict[System, System] = {"us": "metric", "metric": "us"}
_PRESSURES = (3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 15.0, 20.0, 30.0, 40.0, 50.0, 60.0, 80.0, 100.0)
_STEPS = (1.0, 1.5, 2.0, 3.0, 4.0, 5.0, 6.0, 8.0)
_LOW, _HIGH = 3.0, 100.0


@dataclass(frozen=True, kw_only=True, slots=True)
class _Look:
    """How one direction is drawn: told apart by mark and dashes, not by color alone."""

    name: str
    color: str
    tint: str
    full: bool


LOOKS: dict[Direction, _Look] = {
    "depressurize": _Look(name="depressurize", color=BLUE, tint="#dbe9f3", full=False),
    "pressurize": _Look(name="pressurize", color=RED, tint="#f8e6da", full=True),
}


@dataclass(frozen=True, kw_only=True, slots=True)
class _Axes:
    """From pressure [Pa] and flow [m³/s] to paper, both as logarithms."""

    low: float
    high: float

    def x(self, pressure: float) -> float:
        """Return where a pressure stands. [mm]"""
        share = math.log(pressure / _LOW) / math.log(_HIGH / _LOW)
        return PLOT.x0 + share * PLOT.width

    def y(self, flow: float) -> float:
        """Return where a flow stands. [mm]"""
        share = math.log(flow / self.low) / math.log(self.high / self.low)
        return PLOT.y1 - share * PLOT.height

    def at(self, pressure: float, flow: float) -> Vec2:
        """Return a point on paper. [mm]"""
        return (self.x(pressure), self.y(flow))


def draw_fan_chart(
    result: FanResult, *, title: str, system: System, limit: float | None = None
) -> Drawing:
    """Return the chart of a fan test: readings, fit and interval of each direction.

    Flows are those through the envelope at 20 °C and 101,325 Pa, on the left in cfm (or m³/h) and
    on the right in the other unit. `limit` is the flow at 50 Pa that the target allows. [m³/s]
    """
    page = Page(WIDTH, HEIGHT)
    axes = _axes(result, limit)
    _grid(page, axes, system)
    for one in result.series:
        _band(page, axes, one)
    for one in result.series:
        _line(page, axes, one)
        _points(page, axes, one)
    _marks(page, axes, result.flow_50, limit)
    page.path(_corners(PLOT), EDGE, closed=True)
    _rest(page, axes, result)
    _legend(page, result, title=title, system=system, limit=limit)
    return Drawing(
        name="fan-chart",
        title="Fan test: readings and fit",
        svg=page.finish(),
        width_mm=WIDTH,
        height_mm=HEIGHT,
        scale="not to scale",
        caption="Flow through the shell against pressure, both as logarithms; shaded: 95 % "
        "interval of each fitted line; bar at 50 Pa: the result with its 95 % interval. Below: how "
        "far each reading lies off its own line, and the interval of that line.",
    )


def _axes(result: FanResult, limit: float | None) -> _Axes:
    flows = [q * _factor(one) for one in result.series for q in one.flows]
    flows += [one.standard_coefficient * p**one.fit.exponent.value
              for one in result.series for p in (4.0, 80.0)]  # fmt: skip
    flows += [result.flow_50.low, result.flow_50.high]
    flows += [] if limit is None else [limit]
    return _Axes(low=min(flows) / 1.25, high=max(flows) * 1.25)


def _factor(one: SeriesResult) -> float:
    return one.standard_coefficient / one.fit.coefficient.value


def _grid(page: Page, axes: _Axes, system: System) -> None:
    for pressure in _PRESSURES:
        x = axes.x(pressure)
        page.line((x, PLOT.y0), (x, PLOT.y1), _GRID)
        page.line((x, REST.y0), (x, REST.y1), _GRID)
        page.line((x, REST.y1), (x, REST.y1 + 1.2), THIN)
        page.text((x, REST.y1 + 4.0), f"{pressure:g}", TEXT, anchor="middle")
    middle = (PLOT.x0 + PLOT.x1) / 2
    words = "pressure difference, baseline taken off [Pa]"
    page.text((middle, REST.y1 + 9.0), words, TEXT, anchor="middle")
    for left, shown in ((True, system), (False, _OTHER[system])):
        unit, size = _UNITS[shown]
        edge, out = (PLOT.x0, -1.2) if left else (PLOT.x1, 1.2)
        for flow in _ticks(axes.low / size, axes.high / size):
            y = axes.y(flow * size)
            if left:
                page.line((PLOT.x0, y), (PLOT.x1, y), _GRID)
            page.line((edge, y), (edge + out, y), THIN)
            anchor: Anchor = "end" if left else "start"
            page.text((edge + 1.6 * out, y + 0.7), f"{flow:g}", TEXT, anchor=anchor)
        turned = (6.0, PLOT.center[1]) if left else (PLOT.x1 + 13.0, PLOT.center[1])
        page.text(turned, f"flow through the shell [{unit}]", TEXT, anchor="middle", angle=-90)


def _ticks(low: float, high: float) -> list[float]:
    """Return round numbers between two limits, closer together where the axis is short."""
    decades = range(math.floor(math.log10(low)), math.ceil(math.log10(high)) + 1)
    found = [step * 10.0**decade for decade in decades for step in _STEPS]
    return [float(f"{tick:.6g}") for tick in found if low <= tick <= high]


def _band(page: Page, axes: _Axes, one: SeriesResult) -> None:
    if one.fit.count < 3:
        return
    factor = _factor(one)
    steps = [4.0 * (75.0 / 4.0) ** (k / 40) for k in range(41)]
    limits = [flow_at(one.fit, p) for p in steps]
    upper = [axes.at(p, max(axes.low, min(axes.high, i.high * factor)))
             for p, i in zip(steps, limits, strict=True)]  # fmt: skip
    lower = [axes.at(p, max(axes.low, min(axes.high, i.low * factor)))
             for p, i in zip(steps, limits, strict=True)]  # fmt: skip
    look = LOOKS[one.direction]
    page.path((*upper, *reversed(lower)), Pen(width=0.13, color=look.color), look.tint, closed=True)


def _line(page: Page, axes: _Axes, one: SeriesResult) -> None:
    look, n = LOOKS[one.direction], one.fit.exponent.value
    low, high = min(one.pressures), max(one.pressures)
    full, beyond = (
        Pen(width=0.35, color=look.color),
        Pen(width=0.25, color=look.color, dash=(1.6, 1.0)),
    )

    def at(pressure: float) -> Vec2:
        return axes.at(pressure, one.standard_coefficient * pressure**n)

    page.line(at(min(4.0, low)), at(low), beyond)
    page.line(at(low), at(high), full)
    page.line(at(high), at(max(75.0, high)), beyond)


def _rest(page: Page, axes: _Axes, result: FanResult) -> None:
    """Draw how far each reading lies off its own line, in percent, with the line's interval."""
    offs = {
        one.direction: [
            100.0 * (q / (one.fit.coefficient.value * p**one.fit.exponent.value) - 1.0)
            for p, q in zip(one.pressures, one.flows, strict=True)
        ]
        for one in result.series
    }
    most = max((abs(off) for part in offs.values() for off in part), default=0.0)
    span = next((s for s in (2.0, 5.0, 10.0, 20.0, 50.0) if most <= 0.9 * s), 100.0)

    def y(percent: float) -> float:
        held = max(-span, min(span, percent))
        return REST.center[1] - held / span * REST.height / 2

    for percent in (-span, -span / 2, 0.0, span / 2, span):
        page.line((REST.x0, y(percent)), (REST.x1, y(percent)), THIN if percent == 0 else _GRID)
        shown = f"{percent:+g}" if percent else "0"
        page.text((REST.x0 - 2.0, y(percent) + 0.7), shown, SMALL, anchor="end")
    page.text((6.0, REST.center[1]), "off the line [%]", SMALL, anchor="middle", angle=-90)
    for one in result.series:
        look = LOOKS[one.direction]
        if one.fit.count >= 3:
            dashes = () if look.full else (1.2, 0.8)
            pen = Pen(width=0.2, color=look.color, dash=dashes)
            for limit in _limits(one):
                page.path([(axes.x(p), y(off)) for p, off in limit], pen)
        for pressure, off in zip(one.pressures, offs[one.direction], strict=True):
            _mark(page, (axes.x(pressure), y(off)), look, Pen(width=0.3, color=look.color))
    page.path(_corners(REST), EDGE, closed=True)


def _limits(one: SeriesResult) -> tuple[list[Vec2], list[Vec2]]:
    """Return the 95 % limits of a line over its readings, as pressure and percent off the line."""
    low, high = min(one.pressures), max(one.pressures)
    steps = [low * (high / low) ** (k / 24) for k in range(25)]
    spans = [flow_at(one.fit, p) for p in steps]
    above = [(p, 100.0 * (i.high / i.value - 1.0)) for p, i in zip(steps, spans, strict=True)]
    below = [(p, 100.0 * (i.low / i.value - 1.0)) for p, i in zip(steps, spans, strict=True)]
    return above, below


def _points(page: Page, axes: _Axes, one: SeriesResult) -> None:
    look, factor = LOOKS[one.direction], _factor(one)
    pen = Pen(width=0.3, color=look.color)
    for pressure, flow in zip(one.pressures, one.flows, strict=True):
        _mark(page, axes.at(pressure, flow * factor), look, pen)


def _mark(page: Page, at: Vec2, look: _Look, pen: Pen) -> None:
    if look.full:
        page.circle(at, 1.0, pen, look.color)
        return
    square = Rect(x0=at[0] - 0.95, y0=at[1] - 0.95, x1=at[0] + 0.95, y1=at[1] + 0.95)
    page.path(_corners(square), pen, WHITE, closed=True)


def _marks(page: Page, axes: _Axes, flow_50: Interval, limit: float | None) -> None:
    for pressure, name in ((4.0, "ELA"), (10.0, "EqLA"), (50.0, "result")):
        x = axes.x(pressure)
        page.line((x, PLOT.y0), (x, PLOT.y1), CENTER)
        page.text((x, PLOT.y0 - 1.4), f"{name}, {pressure:g} Pa", SMALL, anchor="middle")
    if limit is not None:
        y = axes.y(limit)
        pen = Pen(width=0.5, color=GREEN)
        page.line((axes.x(42.0), y), (axes.x(60.0), y), pen)
        page.centered((axes.x(70.0), y), "target", TEXT, color=GREEN, bold=True)
    low, high = axes.at(50.0, flow_50.low), axes.at(50.0, flow_50.high)
    pen = Pen(width=0.5)
    page.line(low, high, pen)
    for end in (low, high):
        page.line((end[0] - 1.6, end[1]), (end[0] + 1.6, end[1]), pen)


def _legend(
    page: Page, result: FanResult, *, title: str, system: System, limit: float | None
) -> None:
    x, y = 181.0, PLOT.y0 + 3.0
    page.text((PLOT.x0, 6.5), title, 3.0, bold=True)
    for one in result.series:
        look = LOOKS[one.direction]
        _mark(page, (x + 1.0, y - 0.8), look, Pen(width=0.3, color=look.color))
        page.text((x + 4.0, y), look.name, TEXT, bold=True, color=look.color)
        y += 4.0
        for row in _law_rows(one, system):
            page.text((x + 4.0, y), row, SMALL)
            y += 3.4
        y += 2.5
    for row, strong in _result_rows(result, system, limit):
        page.text((x, y), row, TEXT if strong else SMALL, bold=strong, color=BLACK)
        y += 3.8 if strong else 3.4
    fitted = any(one.fit.count >= 3 for one in result.series)
    shading = "shaded: 95 % of the line" if fitted else "one or two pressures held"
    for row in (shading, "dashed: beyond the readings", "at 20 °C, 101,325 Pa",
                "below: off each own line"):  # fmt: skip
        y += 3.4
        page.text((x, y), row, SMALL, color=GREY)


def _law_rows(one: SeriesResult, system: System) -> list[str]:
    unit, size = _UNITS[system]
    fit = one.fit
    rows = [
        f"C = {one.standard_coefficient / size:.4g} {unit}/Paⁿ",
        f"n = {fit.exponent.value:.3f} ({fit.exponent.low:.3f} to {fit.exponent.high:.3f})",
    ]
    if fit.count >= 3:
        rows.append(f"r² = {fit.r_squared:.4f}, {fit.count} readings")
    return [*rows, f"baseline {one.offset:+.1f} Pa"]


def _result_rows(result: FanResult, system: System, limit: float | None) -> list[tuple[str, bool]]:
    unit, size = _UNITS[system]
    flow = result.flow_50
    rows = [
        (f"Q50 = {flow.value / size:.0f} {unit}", True),
        (f"({flow.low / size:.0f} to {flow.high / size:.0f})", False),
    ]
    if result.ach50 is not None:
        ach = result.ach50
        rows.append((f"ACH50 = {ach.value:.2f} 1/h", True))
        rows.append((f"({ach.low:.2f} to {ach.high:.2f})", False))
    if limit is not None:
        rows.append((f"target {limit / size:.0f} {unit}", False))
    if result.outcome is not None:
        rows.append((result.outcome, True))
    return rows


def _corners(rect: Rect) -> tuple[Vec2, ...]:
    return ((rect.x0, rect.y0), (rect.x1, rect.y0), (rect.x1, rect.y1), (rect.x0, rect.y1))
