"""How wet the wood of a joint gets: by the month under each face, and by how much leaks."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from seamwright.draw.curves_chart import Panel, Row, Trace, curves_chart, rows_chart
from seamwright.draw.types import Drawing
from seamwright.report.dryness_sheet import MONTHS
from seamwright.report.dryness_types import DryRun, HeightDryness, HouseDryness, JointDryness
from seamwright.units import System
from seamwright.units.air import format_leak_rate

FIRST_MONTH = 9
"""Runs begin in October."""

_MONTH_DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
ON_A_SHEET = 3
"""Joint types and heights on one sheet of the packet. Our own choice."""

_MOST = 0.6


def dryness_charts(found: HouseDryness, system: System = "metric") -> tuple[Drawing, ...]:
    """Return one chart for each joint type and height."""
    return tuple(
        _chart(found, one, height, system) for one in found.joints for height in one.heights
    )


def dryness_sheets(found: HouseDryness, system: System = "metric") -> tuple[Drawing, ...]:
    """Return the same charts, several on each sheet."""
    every = [(one, height) for one in found.joints for height in one.heights]
    groups = [every[k : k + ON_A_SHEET] for k in range(0, len(every), ON_A_SHEET)]
    return tuple(
        rows_chart(
            f"dryness-{k}",
            _types_of(group),
            [_row(found, one, height, system) for one, height in group],
            _caption(found),
        )
        for k, group in enumerate(groups, start=1)
    )


def _types_of(group: Sequence[tuple[JointDryness, HeightDryness]]) -> str:
    """Return the names of the joint types on a sheet."""
    names = list(dict.fromkeys(one.joint.name for one, _ in group))
    return names[0] if len(names) == 1 else f"{names[0]} to {names[-1]}"


def _caption(found: HouseDryness) -> str:
    word = "GENERATED weather. " if found.generated else ""
    month = "the wettest watched place under each face, leaking as usually made"
    leak = "Right: its wettest 30 days over what the joint leaks. "
    left = f"Left: {month}. {leak}" if not found.asked.short else f"{_raised(month)}. "
    return f"{word}{left}More than 60 % is drawn at 60 %. A proposal to the designer."


def _raised(words: str) -> str:
    return words[0].upper() + words[1:]


def _title(one: JointDryness, height: HeightDryness) -> str:
    where = f", {height.height} in the house" if len(one.heights) > 1 else ""
    return f"{one.joint.name} {one.joint.title}{where}"


def _panels(found: HouseDryness, height: HeightDryness, system: System) -> tuple[Panel, ...]:
    month = _by_month(found, height, system)
    return (month,) if found.asked.short else (month, _by_leak(found, height, system))


def _chart(
    found: HouseDryness, one: JointDryness, height: HeightDryness, system: System
) -> Drawing:
    marked = " (GENERATED weather)" if found.generated else ""
    return curves_chart(
        f"dryness-{one.joint.name.lower()}-{height.height}",
        f"{_title(one, height)}{marked}",
        _panels(found, height, system),
        _caption(found),
    )


def _row(found: HouseDryness, one: JointDryness, height: HeightDryness, system: System) -> Row:
    """Return the panels of one joint type at one height; the key tells faces, the words leaks."""
    leaks = [f"{run.face} {_leak(run, system)}" for run in height.runs if run.moisture is not None]
    plain = tuple(
        replace(panel, traces=tuple(replace(t, name=t.name.split(",")[0]) for t in panel.traces))
        for panel in _panels(found, height, system)
    )
    words = f"usually leaks at 50 Pa: {', '.join(leaks)}" if leaks else ""
    return Row(title=_title(one, height), words=words, panels=plain)


def _leak(run: DryRun, system: System) -> str:
    return format_leak_rate(run.leakage / 3600.0, system)


def _by_month(found: HouseDryness, height: HeightDryness, system: System) -> Panel:
    runs = [run for run in height.runs if run.moisture is not None]
    days = max((len(run.moisture) for run in runs if run.moisture is not None), default=365)
    traces = tuple(
        Trace(
            name=f"{_word(run)}, {_leak(run, system)}",
            x=tuple(float(k) for k in range(0, days, 3)),
            y=_percent(run),
        )
        for run in runs
    )
    return Panel(
        title="Moisture of the wood, from October",
        x_title="month",
        y_title="moisture [% of dry mass]",
        traces=traces,
        x_range=(0.0, float(days)),
        y_range=(0.0, _top([value for trace in traces for value in trace.y])),
        limits=_limit(found),
        x_ticks=_ticks(days),
    )


def _by_leak(found: HouseDryness, height: HeightDryness, system: System) -> Panel:
    traces = []
    for face in dict.fromkeys(run.face for run in height.runs):
        points = sorted(
            (np.log10(run.leakage), 100.0 * min(run.wettest.moisture, _MOST))
            for run in height.runs
            if run.face == face and run.wettest is not None
        )
        traces.append(
            Trace(
                name=f"strip {_FACES[face]}",
                x=tuple(float(x) for x, _ in points),
                y=tuple(float(y) for _, y in points),
            )
        )
    levels = found.asked.levels
    unit = "cfm/ft" if system == "us" else "m³/(h·m)"
    return Panel(
        title="Wettest 30 days over leakage",
        x_title=f"leakage of the joint at 50 Pa [{unit}]",
        y_title="moisture [% of dry mass]",
        traces=tuple(traces),
        x_range=(float(np.log10(levels[0])), float(np.log10(levels[-1]))),
        y_range=(0.0, _top([value for trace in traces for value in trace.y])),
        limits=_limit(found),
        x_ticks=tuple(
            (float(np.log10(level)), format_leak_rate(level / 3600.0, system).split()[0])
            for level in levels
        ),
    )


_FACES = {"inner": "inside", "outer": "outside", "both": "on both faces"}


def _word(run: DryRun) -> str:
    return f"strip {_FACES[run.face]}"


def _percent(run: DryRun) -> tuple[float, ...]:
    """Return the moisture of the place that gets wettest, every third day. [%]"""
    assert run.moisture is not None
    place = int(np.argmax(run.moisture.mean(axis=0)))
    if run.wettest is not None and run.wettest.place in run.places:
        place = run.places.index(run.wettest.place)
    values = 100.0 * np.minimum(run.moisture[::3, place], _MOST)
    return tuple(float(v) for v in values)


def _limit(found: HouseDryness) -> tuple[tuple[float, str], ...]:
    month = found.asked.limits.month
    return () if month is None else ((100.0 * month, f"limit {month:.0%}"),)


def _top(values: list[float]) -> float:
    return float(min(60.0, max([25.0, *values])))


def _ticks(days: int) -> tuple[tuple[float, str], ...]:
    found, at, month = [], 0, FIRST_MONTH
    while at <= days:
        if (month - FIRST_MONTH) % 3 == 0:
            found.append((float(at), MONTHS[month % 12][:3]))
        at += _MONTH_DAYS[month % 12]
        month += 1
    return tuple(found)
