"""The command ``climate``."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from tests.real_years import FOLDER, YEARS
from typer.testing import CliRunner

import seamwright
from seamwright.cli.main import app

RUN = CliRunner()


def test_the_climate_of_a_built_in_house_is_told() -> None:
    """Zone in both editions, stations, months and figures stand there, and GENERATED first."""
    result = RUN.invoke(app, ["climate", "cypress_house", "--units", "metric"])
    assert result.exit_code == 0, result.output
    assert result.stdout.splitlines()[0].startswith("Cypress House: GENERATED from monthly figures")
    for words in (
        "IECC 2004 to 2018",
        "IECC 2021 on",
        "Stations near by",
        "Jan",
        "K·d",
        "warm and",
    ):
        assert words in result.stdout


def test_a_zone_that_disagrees_leaves_status_1(tmp_path: Path) -> None:
    """Where plan and county part company the sentence says LOOK and the status is 1."""
    houses = Path(seamwright.__file__).parent / "data" / "houses"
    text = (houses / "heron_house.yaml").read_text(encoding="utf-8")
    plan = tmp_path / "plan.yaml"
    plan.write_text(text.replace("county: Jefferson", "county: Clallam"), encoding="utf-8")
    result = RUN.invoke(app, ["climate", str(plan)])
    assert result.exit_code == 1
    assert "LOOK  The plan says zone 4C by IECC 2021" in result.stdout
    assert RUN.invoke(app, ["climate", "heron_house"]).exit_code == 0


def test_json_has_units_in_its_keys() -> None:
    """The document is SI with the unit in the key and says that it is generated."""
    result = RUN.invoke(app, ["climate", "cypress_house", "--json"])
    found = json.loads(result.stdout)
    assert found["generated"] is True
    assert [z["edition"] for z in found["zones"]] == ["2004-2018", "2021"]
    assert len(found["months"]) == 12
    assert found["months"][6]["temperature_c"] > 25.0
    assert found["warm_humid"]["by_hours"] is True


def test_the_hours_are_written_and_may_be_read_again(tmp_path: Path) -> None:
    """The file of hours is a weather file, and stays GENERATED."""
    path = tmp_path / "hours.csv"
    assert RUN.invoke(app, ["climate", "cypress_house", "--hours", str(path)]).exit_code == 0
    again = RUN.invoke(app, ["climate", "cypress_house", "--weather", str(path), "--json"])
    found = json.loads(again.stdout)
    assert found["generated"] is True
    assert found["stations"] == []


def test_a_measured_year_is_named_and_not_generated() -> None:
    """A TMY3 file is named as the origin, and its rain is left out of the months."""
    file = str(FOLDER / YEARS["Greensboro, NC"])
    result = RUN.invoke(app, ["climate", "cypress_house", "--weather", file, "--json"])
    found = json.loads(result.stdout)
    assert found["generated"] is False
    assert found["origin"] == "year of a weather file 723170TYA.CSV"
    assert found["months"][0]["rain_kg_m2"] is None
    assert found["heating_degree_days_18_k_d"] == pytest.approx(2081.5, abs=1.0)


def test_a_forecast_is_no_climate() -> None:
    """Three days of forecast are refused: a climate needs a year."""
    file = Path(seamwright.__file__).parent / "data" / "examples" / "heron_house_forecast.csv"
    result = RUN.invoke(app, ["climate", "heron_house", "--weather", str(file)])
    assert result.exit_code == 2
    assert "needs a year of 8760" in result.stderr
