"""Day sheets: for each crew and day what to do, seal, sign and photograph, and the cautions."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from seamwright.report.cautions import (
    CHEMICALS,
    DEFERRAL,
    HEIGHTS,
    LIFTING,
    STRUCTURE,
    WET_ROOF,
)
from seamwright.report.fan_cautions import FAN_CAUTIONS
from seamwright.report.types import Block, Caution, Document, Figure, Heading, Paragraph, Table
from seamwright.schedule.hold import BuryEvent, bury_events
from seamwright.schedule.tasks_kinds import WINDOWS
from seamwright.schedule.types import Calendar, Crew, DayPlan, Network, Slot, Task
from seamwright.seals.types import Sentence

_CHEMICAL = frozenset({"lay_beads", "gasket", "fill", "prime", "dam", "seal_service", "mend"})
_ALOFT = frozenset({"cover_roof", "drape_strip"})


@dataclass(frozen=True, kw_only=True, slots=True)
class DaySheets:
    """What the sheets are printed from.

    `day_name` and `clock` say a day (counted from the start) and a step in the words of the site.
    """

    plan: DayPlan
    network: Network
    crews: Sequence[Crew]
    calendar: Calendar
    title: str
    facts: tuple[tuple[str, str], ...]
    day_name: Callable[[int], str]
    clock: Callable[[int], str]
    chart: str | None = None
    notes: tuple[str, ...] = field(default_factory=tuple)


@dataclass(frozen=True, kw_only=True, slots=True)
class _Part:
    """The part of a slot that lies in one day, in steps."""

    slot: Slot
    start: int
    end: int


def day_sheets(sheets: DaySheets) -> Document:
    """Return one sheet per crew and day, after a list of days and the chart."""
    buried = {event.task_id: event for event in bury_events(sheets.network)}
    blocks: list[Block] = [*_first_page(sheets)]
    for day, crew, parts in _by_day(sheets):
        blocks += _sheet(sheets, day, crew, parts, buried)
    return Document(
        title="Day sheets", subtitle=sheets.title, facts=sheets.facts, blocks=tuple(blocks)
    )


def days_table(sheets: DaySheets) -> Table:
    """Return one row per day: what each crew does, and how many hold points there are."""
    tasks = {task.id: task for task in sheets.network.tasks}
    days: dict[int, dict[str, list[Task]]] = {}
    for day, crew, parts in _by_day(sheets):
        days.setdefault(day, {})[crew] = [tasks[part.slot.task_id] for part in parts]
    rows = []
    for day, crews in days.items():
        work = "; ".join(f"{crew}: {_in_short(done)}" for crew, done in crews.items())
        holds = sum(task.hold_point is not None for done in crews.values() for task in done)
        rows.append((sheets.day_name(day), work, str(holds) if holds else ""))
    return Table(
        columns=("Day", "Work", "To sign"), rows=tuple(rows), widths=(2.2, 10, 0.9), right=(2,),
        caption="The days at a glance; the number in brackets is that of the tasks.",
    )  # fmt: skip


def _first_page(sheets: DaySheets) -> Iterable[Block]:
    plan = sheets.plan
    proven = (
        "No plan with these hours and people ends earlier."
        if plan.gap <= 0
        else f"At most {100 * plan.gap:.1f} % of the working time could still be saved."
    )
    last = sheets.clock(plan.end)
    end = f"The work ends on {last}, if every task takes its likely time. {proven}"
    yield Paragraph(text=Sentence(text=end))
    for note in (*plan.notes, *sheets.notes):
        yield Paragraph(text=Sentence(text=note))
    yield Paragraph(text=Sentence(text=DEFERRAL))
    if sheets.chart is not None:
        yield Heading(text="The days", level=1)
        yield Figure(name="days-chart", caption=sheets.chart, title="The days")
    yield Heading(text="The days at a glance", level=1)
    yield days_table(sheets)


def _by_day(sheets: DaySheets) -> list[tuple[int, str, list[_Part]]]:
    """Return the parts of work by day and crew, in order."""
    per_hour = round(3600 / sheets.plan.step)
    working = frozenset(sheets.calendar.working_hours)
    found: dict[tuple[int, str], list[_Part]] = {}
    for slot in sheets.plan.slots:
        if not slot.crew_id:
            continue
        for day, low, high in _pieces(slot, per_hour, working):
            found.setdefault((day, slot.crew_id), []).append(_Part(slot=slot, start=low, end=high))
    rank = {crew.id: k for k, crew in enumerate(sheets.crews)}
    order = sorted(found, key=lambda key: (key[0], rank.get(key[1], 0)))
    return [(*key, sorted(found[key], key=lambda p: (p.start, p.slot.task_id))) for key in order]


def _pieces(slot: Slot, per_hour: int, working: frozenset[int]) -> Iterable[tuple[int, int, int]]:
    """Yield the working parts of a slot: the day, the first step and the end."""
    days: dict[int, list[int]] = {}
    for step in range(slot.start, slot.end):
        if step // per_hour in working:
            days.setdefault(step // (24 * per_hour), []).append(step)
    for day, steps in days.items():
        yield day, steps[0], steps[-1] + 1


def _sheet(
    sheets: DaySheets,
    day: int,
    crew: str,
    parts: Sequence[_Part],
    buried: Mapping[str, BuryEvent],
) -> Iterable[Block]:
    tasks = {task.id: task for task in sheets.network.tasks}
    done = [tasks[part.slot.task_id] for part in parts]
    yield Heading(text=f"{sheets.day_name(day)}: {crew}", level=1)
    yield _work(sheets, parts, tasks)
    holds = _holds(done, buried)
    if holds.rows:
        yield Heading(text="Sign before you go on")
        yield holds
    photos = [task for task in done if _is_photographed(task)]
    if photos:
        yield Heading(text="Photographs")
        names = ", ".join(task.id for task in photos)
        yield Paragraph(
            text=Sentence(
                text=f"Take one of each finished line with its id in the picture, before it is "
                f"hidden: {names}."
            )
        )
    hours = _hours(sheets, day, done)
    if hours.rows:
        yield Heading(text="Hours")
        yield hours
    yield Heading(text="Cautions")
    for text in _cautions(done):
        yield Caution(text=text)


def _work(sheets: DaySheets, parts: Sequence[_Part], tasks: Mapping[str, Task]) -> Table:
    rows = []
    for part in parts:
        task, slot = tasks[part.slot.task_id], part.slot
        goes_on = " (goes on)" if part.end < slot.end else ""
        begun = " (begun before)" if part.start > slot.start else ""
        slack = "critical" if slot.critical else f"{slot.float_hours} h"
        title = f"{task.title}{begun}{goes_on}"
        seals = ", ".join(task.seals) if task.seals else None
        span = f"{_hour(sheets.clock(part.start))}–{_hour(sheets.clock(part.end))}"
        rows.append((span, f"{title} [{task.id}]", str(task.crew_size), seals, slack, "☐"))
    return Table(
        columns=("Time", "Task", "People", "Seals to make", "Float", "Done"),
        rows=tuple(rows), widths=(1.6, 4.4, 0.9, 5, 1.1, 0.8), marks=("critical",),
    )  # fmt: skip


def _hour(told: str) -> str:
    return told.rsplit(" ", maxsplit=1)[-1]


def _holds(done: Sequence[Task], buried: Mapping[str, BuryEvent]) -> Table:
    """Return what must be signed before a task of the day hides it, and after its last work."""
    rows: dict[tuple[str, str, str], None] = {}
    for task in done:
        event = buried.get(task.id)
        for sentence, who in () if event is None else event.holds:
            rows[(f"before {task.title} [{task.id}]", sentence, who)] = None
        if task.hold_point is not None:
            who = task.released_by if task.released_by is not None else "sealing lead"
            rows[(f"after {task.title} [{task.id}]", task.hold_point, who)] = None
    return Table(
        columns=("When", "What is signed", "By", "Signature"),
        rows=tuple((*row, "") for row in rows), widths=(3.2, 5, 2, 2.2),
    )  # fmt: skip


def _hours(sheets: DaySheets, day: int, done: Sequence[Task]) -> Table:
    """Return the hours each class of the day's work has, by the forecast or the calendar."""
    windows, closed = dict(sheets.calendar.windows), dict(sheets.calendar.closed)
    working = [h for h in sheets.calendar.working_hours if h // 24 == day]
    rows = []
    for name in dict.fromkeys(task.window for task in done if task.window is not None):
        known = name in windows
        hours = [h % 24 for h in working if not known or h in windows[name]]
        by = _spans(hours) if known else "no forecast; look before you begin"
        why = dict(closed.get(name, ()))
        shut = [hour for hour in working if known and hour not in windows[name]]
        rows.append((name, _class_told(name), by, _shut_told(shut, why)))
    return Table(
        columns=("Class", "For", "Open hours", "Closed, and by what"), rows=tuple(rows),
        widths=(2.6, 4, 2.4, 4),
    )  # fmt: skip


def _class_told(name: str) -> str:
    """Return what a class of hours is for; one of a face as that of all faces."""
    part = name.split(", ", maxsplit=1)[0]
    while part not in WINDOWS and "/" in part:
        part = part.rsplit("/", maxsplit=1)[0]
    return WINDOWS.get(part, "as the plan says")


def _shut_told(hours: Sequence[int], why: Mapping[int, str]) -> str:
    """Return closed hours by what closes them."""
    groups: dict[str, list[int]] = {}
    for hour in hours:
        groups.setdefault(why.get(hour, "taken away"), []).append(hour % 24)
    return "; ".join(f"{_spans(found)} {reason}" for reason, found in groups.items())


def _spans(hours: Sequence[int]) -> str:
    """Return hours of a day as spans: 7–10, 13–16."""
    spans: list[list[int]] = []
    for hour in hours:
        if spans and spans[-1][1] == hour:
            spans[-1][1] = hour + 1
        else:
            spans.append([hour, hour + 1])
    return ", ".join(f"{a}–{b} h" for a, b in spans) if spans else "none"


def _is_photographed(task: Task) -> bool:
    return task.hold_point is not None and "photographed" in task.hold_point


def _cautions(done: Sequence[Task]) -> Iterable[str]:
    works = {task.work for task in done}
    roof = any((task.window or "").startswith(("tape/outer/roof", "roof_open")) for task in done)
    if roof or works & _ALOFT or any(task.work in {"tape", "set_panel"} for task in done):
        yield HEIGHTS
    if any(task.crane for task in done) or "set_panel" in works:
        yield LIFTING
    if works & _CHEMICAL:
        yield CHEMICALS
    if roof or "tape" in works:
        yield WET_ROOF
    if works & {"set_panel", "set_timber", "set_buck", "finish"}:
        yield STRUCTURE
    if "fan_test" in works:
        yield from FAN_CAUTIONS
    if not works - {"inspect", "clean", "dry", "other", "milestone"}:
        yield HEIGHTS


def _in_short(done: Sequence[Task]) -> str:
    """Return the work of a crew on a day in a few words."""
    words = {
        "set_panel": "panels", "set_timber": "timbers", "set_buck": "bucks", "lay_beads": "beads",
        "plug_chase": "plugs", "drape_strip": "draped strips", "gasket": "gaskets", "dam": "dams",
        "apron": "strips before panels", "cover_roof": "covering", "clean": "cleaning",
        "dry": "drying", "prime": "priming", "tape": "strips", "patch_node": "patches",
        "fill": "foam", "seal_service": "services", "inspect": "checks", "fan_test": "fan test",
        "mend": "mending", "finish": "finishing", "other": "other work", "milestone": "milestone",
    }  # fmt: skip
    counts: dict[str, int] = {}
    for task in done:
        counts[words[task.work]] = counts.get(words[task.work], 0) + 1
    return ", ".join(f"{word} ({n})" for word, n in counts.items())
