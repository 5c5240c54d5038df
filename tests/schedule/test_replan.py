"""Planning again from where the site stands."""

from __future__ import annotations

from tests.schedule.day_nets import link

from seamwright.schedule.replan import SiteState, changes, fixed_from
from seamwright.schedule.types import DayPlan, Fixed, Slot


def plan(**places: tuple[int, int]) -> DayPlan:
    """Return a plan in quarter hours."""
    slots = tuple(
        Slot(task_id=n, start=a, end=b, crew_id="crew", float_hours=0, critical=False)
        for n, (a, b) in places.items()
    )
    return DayPlan(state="feasible", slots=slots, end=99, bound=0, gap=1.0, step=900.0)


OLD = plan(a=(28, 32), b=(33, 38), c=(40, 44))


def test_past_work_is_done_as_planned() -> None:
    """What ended is done, what is under way is kept to the minute, what is ahead is free."""
    rows = {row.task_id: row for row in fixed_from(OLD, SiteState(now=9))}
    assert set(rows) == {"a", "b"}
    assert rows["a"].reason == "done as planned"
    assert (rows["b"].start_hour, rows["b"].start_minute, rows["b"].done) == (8, 15, True)
    assert (rows["b"].end_hour, rows["b"].end_minute) == (9, 30)


def test_the_site_knows_better() -> None:
    """A task done at other hours has those, and one that was not done is open."""
    state = SiteState(now=10, done={"c": (7.0, 8.5)}, undone=("a",))
    rows = {row.task_id: row for row in fixed_from(OLD, state)}
    assert set(rows) == {"b", "c"}
    assert (rows["c"].start_hour, rows["c"].end_hour, rows["c"].end_minute) == (7, 8, 30)


def test_frozen_work_keeps_its_start_and_crew() -> None:
    """Up to the frozen hour tasks keep their start but are not done."""
    rows = {row.task_id: row for row in fixed_from(OLD, SiteState(now=7, frozen_until=9))}
    assert (rows["b"].start_hour, rows["b"].start_minute, rows["b"].done) == (8, 15, False)
    assert rows["b"].crew_id == "crew"
    assert "c" not in rows


def test_a_bead_that_skinned_over_is_laid_again() -> None:
    """Work whose longest wait ran out before its follower came is open again."""
    waits = [link("b", "c", most=1)]
    assert "b" in {row.task_id for row in fixed_from(OLD, SiteState(now=10), links=waits)}
    late = SiteState(now=12, undone=("c",))
    assert {row.task_id for row in fixed_from(OLD, late, links=waits)} == {"a"}


def test_wishes_for_open_work_stay() -> None:
    """What the user fixed about work ahead is kept, about work done it is history."""
    given = [Fixed(task_id="c", not_before=12), Fixed(task_id="a", not_before=12)]
    rows = {row.task_id: row for row in fixed_from(OLD, SiteState(now=8), given)}
    assert rows["c"].not_before == 12
    assert rows["a"].done


def test_changes_list_moved_tasks_only() -> None:
    """A task that starts two hours later is told so, others are not."""
    assert changes(OLD, plan(a=(28, 32), b=(41, 46), c=(40, 44))) == {"b": 2.0}
