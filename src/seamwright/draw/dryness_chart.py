"""How wet the wood of a joint gets: by the month under each face, and by how much leaks."""

from __future__ import annotations

import numpy as np

from seamwright.draw.curves_chart import Panel, Trace, curves_chart
from seamwright.draw.types import Drawing
from seamwright.report.dryness_sheet import MONTHS
from seamwright.report.dryness_types import DryRun, HeightDryness, HouseDryness, JointDryness

FIRST_MONTH = 9
"""Runs begin in October."""

_MONTH_DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
_MOST = 0.6


def dryness_charts(found: HouseDryness) -> tuple[Drawing, ...]:
    """Return one chart for each joint type and height."""
    return tuple(_chart(found, one, height) for one in found.joints for height in one.heights)


def _chart(found: HouseDryness, one: JointDryness, height: HeightDryness) -> Drawing:
    where = f", {height.height} in the house" if len(one.heights) > 1 else ""
    word = "GENERATED weather. " if found.generated else ""
    marked = " (GENERATED weather)" if found.generated else ""
    if found.asked.short:
        return curves_chart(
            f"dryness-{one.joint.name.lower()}-{height.height}",
            f"{one.joint.name} {one.joint.title}{where}{marked}",
            (_by_month(found, height),),
            f"{word}The wettest watched place under each face, leaking as usually made. More than "
            "60 % is drawn at 60 %. A proposal to the designer.",
        )
    return curves_chart(
        f"dryness-{one.joint.name.lower()}-{height.height}",
        f"{one.joint.name} {one.joint.title}{where}{marked}",
        (_by_month(found, height), _by_leak(found, height)),
        f"{word}Left: the wettest watched place under each face, leaking as usually made. Right: "
        "its wettest 30 days over what the joint leaks. More than 60 % is drawn at 60 %. A "
        "proposal to the designer.",
    )


def _by_month(found: HouseDryness, height: HeightDryness) -> Panel:
    runs = [run for run in height.runs if run.moisture is not None]
    days = max((len(run.moisture) for run in runs if run.moisture is not None), default=365)
    traces = tuple(
        Trace(
            name=f"{_word(run)}, {run.leakage:.2g} m³/(h·m)",
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


def _by_leak(found: HouseDryness, height: HeightDryness) -> Panel:
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
    return Panel(
        title="Wettest 30 days over leakage",
        x_title="leakage of the joint at 50 Pa [m³/(h·m)]",
        y_title="moisture [% of dry mass]",
        traces=tuple(traces),
        x_range=(float(np.log10(levels[0])), float(np.log10(levels[-1]))),
        y_range=(0.0, _top([value for trace in traces for value in trace.y])),
        limits=_limit(found),
        x_ticks=tuple((float(np.log10(level)), f"{level:g}") for level in levels),
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
