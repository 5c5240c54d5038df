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
