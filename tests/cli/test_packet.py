"""The packet as a folder of files."""

from __future__ import annotations

import datetime as dt
import json
import pickle
import re

import openpyxl
import pypdf
import pytest
from tests.cli.conftest import CABIN
from typer.testing import CliRunner

from seamwright.cli import demo
from seamwright.cli.main import app
from seamwright.cli.packet import Manner
from seamwright.io.plan import builtin_house_names

FILES = {
    "packet.json",
    "packet.pdf",
    "order.xlsx",
    "joints.json",
    "continuity.json",
    "forecast.json",
    "seals.json",
    "order.json",
    "model.ifc",
    "questions.bcf",
    "drawings",
}


@pytest.fixture(scope="module")
def packet(tmp_path_factory):
    """Return the folder of the packet of the one-room plan."""
    folder = tmp_path_factory.mktemp("packet")
    plan, out = folder / "cabin.yaml", folder / "out" / "cabin"
    plan.write_text(CABIN, encoding="utf-8")
    words = ["report", str(plan), "--out", str(out), "--date", "2026-03-02"]
    result = CliRunner().invoke(app, words)
    assert result.exit_code in {0, 1}, result.output
    assert str(out / "packet.pdf") in result.output
    return out


def test_a_packet_has_every_file(packet) -> None:
    """PDF, drawings, workbook, data, model and questions are there, and nothing half-written."""
    assert {path.name for path in packet.iterdir()} == FILES
    assert {"roof-plan.svg", "plan-1.svg"} <= {p.name for p in (packet / "drawings").iterdir()}


def test_the_pdf_names_every_joint_and_node(packet) -> None:
    """Each id of the register can be searched for in the PDF."""
    document = json.loads((packet / "joints.json").read_text(encoding="utf-8"))
    pages = pypdf.PdfReader(packet / "packet.pdf").pages
    text = re.sub(r"\s+", "", "".join(page.extract_text() for page in pages))
    ids = [item["id"] for item in (*document["joints"], *document["nodes"])]
    assert ids
    assert [name for name in ids if re.sub(r"\s+", "", name) not in text] == []
    assert "UNSIGNED" in text
    assert 10 <= len(pages) <= 80


def test_the_workbook_opens_with_the_order(packet) -> None:
    """The first sheet of the workbook is the order, and the register follows."""
    names = openpyxl.load_workbook(packet / "order.xlsx").sheetnames
    assert names[0] == "Order"
    assert "Nodes" in names


def test_the_same_plan_and_date_give_the_same_pdf(packet, run, cabin, tmp_path) -> None:
    """Run again elsewhere with the same date, the PDF is the same to the byte."""
    again = tmp_path / "again"
    run("report", cabin, "--out", again, "--date", "2026-03-02")
    assert (again / "packet.pdf").read_bytes() == (packet / "packet.pdf").read_bytes()
    assert (again / "joints.json").read_bytes() == (packet / "joints.json").read_bytes()


def test_a_packet_leaves_other_files_alone(packet, run, cabin) -> None:
    """Writing again into the folder keeps what somebody else put there."""
    note = packet / "site-notes.txt"
    note.write_text("mine", encoding="utf-8")
    run("report", cabin, "--out", packet)
    assert note.read_text(encoding="utf-8") == "mine"


def test_without_the_kernel_for_models_the_rest_is_written(
    run, cabin, tmp_path, monkeypatch
) -> None:
    """Where the optional package is missing, the packet comes without model and questions."""
    monkeypatch.setattr("seamwright.cli.packet.find_spec", lambda _: None)
    result = run("report", cabin, "--out", tmp_path / "bare")
    assert result.exit_code in {0, 1}
    left = FILES - {path.name for path in (tmp_path / "bare").iterdir()}
    assert left == {"model.ifc", "questions.bcf"}


def test_a_model_can_be_read_back_as_a_plan(packet, run, tmp_path) -> None:
    """The model of a packet is itself a PLAN, and what was guessed reaches the cover."""
    result = run("report", packet / "model.ifc", "--out", tmp_path / "again")
    assert result.exit_code in {0, 1}, result.output
    pages = pypdf.PdfReader(tmp_path / "again" / "packet.pdf").pages
    text = " ".join(" ".join(page.extract_text().split()) for page in pages[:4])
    assert "Guessed: " in text or "Left out: " in text


