"""``seamwright dryness``: what it says, how it ends, and what it keeps."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from tests.dry_house import CABIN, made_up_runs
from typer.testing import CliRunner, Result

from seamwright.cli import dryness
from seamwright.cli.dryness_options import Said, covered
from seamwright.cli.dryness_sheets import SHEETS_FILE
from seamwright.cli.main import app
from seamwright.io.plan import read_plan
from seamwright.report import joint_dryness
from seamwright.report.dry_joints import dry_joints
from seamwright.report.dryness_types import Asked, HouseDryness
from seamwright.report.house import SealedHouse
from seamwright.seals.catalog import default_catalog
from seamwright.workflow import seal_house

EXAMPLE = Path(__file__).parents[2] / "examples" / "own_materials.yaml"


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


def test_a_packet_prints_what_was_asked_with_options(ask, plan: Path, tmp_path: Path) -> None:
    """`dryness --out` writes sheets that `report --dryness` prints; in other units it refuses."""
    dry, out = tmp_path / "dry", tmp_path / "out"
    assert ask("--face", "inner", "--wall-cover", "closed", "--out", dry).exit_code in {0, 1}
    words = ["report", str(plan), "--out", str(out), "--dryness", str(dry / SHEETS_FILE)]
    done = CliRunner().invoke(app, words)
    assert done.exit_code in {0, 1}, done.output
    assert (out / "dryness.json").read_bytes() == (dry / "dryness.json").read_bytes()
    refused = CliRunner().invoke(app, [*words, "--units", "metric"])
    assert refused.exit_code == 2
    assert "in other units" in refused.output


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


def test_what_nobody_stated_is_what_the_packet_asks() -> None:
    """Asked without options the command asks what the packet does: one kept answer serves both."""
    assert covered(Asked(), Said()) == Asked()


def test_the_users_own_materials_are_used_and_named(ask) -> None:
    """The example file is taken: its board in the roof, its core, its strip and its membrane."""
    said = ask("--materials", EXAMPLE, "--face", "inner").stdout
    assert "Skins of roof10: roof skin, 5/8 in." in said
    assert "Cores: dense-core." in said
    assert "Strips resist vapor like 11.7 m of still air inside" in said
    assert "straight on the skin, vapor by roof-membrane (0.15 m of still air" in said


def test_own_materials_change_what_is_run() -> None:
    """A ridge has the board of the file in its roof skins, and it still counts as wood."""
    plan = read_plan(CABIN).plan
    house = seal_house(plan, default_catalog())
    asked = covered(Asked(kinds=("ridge",)), Said(materials=EXAMPLE))
    (plain,), (own,) = (dry_joints(house, a) for a in (Asked(kinds=("ridge",)), asked))
    assert {m.id for m in own.cut.materials} - {m.id for m in plain.cut.materials} == {
        "roof-board",
        "dense-core",
    }
    board = next(k for k, m in enumerate(own.cut.materials) if m.id == "roof-board")
    assert own.cut.rots[board]
    assert len(own.cut.materials) == len(own.cut.rots)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("materials:\n  - {id: b, like: osb, use: [roofs]}\n", ":2"),
        ("materials:\n  - {id: b, like: osb, use: [skins of barn]}\n", "panel types are"),
        ("materials:\n  - {id: b, like: osb}\n", "says of nothing in it where it is used"),
        ("films:\n  - {id: a, sd: 1 m, use: [lining]}\n  - {id: b, sd: 1 m, use: [lining]}\n",
         "‘a’ is said to be there too"),
    ],
)  # fmt: skip
def test_a_materials_file_that_cannot_be_used_is_told(ask, tmp_path, text: str, told: str) -> None:
    """What is wrong is named with its line or what to do, and nothing is run."""
    path = tmp_path / "own.yaml"
    path.write_text(text, encoding="utf-8")
    done = ask("--materials", path)
    assert done.exit_code == 2
    assert told in done.stderr
    assert "Traceback" not in done.output


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--wall-cover", "closed"), "board cladding straight on the membrane (1.2 m"),
        (("--wall-cover", "2 perms"), "as stated (1.75 m of still air"),
        (("--roof-cover", "vented"), "roofing on battens"),
        (("--roof-cover", "0.3 m"), "as stated (0.3 m of still air"),
        (("--lining", "bare"), "Walls and ceilings inside: bare panels."),
        (("--wall-sun", 0.3), "takes up 30% of the sun"),
        (("--rain-share", 1), "1.0% of the rain that reaches walls gets behind their covers."),
        (("--roof-rain-share", 0.5), "0.5% of the rain that reaches roofs gets behind"),
        (("--facing", "real"), "ridge, 127°, facing"),
        (("--workmanship", "careless"), "under careless work"),
    ],
)
def test_what_is_stated_is_said(ask, words: tuple[object, ...], told: str) -> None:
    """Each cover, color, share of rain and way to face stands among what the answer rests on."""
    done = ask("--face", "inner", *words)
    assert done.exit_code in {0, 1}, done.output
    assert told in done.stdout


@pytest.mark.parametrize("word", ["tin", "-2 perms", "0.3", "perms", "3 feet"])
def test_a_cover_that_is_none_is_refused(ask, word: str) -> None:
    """The option is named with what it takes."""
    done = ask("--wall-cover", word)
    assert done.exit_code == 2
    assert "--wall-cover" in done.stderr
    assert "vented, closed, 5 perms, 0.7 m" in done.stderr


def test_a_colder_winter_is_another_climate(ask) -> None:
    """The cold winter is worked out anew and named in the origin of the weather."""
    plain, cold = ask().stdout, ask("--cold-winter").stdout
    assert plain != cold
