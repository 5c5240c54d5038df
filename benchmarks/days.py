"""The plan of days: proven gap, time to the first answer, and the list of ranks beside it.

Houses are the built-in ones with every outdoor class of hours opened and closed hour by hour: wet
spells and cold mornings drawn at random with a fixed seed. The large site is five houses for the
same trades. The list of ranks is the plan made at once, in the same run.
"""

from __future__ import annotations

import datetime as dt
import random
import time
from dataclasses import replace
from typing import Any

from seamwright.io.plan import builtin_house, read_plan
from seamwright.schedule.calendar import OUTDOORS, make_calendar
from seamwright.schedule.calendar_steps import in_steps
from seamwright.schedule.network import build_network
from seamwright.schedule.types import Calendar, Crew, Network
from seamwright.schedule.verify import verify_days
from seamwright.seals.catalog import default_catalog
from seamwright.solve.days import first_plan, solve_days
from seamwright.solve.search import Progress
from seamwright.workflow import seal_house

START = dt.date(2027, 4, 5)
SEED = 11
SECONDS = 30.0


def run(*, quick: bool = False) -> dict[str, Any]:
    """Return the figures, flat; `quick` takes the smallest house and little time."""
    limit = 4.0 if quick else SECONDS
    figures: dict[str, Any] = {"time limit_s": limit}
    for name in ("first_house",) if quick else ("heron_house", "cypress_house"):
        net = house(name)
        figures |= measure(name, net, crews(1), hours(200), limit)
    if not quick:
        figures |= measure("five houses", estate("cypress_house", 5), crews(2), hours(500), limit)
    return figures


def measure(
    name: str, net: Network, people: tuple[Crew, ...], calendar: Calendar, limit: float
) -> dict[str, Any]:
    """Return the figures of one site."""
    start = time.perf_counter()
    site = in_steps(net, people, calendar)
    ranked = first_plan(site)
    at_once = time.perf_counter() - start
    heard: list[Progress] = []
    start = time.perf_counter()
    plan = solve_days(net, people, calendar, time_limit=limit, on_progress=heard.append)
    spent = time.perf_counter() - start
    broken = verify_days(plan, net, people, calendar)
    gained = int(site.worked[ranked.end]) / max(1, int(site.worked[plan.end]))
    return {
        f"{name} tasks": len(net.tasks),
        f"{name} list of ranks time_s": round(at_once, 2),
        f"{name} first answer_s": round(heard[0].seconds, 2),
        f"{name} whole time_s": round(spent, 1),
        f"{name} proven gap": round(plan.gap, 4),
        f"{name} times shorter than the list of ranks": round(gained, 4),
        f"{name} broken rules": len(broken),
        f"{name} state": plan.state,
    }


def house(name: str) -> Network:
    """Return the tasks of a built-in house."""
    made = seal_house(read_plan(builtin_house(name), name=name).plan, default_catalog())
    return build_network(made.shell, made.register, made.schedule)


def estate(name: str, count: int) -> Network:
    """Return the tasks of several houses of one kind, side by side."""
    one = house(name)
    tasks, links = [], []
    for k in range(count):
        tasks += [
            replace(
                t, id=f"{t.id}@{k}", zone=f"{k} {t.zone}" if t.zone else "",
                same_day_as=None if t.same_day_as is None else f"{t.same_day_as}@{k}",
            )
            for t in one.tasks
        ]  # fmt: skip
        links += [replace(x, before=f"{x.before}@{k}", after=f"{x.after}@{k}") for x in one.links]
    return Network(tasks=tuple(tasks), links=tuple(links))


def crews(times: int) -> tuple[Crew, ...]:
    """Return the trades, so many crews of each."""
    trades = {
        "lead": (("managing", "testing"), 2), "setters": (("setting",), 4),
        "sealers": (("sealing",), 2), "roofers": (("roofing",), 2),
        "finishers": (("finishing", "trades"), 4),
    }  # fmt: skip
    return tuple(
        Crew(id=f"{name}-{k}", skills=skills, size=size)
        for name, (skills, size) in trades.items()
        for k in range(times)
    )


def hours(days: int) -> Calendar:
    """Return a calendar with a window of every outdoor class: wet spells, cold mornings."""
    rng = random.Random(SEED)
    base = make_calendar(START.isoformat(), first_day=START.toordinal(), days=days)
    wet: set[int] = set()
    for day in range(days):
        if rng.random() < 0.2:
            begin = 24 * day + rng.randrange(24)
            wet |= set(range(begin, begin + rng.randrange(3, 14)))
    cold = {24 * day + 7 for day in range(min(days, 25)) if rng.random() < 0.5}
    dry = tuple(h for h in base.working_hours if h not in wet)
    warm = tuple(h for h in dry if h not in cold)
    calm = {"lift", "roof_open", "fan_test"}
    classes = {name: dry if name in calm else warm for name in OUTDOORS}
    return replace(base, windows=tuple(sorted(classes.items())))


if __name__ == "__main__":
    import json
    import sys

    print(json.dumps(run(quick="--quick" in sys.argv), indent=2))
