"""The JSON documents: shape, schema, stable ids, and numbers kept in full."""

from __future__ import annotations

import json
import math
from dataclasses import replace
from pathlib import Path
from typing import get_args

import jsonschema
import pytest
from tests.takeoff.house_kit import CATALOG, joint, register, schedule, strip, wall_line
from tests.takeoff.test_order import sealed

from seamwright.geometry.types import Segment
from seamwright.io.json_text import to_text
from seamwright.io.register_json import (
    continuity_document,
    order_document,
    register_document,
    register_schema,
    seals_document,
    write_json,
)
from seamwright.joints.types import Break, EdgeUse, FaceLine, JointKind, Register
from seamwright.seals.types import Finding, Sentence, SidePlan, Term
from seamwright.takeoff.order import make_order

JOINTS, NODES = wall_line(5, 1.2)
REGISTER = register(JOINTS, NODES)
SCHEMA = jsonschema.Draft202012Validator(register_schema())


def test_the_register_meets_its_schema() -> None:
    """What is written is what the schema promises, and the schema is itself well formed."""
    jsonschema.Draft202012Validator.check_schema(register_schema())
    SCHEMA.validate(json.loads(json.dumps(register_document(REGISTER))))


def test_the_register_has_the_promised_keys_and_no_others() -> None:
    """The names others rely on are exactly these."""
    document = register_document(REGISTER)
    assert list(document) == ["joints", "nodes", "totals"]
    assert list(document["joints"][0]) == [
        "id",
        "kind",
        "length_m",
        "start_m",
        "end_m",
        "dihedral_deg",
        "offset_m",
        "panels",
        "storey",
        "faces",
    ]
    assert list(document["nodes"][0]) == ["id", "kind", "at_m", "joints"]


def test_the_schema_knows_every_kind_and_no_other() -> None:
    """A kind added to the register must be added to its schema."""
    assert tuple(register_schema()["$defs"]["kind"]["enum"]) == get_args(JointKind)


@pytest.mark.parametrize("spoil", ["kind", "id", "length_m"])
def test_the_schema_refuses_what_is_wrong(spoil: str) -> None:
    """An unknown kind, a missing id or a negative length does not pass."""
    document = register_document(REGISTER)
    document["joints"][0][spoil] = {"kind": "hinge", "id": "", "length_m": -1.0}[spoil]
    assert not SCHEMA.is_valid(document)


def test_totals_are_the_sums_of_the_joints_read_back() -> None:
    """Totals by kind equal the exact sum of the lengths in the same text."""
    document = json.loads(json.dumps(register_document(REGISTER)))
    for kind, total in document["totals"].items():
        lengths = [j["length_m"] for j in document["joints"] if j["kind"] == kind]
        assert total == {"count": len(lengths), "length_m": math.fsum(lengths)}


def test_lengths_are_not_rounded() -> None:
    """A length keeps every digit."""
    third = joint("A", (0, 0, 0), (1 / 3, 0, 0))
    text = json.dumps(register_document(register((third,))))
    assert json.loads(text)["joints"][0]["length_m"] == 1 / 3


def test_a_face_without_a_line_is_null_and_gives_no_offset() -> None:
    """The outer side of a tee has no line; the joint's offset is then that of the other face."""
    blind = FaceLine(line=None, offset=0.5, reach="never", hidden_by="inner wall")
    base = joint("A", (0, 0, 0), (1, 0, 0), "wall_tee")
    document = register_document(register((replace(base, outer=blind),)))
    SCHEMA.validate(document)
    assert document["joints"][0]["offset_m"] == 0.0
    assert document["joints"][0]["faces"]["outer"]["start_m"] is None


def test_continuity_lists_breaks_and_edges() -> None:
    """Every break has its place and remedy; two on one panel get ids of their own."""
    line = Segment(start=(0, 0, 0), end=(1, 0, 0))
    gap = Break(face="inner", panel_id="A.1", line=line, reason="free", remedy="strip")
    use = EdgeUse(
        panel_id="A.1", edge=0, start=-0.0, end=1.0, fate="free", ref="", reason="meets nothing"
    )
    found = continuity_document(
        Register(joints=(), nodes=(), ledger=(use,), breaks=(gap, gap), lost_overrides=("X",))
    )
    assert [b["id"] for b in found["breaks"]] == ["break/A.1/inner", "break/A.1/inner+2"]
    assert str(found["edges"][0]["from_m"]) == "0.0"
    assert found["lost_overrides"] == ["X"]


def test_every_seal_has_an_id_of_its_own() -> None:
    """No two seals share an id, unsigned sides say so, and sentences keep their lengths."""
    whole = sealed()
    said = Sentence(text="lap {lap}", lengths={"lap": 0.05})
    side = SidePlan(joint_id="A", face="inner", signed=False, by="", reason="cold")
    finding = Finding(id="F1", severity="note", subject="A", sentence=said, way_out=said)
    terms = (Term(label="lap", value=0.05, count=2),)
    full = schedule(
        (*whole.strips, strip(JOINTS[0], terms=terms)),
        sides=(side,),
        beads=whole.beads,
        fills=whole.fills,
        dams=whole.dams,
        gaskets=whole.gaskets,
        patches=whole.patches,
        findings=(finding,),
    )
    document = seals_document(full)
    ids = [row["id"] for rows in document.values() for row in rows]
    assert len(ids) == len(set(ids))
    assert document["sides"][0]["status"] == "UNSIGNED"
    assert document["findings"][0]["sentence"]["lengths_m"] == {"lap": 0.05}
    assert document["strips"][-1]["terms"] == [{"label": "lap", "count": 2, "value_m": 0.05}]


def test_the_order_adds_up_after_reading_back() -> None:
    """The net of a strip's line is the exact sum of its pieces in the same text."""
    document = json.loads(json.dumps(order_document(make_order(sealed(), REGISTER, CATALOG))))
    for plan in document["cutting"]:
        lengths = [p["length_m"] for p in document["pieces"] if p["stock"] == plan["id"]]
        (line,) = [entry for entry in document["lines"] if entry["id"] == plan["id"]]
        assert line["net_m"] == math.fsum(lengths)
        assert len(plan["cuts"]) == plan["rolls"]
    sealant = next(entry for entry in document["lines"] if entry["id"] == "tube")
    assert {"net_m3", "reserve_m3", "pack_size_m3"} <= set(sealant)


def test_points_stand_on_one_line_and_read_back() -> None:
    """A point is readable as one line, and the text means the same document."""
    document = register_document(register((joint("A, 1", (0, -1.5, 1e-7), (1, 2, 3)),)))
    text = to_text(document)
    assert '"start_m": [0.0, -1.5, 1e-07]' in text
    assert json.loads(text) == document
    assert to_text({"a": [], "b": [1], "c": ["1"]}) == (
        '{\n  "a": [],\n  "b": [1],\n  "c": [\n    "1"\n  ]\n}\n'
    )


def test_the_file_is_the_same_every_time(tmp_path: Path) -> None:
    """The same register gives the same bytes, ending in a newline."""
    for name in ("a.json", "b.json"):
        write_json(register_document(REGISTER), tmp_path / name)
    first = (tmp_path / "a.json").read_bytes()
    assert first == (tmp_path / "b.json").read_bytes()
    assert first.endswith(b"}\n")
