"""The charts of the forecast."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET

import pytest
from tests.leakage.houses import house

from seamwright.draw.axis import nice_axis
from seamwright.draw.forecast_chart import forecast_chart, parts_chart
from seamwright.leakage.forecast import forecast
from seamwright.leakage.types import Target

PLACES = house(80)
MIDDLE = forecast(PLACES, draws=2_000).flow_50.p50


def result(factor: float | None):
    """Return a forecast with the target at a part of its middle, or none."""
    target = None
    if factor is not None:
        target = Target(measure="flow_50", limit=MIDDLE * factor, source="test")
    return forecast(PLACES, volume=300.0, target=target, draws=2_000)


@pytest.mark.parametrize("factor", [None, 0.05, 1.0, 2.0, 50.0])
@pytest.mark.parametrize("system", ["us", "metric"])
def test_nothing_leaves_the_paper(factor: float | None, system: str) -> None:
    """All marks and words of both charts stay on the paper, wherever the target is."""
    for drawing in (forecast_chart(result(factor), system), parts_chart(result(factor), system)):
        root = ET.fromstring(drawing.svg)
        for text in root.iter("{http://www.w3.org/2000/svg}text"):
            size = float(text.get("font-size")) * 0.602 * len(text.text)
            x = float(text.get("x"))
            left = {"start": x, "middle": x - size / 2, "end": x - size}[text.get("text-anchor")]
            assert left >= 0, text.text
            assert left + size <= drawing.width_mm, text.text
            assert 0 < float(text.get("y")) < drawing.height_mm
        for path in root.iter("{http://www.w3.org/2000/svg}path"):
            points = [float(n) for n in re.findall(r"-?\d+(?:\.\d+)?", path.get("d"))]
            assert all(-1 <= x <= drawing.width_mm + 1 for x in points[::2])
            assert all(-1 <= y <= drawing.height_mm + 1 for y in points[1::2])


def test_the_target_and_its_chance_are_written() -> None:
    """The chart says how often the target is met."""
    svg = forecast_chart(result(1.0), "metric").svg
    assert re.search(r"target [\d.,]+ m³/h, met by \d+ %", svg)
    assert "target" not in forecast_chart(result(None), "metric").svg


def test_a_target_far_off_is_told_in_words() -> None:
    """A limit right of the chart is named instead of drawn."""
    assert "right of the chart" in forecast_chart(result(50.0), "us").svg


def test_units_follow_the_reader() -> None:
    """Flows are in cfm or in m³/h."""
    assert "[cfm]" in forecast_chart(result(1.0), "us").svg
    assert "[m³/h]" in parts_chart(result(1.0), "metric").svg


def test_bars_beyond_the_target_are_hatched() -> None:
    """The part that fails is told apart without color."""
    none, all_ = (forecast_chart(result(f), "us").svg.count("<path") for f in (50.0, 0.05))
    assert all_ > none + 20


@pytest.mark.parametrize(("low", "high"), [(0.0, 0.37), (0.0, 8123.0), (1.2e3, 4.4e3), (0.0, 0.0)])
def test_axes_hold_their_values_with_round_ticks(low: float, high: float) -> None:
    """Both ends lie within the ticks, which are evenly spaced and few."""
    axis = nice_axis(low, high, 10.0, 110.0)
    assert axis.ticks[0] <= low
    assert axis.ticks[-1] >= high
    assert 2 <= len(axis.ticks) <= 12
    steps = {round(b - a, 9) for a, b in zip(axis.ticks, axis.ticks[1:], strict=False)}
    assert len(steps) == 1
    assert axis.at(axis.start) == 10.0
    assert axis.at(axis.end + 1.0) == 110.0
