"""The files of a plan of days: day sheets as PDF, chart as SVG, calendar, data."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

from seamwright.cli.days_input import DaysTask
from seamwright.cli.folder import folder_for
from seamwright.cli.inventory import Made
from seamwright.cli.options import Paper, Units
from seamwright.draw.days_chart import draw_days_chart
from seamwright.io.days_json import days_document
from seamwright.io.icalendar import calendar_text
from seamwright.io.json_text import Json, to_text
from seamwright.pdf import pdf_bytes
from seamwright.report.day_sheets import DaySheets, day_sheets
from seamwright.schedule.types import DayPlan


@dataclass(frozen=True, kw_only=True, slots=True)
class DaysManner:
    """How day sheets are printed."""

    units: Units
    paper: Paper
    date: dt.date
    title: str


def days_data(plan: DayPlan, task: DaysTask, notes: tuple[str, ...]) -> Json:
    """Return the plan as data."""
    windows = {name: len(hours) for name, hours in task.calendar.windows}
    return days_document(plan, task.network, task.crews, task.start, notes=notes, windows=windows)


def sheets_of(
    plan: DayPlan, task: DaysTask, title: str, notes: tuple[str, ...], chart: str | None = None
) -> DaySheets:
    """Return what the day sheets are printed from."""
    per_day = round(24 * 3600 / plan.step)

    def clock(step: int) -> str:
        moment = task.start + dt.timedelta(seconds=step * plan.step)
        return f"{moment:%a %Y-%m-%d %H:%M}"

    return DaySheets(
        plan=plan, network=task.network, crews=task.crews, calendar=task.calendar, title=title,
        facts=(("Begins", f"{task.start:%Y-%m-%d}"), ("Ends", clock(plan.end)),
               ("Crews", ", ".join(f"{c.id} {c.size}" for c in task.crews))),
        day_name=lambda day: clock(day * per_day).rsplit(" ", maxsplit=1)[0],
        clock=clock, chart=chart, notes=notes,
    )  # fmt: skip


def write_days_files(
    plan: DayPlan, task: DaysTask, out: Path, manner: DaysManner, notes: tuple[str, ...]
) -> tuple[Made, ...]:
    """Write the files of a plan into `out` and return them, the one to open first in front."""
    folder = folder_for(out)
    tasks = {one.id: one for one in task.network.tasks}
    chart = draw_days_chart(
        plan, tasks, task.crews, task.start, calendar=task.calendar, title=manner.title,
        marks=task.marks,
    )  # fmt: skip
    document = day_sheets(sheets_of(plan, task, manner.title, notes, chart.caption))
    pdf = pdf_bytes(
        document, {chart.name: chart.svg}, paper=manner.paper, system=manner.units,
        date=manner.date,
    )  # fmt: skip
    stamp = dt.datetime(manner.date.year, manner.date.month, manner.date.day, tzinfo=dt.UTC)
    ics = calendar_text(plan, tasks, task.start, name=manner.title, stamp=stamp)
    data = to_text(days_data(plan, task, notes))
    return (
        _put(folder / "day-sheets.pdf", pdf, "one sheet per crew and day"),
        _put(folder / "days-chart.svg", chart.svg.encode(), "the days as a chart"),
        _put(folder / "days.ics", ics.encode(), "the same for calendars (iCalendar)"),
        _put(folder / "days.json", data.encode(), "the plan as data, to plan on from"),
    )


def _put(path: Path, content: bytes, what: str) -> Made:
    """Write beside the place and move into it, so that a stop leaves no half file."""
    with TemporaryDirectory(dir=path.parent, prefix=".part-") as name:
        spare = Path(name) / path.name
        spare.write_bytes(content)
        spare.replace(path)
    return Made(path=path, what=what)
