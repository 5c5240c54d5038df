"""Other lists of ranks: earlier ends, and fewer moves."""

from __future__ import annotations

from collections.abc import Callable

from tests.schedule.day_nets import crew, link, network, task, week

from seamwright.schedule.calendar_steps import in_steps
from seamwright.schedule.greedy import plan_greedily
from seamwright.schedule.verify import verify_days
from seamwright.solve.days import as_plan
from seamwright.solve.ranks import earlier_end, fewer_moves, joined_visits
from seamwright.solve.soft import moves
from seamwright.solve.visits import least_moves


def times(count: int) -> Callable[[], bool]:
    """Return what says yes so many times."""
    left = iter(range(count))
    return lambda: next(left, None) is not None


def test_another_list_ends_earlier() -> None:
    """Where the first list does the long chain last, another does it first."""
    tasks = [*(task(f"s{k}", 1) for k in range(3)), task("long", 2), task("after", 8, skill="x")]
    made = network(tasks, [link("long", "after")])
    site = in_steps(made, [crew(), crew(name="x", skills=("x",))], week())
    worst = plan_greedily(site, {"long": -1.0})
    heard: list[int] = []
    best = earlier_end(site, worst, seed=1, wait=times(60), tell=heard.append)
    assert best.end < worst.end
    assert heard[-1] == best.end


def test_work_of_one_place_is_put_together_and_the_end_stays() -> None:
    """Six tasks of two places, mixed, become two visits with every rule kept."""
    tasks = [task(f"{zone}{k}", 1, zone=zone) for k in range(3) for zone in ("A", "B")]
    made, people = network([*tasks, task("c", 1)], [link("A0", "c", most=48)]), [crew()]
    site = in_steps(made, people, week())
    mixed = plan_greedily(site, {t.id: -float(k) for k, t in enumerate(tasks)})
    assert moves(site, mixed.places) == 5
    tidy = fewer_moves(site, mixed.places, wait=times(100))
    assert moves(site, tidy) == 1
    assert max(p.end for p in tidy.values()) == mixed.end
    assert verify_days(as_plan(site, tidy, 0), made, people, week()) == ()


def test_a_longest_wait_to_held_work_is_kept() -> None:
    """Work is not pulled away from the panel that must follow it within the hour."""
    tasks = [task("bead", 1), task("panel", 1, skill="set"), task("free", 1)]
    made = network(tasks, [link("bead", "panel", most=1)])
    people = [crew(), crew(name="set", skills=("set",))]
    site = in_steps(made, people, week())
    first = plan_greedily(site, {"free": 9.0})
    held = {n: p for n, p in first.places.items() if n == "panel"}
    again = plan_greedily(site, {"bead": 9.0}, held=held)
    plan = as_plan(site, again.places, 0)
    assert again.stuck or verify_days(plan, made, people, week()) == ()
    assert "bead" in again.stuck or again.places["bead"].start >= first.places["panel"].start - 8


def test_two_visits_are_joined_where_the_order_lets_them() -> None:
    """A place left for another and come back to is visited once, with every rule kept."""
    tasks = [task(f"{zone}{k}", 1, zone=zone) for k in range(3) for zone in ("A", "B")]
    made, people = network(tasks, [link("A0", "B0")]), [crew()]
    site = in_steps(made, people, week())
    mixed = plan_greedily(site, {t.id: -float(k) for k, t in enumerate(tasks)})
    tidy = joined_visits(site, mixed.places, wait=times(200), seed=1)
    assert moves(site, tidy) == least_moves(site) == 1
    assert max(p.end for p in tidy.values()) == mixed.end
    assert verify_days(as_plan(site, tidy, 0), made, people, week()) == ()


def test_the_order_of_work_forces_returns() -> None:
    """A, then B, then A again must be two visits to A; no plan moves less than the bound."""
    tasks = [task(name, 1, zone=name[0]) for name in ("A1", "B1", "A2", "B2", "C1")]
    made = network(tasks, [link("A1", "B1"), link("B1", "A2"), link("A2", "B2")])
    site = in_steps(made, [crew()], week())
    assert least_moves(site) == 4
    assert moves(site, plan_greedily(site).places) >= 4
    loose = in_steps(network(tasks), [crew()], week())
    assert least_moves(loose) == 2
