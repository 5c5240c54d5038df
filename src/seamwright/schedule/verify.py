"""Check a plan of days against tasks, links, crews and hours, without anything the search used.

Nothing is taken over from the search: hours are looked up one by one in the calendar as given.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from seamwright.schedule.calendar import DAY
from seamwright.schedule.types import (
    Calendar,
    Crew,
    DayPlan,
    Fixed,
    Link,
    Network,
    Slot,
    Task,
)

_HOUR = 3600.0
_LONGEST_IN_ONE_GO = 4 * _HOUR
"""Work up to this is done in one go. [s] The same bound as in the search, stated again."""


@dataclass(frozen=True, kw_only=True, slots=True)
class _Facts:
    tasks: Mapping[str, Task]
    crews: Mapping[str, Crew]
    slots: Mapping[str, Slot]
    fixed: Mapping[str, Fixed]
    calendar: Calendar
    step: float

    def is_done(self, task_id: str) -> bool:
        row = self.fixed.get(task_id)
        return row is not None and row.done

    def hour(self, steps: int) -> float:
        return steps * self.step / _HOUR


def verify_days(
    plan: DayPlan,
    network: Network,
    crews: Iterable[Crew],
    calendar: Calendar,
    fixed: Iterable[Fixed] = (),
    *,
    now: int = 0,
) -> tuple[str, ...]:
    """Return every rule that a plan breaks as a sentence, empty for a plan that keeps all.

    Checked are: each task once, order and waits, longest waits, people and skills, the crane, the
    hours of each task, work in one go, days that must be ended, what was fixed, and that nothing
    open starts before hour `now`. Tasks that are done are facts and only bind what follows them.
    """
    facts = _Facts(
        tasks={task.id: task for task in network.tasks},
        crews={crew.id: crew for crew in crews},
        slots={slot.task_id: slot for slot in plan.slots},
        fixed={row.task_id: row for row in fixed},
        calendar=calendar,
        step=plan.step,
    )
    broken = [*_once(plan, facts)]
    known = [slot for slot in plan.slots if slot.task_id in facts.tasks]
    broken += _links(network.links, facts)
    broken += _people(known, facts)
    broken += _hours(known, facts)
    broken += _same_day(facts)
    broken += _as_fixed(known, facts, now)
    last = max((slot.end for slot in plan.slots), default=0)
    if plan.slots and last != plan.end:
        broken.append(f"The plan says it ends at step {plan.end}, its last task at step {last}.")
    return tuple(broken)


def _once(plan: DayPlan, facts: _Facts) -> Iterator[str]:
    seen: set[str] = set()
    for slot in plan.slots:
        if slot.task_id in seen:
            yield f"{slot.task_id} stands in the plan twice."
        if slot.task_id not in facts.tasks:
            yield f"{slot.task_id} stands in the plan and is no task."
        seen.add(slot.task_id)
    for name in facts.tasks:
        if name not in seen:
            yield f"{name} has no place in the plan."


def _links(links: Iterable[Link], facts: _Facts) -> Iterator[str]:
    for link in links:
        one, other = facts.slots.get(link.before), facts.slots.get(link.after)
        if one is None or other is None or facts.is_done(link.after):
            continue
        here = one.start if link.kind == "start_start" else one.end
        there = other.end if link.kind == "finish_finish" else other.start
        wait = (there - here) * facts.step
        if wait < link.lag - 1e-6:
            yield (
                f"{link.after} comes {wait / _HOUR:g} h after {link.before}, and must wait "
                f"{link.lag / _HOUR:g} h: {link.reason} [{link.rule}]."
            )
        if link.most is not None and wait > link.most + 1e-6:
            yield (
                f"{link.after} comes {wait / _HOUR:g} h after {link.before}, and may come "
                f"{link.most / _HOUR:g} h after it at the latest: {link.reason} [{link.rule}]."
            )


def _people(slots: Sequence[Slot], facts: _Facts) -> Iterator[str]:
    changes: dict[str, list[tuple[int, int, str]]] = {"crane": []}
    for slot in slots:
        task = facts.tasks[slot.task_id]
        if slot.end == slot.start or facts.is_done(slot.task_id):
            continue
        crew = facts.crews.get(slot.crew_id)
        if crew is None or task.skill not in crew.skills:
            yield f"{slot.task_id} needs {task.skill}; crew ‘{slot.crew_id}’ does not do that."
            continue
        changes.setdefault(crew.id, [])
        changes[crew.id] += [(slot.end, -task.crew_size, ""), (slot.start, task.crew_size, task.id)]
        if task.crane:
            changes["crane"] += [(slot.end, -1, ""), (slot.start, 1, task.id)]
    for name, steps in changes.items():
        size = 1 if name == "crane" else facts.crews[name].size
        at_work = 0
        for _, change, task_id in sorted(steps):
            at_work += change
            if at_work > size:
                yield f"{task_id} needs {name} while it is at work elsewhere."


def _hours(slots: Sequence[Slot], facts: _Facts) -> Iterator[str]:
    working = frozenset(facts.calendar.working_hours)
    lifting = frozenset(facts.calendar.crane_hours)
    windows = {name: frozenset(hours) for name, hours in facts.calendar.windows}
    for slot in slots:
        task = facts.tasks[slot.task_id]
        if facts.is_done(slot.task_id):
            continue
        length = math.ceil(task.duration.likely / facts.step - 1e-9)
        allowed = working & lifting if task.crane else working
        if task.window is not None and task.window in windows:
            allowed = allowed & windows[task.window]
        inside = [
            step
            for step in range(slot.start, slot.end)
            if math.floor(facts.hour(step) + 1e-9) in allowed
        ]
        if len(inside) != length:
            yield (
                f"{slot.task_id} needs {length} steps of allowed hours and has {len(inside)} "
                f"from step {slot.start} to {slot.end}."
            )
        elif length * facts.step <= _LONGEST_IN_ONE_GO and slot.end - slot.start != length:
            yield f"{slot.task_id} is not done in one go."
        elif length and (inside[0] != slot.start or inside[-1] != slot.end - 1):
            yield f"{slot.task_id} starts or ends in an hour it may not be done in."


def _same_day(facts: _Facts) -> Iterator[str]:
    groups: dict[str, set[str]] = {}
    for task in facts.tasks.values():
        if task.same_day_as is not None:
            groups.setdefault(task.same_day_as, {task.same_day_as}).add(task.id)
    for members in groups.values():
        found = [facts.slots[name] for name in sorted(members) if name in facts.slots]
        if any(facts.is_done(slot.task_id) for slot in found):
            found = [slot for slot in found if not facts.is_done(slot.task_id)]
        if not found:
            continue
        offset = facts.calendar.first_hour
        began = min(facts.hour(slot.start) + offset for slot in found) // DAY
        for slot in found:
            last = facts.hour(max(slot.start, slot.end - 1)) + offset
            if last // DAY != began:
                yield f"{slot.task_id} does not end on the day {', '.join(sorted(members))} began."


def _as_fixed(slots: Sequence[Slot], facts: _Facts, now: int) -> Iterator[str]:
    for slot in slots:
        row = facts.fixed.get(slot.task_id)
        start, end = facts.hour(slot.start), facts.hour(slot.end)
        done = facts.is_done(slot.task_id)
        if not done and start < now:
            yield f"{slot.task_id} starts at hour {start:g}, before hour {now}, which is now."
        if row is None:
            continue
        begin = _time(row.start_hour, row.start_minute)
        if begin is not None and abs(start - begin) > 1e-6:
            yield f"{slot.task_id} starts at hour {start:g} and was fixed to {begin:g}."
        stop = _time(row.end_hour, row.end_minute)
        if done and stop is not None and abs(end - max(stop, start)) > 1e-6:
            yield f"{slot.task_id} ended at hour {stop:g}, not at {end:g}."
        if not done and row.not_before is not None and start < row.not_before:
            yield f"{slot.task_id} starts before hour {row.not_before}."
        limits = [hour for hour in (row.not_after, stop) if hour is not None and not done]
        if limits and end > min(limits):
            yield f"{slot.task_id} ends after hour {min(limits):g}."
        if row.crew_id is not None and slot.crew_id not in {row.crew_id, ""}:
            yield f"{slot.task_id} was given to {row.crew_id}, not to {slot.crew_id}."


def _time(hour: int | None, minute: int) -> float | None:
    return None if hour is None else hour + minute / 60
