"""The charts of a joint's dryness."""

from __future__ import annotations

import json
import math
import re
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest
from tests.dry_house import CABIN, made_up_runs
from typer.testing import CliRunner

from seamwright.cli.main import app
from seamwright.draw.dryness_chart import ON_A_SHEET
from seamwright.draw.ink import RED
from seamwright.report import joint_dryness


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a folder with the charts of the cabin's ridge, with made-up runs."""
    monkeypatch.setattr(joint_dryness, "run_cases", made_up_runs)
    plan = tmp_path / "cabin.yaml"
    plan.write_text(CABIN, encoding="utf-8")
    words = ["dryness", str(plan), "--joint", "ridge", "--years", "1", "--cache",
             str(tmp_path / "kept"), "--out", str(tmp_path / "out")]  # fmt: skip
    done = CliRunner().invoke(app, words)
    assert done.exit_code in {0, 1}, done.output
    return tmp_path / "out"


def test_there_is_a_chart_for_each_joint_and_height(folder: Path) -> None:
    """Charts are named by joint type and height, as many as the document has heights."""
    told = json.loads((folder / "dryness.json").read_text(encoding="utf-8"))
    names = {
        f"dryness-{kind['type'].lower()}-{height['height']}.svg"
        for kind in told["types"]
        for height in kind["heights"]
    }
    assert names == {path.name for path in folder.glob("*.svg")}


def test_a_chart_is_sound_and_says_what_it_shows(folder: Path) -> None:
    """It is well-formed, names the joint, GENERATED, each face, months, units and the limit."""
    (path,) = folder.glob("*.svg")
    svg = path.read_text(encoding="utf-8")
    words = " ".join(
        "".join(text.itertext()) for text in ET.fromstring(svg).iter() if text.tag.endswith("text")
    )
    for word in ("ridge", "GENERATED", "strip inside", "strip outside", "strip on both faces",
                 "Oct", "Jul", "moisture [% of dry mass]", "[cfm/ft]", "limit 20%"):  # fmt: skip
        assert word in words, word
    assert svg.count(RED) > 1


def test_no_curve_leaves_its_axes(folder: Path) -> None:
    """Every point of a curve lies on the page, wetter wood being drawn at 60 %."""
    (path,) = folder.glob("*.svg")
    root = ET.fromstring(path.read_text(encoding="utf-8"))
    _, _, wide, tall = (float(v) for v in root.attrib["viewBox"].split())
    lines = [e.attrib["d"] for e in root.iter() if e.tag.endswith("path")]
    points = [
        (float(x), float(y))
        for line in lines
        for x, y in re.findall(r"[ML]([-\d.]+) ([-\d.]+)", line)
    ]
    assert len(points) > 100
    assert all(0.0 <= x <= wide and 0.0 <= y <= tall for x, y in points)


def test_the_packet_gets_three_joints_to_a_sheet(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Every joint type and height stands on one sheet, three to a sheet, with one key; the words
    under a sheet say GENERATED.
    """
    monkeypatch.setattr(joint_dryness, "run_cases", made_up_runs)
    plan = tmp_path / "cabin.yaml"
    plan.write_text(CABIN, encoding="utf-8")
    kinds = [w for k in ("ridge", "wall spline", "eave", "rake") for w in ("--joint", k)]
    words = ["dryness", str(plan), *kinds, "--years", "1", "--cache", str(tmp_path / "kept")]
    done = CliRunner().invoke(app, [*words, "--json"])
    heights = [h for kind in json.loads(done.stdout)["types"] for h in kind["heights"]]
    (kept,) = (tmp_path / "kept").glob("*.json")
    answer = json.loads(kept.read_text(encoding="utf-8"))
    assert len(answer["sheets"]) == math.ceil(len(heights) / ON_A_SHEET) > 1
    drawn = "".join(answer["sheets"].values())
    assert drawn.count("Wettest 30 days over leakage") == len(heights)
    assert drawn.count(">strip inside<") == len(answer["sheets"])
    figures = [block for block in answer["sheet"] if block["is"] == "Figure"]
    assert [figure["name"] for figure in figures] == list(answer["sheets"])
    assert all("GENERATED" in figure["caption"] for figure in figures)
