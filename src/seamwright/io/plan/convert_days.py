"""Turn what was written about days into records of `seamwright.schedule.types`."""

from __future__ import annotations

from seamwright.io.plan.model_days import DaysFields, OwnTaskFields
from seamwright.schedule.types import (
    AddedTask,
    AskedDate,
    AskedLink,
    Ban,
    Crew,
    DaysGiven,
    Span3,
    Task,
    WorkHours,
)

_WEEK = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")


def days_from(fields: DaysFields) -> DaysGiven:
    """Return the days part of a plan as records, dates as written, durations in seconds."""
    return DaysGiven(
        start=fields.start,
        offset=fields.offset,
        week=WorkHours(
            weekdays=tuple(sorted({_WEEK.index(day) for day in fields.weekdays})),
            begin=fields.begin,
            end=fields.end,
        ),
        days_off=tuple(sorted(set(fields.days_off))),
        crane_days=tuple(sorted(set(fields.crane))),
        crews=tuple(Crew(id=c.id, skills=c.skills, size=c.size) for c in fields.crews),
        tasks=tuple(_added(item) for item in fields.tasks),
        order=tuple(
            AskedLink(before=o.before, after=o.after, reason=o.reason, lag=float(o.lag))
            for o in fields.order
        ),
        dates=tuple(
            AskedDate(
                task=d.task,
                reason=d.reason,
                on=d.start,
                not_before=d.not_before,
                not_after=d.not_after,
                finished=d.finished,
                crew=d.crew,
            )
            for d in fields.dates
        ),
        bans=tuple(
            Ban(first=b.first, last=b.last, reason=b.reason, task=b.task, work=b.work)
            for b in fields.bans
        ),
    )


def _added(item: OwnTaskFields) -> AddedTask:
    low = item.duration if item.shortest is None else item.shortest
    high = item.duration if item.longest is None else item.longest
    task = Task(
        id=item.id,
        work=item.work,
        title=item.title,
        refs=(),
        duration=Span3(low=float(low), likely=float(item.duration), high=float(high)),
        skill=item.skill,
        crew_size=item.crew_size,
        crane=item.crane,
        storey=item.storey,
        window=item.window,
        source="the days part of the plan",
    )
    return AddedTask(task=task, after=item.after, before=item.before, reason=item.reason)
