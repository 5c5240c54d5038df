"""``seamwright hunt`` and the story of Heron House that the docs tell."""

from __future__ import annotations

import json
import re
from importlib import resources
from pathlib import Path

import pytest

EXAMPLE = resources.files("seamwright") / "data" / "examples" / "heron_house_records.yaml"
PAGE = Path(__file__).parents[2] / "docs" / "hunt.md"
STEPS = {"forecast": 0, "first test": 1, "three looks": 4, "mended": 6, "second test": 7}
"""How many entries of the diary each step of the story has."""


def up_to(entries: int, folder: Path) -> Path:
    """Return the path of the example with its diary cut after so many entries."""
    head, log = EXAMPLE.read_text(encoding="utf-8").split("log:")
    first, *lines = log.splitlines()
    kept = [line for line in lines if line.strip().startswith("- {")][:entries]
    path = folder / f"records_{entries}.yaml"
    body = "\n".join(kept)
    path.write_text(f"{head}log:{first}\n{body}\n" if kept else head, encoding="utf-8")
    return path


@pytest.fixture(scope="module")
def story(tmp_path_factory) -> dict[str, dict]:
    """Return the answer of the command at each step of the story."""
    from typer.testing import CliRunner  # noqa: PLC0415 only this fixture runs commands by itself

    from seamwright.cli.main import app  # noqa: PLC0415 see above

    folder = tmp_path_factory.mktemp("story")
    told = {}
    for step, entries in STEPS.items():
        path = up_to(entries, folder)
        done = CliRunner().invoke(app, ["hunt", "heron_house", "--records", str(path), "--json"])
        assert done.exit_code in {0, 1}, done.output
        told[step] = json.loads(done.stdout)
    return told


def test_the_story_runs_as_it_should(story) -> None:
    """A test narrows the house; finds raise their places, nothing found lowers its own; mends lower
    the house; the second test agrees and narrows it again.
    """
    place = {s: {p["id"]: p for p in told["places"]} for s, told in story.items()}
    total = {s: told["total"]["leak_m3_h"] for s, told in story.items()}
    width = {
        s: t["total"]["leak_high_m3_h"] - t["total"]["leak_low_m3_h"] for s, t in story.items()
    }
    assert width["first test"] < width["forecast"] / 5
    for find in ("D.3-P1", "R1.6-R3.2"):
        assert place["three looks"][find]["leak_m3_h"] > place["first test"][find]["leak_m3_h"]
        assert place["mended"][find]["leak_m3_h"] < place["three looks"][find]["leak_m3_h"] / 2
    nothing = "R1.3-R2.7"
    assert place["three looks"][nothing]["defect"] < place["first test"][nothing]["defect"]
    assert total["mended"] < total["three looks"]
    assert width["second test"] < width["mended"]


def test_the_last_word_is_that_it_is_good_enough(story) -> None:
    """The hunt says to go on after the first test, and that it is good enough after the second."""
    words = [told["advice"]["word"] for told in story.values()]
    assert words[:2] == ["go_on", "go_on"]
    assert words[-1] == "good_enough"


def test_the_page_tells_what_the_command_says(story) -> None:
    """Each row of the story's table on the docs page is what the command answers, to 3 %."""
    page = PAGE.read_text(encoding="utf-8")
    for step, told in story.items():
        row = re.search(rf"^\| {step} \|(.*)\|$", page, re.MULTILINE)
        assert row is not None, step
        cells = [cell.strip() for cell in row[1].split("|")]
        places = {place["id"]: place["leak_m3_h"] for place in told["places"]}
        total = told["total"]
        answer = [
            *(total[k] for k in ("leak_m3_h", "leak_low_m3_h", "leak_high_m3_h")),
            told["crews"][0]["factor"],
            *(places[i] for i in ("D.3-P1", "R1.6-R3.2", "R1.3-R2.7")),
        ]
        assert [float(cell) for cell in cells] == pytest.approx(answer, rel=0.03, abs=0.06), step


def test_it_says_where_to_look_next(cabin, run) -> None:
    """Without records the forecast alone ranks the places and says so; status 1 asks for a look."""
    done = run("hunt", cabin, "--top", 3)
    assert done.exit_code == 1
    assert "this is the forecast alone" in done.output
    assert "Look next: " in done.output
    assert "Smoke. " in done.output
    assert len(re.findall(r"^ *[123]  ", done.output, re.MULTILINE)) == 3


def test_json_names_every_place_once_and_the_units(cabin, run) -> None:
    """The document holds the order, every place and the leak elsewhere, in m³/h."""
    told = json.loads(run("hunt", cabin, "--json", "--top", 4).stdout)
    ids = [place["id"] for place in told["places"]]
    assert len(ids) == len(set(ids))
    assert ids[-1] == "elsewhere"
    assert len(told["next"]) == 4
    assert set(told["while_there"]) <= set(ids) - {told["next"][0]["id"]}
    leak = sum(place["leak_m3_h"] for place in told["places"])
    assert leak == pytest.approx(told["total"]["leak_m3_h"], rel=0.02)


def test_wrong_records_are_told_in_sentences(cabin, run, tmp_path) -> None:
    """An unknown place ends with status 2, its line and a remedy."""
    path = tmp_path / "r.yaml"
    path.write_text("log:\n  - {look: Q.9, saw: 1}\n", encoding="utf-8")
    done = run("hunt", cabin, "--records", path)
    assert done.exit_code == 2
    assert "r.yaml:2: " in done.stderr
    assert "no place ‘Q.9’" in done.stderr


