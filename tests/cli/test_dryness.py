"""``seamwright dryness``: what it says, how it ends, and what it keeps."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from tests.dry_house import CABIN, made_up_runs
from typer.testing import CliRunner, Result

from seamwright.cli import dryness
from seamwright.cli.main import app
from seamwright.report import joint_dryness
from seamwright.report.dryness_types import HouseDryness
from seamwright.report.house import SealedHouse


@pytest.fixture
def plan(tmp_path: Path) -> Path:
    """Return the path of a cabin that says where it stands."""
    path = tmp_path / "cabin.yaml"
    path.write_text(CABIN, encoding="utf-8")
    return path


@pytest.fixture
def ask(plan: Path, monkeypatch: pytest.MonkeyPatch) -> Callable[..., Result]:
    """Return a function that asks about the cabin's ridge, with made-up runs."""
    monkeypatch.setattr(joint_dryness, "run_cases", made_up_runs)

    def invoke(*words: object, joint: str = "ridge") -> Result:
        fixed = ["dryness", plan, "--joint", joint, "--years", 1, "--cache", plan.parent / "kept"]
        return CliRunner().invoke(app, [str(word) for word in [*fixed, *words]])

    return invoke


def _counted(monkeypatch: pytest.MonkeyPatch) -> list[object]:
    """Return a list that grows by each house that is worked out; all get the first one's answer."""
    seen: list[object] = []
    found: list[HouseDryness] = []
    real = dryness.house_dryness

    def counted(house: SealedHouse, *rest: object, **more: object) -> HouseDryness:
        seen.append(house)
        if not found:
            found.append(real(house, *rest, **more))  # type: ignore[arg-type]
        return found[0]

    monkeypatch.setattr(dryness, "house_dryness", counted)
    return seen


def test_a_ridge_is_run_and_judged(plan: Path, tmp_path: Path) -> None:
    """Real runs of one joint on one face: all converge, balances close, and charts are written."""
    words = ["dryness", str(plan), "--joint", "ridge", "--face", "outer", "--years", "1", "--cache",
             str(tmp_path / "kept"), "--out", str(tmp_path / "out"), "--json"]  # fmt: skip
    done = CliRunner().invoke(app, words)
    assert done.exit_code in {0, 1}, done.output
    told = json.loads(done.stdout)
    assert told["generated"]
    (kind,) = told["types"]
    runs = [run for height in kind["heights"] for run in height["runs"]]
    assert {run["face"] for run in runs} == {"outer"}
    assert all(run["converged"] and run["water_error"] < 1e-6 for run in runs)
    by_leak = sorted((run["leak_m3_h_m"], run["wettest"]["moisture_kg_kg"]) for run in runs)
    assert by_leak[0][1] < by_leak[-1][1]
    assert {p.suffix for p in (tmp_path / "out").iterdir()} == {".json", ".svg"}


def test_it_says_that_the_weather_is_made_up(ask) -> None:
    """Without a weather file GENERATED stands above the table, and the designer's proviso."""
    said = ask().stdout
    assert said.index("GENERATED weather") < said.index("Joints: how much may leak")
    assert "designer, who signs" in said
    assert "Weather: GENERATED from monthly figures, seed 1" in said


def test_only_what_was_asked(ask) -> None:
    """One kind and one face give one row; all faces give three."""
    one = json.loads(ask("--face", "inner", "--json").stdout)
    three = json.loads(ask("--json").stdout)
    for told, faces in ((one, ["inner"]), (three, ["inner", "outer", "both"])):
        (kind,) = told["types"]
        assert kind["title"].startswith("ridge")
        assert [o["face"] for o in kind["heights"][0]["options"]] == faces


def test_the_status_tells_whether_a_joint_is_outside(ask) -> None:
    """Status 0 where air is drawn in and nothing gets wet, 1 where it is blown out."""
    dry = ask("--fan-offset", -30)
    wet = ask("--fan-offset", 30)
    assert (dry.exit_code, wet.exit_code) == (0, 1), dry.output + wet.output
    assert "OUTSIDE" in wet.stdout
    assert "OUTSIDE" not in dry.stdout


def test_asked_again_it_answers_from_what_it_kept(ask, monkeypatch) -> None:
    """The second answer runs nothing and is the same, as text, data and status."""
    seen = _counted(monkeypatch)
    first, second = ask(), ask()
    assert len(seen) == 1
    assert (second.stdout, second.exit_code) == (first.stdout, first.exit_code)
    data = json.loads(ask("--json").stdout)
    assert len(seen) == 1
    assert data["types"]


def test_a_changed_plan_is_worked_out_anew(ask, plan, monkeypatch) -> None:
    """A roof made steeper by a hair, another seed or another question is another answer."""
    seen = _counted(monkeypatch)
    ask()
    plan.write_text(CABIN.replace("pitch: 6/12", "pitch: 6.01/12"), encoding="utf-8")
    ask()
    assert len(seen) == 2
    for more in (("--seed", 2), ("--vented-roof",), ("--neutral-level", 0.4), ("--no-dams",),
                 ("--inner-perms", 1), ("--rooms", "ashrae 160")):  # fmt: skip
        before = len(seen)
        ask(*more)
        assert len(seen) == before + 1, more


def test_a_kept_answer_that_was_spoiled_is_passed_over(ask, plan, monkeypatch) -> None:
    """Half a file in the cache is worked out again, not shown and not complained about."""
    first = ask().stdout
    (kept,) = (plan.parent / "kept").glob("*.json")
    kept.write_text(kept.read_text(encoding="utf-8")[:200], encoding="utf-8")
    seen = _counted(monkeypatch)
    assert ask().stdout == first
    assert len(seen) == 1


def test_strips_and_neutral_level_are_said(ask) -> None:
    """What was stated of strips and pressure stands among the assumptions: 1 perm is 3.5 m."""
    said = ask("--inner-perms", 1, "--outer-perms", 10, "--neutral-level", 0.75).stdout
    assert "3.5 m of still air inside and 0.35 m outside" in said
    assert "neutral level stands at 75% of the height" in said


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--joint", "ridg"), "there is no kind of joint called ‘ridg’"),
        (("--rooms", "palace"), "palace"),
        (("--rooms", "fixed", "--room-humidity", 40), "--room-temperature 20"),
        (("--weather", "nowhere.epw"), "nowhere.epw"),
    ],
)
def test_bad_input_is_a_sentence(ask, words: tuple[object, ...], told: str) -> None:
    """What cannot be used is named, with what to do, and no traceback."""
    done = ask(*words)
    assert done.exit_code == 2
    assert told in done.stderr
    assert "Traceback" not in done.output


@pytest.mark.parametrize(
    "words", [("--face", "roof"), ("--years", 0), ("--neutral-level", 1.5), ("--inner-perms", 0)]
)
def test_an_option_out_of_range_is_refused(ask, words: tuple[object, ...]) -> None:
    """The option is named with its range."""
    done = ask(*words)
    assert done.exit_code == 2
    assert str(words[0]) in done.stderr


def test_a_plan_without_a_place_is_asked_where_it_is(plan, ask) -> None:
    """No weather can be made for nowhere: the plan is to say the latitude, or bring a file."""
    nowhere = CABIN.replace(", latitude: 43.6,\n       longitude: -116.2", "")
    assert nowhere != CABIN
    plan.write_text(nowhere, encoding="utf-8")
    done = ask()
    assert done.exit_code == 2
    assert "latitude" in done.stderr
