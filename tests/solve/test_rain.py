"""What a lost day costs."""

from __future__ import annotations

from tests.schedule.day_nets import crew, link, network, task, week

from seamwright.schedule.calendar import with_rain
from seamwright.solve.days import solve_days
from seamwright.solve.rain import rain_day_cost


def test_rain_on_the_only_chain_costs_the_day() -> None:
    """Outdoor work of two days loses a day of nine hours to rain on the second."""
    made = network([task(f"t{k}", 3, window="lift") for k in range(6)])
    hours = week()
    plan = solve_days(made, [crew()], hours, time_limit=2)
    wet = rain_day_cost(plan, made, [crew()], with_rain(hours, [1]), day=1, seconds=2)
    assert wet.rain_day_cost == 9.0


def test_indoor_work_fills_a_day_of_rain() -> None:
    """Where indoor work can come first, the same rain costs nothing."""
    tasks = [task("out1", 4, window="lift"), task("out2", 4, window="lift"),
             task("in1", 4), task("in2", 4)]  # fmt: skip
    made = network(tasks, [link("out1", "out2")])
    hours = week()
    plan = solve_days(made, [crew()], hours, time_limit=2)
    wet = rain_day_cost(plan, made, [crew()], with_rain(hours, [0]), day=0, seconds=2)
    assert wet.rain_day_cost == 0.0
