"""Starts that no plan can use."""

from __future__ import annotations

from tests.schedule.day_nets import crew, link, network, task, week

from seamwright.schedule.calendar_steps import in_steps
from seamwright.solve.holes import without_holes

END = 14 * 24 * 4


def test_a_panel_is_not_set_in_the_first_hour_of_a_day() -> None:
    """Beads of an hour come before it on the same day, so it starts at eight or later."""
    made = network([task("bead", 1), task("panel", 1)], [link("bead", "panel", most=1)])
    site = without_holes(in_steps(made, [crew()], week()), END)
    hours = {start / 4 % 24 for start in site.jobs["panel"].starts}
    assert (min(hours), max(hours)) == (8.0, 15.0)
    assert max(start / 4 % 24 for start in site.jobs["bead"].starts) == 14.0


def test_hours_closed_to_one_are_closed_to_the_other() -> None:
    """Where no bead may be laid before noon, no panel is set before one."""
    dry = tuple(24 * day + hour for day in range(14) for hour in range(12, 16))
    made = network(
        [task("bead", 1, window="dry"), task("panel", 1)], [link("bead", "panel", most=1)]
    )
    site = without_holes(in_steps(made, [crew()], week(dry=dry)), END)
    assert min(start / 4 % 24 for start in site.jobs["panel"].starts) == 13.0


def test_what_must_be_covered_the_same_day_is_not_begun_in_the_afternoon() -> None:
    """Three hours of cover after two of setting leave starts from seven to eleven."""
    tasks = [task("set", 2, same_day_as="set"), task("cover", 3, same_day_as="set")]
    site = without_holes(in_steps(network(tasks, [link("set", "cover")]), [crew()], week()), END)
    hours = {start / 4 % 24 for start in site.jobs["set"].starts}
    assert (min(hours), max(hours)) == (7.0, 11.0)


def test_starts_past_the_end_are_left_out_but_never_all() -> None:
    """Only starts that end in time stay; a task that cannot end in time keeps what it has."""
    site = in_steps(network([task("a", 2), task("b", 4)]), [crew()], week())
    cut = without_holes(site, 10 * 4)
    assert cut.jobs["a"].ends.max() == 10 * 4
    assert cut.jobs["b"].starts.size == site.jobs["b"].starts.size
