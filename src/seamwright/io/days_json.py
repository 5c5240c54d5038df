"""The plan of days as JSON, and read again to plan on from it."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from seamwright.errors import FormatError, Problem
from seamwright.io.json_text import Json
from seamwright.schedule.types import Crew, DayPlan, Network, Slot, Task

_FORM = "plan of days, form 1"


def days_document(
    plan: DayPlan,
    network: Network,
    crews: tuple[Crew, ...],
    start: dt.datetime,
    *,
    notes: tuple[str, ...] = (),
    windows: Mapping[str, int] | None = None,
) -> Json:
    """Return the plan with local times, in SI.

    `start` is the local time of step 0; `windows` the open hours of each class.
    """
    tasks = {task.id: task for task in network.tasks}
    return {
        "form": _FORM,
        "state": plan.state,
        "start": start.isoformat(timespec="minutes"),
        "step_s": plan.step,
        "end": _time(plan.end, plan, start) if plan.slots else None,
        "end_not_before": _time(plan.bound, plan, start) if plan.slots else None,
        "gap": plan.gap,
        "rain_day_cost_working_h": plan.rain_day_cost,
        "crews": [{"id": c.id, "skills": list(c.skills), "size": c.size} for c in crews],
        "tasks": [_slot(slot, tasks[slot.task_id], plan, start) for slot in plan.slots],
        "links": [
            {
                "before": link.before, "after": link.after, "rule": link.rule, "kind": link.kind,
                "lag_s": link.lag, "most_s": link.most, "buries": list(link.buries),
            }
            for link in network.links
        ],
        "conflict": list(plan.conflict),
        "notes": [*plan.notes, *notes],
        "open_hours": dict(windows or {}),
    }  # fmt: skip


def read_days(path: Path) -> tuple[DayPlan, dt.datetime]:
    """Return a plan of days as it was written, and the local time of its step 0.

    Raises
    ------
    FormatError
        If the file is not a plan of days.
    """
    try:
        data = json.loads(path.read_text(encoding="utf-8"))
        if data["form"] != _FORM:
            raise _refused(path, f"its form is {data['form']!r}")
        start = dt.datetime.fromisoformat(data["start"])
        step = float(data["step_s"])
        slots = tuple(_read_slot(row, start, step) for row in data["tasks"])
    except FormatError:
        raise
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError) as error:
        raise _refused(path, f"{type(error).__name__}: {error}") from error
    end = max((slot.end for slot in slots), default=0)
    plan = DayPlan(state="feasible", slots=slots, end=end, bound=0, gap=1.0, step=step)
    return plan, start


def _slot(slot: Slot, task: Task, plan: DayPlan, start: dt.datetime) -> Json:
    return {
        "id": slot.task_id,
        "title": task.title,
        "work": task.work,
        "crew": slot.crew_id,
        "people": task.crew_size if slot.crew_id else 0,
        "start": _time(slot.start, plan, start),
        "end": _time(slot.end, plan, start),
        "float_working_h": slot.float_hours,
        "critical": slot.critical,
        "crane": task.crane,
        "window": task.window,
        "seals": list(task.seals),
        "refs": list(task.refs),
        "hold_point": task.hold_point,
        "released_by": task.released_by,
        "duration_s": {
            "low": task.duration.low, "likely": task.duration.likely, "high": task.duration.high,
        },
    }  # fmt: skip


def _time(step: int, plan: DayPlan, start: dt.datetime) -> str:
    return (start + dt.timedelta(seconds=step * plan.step)).isoformat(timespec="minutes")


def _read_slot(row: Any, start: dt.datetime, step: float) -> Slot:  # noqa: ANN401 parsed JSON
    begin, end = (
        round((dt.datetime.fromisoformat(row[key]) - start).total_seconds() / step)
        for key in ("start", "end")
    )
    return Slot(
        task_id=str(row["id"]), start=begin, end=end, crew_id=str(row["crew"]),
        float_hours=int(row["float_working_h"]), critical=bool(row["critical"]),
    )  # fmt: skip


def _refused(path: Path, why: str) -> FormatError:
    return FormatError(
        [
            Problem(
                subject=path.name,
                sentence=f"{path.name} is no plan of days ({why[:120]})",
                remedy="give the days.json that an earlier plan of days wrote",
                file=str(path),
            )
        ]
    )
