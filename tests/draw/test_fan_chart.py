"""The chart of a fan test: everything on it, nothing over its edge."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
import shapely
from tests.draw.textboxes import overlaps, paths, text_boxes

import seamwright
from seamwright.draw.fan_chart import HEIGHT, PLOT, WIDTH, draw_fan_chart
from seamwright.io.fan_readings import read_fan_test
from seamwright.leakage.fan import analyze_fan_test
from seamwright.leakage.types import Conditions, Envelope, FanResult, Reading, Series
from seamwright.units import System

EXAMPLE = Path(seamwright.__file__).parent / "data" / "examples" / "heron_house_fan_test.csv"


def example() -> FanResult:
    """Return the result of the built-in example."""
    test = read_fan_test(EXAMPLE)
    return analyze_fan_test(test.series, test.conditions, test.envelope)


def one_point() -> FanResult:
    """Return the result of a single reading."""
    series = Series(
        direction="pressurize",
        readings=(Reading(pressure=50.0, flow=0.05),),
        baseline_before=(0.0,),
        baseline_after=(0.0,),
    )
    air = Conditions(
        indoor_temperature=20.0, outdoor_temperature=20.0, barometric_pressure=101325.0
    )
    return analyze_fan_test([series], air, Envelope(), method="astm_e1827")


def rough(scatter: float) -> FanResult:
    """Return the result of readings that scatter widely."""
    series = Series(
        direction="depressurize",
        readings=tuple(
            Reading(pressure=-p, flow=2.0 * p**0.6 * (1 + scatter * (-1) ** k))
            for k, p in enumerate((10.0, 25.0, 40.0, 55.0))
        ),
    )
    air = Conditions(
        indoor_temperature=20.0, outdoor_temperature=20.0, barometric_pressure=101325.0
    )
    return analyze_fan_test([series], air, Envelope(volume=3000.0))


@pytest.mark.parametrize("system", ["us", "metric"])
@pytest.mark.parametrize("result", [example(), one_point(), rough(0.4)])
@pytest.mark.parametrize("limit", [None, 0.4, 4.0])
def test_text_stays_apart_and_on_paper(
    result: FanResult, system: System, limit: float | None
) -> None:
    """No text covers another or leaves the paper, for sound, short and rough tests."""
    svg = draw_fan_chart(result, title="A house", system=system, limit=limit).svg
    boxes = text_boxes(svg)
    assert overlaps(boxes) == []
    paper = shapely.box(0, 0, WIDTH, HEIGHT)
    assert [b.text for b in boxes if not paper.covers(b.box)] == []


def test_every_reading_is_drawn_twice() -> None:
    """Each reading has its mark on the chart and on the strip below: squares or discs."""
    svg = draw_fan_chart(example(), title="A house", system="us").svg
    assert svg.count("<circle") == 2 * 8 + 1
    squares = [p for p in paths(svg) if p.get("fill") == "#ffffff" and p["d"].endswith("Z")]
    assert len(squares) == 2 * 8 + 1


def test_points_stand_where_their_numbers_say() -> None:
    """On log axes the discs of equal steps of ln(pressure) stand equal steps apart."""
    series = Series(
        direction="pressurize",
        readings=tuple(Reading(pressure=10.0 * 2**k, flow=0.02 * 2**k) for k in range(3)),
    )
    air = Conditions(
        indoor_temperature=20.0, outdoor_temperature=20.0, barometric_pressure=101325.0
    )
    svg = draw_fan_chart(analyze_fan_test([series], air, Envelope()), title="A", system="us").svg
    marks = [
        (float(a), float(b)) for a, b in re.findall(r'<circle cx="(\S+)" cy="(\S+)" r="1"', svg)
    ]
    marks = [m for m in marks if m[1] < PLOT.y1][:3]
    (x0, y0), (x1, y1), (x2, y2) = sorted(marks)
    assert x1 - x0 == pytest.approx(x2 - x1, abs=0.01)
    assert y1 - y0 == pytest.approx(y2 - y1, abs=0.01)


def test_the_target_is_drawn_where_one_is() -> None:
    """The flow the target allows is marked, and only then."""
    result = example()
    with_target = draw_fan_chart(result, title="A", system="us", limit=0.4).svg
    assert ">target<" in with_target
    assert ">target<" not in draw_fan_chart(result, title="A", system="us").svg
