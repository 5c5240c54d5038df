"""The fan command, from file to verdict, files and exit status."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from pypdf import PdfReader
from typer.testing import Result

import seamwright

EXAMPLE = Path(seamwright.__file__).parent / "data" / "examples" / "heron_house_fan_test.csv"
Run = Callable[..., Result]


def test_figures_without_a_target_leave_zero(run: Run) -> None:
    """A sound test without a target tells its figures and is done."""
    result = run("fan", str(EXAMPLE))
    assert result.exit_code == 0
    assert "No target given: figures only." in result.output
    assert "1.88 1/h" in result.output
    assert "Combustion." in result.output


@pytest.mark.parametrize(
    ("target", "status", "word"),
    [("3 ACH50", 0, "PASSES"), ("1.9 ACH50", 1, "CANNOT TELL"), ("0.6 ACH50", 1, "FAILS")],
)
def test_the_verdict_is_the_exit_status(run: Run, target: str, status: int, word: str) -> None:
    """Passes leaves 0; fails and cannot tell leave 1."""
    result = run("fan", str(EXAMPLE), "--target", target)
    assert result.exit_code == status
    assert word in result.output


def test_an_edition_and_zone_name_the_target(run: Run) -> None:
    """The limit of an edition comes with its source."""
    result = run("fan", str(EXAMPLE), "--zone", "4C", "--edition", "IECC 2021")
    assert result.exit_code == 0
    assert "against 3.00 (IECC 2021" in result.output


def test_the_plan_gives_volume_area_and_zone(run: Run) -> None:
    """With --plan the shell's own volume is used, by the stated rule."""
    result = run("fan", str(EXAMPLE), "--plan", "heron_house", "--edition", "IECC 2021", "--json")
    assert result.exit_code == 0
    data = json.loads(result.output)
    assert data["house"]["volume_m3"] == pytest.approx(504.5, abs=0.5)
    assert data["house"]["rule"].startswith("Volume and area within the inner faces")
    assert data["outcome"] == "passes"
    assert data["ach50"]["low_per_h"] < data["ach50"]["value_per_h"] < data["ach50"]["high_per_h"]


def test_the_plan_names_the_target_where_nothing_else_does(run: Run) -> None:
    """Without --target and --edition the plan's own edition and zone are held against."""
    result = run("fan", str(EXAMPLE), "--plan", "heron_house")
    assert result.exit_code == 0
    assert "PASSES" in result.output
    assert "against 3.00 (IECC 2021" in result.output


def test_an_own_volume_outranks_the_plan(run: Run) -> None:
    """--volume replaces the plan's, and its rule is told."""
    result = run(
        "fan", str(EXAMPLE), "--plan", "heron_house", "--volume", "480 m3",
        "--rule", "clear rooms", "--json",
    )  # fmt: skip
    data = json.loads(result.output)
    assert data["house"]["volume_m3"] == 480.0
    assert data["house"]["rule"].startswith("Volume given on the command line: clear rooms.")


def test_a_volume_far_from_the_plan_is_told(run: Run, tmp_path: Path) -> None:
    """A file whose volume is not that of the plan's shell says so."""
    path = tmp_path / "test.csv"
    path.write_text(EXAMPLE.read_text().replace("17817", "12000"), encoding="utf-8")
    result = run("fan", str(path), "--plan", "heron_house")
    assert "The file says 339.8 m³" in result.output


def test_the_test_sheet_chart_and_data_are_written(run: Run, tmp_path: Path) -> None:
    """--out writes a PDF with verdict, cautions and rules, the chart and the data."""
    out = tmp_path / "out"
    result = run(
        "fan", str(EXAMPLE), "--target", "3 ACH50", "--out", str(out), "--date", "2026-04-18"
    )
    assert result.exit_code == 0
    assert sorted(p.name for p in out.iterdir()) == [
        "fan-chart.svg", "fan-test.json", "fan-test.pdf",
    ]  # fmt: skip
    text = " ".join(
        " ".join(p.extract_text() for p in PdfReader(out / "fan-test.pdf").pages).split()
    )
    for part in (
        "PASSES",
        "Combustion.",
        "asbestos",
        "Fog.",
        "exponent n",
        "what was used",
        "Tester",
    ):
        assert part.casefold() in text.casefold()
    assert json.loads((out / "fan-test.json").read_text())["method"] == "iso_9972"


