"""Contradictions are told as their shortest chain, and only where there are any."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from tests.schedule.houses import network

from seamwright.errors import InputError
from seamwright.schedule.conflict import explain_conflict
from seamwright.schedule.links_order import shortest_circle
from seamwright.schedule.tasks_given import BannedHours, with_bans, with_given
from seamwright.schedule.types import (
    AddedTask,
    AskedLink,
    Calendar,
    DaysGiven,
    Fixed,
    Link,
    Network,
    Span3,
    Task,
)


def task(name: str, hours: float = 2.0, window: str | None = None) -> Task:
    """Return a plain task of some hours."""
    span = Span3(low=hours * 3600, likely=hours * 3600, high=hours * 3600)
    return Task(
        id=name,
        work="other",
        title=name.upper(),
        refs=(),
        duration=span,
        skill="sealing",
        window=window,
    )


def chain(*names: str) -> Network:
    """Return tasks of two hours each, one after another."""
    links = tuple(
        Link(before=a, after=b, rule="carried_by", reason="b stands on a")
        for a, b in pairwise(names)
    )
    return Network(tasks=tuple(task(n) for n in names), links=links)


def workdays(days: int, windows: tuple[tuple[str, tuple[int, ...]], ...] = ()) -> Calendar:
    """Return days of eight working hours from seven, no crane."""
    hours = tuple(24 * day + hour for day in range(days) for hour in range(7, 15))
    return Calendar(
        start="2026-04-06T00:00:00+00:00",
        hours=24 * days,
        working_hours=hours,
        crane_hours=(),
        windows=windows,
    )


def test_no_conflict_is_no_words() -> None:
    """A network without dates contradicts nothing."""
    assert explain_conflict(network("first_house")) == ()
    assert explain_conflict(chain("a", "b", "c"), [], workdays(3)) == ()


def test_a_circle_is_told_by_its_shortest_way() -> None:
    """Of two ways round, the shorter one is told, with the user's own reason in it."""
    net = chain("a", "b", "c", "d")
    short = Link(before="a", after="d", rule="dry_first", reason="short way")
    given = DaysGiven(order=(AskedLink(before="d", after="a", reason="the boss says so"),))
    made = with_given(Network(tasks=net.tasks, links=(*net.links, short)), given)
    told = explain_conflict(made)
    assert len(told) == 3
    assert "the boss says so" in told[0]
    assert "short way" in told[1]


def test_a_ceiling_before_the_test_is_refused_with_reasons() -> None:
    """On a real house the circle names test, mending and finish, and why."""
    given = DaysGiven(order=(AskedLink(before="finish.ceiling", after="fan_test", reason="early"),))
    told = " ".join(explain_conflict(with_given(network("first_house"), given)))
    for word in ("early", "fan_test", "retest", "finish.ceiling", "a leak behind a finish"):
        assert word in told


def test_a_chain_too_long_for_a_date_is_told() -> None:
    """Three tasks of two hours from seven end at one; asked for noon, the chain says why not."""
    told = explain_conflict(
        chain("a", "b", "c"),
        [Fixed(task_id="c", not_after=12, reason="inspector comes")],
        workdays(2),
    )
    assert told[0] == "‘A’ (a) starts at hour 7 at the earliest."
    assert len(told) == 4
    assert "hour 13" in told[-1]
    assert "inspector comes" in told[-1]


def test_a_date_that_just_fits_is_no_conflict() -> None:
    """The same asked for one o'clock holds."""
    fixed = [Fixed(task_id="c", not_after=13)]
    assert explain_conflict(chain("a", "b", "c"), fixed, workdays(2)) == ()


def test_work_runs_over_the_night() -> None:
    """Ten hours of work over two days of eight end on the second day."""
    net = chain("a", "b", "c", "d", "e")
    assert explain_conflict(net, [Fixed(task_id="e", not_after=33)], workdays(2)) == ()
    assert explain_conflict(net, [Fixed(task_id="e", not_after=32)], workdays(2)) != ()


