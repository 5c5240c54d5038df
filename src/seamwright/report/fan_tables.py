"""The tables of a fan test: results, rules, fitted lines, readings, house and weather."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from seamwright.leakage.types import (
    Check,
    Conditions,
    Envelope,
    FanResult,
    Interval,
    Series,
    SeriesResult,
)
from seamwright.report.fan_words import CFM, DIRECTIONS, result_rows, target_text
from seamwright.report.outlook import Tightness
from seamwright.report.types import Cell, Dimension, Quantity, Table


@dataclass(frozen=True, kw_only=True, slots=True)
class FanSheet:
    """What goes onto a test sheet beside the result: the readings and what is known of the test.

    `facts` are pairs of name and value (house, tester, date), `notes` what had to be assumed,
    `meaning` what the result means for the air of the house, where its plan is known.
    """

    result: FanResult
    series: tuple[Series, ...]
    conditions: Conditions
    envelope: Envelope
    facts: tuple[tuple[str, str], ...] = ()
    notes: tuple[str, ...] = ()
    chart: str | None = None
    meaning: Tightness | None = None


def result_table(result: FanResult) -> Table:
    """Return every measure with its 95 % interval."""
    return Table(
        columns=("Measure", "Result", "95 % interval"),
        rows=result_rows(result),
        widths=(2.3, 2.0, 2.9),
        caption="Results, mean of the directions tested, at 20 °C and 101,325 Pa",
    )


def rules_table(result: FanResult) -> Table:
    """Return every validity rule with what was measured and whether it holds."""
    rows = [
        _rule_row(DIRECTIONS[one.direction], check) for one in result.series for check in one.checks
    ]
    rows += [_rule_row("whole test", check) for check in result.checks]
    return Table(
        columns=("Rule", "Where", "Measured", "Limit", "Holds", "Source"),
        rows=tuple(rows),
        widths=(3.6, 1.6, 1.8, 1.8, 1.0, 2.6),
        caption="Rules of the standard",
        marks=("BROKEN",),
    )


def broken_rules(result: FanResult) -> tuple[tuple[str, Check], ...]:
    """Return the rules and advice that do not hold, each with where."""
    rows = [(DIRECTIONS[one.direction], c) for one in result.series for c in one.checks]
    rows += [("whole test", c) for c in result.checks]
    return tuple((where, check) for where, check in rows if not check.holds)


def laws_table(result: FanResult) -> Table:
    """Return the fitted power law of each direction."""
    rows = tuple(_law_row(one) for one in result.series)
    return Table(
        columns=(
            "Direction", "Baseline", "C as tested, m³/(h·Paⁿ)", "C standard air",
            "Exponent n", "r²", "Q50",
        ),
        rows=rows,
        widths=(1.5, 1.0, 2.4, 1.3, 2.2, 0.8, 1.0),
        caption="Fitted lines: flow = C × pressure to the power n; in brackets 95 %",
    )  # fmt: skip


def readings_table(sheet: FanSheet) -> Table:
    """Return every reading as the gauges showed it, with the fitted flow beside it."""
    rows = [
        row
        for one, done in zip(sheet.series, sheet.result.series, strict=True)
        for row in _reading_rows(one, done)
    ]
    return Table(
        columns=(
            "Direction", "Read, Pa", "Less baseline, Pa", "Fan, cfm", "Fan, m³/h",
            "Through shell, m³/h", "Off the line", "Range",
        ),
        rows=tuple(rows),
        widths=(1.8, 1, 1.3, 1, 1, 1.4, 1.1, 0.9),
        right=(1, 2, 3, 4, 5, 6),
        caption="Readings; pressures are indoor minus outdoor",
    )  # fmt: skip


def house_table(sheet: FanSheet) -> Table:
    """Return the weather and the house as the test was worked out with."""
    air, house, result = sheet.conditions, sheet.envelope, sheet.result
    rows: tuple[tuple[Cell, ...], ...] = (
        ("Indoor air", _air(air.indoor_temperature, air.indoor_humidity)),
        ("Outdoor air", _air(air.outdoor_temperature, air.outdoor_humidity)),
        ("Barometric pressure", f"{air.barometric_pressure / 100:.1f} hPa"),
        ("Wind", None if air.wind_speed is None else _wind(air.wind_speed)),
        ("Height of the building", _quantity(air.height, "length")),
        ("Volume", _quantity(house.volume, "volume")),
        ("Area of the shell", _quantity(house.area, "area")),
        ("Floor area", _quantity(house.floor_area, "area")),
        ("Measured by this rule", house.rule or None),
        ("Errors counted in, 95 %", _accuracy(result)),
        ("Target", None if result.target is None else target_text(result.target)),
    )
    return Table(
        columns=("House and weather", ""),
        rows=tuple(rows),
        widths=(1.5, 5),
        caption="What was used",
    )


def _law_row(one: SeriesResult) -> tuple[str, ...]:
    fit = one.fit
    per_hour = Interval(
        value=fit.coefficient.value * 3600,
        low=fit.coefficient.low * 3600,
        high=fit.coefficient.high * 3600,
    )
    return (
        DIRECTIONS[one.direction],
        f"{one.offset:+.2f} Pa",
        _span(per_hour, ".1f"),
        f"{one.standard_coefficient * 3600:.1f}",
        _span(fit.exponent, ".4f"),
        f"{fit.r_squared:.4f}" if fit.count > 2 else "–",
        f"{one.flow_50.value / CFM:.0f} cfm",
    )


def _span(interval: Interval, form: str) -> str:
    return f"{interval.value:{form}} ({interval.low:{form}} to {interval.high:{form}})"


def _reading_rows(one: Series, done: SeriesResult) -> list[tuple[str, ...]]:
    sign = -1.0 if one.direction == "depressurize" else 1.0
    through = dict(zip(done.pressures, done.flows, strict=True))
    rows: list[tuple[str, ...]] = []
    for reading in one.readings:
        pressure = sign * (reading.pressure - done.offset)
        flow = through.get(pressure)
        off = "left out"
        if flow is not None:
            fitted = done.fit.coefficient.value * pressure**done.fit.exponent.value
            off = f"{100 * (flow / fitted - 1):+.1f} %"
        rows.append(
            (
                DIRECTIONS[one.direction],
                f"{reading.pressure:.1f}",
                f"{pressure:.1f}",
                f"{reading.flow / CFM:.1f}",
                f"{reading.flow * 3600:.1f}",
                "–" if flow is None else f"{flow * 3600:.1f}",
                off,
                reading.device or "–",
            )
        )
    return rows


def _rule_row(where: str, check: Check) -> tuple[str, ...]:
    word = "holds" if check.holds else "BROKEN" if check.required else "advice not met"
    return (check.rule, where, check.measured, check.limit, word, check.source)


def _air(temperature: float, humidity: float) -> str:
    return (
        f"{temperature * 1.8 + 32:.0f} °F ({temperature:.1f} °C), {100 * humidity:.0f} % humidity"
    )


def _wind(speed: float) -> str:
    return f"{speed / 0.44704:.0f} mph ({speed:.1f} m/s)"


def _quantity(value: float | None, dimension: Dimension) -> Quantity | None:
    return None if value is None else Quantity(value=value, dimension=dimension)


def _accuracy(result: FanResult) -> str:
    known = result.accuracy
    parts: Sequence[str] = ()
    if known is not None:
        shares = (("flow", known.flow), ("volume", known.volume), ("area", known.area))
        parts = [f"{name} {100 * share:g} %" for name, share in shares if share is not None]
        if known.pressure is not None:
            parts = [*parts, f"pressure {known.pressure:g} Pa"]
    return ", ".join(("scatter of the readings", *parts))
