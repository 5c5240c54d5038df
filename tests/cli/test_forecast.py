"""The forecast on the command line."""

from __future__ import annotations

import json
from importlib import resources

import pytest

from seamwright.cli.forecast_target import parse_flow, parse_target, plan_target
from seamwright.errors import InputError


def test_the_forecast_says_result_target_and_where_to_look(run, cabin) -> None:
    """The answer, its edition, the work, the budget, the places and the ventilation are told."""
    result = run("forecast", cabin)
    assert result.exit_code in {0, 1}
    for words in ("9 times in 10", "IECC 2021", "careful", "Leakage budget", "mechanical"):
        assert words in result.stdout


def test_careless_work_asks_for_attention(run, cabin) -> None:
    """A small chance to pass ends with status 1 and says what to look at; a large one with 0."""
    bad = run("forecast", cabin, "--workmanship", "careless", "--target", "0.6 ACH50")
    assert bad.exit_code == 1
    assert "LOOK" in bad.stdout
    assert run("forecast", cabin, "--workmanship", "careful", "--target", "9 ACH50").exit_code == 0


def test_json_is_one_document(run, cabin) -> None:
    """The result as JSON, the same numbers for the same seed."""
    one, two = (run("forecast", cabin, "--json", "--seed", "4").stdout for _ in range(2))
    assert one == two
    document = json.loads(one)
    assert document["seed"] == 4
    assert 0 < document["chance"] <= 1


def test_a_test_is_kept_learned_from_and_taken_out(run, cabin, tmp_path) -> None:
    """A measured flow moves the next forecast; forgotten, the first forecast comes back."""
    history = tmp_path / "tests.json"

    def middle(*words: object) -> float:
        result = run("forecast", cabin, "--json", "--crew", "north", "--history", history, *words)
        document = json.loads(result.stdout)
        return document["flow_50_m3_h"]["p50"]

    before = middle()
    assert not history.exists()
    measured = middle("--measured", f"{before / 2} m3/h", "--as", "cabin-1")
    assert measured < 0.85 * before
    assert middle() == measured
    assert middle("--forget", "cabin-1") == pytest.approx(before)
    assert json.loads(history.read_text())["tests"] == []


def test_the_same_test_cannot_be_kept_twice(run, cabin, tmp_path) -> None:
    """A second test under the same name is unusable input, and the history stays as it was."""
    words = ("forecast", cabin, "--history", tmp_path / "tests.json", "--measured", "90 cfm50")
    assert run(*words).exit_code in {0, 1}
    kept = (tmp_path / "tests.json").read_text()
    again = run(*words)
    assert again.exit_code == 2
    assert "already" in again.stderr
    assert (tmp_path / "tests.json").read_text() == kept


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--measured", "90 cfm50"), "--history"),
        (("--target", "IECC 1812"), "no limit is known"),
        (("--target", "3 apples"), "no unit of a limit"),
        (("--target", "0 ACH50"), "not above zero"),
    ],
)
def test_bad_words_are_told_in_a_sentence(run, cabin, words, told: str) -> None:
    """What cannot be used ends with status 2 and a way out."""
    result = run("forecast", cabin, *words)
    assert result.exit_code == 2
    assert told in result.stderr
    assert "Traceback" not in result.stderr


@pytest.mark.parametrize(
    ("text", "measure", "limit"),
    [
        ("1.5 ACH50", "ach50", 1.5),
        ("0.6 n50", "ach50", 0.6),
        ("2.5 m3/(h m2)", "q50", 2.5),
        ("2.5 m³/(h·m²) at 50 Pa", "q50", 2.5),
        ("0.25 cfm50/ft2", "q50", 4.572),
        ("900 cfm50", "flow_50", 0.42475),
        ("1200 m3/h @ 50 Pa", "flow_50", 1 / 3),
        ("300 L/s", "flow_50", 0.3),
        ("IECC 2024", "ach50", 3.0),
    ],
)
def test_targets_are_read_in_the_units_people_write(text: str, measure: str, limit: float) -> None:
    """A limit with its unit, or an edition in the plan's zone."""
    target = parse_target(text, "5B")
    assert target.measure == measure
    assert target.limit == pytest.approx(limit, rel=1e-4)


@pytest.mark.parametrize("text", ["", "fast", "90", "0 cfm50", "-3 cfm", "3 ACH50"])
def test_a_flow_needs_a_number_and_a_unit(text: str) -> None:
    """Words that are no flow are refused."""
    with pytest.raises(InputError, match="no flow at 50 Pa"):
        parse_flow(text)


