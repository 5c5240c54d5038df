"""Bounds by trying: how early a task or the whole can end at best."""

from __future__ import annotations

from tests.schedule.day_nets import crew, link, network, task, week

from seamwright.schedule.calendar_steps import in_steps
from seamwright.solve.overload import first_start, least_end


def test_a_test_waits_for_the_work_of_all_hands_and_for_the_bond() -> None:
    """Twelve hours of strips for one crew and a day's rest put the test on the third day."""
    tasks = [*(task(f"s{k}", 2) for k in range(6)), task("test", 4)]
    made = network(tasks, [link(f"s{k}", "test", lag=24) for k in range(6)])
    site = in_steps(made, [crew()], week())
    # nine hours on Monday, three on Tuesday until ten; Wednesday at ten the last has rested
    assert first_start(site, "test", 0, 14 * 96) == (2 * 24 + 10) * 4


def test_the_whole_cannot_end_before_its_work_is_done() -> None:
    """Twenty hours for one pair of hands end on the third day at nine at the earliest."""
    site = in_steps(network([task(f"t{k}", 2) for k in range(10)]), [crew()], week())
    assert least_end(site, 0, 14 * 96, lambda: True) == (2 * 24 + 9) * 4


def test_without_time_nothing_is_claimed() -> None:
    """Where there is no time to try, the bound is the one given."""
    site = in_steps(network([task("a", 4)]), [crew()], week())
    assert least_end(site, 5, 500, lambda: False) == 5
