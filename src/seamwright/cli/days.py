"""``seamwright days``: what must be done before it is hidden, by whom and when."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Annotated

import typer

from seamwright.cli.days_files import DaysManner, days_data, sheets_of, write_days_files
from seamwright.cli.days_input import DaysTask, Wishes, date_of, days_task
from seamwright.cli.interrupt import heard
from seamwright.cli.options import (
    CatalogFile,
    Day,
    Json,
    PanelTypes,
    Paper,
    PlanName,
    Units,
    day_of,
)
from seamwright.cli.say import say, say_json, show_table
from seamwright.cli.source import read_source, shelf
from seamwright.cli.status import ATTENTION, DONE
from seamwright.io.plan.day_hours import hour_told
from seamwright.report.day_sheets import days_table
from seamwright.schedule.calendar import with_rain
from seamwright.schedule.replan import changes
from seamwright.schedule.types import DayPlan
from seamwright.schedule.verify import verify_days
from seamwright.schedule.verify_weather import verify_weather
from seamwright.solve.days import solve_days
from seamwright.solve.rain import rain_day_cost
from seamwright.solve.search import Listener, Progress
from seamwright.workflow import seal_house

_HELP_CREWS = "Who there is: setting=4,sealing=2,roofing+trades=2; default: the plan's."
_HELP_WEATHER = "Hourly weather, .csv, .json, TMY3 or EPW, opens and closes hours; or: typical."
_HELP_STATE = "An earlier days.json to plan on from; what it had done by now stays."


def run(
    plan: PlanName,
    *,
    start: Annotated[
        str | None, typer.Option("--start", metavar="YYYY-MM-DD", show_default=False,
                                 help="First day; default: the plan's, else next Monday.")
    ] = None,
    crews: Annotated[
        str | None, typer.Option("--crews", metavar="LIST", help=_HELP_CREWS, show_default=False)
    ] = None,
    weather: Annotated[
        str | None, typer.Option("--weather", metavar="FILE", show_default=False,
                                 help=_HELP_WEATHER)
    ] = None,
    records: Annotated[
        Path | None, typer.Option("--records", metavar="FILE", show_default=False,
                                  help="What work took on this site; durations learn from it.")
    ] = None,
    rain: Annotated[
        list[str] | None, typer.Option("--rain", metavar="YYYY-MM-DD", show_default=False,
                                       help="A day without work outdoors; may be repeated.")
    ] = None,
    no_crane: Annotated[
        list[str] | None, typer.Option("--no-crane", metavar="YYYY-MM-DD", show_default=False,
                                       help="A day without the crane; may be repeated.")
    ] = None,
    from_state: Annotated[
        Path | None, typer.Option("--from-state", metavar="FILE", show_default=False,
                                  help=_HELP_STATE)
    ] = None,
    now: Annotated[
        str | None, typer.Option("--now", metavar="TIME", show_default=False,
                                 help="With --from-state: from when on to plan.")
    ] = None,
    rain_cost: Annotated[
        str | None, typer.Option("--rain-cost", metavar="YYYY-MM-DD", show_default=False,
                                 help="Also say what losing that day would cost.")
    ] = None,
    limit: Annotated[
        float, typer.Option("--limit", metavar="SECONDS", help="Time to search.", min=1)
    ] = 30.0,
    out: Annotated[
        Path | None, typer.Option("--out", help="Write day sheets, chart, calendar and data here.",
                                  show_default=False)
    ] = None,
    units: Units = "us",
    paper: Paper = "letter",
    date: Day = None,
    catalog: CatalogFile = None,
    types: PanelTypes = None,
    as_json: Json = False,
) -> None:  # fmt: skip
    """Plan the days: tasks, hold points, dates."""
    source = read_source(plan, types=types)
    with source.placed():
        house = seal_house(source.plan, shelf(source, catalog))
        wishes = Wishes(
            start=start, crews=crews, weather=weather, records=records, state=from_state, now=now,
            rain=tuple(rain or ()), no_crane=tuple(no_crane or ()),
        )  # fmt: skip
        task = days_task(source, house, wishes)
    found, notes = _solved(task, limit, rain_cost)
    title = f"{source.plan.site.name}: plan of days"
    if as_json:
        say_json(days_data(found, task, notes))
    else:
        _show(found, task, title, notes, units)
    if out is not None and found.slots:
        manner = DaysManner(units=units, paper=paper, date=day_of(date), title=title)
        for made in write_days_files(found, task, out, manner, notes):
            if not as_json:
                say(f"  {made.path}  {made.what}")
    raise typer.Exit(DONE if found.slots else ATTENTION)


def _solved(task: DaysTask, limit: float, rain_cost: str | None) -> tuple[DayPlan, tuple[str, ...]]:
    """Return the plan, checked, and the notes to print with it."""
    with heard() as stop:
        found = solve_days(
            task.network, task.crews, task.calendar, task.fixed,
            time_limit=limit, on_progress=_tell(task), now=task.now, stop=stop,
            told=lambda hour: hour_told(task.calendar, hour),
        )  # fmt: skip
        stopped = stop()
    if sys.stderr.isatty():
        sys.stderr.write("\n")
    notes = [*task.notes, *task.network.findings]
    if stopped and found.slots:
        notes.append("The search was stopped; this is the best plan found until then.")
    if found.slots:
        broken = verify_days(
            found, task.network, task.crews, task.calendar, task.fixed, now=task.now
        )
        if task.weather is not None:
            done = frozenset(row.task_id for row in task.fixed if row.done)
            broken += verify_weather(
                found, task.network, task.calendar, task.weather.evidence, done
            )
        notes += [f"This plan breaks a rule: {sentence}" for sentence in broken]
        notes += _moved(task, found)
    if found.slots and rain_cost is not None:
        day = (date_of("--rain-cost", rain_cost) - task.start.date()).days
        found = rain_day_cost(
            found, task.network, task.crews, with_rain(task.calendar, [day]), task.fixed,
            now=task.now, day=day,
        )  # fmt: skip
        cost = found.rain_day_cost
        told = "no plan was found" if cost is None else f"it would cost {cost:g} working hours"
        notes.append(f"Rain on {rain_cost}: {told}.")
    return found, tuple(notes)


def _moved(task: DaysTask, found: DayPlan) -> list[str]:
    if task.before is None:
        return []
    moved = changes(task.before, found)
    late = (found.end * found.step - task.before.end * task.before.step) / 3600.0 / 24.0
    done = sum(row.done for row in task.fixed)
    word = "later" if late >= 0 else "earlier"
    told = (
        f"Planned again: {done} tasks stay as they are, {len(moved)} of the other "
        f"{len(found.slots) - done} move; the end comes {abs(late):.1f} days {word} than in the "
        "plan before."
    )
    return [told]


def _tell(task: DaysTask) -> Listener | None:
    """Return what says on a terminal how far the search is."""
    if not sys.stderr.isatty():
        return None

    def tell(news: Progress) -> None:
        end = hour_told(task.calendar, news.end / 4)
        sys.stderr.write(f"\r{news.seconds:5.0f} s  {news.phase}: end {end}    ")
        sys.stderr.flush()

    return tell


def _show(found: DayPlan, task: DaysTask, title: str, notes: tuple[str, ...], units: Units) -> None:
    say(title)
    say()
    if found.state == "contradiction":
        say("No plan can keep all of this:")
        for number, sentence in enumerate(found.conflict, start=1):
            say(f"  {number}. {sentence}")
    if not found.slots:
        for note in (*found.notes, *notes):
            say(f"note  {note}")
        return
    sheets = sheets_of(found, task, title, notes)
    show_table(days_table(sheets), units)
    proven = (
        "no plan with these hours and people ends earlier" if found.gap <= 0
        else f"at most {100 * found.gap:.1f} % of the working time could still be saved"
    )  # fmt: skip
    say(f"Ends {sheets.clock(found.end)}; {proven}.")
    chain = [slot for slot in found.slots if slot.critical]
    say(f"Critical chain, {len(chain)} tasks: " + ", ".join(s.task_id for s in chain[:12])
        + (", …" if len(chain) > 12 else ""))  # fmt: skip
    for note in (*found.notes, *notes):
        say(f"note  {note}")
