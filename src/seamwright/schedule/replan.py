"""Planning again from where the site stands: what is done lies fixed, what is frozen stays.

Without a word from the site, everything the old plan had ended by now counts as done as planned,
and what was under way is finished where it stands.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from seamwright.schedule.types import DayPlan, Fixed, Link, Slot

_HOUR = 3600.0


@dataclass(frozen=True, kw_only=True, slots=True)
class SiteState:
    """Where the site stands at hour `now` of the old plan's calendar.

    `done` gives the tasks that are done with their first and last hour, where they differ from the
    plan; `undone` are those the plan had done that are not. What starts before hour
    `frozen_until` stays where it is planned.
    """

    now: float
    done: Mapping[str, tuple[float, float]] = field(default_factory=dict)
    undone: tuple[str, ...] = ()
    frozen_until: float | None = None


def fixed_from(
    plan: DayPlan, state: SiteState, given: Iterable[Fixed] = (), links: Iterable[Link] = ()
) -> tuple[Fixed, ...]:
    """Return what is fixed for the next plan: facts, what is under way, what is frozen.

    What the user asks of tasks that are still open is kept from `given`. With `links`, work whose
    longest wait has run out before its follower came is open again: a bead that skinned over while
    the crane stood is laid a second time.
    """
    rows = {row.task_id: row for row in given}
    for slot in plan.slots:
        row = _row(slot, plan.step, state)
        if row is not None:
            rows[slot.task_id] = row
    for link in links:
        if link.most is not None and _ran_out(link, link.most, rows, state.now):
            del rows[link.before]
    return tuple(rows.values())


def _ran_out(link: Link, most: float, rows: Mapping[str, Fixed], now: float) -> bool:
    one, other = rows.get(link.before), rows.get(link.after)
    if one is None or not one.done or (other is not None and other.done):
        return False
    hour = one.start_hour if link.kind == "start_start" else one.end_hour
    return hour is not None and hour + most / _HOUR < now


def changes(old: DayPlan, new: DayPlan) -> dict[str, float]:
    """Return by how many hours on the clock each task starts later than before; moved ones only."""
    before = {slot.task_id: slot.start * old.step for slot in old.slots}
    return {
        slot.task_id: (slot.start * new.step - before[slot.task_id]) / _HOUR
        for slot in new.slots
        if slot.task_id in before and slot.start * new.step != before[slot.task_id]
    }


def _row(slot: Slot, step: float, state: SiteState) -> Fixed | None:
    start, end = slot.start * step / _HOUR, slot.end * step / _HOUR
    if slot.task_id in state.done:
        start, end = state.done[slot.task_id]
        return _fixed(slot, start, end, "done")
    if slot.task_id in state.undone:
        return None
    if end <= state.now:
        return _fixed(slot, start, end, "done as planned")
    if start < state.now:
        return _fixed(slot, start, end, "under way")
    if state.frozen_until is not None and start < state.frozen_until:
        return _fixed(slot, start, None, "frozen")
    return None


def _fixed(slot: Slot, start: float, end: float | None, reason: str) -> Fixed:
    return Fixed(
        task_id=slot.task_id,
        start_hour=int(start),
        start_minute=round(60 * (start - int(start))),
        end_hour=None if end is None else int(end),
        end_minute=0 if end is None else round(60 * (end - int(end))),
        done=end is not None,
        crew_id=slot.crew_id or None,
        reason=reason,
    )
