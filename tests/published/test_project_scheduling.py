"""The plan of days against published project-scheduling instances with proven optima.

Five of the set j30 of the library of R. Kolisch and A. Sprecher (1997): 30 jobs, four resources,
each job needing one of them, finish-to-start links. A resource is a crew of that many people, a job
a task of so many people, an hour a unit of time, every hour is worked. The data lie in
``data/project_scheduling.json``; nothing is adapted but the names.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from tests.schedule.day_nets import around_the_clock, link, network, task

from seamwright.schedule.calendar_steps import in_steps
from seamwright.schedule.greedy import plan_greedily
from seamwright.schedule.types import Crew, Network
from seamwright.schedule.verify import verify_days
from seamwright.solve.days import solve_days

DATA: dict[str, Any] = json.loads(
    (Path(__file__).parent / "data" / "project_scheduling.json").read_text("utf-8")
)
HOURS = around_the_clock(200)
pytestmark = pytest.mark.source("kolisch-sprecher-1997", "set j30, list of optima")


def site(instance: dict[str, Any]) -> tuple[Network, list[Crew]]:
    """Return an instance as tasks and crews."""
    tasks = [
        task(str(k), hours, crew_size=people, skill=f"R{resource}")
        for k, (hours, resource, people, _) in enumerate(instance["jobs"], start=1)
    ]
    links = [
        link(str(k), str(other))
        for k, (_, _, _, after) in enumerate(instance["jobs"], start=1)
        for other in after
    ]
    crews = [
        Crew(id=f"R{k}", skills=(f"R{k}",), size=size)
        for k, size in enumerate(instance["capacities"], start=1)
    ]
    return network(tasks, links), crews


@pytest.mark.parametrize("instance", DATA["instances"], ids=lambda i: i["name"])
def test_the_published_optimum_is_found_and_proven(instance: dict[str, Any]) -> None:
    """The end is the published least one, proven, and the plan keeps every rule."""
    made, crews = site(instance)
    plan = solve_days(made, crews, HOURS, time_limit=20, step=3600.0, tidy=False)
    assert (plan.state, plan.end, plan.bound) == ("optimal", instance["optimum"], plan.end)
    assert verify_days(plan, made, crews, HOURS) == ()


@pytest.mark.parametrize("instance", DATA["instances"], ids=lambda i: i["name"])
def test_the_plan_at_once_is_no_better_than_the_optimum(instance: dict[str, Any]) -> None:
    """Lists of ranks give a valid plan within a quarter of the published optimum, never below."""
    made, crews = site(instance)
    found = plan_greedily(in_steps(made, crews, HOURS, step=3600.0))
    assert found.stuck == ()
    assert instance["optimum"] <= found.end <= 1.25 * instance["optimum"]
