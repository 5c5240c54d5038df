"""The JSON documents others rely on: register, continuity, seals and order.

SI throughout with the unit in the key (``length_m``, ``dihedral_deg``), every object with a stable
``id``. Numbers are written as they are, never rounded, so that totals equal the sum of their parts
to the last digit.
"""

from __future__ import annotations

import json
import math
from collections import Counter, defaultdict
from importlib.resources import files

from seamwright.io.json_text import Json, ends, number, numbered, point, write_json
from seamwright.io.order_json import order_document
from seamwright.io.seals_json import seals_document
from seamwright.joints.types import FaceLine, Joint, Register

__all__ = [
    "continuity_document",
    "order_document",
    "register_document",
    "register_schema",
    "seals_document",
    "write_json",
]


def register_document(register: Register) -> Json:
    """Return the joint register: ``joints``, ``nodes``, and ``totals`` by kind.

    The schema is `register_schema`. ``offset_m`` is the larger step of the two faces. Totals are
    exact sums over the joints listed.
    """
    lengths: dict[str, list[float]] = defaultdict(list)
    for joint in register.joints:
        lengths[joint.kind].append(joint.length)
    return {
        "joints": [_joint(joint) for joint in register.joints],
        "nodes": [
            {"id": node.id, "kind": node.kind, "at_m": point(node.at), "joints": list(node.joints)}
            for node in register.nodes
        ],
        "totals": {
            kind: {"count": len(lengths[kind]), "length_m": math.fsum(lengths[kind])}
            for kind in sorted(lengths)
        },
    }


def register_schema() -> Json:
    """Return the JSON Schema (draft 2020-12) of the joint register."""
    text = files("seamwright").joinpath("data/schema/register.schema.json").read_text("utf-8")
    schema: Json = json.loads(text)
    return schema


def continuity_document(register: Register) -> Json:
    """Return where the air line does not close, and what became of every stretch of panel edge."""
    names: Counter[str] = Counter()
    return {
        "breaks": [
            {
                "id": numbered(f"break/{gap.panel_id}/{gap.face}", names),
                "face": gap.face,
                "panel": gap.panel_id,
                **ends(gap.line),
                "length_m": gap.line.length,
                "reason": gap.reason,
                "remedy": gap.remedy,
            }
            for gap in register.breaks
        ],
        "edges": [
            {
                "id": numbered(f"{use.panel_id}/edge-{use.edge}", names),
                "panel": use.panel_id,
                "edge": use.edge,
                "from_m": number(use.start),
                "to_m": number(use.end),
                "fate": use.fate,
                "ref": use.ref,
                "reason": use.reason,
            }
            for use in register.ledger
        ],
        "lost_overrides": list(register.lost_overrides),
    }


def _joint(joint: Joint) -> Json:
    faces = (joint.inner, joint.outer)
    return {
        "id": joint.id,
        "kind": joint.kind,
        "length_m": joint.length,
        "start_m": point(joint.line.start),
        "end_m": point(joint.line.end),
        "dihedral_deg": math.degrees(joint.dihedral),
        "offset_m": max((f.offset for f in faces if f.line is not None), key=abs, default=0.0),
        "panels": list(joint.panels),
        "storey": joint.storey,
        "faces": {"inner": _face(joint.inner), "outer": _face(joint.outer)},
    }


def _face(face: FaceLine) -> Json:
    return {
        "length_m": face.length,
        "start_m": None if face.line is None else point(face.line.start),
        "end_m": None if face.line is None else point(face.line.end),
        "offset_m": number(face.offset),
        "reach": face.reach,
        "hidden_by": face.hidden_by,
        "timbers": list(face.timbers),
        "crossings": list(face.crossings),
    }
