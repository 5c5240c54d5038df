"""The hours there are."""

from __future__ import annotations

import datetime as dt

from seamwright.schedule.calendar import (
    make_calendar,
    weekday,
    with_rain,
    without_crane,
)
from seamwright.schedule.types import WorkHours

MONDAY = dt.date(2027, 4, 5).toordinal()


def test_weekdays_of_ordinals_are_those_of_dates() -> None:
    """The arithmetic without a clock gives the weekday that a calendar library gives."""
    days = [dt.date(2024, 2, 26) + dt.timedelta(days=k) for k in range(500)]
    assert [weekday(d.toordinal()) for d in days] == [d.weekday() for d in days]


def test_hours_are_those_of_working_days() -> None:
    """Two weeks of five days from 7 to 16 h are 90 hours, the first from 7 on Monday."""
    made = make_calendar("2027-04-05", first_day=MONDAY, days=14)
    assert len(made.working_hours) == 90
    assert made.working_hours[:2] == (7, 8)
    assert made.working_hours[45] == 7 * 24 + 7
    assert made.crane_hours == made.working_hours


def test_holidays_and_crane_days_count() -> None:
    """A holiday has no hours, and the crane is there on its own days only."""
    made = make_calendar(
        "2027-04-05", first_day=MONDAY, days=7, holidays=[MONDAY + 1],
        crane_days=[MONDAY, MONDAY + 1],
    )  # fmt: skip
    assert {h // 24 for h in made.working_hours} == {0, 2, 3, 4}
    assert {h // 24 for h in made.crane_hours} == {0}


def test_parts_of_hours_are_left_out() -> None:
    """A day from 7:30 to 15:30 has the seven whole hours between."""
    week = WorkHours(begin=7.5, end=15.5)
    made = make_calendar("2027-04-05", first_day=MONDAY, days=1, week=week)
    assert made.working_hours == tuple(range(8, 15))


def test_rain_takes_outdoor_hours_only() -> None:
    """A day of rain closes lifting and beads, not strips indoors, and no other day."""
    made = with_rain(make_calendar("2027-04-05", first_day=MONDAY, days=3), [1])
    windows = dict(made.windows)
    assert {h // 24 for h in windows["lift"]} == {0, 2}
    assert {h // 24 for h in windows["bead"]} == {0, 2}
    assert "tape/inner" not in windows


def test_a_broken_crane_leaves_the_hours() -> None:
    """Days without the crane are working days still."""
    made = without_crane(make_calendar("2027-04-05", first_day=MONDAY, days=3), [0, 1])
    assert {h // 24 for h in made.crane_hours} == {2}
    assert {h // 24 for h in made.working_hours} == {0, 1, 2}
