"""Small networks of tasks for tests of the plan of days."""

from __future__ import annotations

from typing import Any

from seamwright.schedule.types import Calendar, Crew, Link, Network, Span3, Task

HOUR = 3600.0


def task(name: str, hours: float, **more: Any) -> Task:
    """Return a task of some hours; one person of skill ``work`` unless said otherwise."""
    given = {"work": "other", "title": f"Do {name}", "refs": (), "skill": "work", "crew_size": 1}
    span = Span3(low=hours * HOUR, likely=hours * HOUR, high=hours * HOUR)
    return Task(id=name, duration=span, **{**given, **more})


def link(
    before: str, after: str, *, lag: float = 0.0, most: float | None = None, **more: Any
) -> Link:
    """Return a link with waits in hours."""
    limit = None if most is None else most * HOUR
    return Link(before=before, after=after, rule="rule", reason="because", lag=lag * HOUR,
                most=limit, **more)  # fmt: skip


def network(tasks: list[Task], links: list[Link] | None = None) -> Network:
    """Return tasks and links as a network."""
    return Network(tasks=tuple(tasks), links=tuple(links or ()))


def crew(size: int = 1, name: str = "crew", skills: tuple[str, ...] = ("work",)) -> Crew:
    """Return a crew."""
    return Crew(id=name, skills=skills, size=size)


def week(days: int = 14, *, begin: int = 7, end: int = 16, **windows: tuple[int, ...]) -> Calendar:
    """Return a calendar that begins on a Monday; every window class is given by its name."""
    hours = tuple(
        24 * day + hour for day in range(days) if day % 7 < 5 for hour in range(begin, end)
    )
    return Calendar(
        start="2027-04-05T00:00:00", hours=24 * days, working_hours=hours, crane_hours=hours,
        windows=tuple(windows.items()),
    )  # fmt: skip


def around_the_clock(hours: int) -> Calendar:
    """Return a calendar in which every hour is worked."""
    every = tuple(range(hours))
    return Calendar(start="2027-04-05T00:00:00", hours=hours, working_hours=every,
                    crane_hours=every)  # fmt: skip
