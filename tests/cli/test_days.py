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
