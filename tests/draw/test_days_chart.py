"""The chart of the days."""

from __future__ import annotations

import datetime as dt
import re
from xml.etree import ElementTree as ET

from tests.schedule.day_nets import crew, task, week

from seamwright.draw.days_chart import draw_days_chart
from seamwright.draw.types import Drawing
from seamwright.schedule.types import DayPlan, Slot

START = dt.datetime(2027, 4, 5)  # noqa: DTZ001 a site works by the clock on its wall


def slot(name: str, start: float, end: float, *, critical: bool = False) -> Slot:
    """Return a slot between two hours of the plan."""
    return Slot(task_id=name, start=round(4 * start), end=round(4 * end), crew_id="crew",
                float_hours=0, critical=critical)  # fmt: skip


def chart(*slots: Slot, marks: dict[str, str] | None = None, **more: object) -> Drawing:
    """Return the chart of some slots of one crew."""
    plan = DayPlan(state="feasible", slots=slots, end=max(s.end for s in slots), bound=0, gap=1.0,
                   step=900.0)  # fmt: skip
    tasks = {s.task_id: task(s.task_id, 1, work="lay_beads", **more) for s in slots}
    return draw_days_chart(plan, tasks, [crew()], START, calendar=week(), title="Days of a hut",
                           marks=marks)  # fmt: skip


def words(drawing: Drawing) -> list[str]:
    """Return the words of a chart."""
    root = ET.fromstring(drawing.svg)
    return [element.text or "" for element in root.iter() if element.text and element.text.strip()]


def test_title_crew_days_and_kinds_of_work_are_written() -> None:
    """Whose days they are, who works, on which days, and what the patterns mean."""
    told = words(chart(slot("a", 8, 10), slot("b", 32, 34)))
    assert "Days of a hut" in told
    assert any(word.startswith("crew") for word in told)
    assert any("beads, dams, foam" in word for word in told)
    days = [word for word in told if re.search(r"\b(5|6|04-05|04-06)\b", word)]
    assert len(days) >= 2


def test_lost_days_are_marked() -> None:
    """A day of rain and one without the crane bear their words."""
    told = words(chart(slot("a", 8, 10), slot("b", 32, 34), marks={"2027-04-06": "rain"}))
    assert "rain" in told
    assert "rain" not in words(chart(slot("a", 8, 10), slot("b", 32, 34)))


def test_work_side_by_side_lies_in_lanes_of_its_own() -> None:
    """Two tasks of one crew at the same time make the chart taller than one after another."""

    def height(drawing: Drawing) -> float:
        box = ET.fromstring(drawing.svg).get("viewBox")
        assert box is not None
        return float(box.split()[3])

    one = chart(slot("a", 8, 10), slot("b", 10, 12))
    both = chart(slot("a", 8, 10), slot("b", 9, 11))
    assert height(both) > height(one)


def test_the_critical_chain_and_hold_points_look_different() -> None:
    """A critical task, and one that is signed, are not drawn as others are."""
    plain = chart(slot("a", 8, 10)).svg
    assert chart(slot("a", 8, 10, critical=True)).svg != plain
    assert chart(slot("a", 8, 10), hold_point="Look.", released_by="lead").svg != plain
