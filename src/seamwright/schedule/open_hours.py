"""Hours that a record of weather leaves open to each class of work, laid over a calendar."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field, replace

from seamwright.schedule.types import Calendar
from seamwright.schedule.window_classes import ClassHours


@dataclass(frozen=True, kw_only=True, slots=True)
class OpenHours:
    """Hours of a calendar open to a class, and what closes others, as far as it is known."""

    open: frozenset[int]
    closed: Mapping[int, str] = field(default_factory=dict)


def laid_hours(rows: Iterable[ClassHours], shift: int) -> dict[str, OpenHours]:
    """Return each class over a calendar in whose hour `shift` the record begins."""
    return {
        row.name: OpenHours(
            open=frozenset(h + shift for h in row.open if h + shift >= 0),
            closed={h + shift: why for h, why in row.closed if h + shift >= 0},
        )
        for row in rows
    }


def merged_hours(
    forecast: Mapping[str, OpenHours], rest: Mapping[str, OpenHours], known: Collection[int]
) -> dict[str, OpenHours]:
    """Return the forecast's hours where they are known, the others' elsewhere."""
    inside = frozenset(known)
    found = {}
    for name, row in forecast.items():
        other = rest.get(name, OpenHours(open=frozenset()))
        closed = {h: why for h, why in other.closed.items() if h not in inside}
        closed |= {h: why for h, why in row.closed.items() if h in inside}
        found[name] = OpenHours(open=(row.open & inside) | (other.open - inside), closed=closed)
    return found


def with_hours(calendar: Calendar, rows: Mapping[str, OpenHours]) -> Calendar:
    """Return the calendar with these hours as its windows, and why working hours are closed."""
    working = frozenset(calendar.working_hours)
    return replace(
        calendar,
        windows=tuple((name, tuple(sorted(row.open))) for name, row in rows.items()),
        closed=tuple(
            (name, tuple(sorted((h, why) for h, why in row.closed.items() if h in working)))
            for name, row in rows.items()
        ),
    )
