"""A plan at once, by ranks."""

from __future__ import annotations

from tests.schedule.day_nets import crew, link, network, task, week

from seamwright.schedule.calendar_steps import in_steps
from seamwright.schedule.greedy import plan_greedily, tails
from seamwright.schedule.greedy_bundles import bundles


def test_long_chains_go_first() -> None:
    """Of two tasks for one person, the one with more work behind it comes first."""
    made = network([task("a", 1), task("b", 1), task("c", 4)], [link("b", "c")])
    site = in_steps(made, [crew()], week())
    plan = plan_greedily(site)
    assert tails(site) == {"a": 4.0, "b": 20.0, "c": 16.0}
    assert plan.places["b"].start < plan.places["a"].start
    assert plan.end == 13 * 4


def test_a_bead_waits_for_its_panel() -> None:
    """A bead that may lie an hour is laid late when the setters are busy till noon."""
    tasks = [task("busy", 4, skill="set"), task("bead", 1), task("panel", 1, skill="set")]
    made = network(tasks, [link("bead", "panel", most=1)])
    crews = [crew(), crew(name="setters", skills=("set",))]
    site = in_steps(made, crews, week())
    assert ("bead", "panel") in {bundle.members for bundle in bundles(site)}
    places = plan_greedily(site).places
    assert places["panel"].start - places["bead"].end <= 4
    assert places["panel"].start >= places["busy"].end


def test_a_group_that_does_not_fit_today_begins_tomorrow() -> None:
    """Today's rest is too short for panel and cover, and no day is long enough for ten hours."""
    made = network(
        [task("set", 4, same_day_as="set"), task("cover", 4, same_day_as="set"), task("first", 3)],
        [link("set", "cover"), link("first", "set")],
    )
    plan = plan_greedily(in_steps(made, [crew()], week()))
    assert {plan.places[n].start // 96 for n in ("set", "cover")} == {1}
    none = network([task("set", 5, same_day_as="set"), task("cover", 5, same_day_as="set")],
                   [link("set", "cover")])  # fmt: skip
    assert set(plan_greedily(in_steps(none, [crew()], week())).stuck) == {"set", "cover"}


def test_a_task_past_half_a_day_goes_on_tomorrow() -> None:
    """Twelve hours of work begun at 7 end at 10 the next day, and over a weekend on Monday."""
    site = in_steps(network([task("long", 12)]), [crew()], week())
    place = plan_greedily(site).places["long"]
    assert (place.start, place.end) == (7 * 4, (24 + 10) * 4)


def test_equal_crews_share_the_work() -> None:
    """Two crews of one skill do two tasks side by side."""
    made = network([task("a", 2), task("b", 2)])
    site = in_steps(made, [crew(name="one"), crew(name="two")], week())
    places = plan_greedily(site).places
    assert {places["a"].crew, places["b"].crew} == {"one", "two"}
    assert places["a"].start == places["b"].start


def test_a_circle_finds_no_place() -> None:
    """Tasks that wait for each other are named as stuck, with what follows them."""
    made = network([task("a", 1), task("b", 1)], [link("a", "b"), link("b", "a")])
    assert set(plan_greedily(in_steps(made, [crew()], week())).stuck) == {"a", "b"}
