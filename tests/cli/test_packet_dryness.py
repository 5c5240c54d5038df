"""What the packet says of dryness."""

from __future__ import annotations

import json

import pypdf
import pytest

from seamwright.cli.packet_dryness import IN_SHORT, packet_dryness
from seamwright.cli.source import built_in, shelf
from seamwright.io.blocks_json import blocks_of
from seamwright.report.types import Figure, Table
from seamwright.workflow import seal_house


@pytest.fixture(scope="module")
def house():
    """Return a built-in house with its seals, and its source."""
    source = built_in("first_house")
    return source, seal_house(source.plan, shelf(source, None))


def test_the_short_answer_runs_the_highest_roof_line(house) -> None:
    """The ridge at its highest place under three faces, with its chart, UNSIGNED."""
    source, sealed = house
    found = packet_dryness(source, sealed, "main", "us")
    assert found.data is not None
    assert [len(one["heights"]) for one in found.data["types"]] == [1]
    assert "idge" in found.data["types"][0]["title"]
    assert {len(one["heights"][0]["options"]) for one in found.data["types"]} == {3}
    pictures = [block.name for block in found.sheet if isinstance(block, Figure)]
    assert set(pictures) == set(found.charts)
    assert len(pictures) == 1
    tables = [block for block in found.sheet if isinstance(block, Table)]
    assert any("UNSIGNED" in row for table in tables for row in table.rows)
    assert any("GENERATED" in getattr(block, "text", "") for block in found.sheet)
    assert all(mark.verdict[0] == "J" and mark.leak is None for mark in found.marks.values())


def test_an_answer_that_is_kept_is_not_worked_out_again(house, monkeypatch) -> None:
    """Asked again, the same sheets, marks and charts come back without a run."""
    source, sealed = house
    first = packet_dryness(source, sealed, "main", "us")
    monkeypatch.setattr("seamwright.cli.packet_dryness.worked_out", None)
    assert packet_dryness(source, sealed, "main", "us") == first


@pytest.mark.parametrize(
    ("text", "told"),
    [(None, "cannot be read"), ("[", "is not a dryness-sheets.json"), ("{}", "is not a dryness")],
)
def test_a_file_that_holds_no_sheets_is_refused(run, cabin, tmp_path, text, told) -> None:
    """A word that is no extent is taken as a file, and a sentence says why it cannot be used."""
    path = tmp_path / "every"
    if text is not None:
        path.write_text(text, encoding="utf-8")
    refused = run("report", cabin, "--out", tmp_path / "out", "--dryness", path)
    assert refused.exit_code == 2
    assert told in refused.output
    assert "none, main or all" in refused.output


def test_none_says_nothing(house) -> None:
    """Where no dryness is wanted the packet has no sheet of it."""
    assert packet_dryness(*house, "none", "us").sheet == ()


def test_without_the_compiler_a_sentence_says_why(house, monkeypatch) -> None:
    """Without the optional package the sheet names it and what to install."""
    monkeypatch.setattr("seamwright.cli.packet_dryness.find_spec", lambda _: None)
    found = packet_dryness(*house, "main", "us")
    assert "numba is not installed" in found.sheet[1].text.text
    assert found.data is None


def test_without_a_climate_the_packet_says_why(run, cabin, tmp_path) -> None:
    """A plan without a place gets its packet, a sentence for the dryness, and no data of it."""
    out = tmp_path / "out"
    assert run("report", cabin, "--out", out).exit_code in {0, 1}
    pages = pypdf.PdfReader(out / "packet.pdf").pages
    assert "Not worked out:" in "".join(page.extract_text() for page in pages)
    listed = {item["id"] for item in json.loads((out / "packet.json").read_text())["files"]}
    assert "dryness.json" not in listed


def test_a_document_that_holds_no_blocks_is_refused() -> None:
    """Something else than blocks is a ValueError, so that a spoilt answer is not printed."""
    with pytest.raises(ValueError, match="blocks"):
        blocks_of([{"is": "Quantity", "value": 1.0, "dimension": "flow"}])
    with pytest.raises(ValueError, match="no kind"):
        blocks_of([{"is": "Other"}])
    assert IN_SHORT.short
