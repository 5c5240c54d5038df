"""The command that plans the days."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner

from seamwright.cli.main import app

START = ("--start", "2027-04-05", "--limit", "1")


def days(*words: str) -> tuple[int, str]:
    """Return the exit status and what was printed."""
    result = CliRunner().invoke(app, ["days", "first_house", *words])
    return result.exit_code, result.output


def test_a_house_gets_its_files_and_a_second_plan(tmp_path: Path) -> None:
    """Sheets, chart, calendar and data are written, and rain on the way is planned around."""
    status, told = days(*START, "--out", str(tmp_path / "a"))
    assert status == 0
    assert "breaks a rule" not in told
    names = {p.name for p in (tmp_path / "a").iterdir()}
    assert {"day-sheets.pdf", "days-chart.svg", "days.ics", "days.json"} <= names
    state = tmp_path / "a" / "days.json"
    again = ("--from-state", str(state), "--now", "2027-04-07T07:00", "--rain", "2027-04-07")
    status, told = days(*again, "--limit", "1", "--json")
    assert status == 0
    old = {t["id"]: t["end"] for t in json.loads(state.read_text())["tasks"]}
    new = {t["id"]: t["end"] for t in json.loads(told)["tasks"]}
    done = [name for name, end in old.items() if end <= "2027-04-07T07:00"]
    assert done
    assert [new[name] for name in done] == [old[name] for name in done]


def test_a_missing_trade_is_a_contradiction() -> None:
    """Without setters there is no plan, and a sentence says why; the status asks for a look."""
    status, told = days(*START, "--crews", "managing+testing=2,sealing=2")
    assert status == 1
    assert "there is none; add one" in told


@pytest.mark.parametrize(
    "words", [("--start", "soon"), ("--crews", "sealing=many"), ("--rain", "tomorrow")]
)
def test_bad_words_are_told(words: tuple[str, str]) -> None:
    """A date or crew that cannot be read ends in a sentence and status 2."""
    assert days("--start", "2027-04-05", *words)[0] == 2


def test_the_site_says_what_was_done_otherwise(tmp_path: Path) -> None:
    """A state file moves what is done, opens what is not, and freezes what is to stay."""
    assert days(*START, "--out", str(tmp_path))[0] == 0
    state = tmp_path / "days.json"
    data = json.loads(state.read_text())
    early = [t for t in data["tasks"] if "2027-04-05T08:00" <= t["end"] <= "2027-04-05T16:00"]
    late = early[-1]["id"]
    data["site"] = {
        "now": "2027-04-06T07:00",
        "done": [{"task": "delivery", "start": "2027-04-05T07:30", "end": "2027-04-05T09:00"}],
        "undone": [late],
    }
    state.write_text(json.dumps(data))
    status, told = days("--from-state", str(state), "--limit", "1", "--json")
    assert status == 0
    new = {t["id"]: t for t in json.loads(told)["tasks"]}
    assert new["delivery"]["end"] == "2027-04-05T09:00"
    assert new[late]["start"] >= "2027-04-06T07:00"
    data["site"] = {"now": "2027-04-06T07:00", "frozen_until": "2027-04-06T09:00"}
    state.write_text(json.dumps(data))
    status, told = days("--from-state", str(state), "--limit", "1", "--json")
    assert status == 0
    new = {t["id"]: t for t in json.loads(told)["tasks"]}
    frozen = [t for t in data["tasks"] if "2027-04-06T07:00" <= t["start"] < "2027-04-06T09:00"]
    assert frozen
    assert all(new[t["id"]]["start"] == t["start"] for t in frozen)


def test_a_site_part_that_cannot_be_read_is_told(tmp_path: Path) -> None:
    """A done task without its end ends in a sentence and status 2."""
    assert days(*START, "--out", str(tmp_path))[0] == 0
    state = tmp_path / "days.json"
    data = json.loads(state.read_text()) | {"site": {"done": [{"task": "delivery"}]}}
    state.write_text(json.dumps(data))
    status, told = days("--from-state", str(state), "--now", "2027-04-06T07:00")
    assert status == 2
    assert "give each a task, start and end" in " ".join(told.split())


def test_records_change_durations_and_say_so(tmp_path: Path) -> None:
    """Beads recorded as slow take longer in the plan, and a note tells from what."""
    records = tmp_path / "records.yaml"
    rows = [f"  - {{task: beads.A.{k}, took: 3 h, people: 2}}" for k in (1, 2)]
    records.write_text("work:\n" + "\n".join(rows) + "\n")
    before = json.loads(days(*START, "--json")[1])
    after = json.loads(days(*START, "--records", str(records), "--json")[1])
    likely = [
        next(t for t in found["tasks"] if t["id"] == "beads.A.2")["duration_s"]["likely"]
        for found in (before, after)
    ]
    assert likely[1] > 1.5 * likely[0]
    assert any("Learned from 2 records of lay beads" in note for note in after["notes"])


def test_typical_weather_is_never_called_a_forecast() -> None:
    """Typical years close hours, the note says how many and that it is no forecast."""
    found = json.loads(days(*START, "--weather", "typical", "--json")[1])
    assert 0 < found["open_hours"]["tape/outer/roof"] < found["open_hours"]["lift"]
    (note,) = [n for n in found["notes"] if "typical, no forecast" in n]
    assert "the middle one of 5 years of GENERATED" in note


def test_past_a_forecast_typical_weather_goes_on(tmp_path: Path) -> None:
    """Hours of the file count while it lasts, then those of typical years."""
    rows = ["time, temperature [C], humidity [%], wind [m/s], rain [mm], cloud [%]"]
    rows += [f"2027-04-05T{h:02}:00-06:00,12,60,2,0,50" for h in range(24)]
    file = tmp_path / "fair.csv"
    file.write_text("\n".join(rows) + "\n")
    status, told = days(*START, "--weather", str(file), "--json")
    assert status == 0
    notes = " ".join(json.loads(told)["notes"])
    assert "Weather is forecast for 1 working day, until 2027-04-05" in notes
    assert "typical, no forecast" in notes
