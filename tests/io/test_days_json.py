"""The plan of days as data, written and read again."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from tests.schedule.day_nets import crew, link, network, task, week

from seamwright.errors import FormatError
from seamwright.io.days_json import days_document, read_days
from seamwright.io.json_text import write_json
from seamwright.solve.days import solve_days

START = dt.datetime(2027, 4, 5)  # noqa: DTZ001 local time of the site


def test_slots_come_back(tmp_path: Path) -> None:
    """Every slot is read as it was written, with the start and the step."""
    made = network([task("a", 2), task("b", 5.25)], [link("a", "b", lag=1)])
    plan = solve_days(made, [crew()], week(), time_limit=1)
    path = tmp_path / "days.json"
    write_json(days_document(plan, made, (crew(),), START), path)
    again, start = read_days(path)
    assert (again.slots, again.end, again.step, start) == (plan.slots, plan.end, plan.step, START)


def test_times_are_local_and_keys_carry_units() -> None:
    """A task says when it starts on the site's clock, and durations are in seconds."""
    made = network([task("a", 2)])
    data = days_document(solve_days(made, [crew()], week(), time_limit=1), made, (crew(),), START)
    row = data["tasks"][0]
    assert (row["start"], row["end"]) == ("2027-04-05T07:00", "2027-04-05T09:00")
    assert row["duration_s"]["likely"] == 7200.0
    assert data["state"] == "optimal"


@pytest.mark.parametrize("text", ["", "[]", "{}", '{"form": "else"}', "no json", '{"form": 3}'])
def test_what_is_no_plan_is_refused(tmp_path: Path, text: str) -> None:
    """Anything else is refused in a sentence that names the file."""
    path = tmp_path / "x.json"
    path.write_text(text)
    with pytest.raises(FormatError, match=r"x\.json is no plan of days"):
        read_days(path)