def test_the_same_test_gives_the_same_files(run: Run, tmp_path: Path) -> None:
    """Two runs on one date write the same bytes."""
    for name in ("a", "b"):
        run("fan", str(EXAMPLE), "--out", str(tmp_path / name), "--date", "2026-04-18")
    for file in ("fan-test.pdf", "fan-chart.svg", "fan-test.json"):
        assert (tmp_path / "a" / file).read_bytes() == (tmp_path / "b" / file).read_bytes()


def test_a_broken_rule_leaves_one(run: Run, tmp_path: Path) -> None:
    """A test that breaks a rule of its standard needs attention even without a target."""
    path = tmp_path / "test.csv"
    path.write_text(EXAMPLE.read_text().replace("baseline before, -1.4", "baseline before, -6"))
    result = run("fan", str(path))
    assert result.exit_code == 1
    assert "LOOK  depressurization: baseline before: 6.0 Pa, limit 5 Pa" in result.output


def test_bad_rows_leave_two_with_file_and_line(run: Run, tmp_path: Path) -> None:
    """Every bad row is told with its file and line, and nothing else is printed."""
    path = tmp_path / "test.csv"
    text = EXAMPLE.read_text().replace("-18.3, 278", "-18.3, x").replace("8.9, 190", "8.9, -1")
    path.write_text(text, encoding="utf-8")
    result = run("fan", str(path))
    assert result.exit_code == 2
    assert result.stdout == ""
    assert f"{path}:25: flow ‘x’ is not a number" in result.stderr
    assert f"{path}:34: flow -1 cfm is not above zero" in result.stderr


@pytest.mark.parametrize(
    ("options", "part"),
    [
        (("--volume", "many"), "'many' is no volume; write it as 17817 ft3 or 504.5 m3"),
        (("--area", "12 ft3"), "'12 ft3' is no area"),
        (("--target", "3 ACH50", "--edition", "IECC 2021"), "both name a limit"),
        (("--edition", "IECC 2021"), "sets its limit by climate zone"),
        (("--standard", "astm-e1827"), "8 pressures were held"),
        (("--plan", "no_house"), "no file or built-in house"),
    ],
)
def test_options_that_cannot_be_used(run: Run, options: tuple[str, ...], part: str) -> None:
    """A wrong option gives a sentence with a remedy and leaves 2."""
    result = run("fan", str(EXAMPLE), *options)
    assert result.exit_code == 2
    assert part in result.stderr


def test_the_built_in_test_has_a_name(run: Run) -> None:
    """The invented test that comes with the package is read by its name, wherever one stands."""
    result = run("fan", "heron_house_fan_test", "--plan", "heron_house")
    assert result.exit_code == 0
    assert "Heron House: fan test by ISO 9972:2015" in result.output


def test_a_file_that_is_not_there(run: Run) -> None:
    """A missing file is named."""
    result = run("fan", "nowhere.csv")
    assert result.exit_code == 2
    assert "there is no file ‘nowhere.csv’" in result.stderr


def test_limits_of_ones_own_stand_with_their_edition(run: Run, tmp_path: Path) -> None:
    """An edition of a file of one's own names the target, and is said beside the limit."""
    own = tmp_path / "own.yaml"
    own.write_text(
        "targets:\n  - {edition: County 2026, limit: 2.0, source: ordinance 12-4}\n",
        encoding="utf-8",
    )
    words = ("fan", "heron_house_fan_test", "--figures", own, "--edition", "County 2026")
    done = run(*words)
    assert done.exit_code == 0, done.output
    assert "County 2026, ordinance 12-4" in done.output


def test_with_a_plan_it_says_what_the_tightness_means(run: Run) -> None:
    """The house as tested has its air by itself on some days and over a year, its heat, and the
    fresh air that it needs by machine; a leak twice as large doubles both.
    """
    done = run("fan", "heron_house_fan_test", "--plan", "heron_house")
    for words in ("over 8,760 hours, the house as tested", "GENERATED", "Heat carried away",
                  "Fresh air by machine", "95 % of the test"):  # fmt: skip
        assert words in done.output
    told = json.loads(run("fan", "heron_house_fan_test", "--plan", "heron_house", "--json").stdout)
    assert told["year"]["basic"]["hours_h"] == 8760
    assert told["fresh_air"][2]["flow_m3_h"] > 3.0 * told["year"]["basic"]["mean_flow_m3_h"]
    assert "Fresh air by machine" not in run("fan", "heron_house_fan_test").output
