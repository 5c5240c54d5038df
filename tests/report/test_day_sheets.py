"""The sheets of the days."""

from __future__ import annotations

from tests.schedule.day_nets import crew, link, network, task, week

from seamwright.report.day_sheets import DaySheets, day_sheets, days_table
from seamwright.report.types import Heading, Table
from seamwright.schedule.types import DayPlan, Slot


def sheets() -> DaySheets:
    """Return two days of two crews: beads, a panel that hides them, signed, and a strip."""
    tasks = [
        task("beads.A.1", 1, work="lay_beads", seals=("s1", "s2"), window="bead"),
        task("set.A.1", 1, work="set_panel", skill="set", crane=True,
             hold_point="Beads seen whole.", released_by="sealing lead"),
        task("tape.A", 2, work="tape", zone="inner/A", seals=("s3",), window="tape/inner"),
    ]  # fmt: skip
    links = [link("beads.A.1", "set.A.1", most=1, buries=("s1", "s2")), link("set.A.1", "tape.A")]
    rows = (("beads.A.1", 7, 8, "sealers"), ("set.A.1", 8, 9, "setters"),
            ("tape.A", 31, 33, "sealers"))  # fmt: skip
    slots = tuple(
        Slot(task_id=n, start=4 * a, end=4 * b, crew_id=c, float_hours=0, critical=False)
        for n, a, b, c in rows
    )
    plan = DayPlan(state="optimal", slots=slots, end=132, bound=132, gap=0.0, step=900.0)
    return DaySheets(
        plan=plan, network=network(tasks, links),
        crews=[crew(2, "sealers"), crew(4, "setters", ("set",))],
        calendar=week(bead=(7, 8), **{"tape/inner": (31, 32, 33)}), title="Days of a hut",
        facts=(("Begins", "2027-04-05"),), day_name=lambda day: f"day {day}",
        clock=lambda step: f"day {step // 96} {step % 96 // 4:02}:00",
    )  # fmt: skip


def test_there_is_one_sheet_per_crew_and_day() -> None:
    """Two crews on Monday and one on Tuesday have three sheets, each with crew and day."""
    told = [str(b) for b in day_sheets(sheets()).blocks if isinstance(b, Heading)]
    found = [(d, c) for d in ("day 0", "day 1") for c in ("sealers", "setters")
             if any(d in t and c in t for t in told)]  # fmt: skip
    assert found == [("day 0", "sealers"), ("day 0", "setters"), ("day 1", "sealers")]


def test_a_sheet_names_seals_what_is_hidden_and_who_signs() -> None:
    """The seals to make by id, the sentence to sign, and whose name goes under it."""
    told = str(day_sheets(sheets()).blocks)
    for word in ("s1", "s3", "Beads seen whole.", "sealing lead"):
        assert word in told


def test_work_with_chemicals_bears_its_caution() -> None:
    """Beads bring a caution that strips indoors alone do not need."""
    blocks = day_sheets(sheets()).blocks
    text = " ".join(str(b).lower() for b in blocks)
    assert "crane" in text or "load" in text
    assert "sealant" in text or "solvent" in text or "ventilat" in text


def test_days_at_a_glance_count_the_tasks() -> None:
    """One row per day, with the number of tasks by kind and of signatures."""
    table = days_table(sheets())
    assert isinstance(table, Table)
    assert len(table.rows) == 2
    assert "beads (1)" in str(table.rows[0])