def test_a_sheet_for_the_site_is_written(cabin, run, tmp_path) -> None:
    """With --out the sheet, the charts and the data lie in the folder."""
    out = tmp_path / "hunt"
    assert run("hunt", cabin, "--aim", "defects", "--out", out).exit_code == 1
    assert {p.name for p in out.iterdir()} == {
        "hunt.pdf", "hunt.json", "hunt-house.svg", "hunt-order.svg", "hunt-places.svg",
    }  # fmt: skip
    assert (out / "hunt.pdf").read_bytes().startswith(b"%PDF")


def test_the_hunt_starts_from_the_history(cabin, run, tmp_path) -> None:
    """A tight house of the same crew in the history lowers every expected leak before any test;
    taken out of the history, the hunt starts where it started without.
    """
    history = tmp_path / "tests.json"

    def start(*words: object) -> dict:
        return json.loads(run("hunt", cabin, "--crew", "north", "--json", *words).stdout)

    plain = start()
    keep = ("forecast", cabin, "--crew", "north", "--history", history)
    half = plain["total"]["leak_m3_h"] / 2
    assert run(*keep, "--measured", f"{half} m3/h", "--as", "shed").exit_code in {0, 1}
    learned = start("--history", history)
    assert learned["total"]["leak_m3_h"] < 0.85 * plain["total"]["leak_m3_h"]
    assert all(
        now["leak_m3_h"] < before["leak_m3_h"]
        for now, before in zip(learned["places"], plain["places"], strict=True)
    )
    assert learned["notes"] == ["Started from 1 test of a finished house (tests.json)."]
    assert run(*keep, "--forget", "shed").exit_code in {0, 1}
    again = start("--history", history)
    assert [p["leak_m3_h"] for p in again["places"]] == [p["leak_m3_h"] for p in plain["places"]]


def test_a_house_does_not_learn_from_its_own_test_twice(cabin, run, tmp_path) -> None:
    """Where the records tell of a test, the history's test of the same house is left out."""
    history, records = tmp_path / "tests.json", tmp_path / "r.yaml"
    records.write_text("log:\n  - {test: T1, flow: 100 m3/h}\n", encoding="utf-8")
    run("forecast", cabin, "--history", history, "--measured", "100 m3/h")
    words = ("hunt", cabin, "--records", records, "--json")
    told = json.loads(run(*words, "--history", history).stdout)
    assert any("left out" in note for note in told["notes"])
    assert told["total"] == json.loads(run(*words).stdout)["total"]


def test_crews_of_the_records_have_factors_of_their_own(cabin, run, tmp_path) -> None:
    """Crews named with what they made have a factor each, and stand in the places' records."""
    records = tmp_path / "r.yaml"
    records.write_text(
        "crews:\n  - {name: north, work: careless, made: [sill, eave]}\n  - {name: south}\n"
        "seals:\n  - {at: ridge, crew: south}\n",
        encoding="utf-8",
    )
    told = json.loads(run("hunt", cabin, "--records", records, "--json").stdout)
    assert [crew["crew"] for crew in told["crews"]] == ["", "north", "south"]
    made = {p["kind"]: p["records"]["crew"] for p in told["places"] if p["sort"] == "joint"}
    assert (made["sill"], made["eave"], made["ridge"]) == ("north", "north", "south")


def test_the_order_by_consequence_takes_moisture_results(cabin, run, tmp_path) -> None:
    """Without a file the fixed weights are named; with one, each joint's tolerance decides: a sill
    that tolerates nothing comes before a ridge that tolerates a gale.
    """
    fixed = run("hunt", cabin, "--aim", "consequence")
    assert "fixed weights of kinds (1 to 5: common practice, no source)" in fixed.output
    places = json.loads(run("hunt", cabin, "--json").stdout)["places"]
    joints = [p for p in places if p["sort"] == "joint"]
    leaks = {p["id"]: 0.0 if p["kind"] == "sill" else 500.0 for p in joints}
    dryness = tmp_path / "dryness.json"
    entries = [{"id": at, "tolerable_leak_m3_h_m": leak} for at, leak in leaks.items()]
    entries.append({"id": "gone", "tolerable_leak_m3_h_m": 1.0})
    dryness.write_text(json.dumps({"joints": entries}), encoding="utf-8")
    done = run("hunt", cabin, "--aim", "consequence", "--dryness", dryness, "--json", "--top", 400)
    told = json.loads(done.stdout)
    order = [choice["id"] for choice in told["next"]]
    kind = {p["id"]: p["kind"] for p in places}
    last_sill = max(k for k, i in enumerate(order) if kind[i] == "sill")
    assert last_sill < min(k for k, i in enumerate(order) if kind[i] == "ridge")
    sill = next(p for p in told["places"] if p["kind"] == "sill")
    assert sill["beyond_m3_h"] == pytest.approx(sill["leak_m3_h"])
    assert any("1 joint of dryness.json is not in this house" in n for n in told["notes"])
    printed = run("hunt", cabin, "--aim", "consequence", "--dryness", dryness)
    assert "Too much" in printed.output


def test_unusable_moisture_results_end_with_two(cabin, run, tmp_path) -> None:
    """A file that tells no margins is refused with its name and a remedy."""
    dryness = tmp_path / "dryness.json"
    dryness.write_text("{}", encoding="utf-8")
    done = run("hunt", cabin, "--dryness", dryness)
    assert done.exit_code == 2
    assert "no list of joints" in done.stderr
    assert "Traceback" not in done.stderr
