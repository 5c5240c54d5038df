"""The days part of a plan: read, refused with reasons, and turned into hours of the calendar."""

from __future__ import annotations

import pytest
from tests.schedule.houses import network

from seamwright.errors import InputError
from seamwright.io.plan import builtin_house, read_plan
from seamwright.io.plan.day_hours import bans_of, calendar_of, fixed_of, hour_told
from seamwright.schedule.tasks_given import with_given
from seamwright.schedule.types import DaysGiven

DAYS = """
days:
  start: 2026-04-06
  offset: -07:00
  weekdays: [Mon, tue, wed, thu, fri]
  begin: 7:00
  end: 15:30
  days_off: [2026-04-10]
  crane: [2026-04-08, 2026-04-09]
  crews:
    - {id: setters, skills: [setting, roofing], size: 4}
  tasks:
    - {id: scaffold, title: Scaffold, duration: 8 h, longest: 12 h, skill: setting,
       after: [stand.1], before: [roof_ready], reason: heights}
  order:
    - {before: window.W1, after: clad.A, lag: 24 h, reason: sill flashing}
  dates:
    - {task: set.R1.1, not_before: 2026-04-08 07:00, reason: crane}
    - {task: set.R1.1, not_after: 2026-04-08}
    - {task: delivery, finished: 2026-04-03}
    - {task: base, start: 2026-04-07}
  bans:
    - {work: fan_test, first: 2026-04-13, last: 2026-04-14, reason: the tester is away}
"""


def read_days(text: str = DAYS) -> DaysGiven:
    """Return the days of the first house with a days part added."""
    return read_plan(builtin_house("first_house") + "\n" + text, name="plan.yaml").days


def refusal(text: str) -> str:
    """Return what is said about a days part that cannot be used."""
    with pytest.raises(InputError) as caught:
        read_days(text)
    return str(caught.value)


def test_a_plan_without_days_has_the_usual_week() -> None:
    """Nothing said is Monday to Friday, seven to four, no crews and no dates."""
    days = read_plan(builtin_house("first_house")).days
    assert days == DaysGiven()
    assert (days.week.weekdays, days.week.begin, days.week.end) == ((0, 1, 2, 3, 4), 7.0, 16.0)


def test_all_that_is_written_arrives() -> None:
    """Every key of the days part reaches the records, times in seconds."""
    days = read_days()
    assert (days.start, days.offset) == ("2026-04-06", "-07:00")
    assert days.week.end == 15.5
    (crew,) = days.crews
    assert (crew.id, crew.skills, crew.size) == ("setters", ("setting", "roofing"), 4)
    (added,) = days.tasks
    span = added.task.duration
    assert (span.low, span.likely, span.high) == (8 * 3600, 8 * 3600, 12 * 3600)
    assert (added.after, added.before) == (("stand.1",), ("roof_ready",))
    assert days.order[0].lag == 24 * 3600
    assert days.dates[0].not_before == "2026-04-08T07:00"
    assert days.bans[0].work == "fan_test"


def test_the_calendar_counts_whole_hours_of_working_days() -> None:
    """Eight whole hours a day from seven, none on a day off or a weekend, crane days as given."""
    calendar = calendar_of(read_days(), days=14)
    assert calendar.working_hours[:8] == tuple(range(7, 15))
    days = {hour // 24 for hour in calendar.working_hours}
    assert days == {0, 1, 2, 3, 7, 8, 9, 10, 11}
    assert {hour // 24 for hour in calendar.crane_hours} == {2, 3}
    assert calendar.start == "2026-04-06T00:00:00-07:00"


def test_dates_become_hours() -> None:
    """A time is its hour, a start by day its first working hour, an end by day its midnight.

    What was finished before the first day counts as finished at hour 0.
    """
    days = read_days()
    fixed = {f.task_id: f for f in fixed_of(days, calendar_of(days, days=14))}
    assert (fixed["set.R1.1"].not_before, fixed["set.R1.1"].not_after) == (48 + 7, 72)
    assert fixed["set.R1.1"].reason == "crane"
    assert fixed["base"].start_hour == 24 + 7
    assert fixed["delivery"].done
    assert fixed["delivery"].end_hour == 0


def test_bans_reach_every_task_of_their_kind() -> None:
    """A ban on fan tests takes two days from each of the three."""
    days = read_days()
    bans = bans_of(days, network("first_house"), calendar_of(days, days=14))
    assert {ban.task_id for ban in bans} == {"fan_test", "retest", "handover"}
    assert {(ban.start, ban.end) for ban in bans} == {(7 * 24, 9 * 24)}


def test_given_days_join_the_network() -> None:
    """The days of the plan fit the network of its house."""
    made = with_given(network("first_house"), read_days())
    assert "scaffold" in {task.id for task in made.tasks}


def test_an_hour_is_told_as_a_local_day() -> None:
    """Hour 31 of a plan from 6 April is seven in the morning of the 7th."""
    assert hour_told(calendar_of(read_days(), days=3), 31) == "2026-04-07 07:00"


def test_a_calendar_needs_a_first_day() -> None:
    """Without a start the calendar is refused with what to add."""
    with pytest.raises(InputError, match="add start"):
        calendar_of(DaysGiven(), days=3)
    assert calendar_of(DaysGiven(), days=3, start="2026-04-06").hours == 72


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("days: {begin: 25:00}", "is not a time of day"),
        ("days: {begin: 16:00, end: 7:00}", "ends before it begins"),
        ("days: {offset: 7}", "is not an offset"),
        ("days: {start: soon}", "is not a date"),
        ("days: {weekdays: [noday]}", "is not a known word"),
        ("days: {dates: [{task: mend}]}", "no date is given"),
        ("days: {dates: [{task: mend, start: 2026-13-01}]}", "is not a day"),
        (
            "days: {bans: [{first: 2026-01-01, last: 2026-01-02, reason: x}]}",
            "one task or one kind",
        ),
        (
            "days: {bans: [{task: mend, first: 2026-01-03, last: 2026-01-02, reason: x}]}",
            "lies before the first",
        ),
        ("days: {order: [{before: mend, after: mend, reason: x}]}", "same task"),
        (
            "days: {tasks: [{id: a, title: A, duration: 2 h, shortest: 3 h, skill: sealing}]}",
            "not between",
        ),
        (
            "days: {crews: [{id: a, skills: [x], size: 1}, {id: a, skills: [x], size: 1}]}",
            "used twice",
        ),
        ("days: {order: [{before: 'a b', after: mend, reason: x}]}", "cannot be the id"),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence(text: str, told: str) -> None:
    """Each slip is told with the line it stands in."""
    said = refusal(text)
    assert told in said
    assert "plan.yaml:" in said
