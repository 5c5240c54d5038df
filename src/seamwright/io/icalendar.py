"""The plan of days as iCalendar (RFC 5545): one event per task and crew, in the site's own hours.

Times are local without a zone ("floating", form 1 of section 3.3.5), because a site works by the
clock on its wall. Lines are folded at 75 octets and end in CR LF (section 3.1); commas, semicolons,
backslashes and line ends in text are escaped (section 3.3.11).
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping

from seamwright.schedule.types import DayPlan, Slot, Task

PRODUCT = "-//Seamwright//Plan of days//EN"
_OCTETS = 75


def calendar_text(
    plan: DayPlan, tasks: Mapping[str, Task], start: dt.datetime, *, name: str, stamp: dt.datetime
) -> str:
    """Return the plan as the text of a calendar file.

    `start` is the local time of step 0, `stamp` when the plan was made, in universal time.
    """
    lines = [
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        f"PRODID:{PRODUCT}",
        "CALSCALE:GREGORIAN",
        f"NAME:{escaped(name)}",
    ]
    for slot in plan.slots:
        if slot.task_id in tasks:
            lines += _event(slot, tasks[slot.task_id], plan.step, start, stamp, name)
    lines.append("END:VCALENDAR")
    return "".join(f"{part}\r\n" for line in lines for part in folded(line))


def escaped(text: str) -> str:
    """Return text as a property value takes it."""
    found = text.replace("\\", "\\\\").replace(";", "\\;").replace(",", "\\,")
    return found.replace("\r\n", "\\n").replace("\n", "\\n").replace("\r", "\\n")


def folded(line: str) -> Iterable[str]:
    """Yield a line in parts of at most 75 octets, the later ones begun by a blank."""
    part, room = "", _OCTETS
    for letter in line:
        size = len(letter.encode())
        if size > room:
            yield part
            part, room = " ", _OCTETS - 1
        part += letter
        room -= size
    yield part


def _event(  # noqa: PLR0917 one event from as many facts
    slot: Slot, task: Task, step: float, start: dt.datetime, stamp: dt.datetime, name: str
) -> list[str]:
    begin = start + dt.timedelta(seconds=slot.start * step)
    end = start + dt.timedelta(seconds=slot.end * step)
    about = [f"Task {task.id}"]
    about += [f"Crew {slot.crew_id}"] if slot.crew_id else []
    about += [f"Seals: {', '.join(task.seals)}"] if task.seals else []
    if task.hold_point is not None:
        about.append(f"Sign: {task.hold_point} Released by {task.released_by}.")
    lines = [
        "BEGIN:VEVENT",
        f"UID:{_uid(name, task.id)}",
        f"DTSTAMP:{stamp.astimezone(dt.UTC):%Y%m%dT%H%M%SZ}",
        f"DTSTART:{begin:%Y%m%dT%H%M%S}",
    ]
    lines += [f"DTEND:{end:%Y%m%dT%H%M%S}"] if end > begin else []
    lines.append(f"SUMMARY:{escaped(task.title)}")
    lines.append(f"DESCRIPTION:{escaped(chr(10).join(about))}")
    lines += [f"CATEGORIES:{escaped(slot.crew_id)}"] if slot.crew_id else []
    lines.append("END:VEVENT")
    return lines


def _uid(name: str, task_id: str) -> str:
    """Return an id that stays with a task from plan to plan."""
    plain = "".join(c if c.isalnum() else "-" for c in f"{task_id}.{name}".lower())
    return f"{plain}-{sum(map(ord, task_id))}@seamwright.invalid"