def test_a_plan_without_zone_has_no_target() -> None:
    """Nothing is assumed about the code where the plan does not say."""
    assert plan_target(None, None)[0] is None
    assert "add --target" in plan_target("5B", None)[1]
    assert "add --target" in plan_target("5B", "local code 7")[1]
    assert plan_target("5B", "IECC 2021")[0].limit == 3.0


def test_own_figures_and_weather_are_used(cabin, run, tmp_path) -> None:
    """The edition of a file of one's own stands beside its limit; hours of weather give heat."""
    own = tmp_path / "own.yaml"
    own.write_text(
        "targets:\n  - {edition: County 2026, limit: 2.0, source: ordinance 12}\n",
        encoding="utf-8",
    )
    weather = resources.files("seamwright") / "data" / "examples" / "heron_house_forecast.csv"
    done = run("forecast", cabin, "--figures", own, "--target", "County 2026", "--weather", weather)
    assert done.exit_code in {0, 1}, done.output
    assert "2.00 ACH50 (County 2026, ordinance 12)" in done.output
    assert "heron_house_forecast.csv" in done.output
    assert "kWh" in done.output


def test_crews_of_the_records_work_each_in_its_own_way(cabin, run, tmp_path) -> None:
    """Who made which joints comes from the records: a careless crew at the sills raises the middle,
    its name is said, and the test kept weighs each crew by its part.
    """
    records, history = tmp_path / "records.yaml", tmp_path / "tests.json"
    records.write_text(
        "crews:\n  - {name: north, work: careless, made: [sill, wall spline]}\n"
        "  - {name: south}\nseals:\n  - {at: [ridge, eave], crew: south}\n",
        encoding="utf-8",
    )
    plain = json.loads(run("forecast", cabin, "--json").stdout)
    words = ("forecast", cabin, "--records", records, "--history", history)
    mixed = json.loads(run(*words, "--json").stdout)
    assert mixed["id"] == "forecast-by-crew"
    assert mixed["crews"] == [{"id": "north", "workmanship": "careless"}]
    assert mixed["flow_50_m3_h"]["p50"] > 1.1 * plain["flow_50_m3_h"]["p50"]
    assert {"crew", "crew:north", "crew:south"} <= {d["id"] for d in mixed["drivers"]}
    printed = run(*words, "--measured", "300 m3/h", "--as", "first")
    assert "ordinary work (careless by crew north)" in printed.stdout
    weights = json.loads(history.read_text())["tests"][0]["anchor"]["weights"]
    assert weights["crew"] > 0.0
    assert weights["crew:north"] > 0.0
    assert weights["crew:south"] > 0.0


def test_the_records_say_how_the_work_is_done(cabin, run, tmp_path) -> None:
    """The records' workmanship stands in where the command line gives none."""
    records = tmp_path / "records.yaml"
    records.write_text("workmanship: careless\n", encoding="utf-8")
    told = [json.loads(run("forecast", cabin, "--records", records, "--json", *more).stdout)
            for more in ((), ("--workmanship", "careful"))]  # fmt: skip
    assert [t["workmanship"] for t in told] == ["careless", "careful"]


def test_a_year_is_counted_where_the_plan_says_where_it_stands(run, cabin) -> None:
    """A house with a place has its year by both models, and says that the weather was generated;
    without a place the note says what is missing, and nothing fails.
    """
    placed = run("forecast", "heron_house")
    assert "over 8,760 hours" in placed.stdout
    assert "GENERATED" in placed.stdout
    year = json.loads(run("forecast", "heron_house", "--json").stdout)["year"]
    for model in ("basic", "enhanced"):
        assert year[model]["hours_h"] == 8760
        assert 0.0 < year[model]["mean_flow_m3_h"] < year[model]["greatest_flow_m3_h"]
        assert year[model]["heat_j"] > 0.0
    assert "No year of infiltration: the plan does not say where" in run("forecast", cabin).stdout
    assert json.loads(run("forecast", cabin, "--json").stdout)["year"] is None


def test_a_weather_file_that_cannot_be_used_ends_with_two(run, cabin, tmp_path) -> None:
    """A named file is not silently passed over."""
    wrong = tmp_path / "year.epw"
    wrong.write_text("no weather\nat all\n", encoding="utf-8")
    done = run("forecast", cabin, "--weather", wrong)
    assert done.exit_code == 2
    assert "year.epw" in done.stderr
