"""The check of a plan against the weather, without the windows."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from tests.schedule.day_nets import network, task

import seamwright
from seamwright.climate.face import Face
from seamwright.io.weather_forecast import read_forecast
from seamwright.schedule.outlook import outlook_of
from seamwright.schedule.types import Calendar, DayPlan, Slot
from seamwright.schedule.verify_weather import Evidence, verify_weather
from seamwright.schedule.window_classes import classes_of

FILE = read_forecast(
    Path(seamwright.__file__).parent / "data" / "examples" / "heron_house_forecast.csv"
)
FACES = (
    Face(id="R1", azimuth=0.0, tilt=0.59),
    Face(id="A", azimuth=0.0, tilt=1.5708),
    Face(id="B", azimuth=3.1416, tilt=1.5708),
)
OUTLOOK = outlook_of(FILE.weather, FACES, FILE.place)
CLASSES = {row.name: row for row in classes_of(OUTLOOK)}
HOURS = range(FILE.weather.hours)


def told(name: str, hour: int, *, shift: int = 0, done: bool = False) -> tuple[str, ...]:
    """Return what the check says of one hour of work of a class; no window is given to it."""
    net = network([replace(task("work", 1), window=name)])
    slot = Slot(task_id="work", start=4 * (hour + shift), end=4 * (hour + shift) + 4,
                crew_id="crew", float_hours=0, critical=False)  # fmt: skip
    plan = DayPlan(state="feasible", slots=(slot,), end=slot.end, bound=0, gap=1.0, step=900.0)
    calendar = Calendar(start="", hours=200, working_hours=tuple(range(200)), crane_hours=())
    seen = Evidence(outlook=OUTLOOK, first=shift, begin=shift, end=shift + FILE.weather.hours)
    return verify_weather(plan, net, calendar, [seen], frozenset({"work"} if done else ()))


@pytest.mark.parametrize("name", CLASSES)
def test_open_hours_pass_and_closed_ones_are_told(name: str) -> None:
    """Window and check are made apart and agree on every hour of the record."""
    assert [hour for hour in HOURS if not told(name, hour)] == list(CLASSES[name].open)


def test_the_record_lies_where_it_was_laid() -> None:
    """Shifted by a day, the same hours of the record are told."""
    assert [h for h in HOURS if not told("tape/outer/wall/A", h, shift=24)] == list(
        CLASSES["tape/outer/wall/A"].open
    )


def test_work_done_is_a_fact() -> None:
    """A task that is done is not held against the weather."""
    wet = next(hour for hour, why in CLASSES["tape/outer/wall/A"].closed if why == "rain")
    assert any("skin is wet" in sentence for sentence in told("tape/outer/wall/A", wet))
    assert told("tape/outer/wall/A", wet, done=True) == ()


def test_a_damp_board_is_told_with_its_water() -> None:
    """Where only the board is damp the sentence names face and water."""
    closed = dict(CLASSES["tape/outer/wall/A"].closed)
    damp = next(hour for hour, why in closed.items() if why == "board damp")
    assert any("A: the board holds" in sentence for sentence in told("tape/outer/wall/A", damp))
