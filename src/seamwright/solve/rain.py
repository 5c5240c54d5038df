"""What a lost day costs: the same work planned again without its outdoor hours."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from seamwright.schedule.calendar_steps import in_steps
from seamwright.schedule.replan import SiteState, fixed_from
from seamwright.schedule.types import Calendar, Crew, DayPlan, Fixed, Network
from seamwright.solve.days import solve_days

SECONDS = 10.0
"""Time to plan again. [s]"""


def rain_day_cost(
    plan: DayPlan,
    network: Network,
    crews: Iterable[Crew],
    calendar: Calendar,
    fixed: Iterable[Fixed] = (),
    *,
    day: int,
    now: int = 0,
    seconds: float = SECONDS,
) -> DayPlan:
    """Return the plan with what it costs to lose a day, in working hours.

    `calendar` is the one without the outdoor hours of `day`. Everything that ended before that
    day stays; the rest is planned again, so that indoor work may fill the day.
    """
    morning = 24.0 * day - calendar.first_hour
    held = fixed_from(plan, SiteState(now=max(morning, float(now))), fixed, network.links)
    people = tuple(crews)
    again = solve_days(
        network, people, calendar, held, time_limit=seconds, step=plan.step,
        now=max(now, int(morning)),
    )  # fmt: skip
    if not again.slots:
        return replace(plan, rain_day_cost=None)
    worked = in_steps(network, people, calendar, step=plan.step).worked
    lost = int(worked[again.end] - worked[plan.end]) * plan.step / 3600.0
    return replace(plan, rain_day_cost=max(0.0, lost))
