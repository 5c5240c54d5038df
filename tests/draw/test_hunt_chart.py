"""The charts of the leak hunt."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from dataclasses import replace

import numpy as np
import pytest
from tests.leakage.hunt_world import made_up

from seamwright.draw.hunt_chart import hunt_charts
from seamwright.leakage.hunt_story import Step, tell
from seamwright.leakage.hunt_types import FanTest, Look, Mend

DIARY = (
    FanTest(id="T1", flow=0.09, low=0.085, high=0.095),
    Look(place="J3", method="smoke", found=True, strength=5),
    Mend(place="J3"),
    Look(place="J4", method="smoke", found=False),
)


@pytest.fixture(scope="module")
def steps() -> tuple[Step, ...]:
    """Return the steps of an invented hunt."""
    return tell(made_up(40, np.random.default_rng(3)), DIARY)


def test_there_is_a_step_for_the_forecast_and_each_entry(steps) -> None:
    """Each step holds what was known then: a find raises its place, a mend lowers it."""
    assert [s.words for s in steps] == [
        "forecast", "test T1", "J3: found, 5", "J3: mended", "J4: nothing",
    ]  # fmt: skip
    place = [s.hunt.standings[3] for s in steps]
    assert place[2].leak > 1.5 * place[1].leak
    assert place[3].leak < place[2].leak / 2
    assert steps[4].hunt.standings[4].defect < steps[3].hunt.standings[4].defect


@pytest.mark.parametrize("system", ["us", "metric"])
@pytest.mark.parametrize("count", [1, 5])
def test_nothing_leaves_the_paper(steps, system: str, count: int) -> None:
    """All words and marks of the charts stay on the paper, also before anything is recorded."""
    for drawing in hunt_charts(steps[:count], system=system, target=0.08):
        root = ET.fromstring(drawing.svg)
        for text in root.iter("{http://www.w3.org/2000/svg}text"):
            size = float(text.get("font-size")) * 0.602 * len(text.text)
            x = float(text.get("x"))
            left = {"start": x, "middle": x - size / 2, "end": x - size}[text.get("text-anchor")]
            if text.get("transform") is None:
                assert left >= 0, text.text
                assert left + size <= drawing.width_mm, text.text
            assert 0 < float(text.get("y")) < drawing.height_mm
        for path in root.iter("{http://www.w3.org/2000/svg}path"):
            points = [float(n) for n in re.findall(r"-?\d+(?:\.\d+)?", path.get("d"))]
            assert all(-1 <= x <= drawing.width_mm + 1 for x in points[::2])
            assert all(-1 <= y <= drawing.height_mm + 1 for y in points[1::2])


def test_the_target_and_every_touched_place_are_named(steps) -> None:
    """The target's flow stands beside its line; places looked at stand in both other charts."""
    house, order, places = hunt_charts(steps, system="metric", target=0.08)
    assert "target 288" in house.svg
    for place in ("J3", "J4"):
        assert f">{place}<" in order.svg
        assert f">{place}<" in places.svg
    none = hunt_charts(steps, system="metric")[0]
    assert "target" not in none.svg


def test_a_long_hunt_keeps_its_leaders(steps) -> None:
    """Steps without an order of their own change nothing but their column."""
    twice = (*steps, replace(steps[-1], event=None))
    assert len(hunt_charts(twice, system="us")) == 3
