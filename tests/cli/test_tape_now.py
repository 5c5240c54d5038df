"""``seamwright tape-now``."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

import seamwright

EXAMPLE = Path(seamwright.__file__).parent / "data" / "examples" / "heron_house_forecast.csv"
FAIR = ("--surface", "16C", "--air", "16C", "--humidity", "50%", "--board", "12%")
DAMP = ("--surface", "9C", "--air", "10C", "--humidity", "80%", "--board", "12%")
WET = (*FAIR, "--wet")


@pytest.mark.parametrize(
    ("words", "answer", "status"), [(FAIR, "GO", 0), (DAMP, "WAIT", 1), (WET, "STOP", 1)]
)
def test_one_big_word_and_the_status(run, words, answer, status) -> None:
    """The first line is the answer alone; GO leaves 0, the others 1; cautions always follow."""
    result = run("tape-now", *words)
    assert result.output.splitlines()[0] == answer
    assert result.exit_code == status
    for word in ("Heights", "ladder", "solvents", "data sheet"):
        assert word in result.output


def test_the_reason_the_margin_and_the_way_out_are_told(run) -> None:
    """A wait names what it waits for, by how much, and what would change it."""
    shown = run("tape-now", *DAMP).output
    assert "Waits for: a skin grows wet at 6.7 °C; this one is 2.3 °C above it" in shown
    assert "What would change it (dew_margin)" in shown


def test_answers_come_in_the_units_of_the_readings(run) -> None:
    """Readings in °F are answered in °F, unless metric is asked for."""
    words = ("--surface", "48F", "--air", "50F", "--humidity", "80%", "--board", "12%")
    assert "grows wet at 44 °F" in run("tape-now", *words).output
    assert "grows wet at 6.7 °C" in run("tape-now", *words, "--units", "metric").output


def test_json_holds_every_check_in_si(run) -> None:
    """The JSON has answer, binding check, readings with their uncertainty, and margins in K."""
    result = run("tape-now", *DAMP, "--json")
    told = json.loads(result.stdout)
    assert told["answer"] == "WAIT"
    assert told["binding"] == "dew_margin"
    assert told["readings"]["surface_temperature_c"] == 9.0
    assert told["readings"]["surface_temperature_within_k"] == 1.0
    check = next(c for c in told["checks"] if c["id"] == "dew_margin")
    assert check["margin_low_k"] < 0.0 < check["margin_high_k"]
    assert all(c["source"] for c in told["checks"])


def test_a_forecast_says_when_it_turns(run) -> None:
    """On the invented cold dawn the north roof is too wet with dew, and turns by mid-morning."""
    words = ("--surface", "3C", "--air", "6C", "--humidity", "96%", "--board", "12%", "--primer",
             "--facing", "north at 8/12", "--forecast", EXAMPLE,
             "--at", "2026-04-18T06:00-07:00")  # fmt: skip
    told = json.loads(run("tape-now", *words, "--json").stdout)
    assert told["answer"] == "WAIT"
    assert told["turns_at"] is not None
    assert "2026-04-18T07" < told["turns_at"] < "2026-04-18T12"
    assert "likely to suit from Sat 2026-04-18" in run("tape-now", *words).output


def test_rain_ahead_holds_an_outside_seam(run) -> None:
    """On the wet second day a dry outside wall waits for the rain to pass."""
    words = (*FAIR, "--facing", "south", "--forecast", EXAMPLE, "--at", "2026-04-19T10:00-07:00")
    result = run("tape-now", *words)
    assert result.exit_code == 1
    assert "Waits for: rain is forecast" in result.output


def test_a_product_file_outranks_the_defaults(run, tmp_path) -> None:
    """A data sheet's higher least temperature turns a GO into a STOP."""
    sheet = tmp_path / "sheet.yaml"
    sheet.write_text("id: summer\nsurface_min: 25 C\nsource: data sheet, page 1\n")
    result = run("tape-now", *FAIR, "--product", sheet)
    assert result.output.splitlines()[0] == "STOP"
    assert "data sheet, page 1" in result.output


@pytest.mark.parametrize(
    "words",
    [
        ("--surface", "12"),
        ("--surface", "warm", "--board", "14"),
        ("--humidity", "170%"),
        ("--surface", "400C"),
        ("--product", "acrilic"),
        ("--product", "nowhere.yaml"),
        ("--forecast", "nowhere.csv"),
        ("--forecast", EXAMPLE, "--at", "2020-01-01T00:00Z"),
        ("--forecast", EXAMPLE, "--at", "yesterday"),
        ("--forecast", EXAMPLE, "--at", "2026-04-18T06:00-07:00", "--facing", "sideways"),
    ],
)
def test_unusable_input_is_told_and_leaves_2(run, words) -> None:
    """Readings, products, forecasts and hours that cannot be used end with status 2."""
    result = run("tape-now", *words)
    assert result.exit_code == 2
    assert result.output
    assert "Traceback" not in result.output


def test_without_readings_it_says_what_to_read(run) -> None:
    """Asked without a reading it waits, and names every reading it needs."""
    result = run("tape-now")
    assert result.output.splitlines()[0] == "WAIT"
    for word in ("skin", "air", "humidity", "moisture of the board"):
        assert word in result.output


def test_a_damp_board_is_followed_until_it_is_dry(run) -> None:
    """From the reading on the answer says when the board is dry; a damper one is later."""
    week = str(Path(seamwright.__file__).parent / "data" / "examples" / "heron_house_wet_week.csv")
    words = ["--surface", "9C", "--air", "9C", "--humidity", "62%", "--facing", "south",
             "--forecast", week, "--at", "2027-04-16T10:00-07:00", "--json"]  # fmt: skip
    boards = ("12%", "18%", "20%", "30%")
    found = [json.loads(run("tape-now", *words, "--board", b).output) for b in boards]
    dry = [data["board_dry_at"] for data in found]
    assert dry[0].startswith("2027-04-16T10:00")
    assert dry[0] < dry[1] < dry[2]
    assert dry[3] is None
    assert all(row["turns_at"] is None or row["turns_at"] >= row["board_dry_at"] for row in found)
