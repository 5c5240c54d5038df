"""The dryness of joints as JSON, and as the leak hunt reads it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from tests.dry_house import CABIN, made_up_runs
from typer.testing import CliRunner

from seamwright.cli.main import app
from seamwright.errors import FormatError
from seamwright.io.json_text import to_text
from seamwright.io.moisture_margins import read_margins
from seamwright.report import joint_dryness


@pytest.fixture
def told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> dict:
    """Return the document of the cabin's ridge and eaves, with made-up runs."""
    monkeypatch.setattr(joint_dryness, "run_cases", made_up_runs)
    plan = tmp_path / "cabin.yaml"
    plan.write_text(CABIN, encoding="utf-8")
    words = ["dryness", str(plan), "--joint", "ridge", "--joint", "eave", "--years", "1", "--json",
             "--cache", str(tmp_path / "kept")]  # fmt: skip
    done = CliRunner().invoke(app, words)
    assert done.exit_code in {0, 1}, done.output
    return json.loads(done.stdout)


def test_the_leak_hunt_reads_it(told: dict, tmp_path: Path) -> None:
    """Each joint of each type is in the margins, with the best of its faces at its worst height."""
    path = tmp_path / "dryness.json"
    path.write_text(to_text(told), encoding="utf-8")
    margins = read_margins(path)
    for kind in told["types"]:
        best = min(
            max(o["tolerable_leak_m3_h_m"] or 0.0 for o in height["options"])
            for height in kind["heights"]
        )
        for joint_id in kind["joints"]:
            assert margins[joint_id].tolerates * 3600.0 == pytest.approx(best)
            assert margins[joint_id].margin is not None
    assert len(margins) == sum(len(kind["joints"]) for kind in told["types"]) > 2


def test_hunt_takes_the_file(told: dict, tmp_path: Path) -> None:
    """`hunt --dryness` counts what the document says joints tolerate."""
    path = tmp_path / "dryness.json"
    path.write_text(to_text(told), encoding="utf-8")
    words = ["hunt", str(tmp_path / "cabin.yaml"), "--json"]
    alone = CliRunner().invoke(app, words)
    beside = CliRunner().invoke(app, [*words, "--dryness", str(path)])
    assert beside.exit_code == alone.exit_code, beside.output
    assert json.loads(beside.stdout) != json.loads(alone.stdout)


def test_a_joint_nobody_could_judge_is_left_out(told: dict) -> None:
    """Null is no margin; the rest stays. A joint told twice is an error."""
    first, *rest = told["joints"]
    margins = read_margins(to_text({"joints": [{**first, "tolerable_leak_m3_h_m": None}, *rest]}))
    assert first["id"] not in margins
    assert len(margins) == len(rest)
    with pytest.raises(FormatError, match="once more"):
        read_margins(to_text({"joints": [first, first]}))


def test_it_carries_what_it_rests_on(told: dict) -> None:
    """Weather with GENERATED, rooms, assumptions, limits of the model, and every run's balance."""
    assert told["weather"].startswith("GENERATED")
    assert told["generated"]
    assert "EN 15026" in told["rooms"]
    assert told["assumed"]
    assert told["limits_of_the_model"]
    runs = [r for kind in told["types"] for height in kind["heights"] for r in height["runs"]]
    assert told["runs"] == len(runs)
    assert all({"water_error", "heat_error", "converged", "wettest"} <= set(run) for run in runs)