def test_only_the_part_of_the_chain_that_clashes_is_told() -> None:
    """A release in the middle of a chain starts the explanation, not the chain's beginning."""
    fixed = [
        Fixed(task_id="c", not_before=10, reason="delivery at ten"),
        Fixed(task_id="d", not_after=12),
    ]
    told = explain_conflict(chain("a", "b", "c", "d"), fixed, workdays(2))
    assert told[0] == "‘C’ (c) starts at hour 10 at the earliest: delivery at ten."
    assert len(told) == 3


def test_a_fixed_start_before_its_predecessors_end_is_told() -> None:
    """A start that comes too early names what it would have to wait for."""
    told = explain_conflict(chain("a", "b"), [Fixed(task_id="b", start_hour=8)], workdays(2))
    assert "cannot start before hour 9" in told[-1]


def test_what_is_done_binds_nothing() -> None:
    """A task that is done is no conflict, whatever came before it."""
    done = Fixed(task_id="b", start_hour=1, end_hour=2, done=True)
    assert explain_conflict(chain("a", "b"), [done], workdays(2)) == ()


def test_a_window_without_hours_is_told() -> None:
    """A task whose class of hours never comes is named with the class."""
    net = Network(tasks=(task("a", window="foam"),), links=())
    told = explain_conflict(net, [], workdays(2, (("foam", ()),)))
    assert "foam" in told[0]


def test_the_beginning_says_what_it_waits_for_in_the_calendar() -> None:
    """A chain that begins with a window says which, and when it opens."""
    net = chain("a", "b")
    tasks = (replace(net.tasks[0], window="lift"), net.tasks[1])
    calendar = workdays(3, (("lift", (33, 34, 35)),))
    fixed = [Fixed(task_id="b", not_after=34)]
    told = explain_conflict(replace(net, tasks=tasks), fixed, calendar)
    assert "starts at hour 33 at the earliest, since it needs hours of the class lift" in told[0]


def test_lags_count() -> None:
    """A wait between two tasks lengthens the chain and is told in it."""
    link = Link(before="a", after="b", rule="bond_builds", reason="it cures", lag=86400.0)
    net = Network(tasks=(task("a"), task("b")), links=(link,))
    told = explain_conflict(net, [Fixed(task_id="b", not_after=24)], workdays(3))
    assert "24 h later" in told[1]


def test_bans_take_hours_from_one_task_only() -> None:
    """A banned task gets a window of its own; its neighbors keep theirs."""
    net, calendar = with_bans(
        chain("a", "b"), workdays(2), [BannedHours(task_id="b", start=0, end=24)]
    )
    windows = dict(calendar.windows)
    banned = next(t for t in net.tasks if t.id == "b")
    assert banned.window is not None
    assert min(windows[banned.window]) == 31
    assert next(t for t in net.tasks if t.id == "a").window is None


def test_added_tasks_stand_where_they_are_asked_to() -> None:
    """An added task comes after and before what it names, in an order that holds."""
    added = AddedTask(task=task("scaffold"), after=("stand.1",), before=("roof_ready",))
    made = with_given(network("first_house"), DaysGiven(tasks=(added,)))
    order = [t.id for t in made.tasks]
    assert order.index("stand.1") < order.index("scaffold") < order.index("roof_ready")
    assert shortest_circle(made.links) == ()


def test_names_that_lead_nowhere_are_told_with_the_nearest() -> None:
    """A slip in a task's id is refused, and the id meant is offered."""
    given = DaysGiven(order=(AskedLink(before="fan_tset", after="mend", reason=""),))
    with pytest.raises(InputError, match="did you mean ‘fan_test’"):
        with_given(network("first_house"), given)


def test_an_id_used_twice_is_told() -> None:
    """An added task cannot take the id of one that is there."""
    given = DaysGiven(tasks=(AddedTask(task=task("mend")),))
    with pytest.raises(InputError, match="used before"):
        with_given(network("first_house"), given)