def test_a_drawing_of_an_older_print_goes(packet, run, cabin) -> None:
    """A drawing that only the older list names is removed; one that no list names stays."""
    listed = json.loads((packet / "packet.json").read_text(encoding="utf-8"))
    listed["files"] += [{"id": "drawings/section-gone.svg"}, {"id": "drawings/../keep.svg"}]
    (packet / "packet.json").write_text(json.dumps(listed), encoding="utf-8")
    for name in ("drawings/section-gone.svg", "drawings/section-mine.svg", "keep.svg"):
        (packet / name).write_text("<svg/>", encoding="utf-8")
    run("report", cabin, "--out", packet)
    assert not (packet / "drawings" / "section-gone.svg").exists()
    assert (packet / "drawings" / "section-mine.svg").exists()
    assert (packet / "keep.svg").exists()


def test_a_packet_cannot_be_written_into_a_file(run, cabin) -> None:
    """A file where the folder should be is refused in a sentence."""
    result = run("report", cabin, "--out", cabin)
    assert result.exit_code == 2
    assert "needs a folder" in result.stderr


def test_a_wrong_date_is_refused(run, cabin, tmp_path) -> None:
    """A date that is no date is status 2 before anything is written."""
    result = run("report", cabin, "--out", tmp_path / "x", "--date", "soon")
    assert result.exit_code == 2
    assert not (tmp_path / "x").exists()


def test_the_demo_writes_a_packet_and_says_what_to_open(run, tmp_path) -> None:
    """The demo of one house ends with status 0 and names the file to open first."""
    name = "first_house"
    result = run("demo", "--house", name, "--out", tmp_path / "demo")
    assert result.exit_code == 0, result.output
    assert (tmp_path / "demo" / name / "packet.pdf").exists()
    last = result.output.strip().splitlines()[-1]
    assert last.strip() == str(tmp_path / "demo" / name / "packet.pdf")


@pytest.mark.slow
def test_the_demo_of_several_houses_sends_each_to_a_core(monkeypatch, tmp_path) -> None:
    """What is asked and what comes back can be sent to other processes: each has its packet."""
    names = ("first_house", "heron_house")
    monkeypatch.setattr(demo, "builtin_house_names", lambda: names)
    words = ["demo", "--out", str(tmp_path / "demo"), "--dryness", "none"]
    result = CliRunner().invoke(app, words)
    assert result.exit_code == 0, result.output
    assert [n for n in names if (tmp_path / "demo" / n / "packet.pdf").exists()] == list(names)
    assert result.output.index("first_house: ") < result.output.index("heron_house: ")


@pytest.mark.parametrize("dryness", ["none", "main", "all"])
def test_the_manner_of_a_packet_can_be_sent(dryness) -> None:
    """With every extent of dryness the manner is the same on the other side."""
    manner = Manner(units="us", paper="letter", date=dt.date(2026, 3, 2), dryness=dryness)
    assert pickle.loads(pickle.dumps(manner)) == manner


def test_the_demo_of_an_unknown_house_names_the_known(run, tmp_path) -> None:
    """A house that is not built in is status 2."""
    result = run("demo", "--house", "castle", "--out", tmp_path / "demo")
    assert result.exit_code == 2
    assert builtin_house_names()[0] in result.stderr


def test_the_packet_goes_by_limits_of_ones_own(tmp_path) -> None:
    """A limit of one's own under the plan's edition stands in the packet's forecast."""
    plan, own, out = tmp_path / "cabin.yaml", tmp_path / "own.yaml", tmp_path / "out"
    plan.write_text(CABIN, encoding="utf-8")
    own.write_text("targets:\n  - {edition: IECC 2021, limit: 1.7, source: ordinance 12}\n",
                   encoding="utf-8")  # fmt: skip
    words = ["report", str(plan), "--out", str(out), "--figures", str(own)]
    result = CliRunner().invoke(app, words)
    assert result.exit_code in {0, 1}, result.output
    target = json.loads((out / "forecast.json").read_text(encoding="utf-8"))["target"]
    assert 1.7 in target.values()
    assert "ordinance 12" in target["source"]
