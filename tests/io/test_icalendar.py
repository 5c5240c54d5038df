"""The calendar file, read back by the rules of RFC 5545 alone."""

from __future__ import annotations

import datetime as dt
import re

from hypothesis import given, settings
from hypothesis import strategies as st
from tests.schedule.day_nets import task

from seamwright.io.icalendar import calendar_text, escaped, folded
from seamwright.schedule.types import DayPlan, Slot

START = dt.datetime(2027, 4, 5)  # noqa: DTZ001 a floating time has no zone
STAMP = dt.datetime(2027, 4, 1, tzinfo=dt.UTC)
_ESCAPES = {"n": "\n", "N": "\n", "\\": "\\", ";": ";", ",": ","}


def lines_of(text: str) -> list[str]:
    """Return the content lines: CR LF ends each, at most 75 octets, a blank goes on (3.1)."""
    assert text.endswith("\r\n")
    assert "\n" not in text.replace("\r\n", "")
    found: list[str] = []
    for raw in text.split("\r\n")[:-1]:
        assert len(raw.encode()) <= 75
        if raw.startswith((" ", "\t")):
            found[-1] += raw[1:]
        else:
            found.append(raw)
    return found


def value_of(text: str) -> str:
    """Return a text value without its escapes (3.3.11); a bare comma or semicolon is a fault."""
    assert not re.search(r"(?<!\\)(?:\\\\)*[;,]", re.sub(r"\\.", "", text))
    return re.sub(r"\\(.)", lambda found: _ESCAPES[found[1]], text)


def events_of(text: str) -> list[dict[str, str]]:
    """Return the properties of each event."""
    lines = lines_of(text)
    assert (lines[0], lines[1], lines[-1]) == ("BEGIN:VCALENDAR", "VERSION:2.0", "END:VCALENDAR")
    assert any(line.startswith("PRODID:") for line in lines)
    events: list[dict[str, str]] = []
    for line in lines:
        name, _, value = line.partition(":")
        if line == "BEGIN:VEVENT":
            events.append({})
        elif line == "END:VEVENT":
            assert {"UID", "DTSTAMP", "DTSTART"} <= set(events[-1])
        elif events:
            events[-1].setdefault(name, value)
    return events


def plan_of(*ids: str) -> DayPlan:
    """Return a plan with an hour for each task, the last one without length."""
    slots = [
        Slot(task_id=n, start=28 + 4 * k, end=32 + 4 * k, crew_id="crew", float_hours=0,
             critical=False)
        for k, n in enumerate(ids)
    ]  # fmt: skip
    slots.append(Slot(task_id="gate", start=60, end=60, crew_id="", float_hours=0, critical=False))
    return DayPlan(state="optimal", slots=tuple(slots), end=60, bound=60, gap=0.0, step=900.0)


def test_events_have_local_times_and_lasting_ids() -> None:
    """Each task is an event at the site's own hours; ids stay when the plan is made again."""
    tasks = {"a": task("a", 1, seals=("bead:1",), hold_point="Look; sign, go.", released_by="lead"),
             "gate": task("gate", 0)}  # fmt: skip
    text = calendar_text(plan_of("a"), tasks, START, name="House", stamp=STAMP)
    event, gate = events_of(text)
    assert (event["DTSTART"], event["DTEND"]) == ("20270405T070000", "20270405T080000")
    assert event["DTSTAMP"] == "20270401T000000Z"
    assert "DTEND" not in gate
    assert value_of(event["SUMMARY"]) == "Do a"
    assert "Sign: Look; sign, go. Released by lead." in value_of(event["DESCRIPTION"])
    later = calendar_text(plan_of("b", "a"), tasks, START, name="House", stamp=STAMP)
    assert event["UID"] in {e["UID"] for e in events_of(later)}


@settings(derandomize=True, max_examples=100, deadline=None)
@given(st.text(alphabet=st.characters(blacklist_categories=("Cc", "Cs")), max_size=200))
def test_any_text_survives_folding_and_escaping(text: str) -> None:
    """What is written is read back, whatever letters it has."""
    tasks = {"a": task("a", 1, title=text), "gate": task("gate", 0)}
    events = events_of(calendar_text(plan_of("a"), tasks, START, name="House", stamp=STAMP))
    assert value_of(events[0]["SUMMARY"]) == text
    assert "".join(p[1:] if k else p for k, p in enumerate(folded(text))) == text


def test_line_ends_become_an_escape() -> None:
    """A line end in a text is written as two letters."""
    assert escaped("a\r\nb\nc\\d") == "a\\nb\\nc\\\\d"
