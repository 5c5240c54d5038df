"""The table of joints, and everything about one of them."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping

from seamwright.app.built import Built
from seamwright.app.contract import joint as out
from seamwright.io.seals_json import seals_document
from seamwright.joints.types import FaceLine, Joint
from seamwright.report.words import kind_word
from seamwright.seals.types import Finding
from seamwright.shell.plan import Override
from seamwright.store.clash import missing
from seamwright.units import System, fill

_ORDER = {"stop": 0, "attention": 1, "note": 2}


def joint_table(built: Built, states: Mapping[str, str], revision: int) -> out.JointTable:
    """Return the table of all joints and nodes of a house."""
    register = built.house.register
    return out.JointTable(
        revision=revision,
        joints=[_row(built, states, joint.id) for joint in register.joints],
        nodes=[
            out.NodeRow(id=n.id, kind=n.kind, at_m=n.at, joints=list(n.joints))
            for n in register.nodes
        ],
    )


def joint_out(
    built: Built, joint_id: str, state: str, history: list[out.HappeningOut], units: System
) -> out.JointOut:
    """Return everything about one joint."""
    joint = known(built, joint_id)
    seal, kind = built.seals[joint_id], built.section_types.get(joint_id)
    document = seals_document(built.schedule_of(joint_id))
    side = seal.side
    return out.JointOut(
        id=joint.id,
        kind=joint.kind,
        title=kind_word(joint.kind) if kind is None else kind.title,
        shown_as=None if kind is None else kind.name,
        storey=joint.storey,
        panels=list(joint.panels),
        others=list(joint.others),
        start_m=joint.line.start,
        end_m=joint.line.end,
        length_m=joint.length,
        dihedral_deg=math.degrees(joint.dihedral),
        gap_m=joint.gap,
        spline=joint.spline,
        note=joint.note,
        faces={"inner": _face(joint.inner), "outer": _face(joint.outer)},
        side=None if side is None else out.SideOut(
            face=side.face, signed=side.signed, by=side.by, reason=side.reason
        ),
        strips=[out.StripOut.model_validate(strip, extra="ignore") for strip in document["strips"]],
        layers=_layers(document),
        stage=built.stages[joint_id],
        state=state,
        nodes=[node.id for node in built.nodes_of.get(joint_id, ())],
        neighbors=_neighbors(built, joint_id),
        findings=findings_out(built.findings_of.get(joint_id, ()), units),
        override=_override(built.overrides.get(joint_id)),
        history=history,
    )  # fmt: skip


def findings_out(findings: Iterable[Finding], units: System) -> list[out.FindingOut]:
    """Return findings, the gravest first, their lengths in the user's units."""
    return [
        out.FindingOut(
            id=finding.id,
            severity=finding.severity,
            subject=finding.subject,
            sentence=fill(finding.sentence, units),
            way_out=fill(finding.way_out, units),
        )
        for finding in sorted(findings, key=lambda f: _ORDER[f.severity])
    ]


def known(built: Built, joint_id: str) -> Joint:
    """Return a joint by its id; raises MissingError when the house has none of that name."""
    joint = built.joints.get(joint_id)
    if joint is None:
        raise missing("joint", joint_id)
    return joint


def _row(built: Built, states: Mapping[str, str], joint_id: str) -> out.JointRow:
    joint, seal = built.joints[joint_id], built.seals[joint_id]
    return out.JointRow(
        id=joint_id,
        kind=joint.kind,
        storey=joint.storey,
        length_m=joint.length,
        face="" if seal.side is None else seal.side.face,
        signed=seal.side is not None and seal.side.signed,
        strips=[strip.stock_id for strip in seal.strips if strip.stock_id is not None],
        stage=built.stages[joint_id],
        state=states.get(joint_id, "open"),
        look=built.look(joint_id),
        corrected=joint_id in built.overrides,
    )


def _face(face: FaceLine) -> out.FaceOut:
    return out.FaceOut(
        length_m=face.length,
        offset_m=face.offset,
        opening_m=face.opening,
        reach=face.reach,
        hidden_by=face.hidden_by,
        timbers=list(face.timbers),
        crossings=list(face.crossings),
    )


def _layers(document: dict[str, list[dict[str, object]]]) -> list[out.LayerOut]:
    found = []
    for sort, section in (("bead", "beads"), ("fill", "fills"), ("dam", "dams"),
                          ("gasket", "gaskets")):  # fmt: skip
        for row in document[section]:
            place = str(row.get("place", row.get("why", "channel"))).replace("_", " ")
            given = {**row, "sort": sort, "place": place}
            found.append(out.LayerOut.model_validate(given, extra="ignore"))
    return found


def _neighbors(built: Built, joint_id: str) -> list[out.NeighborOut]:
    return [
        out.NeighborOut(id=other, kind=built.joints[other].kind, node=node.id)
        for node in built.nodes_of.get(joint_id, ())
        for other in node.joints
        if other != joint_id and other in built.joints
    ]


def _override(given: Override | None) -> out.OverrideOut | None:
    if given is None:
        return None
    return out.OverrideOut(
        reason=given.reason,
        kind=given.kind,
        face=given.face,
        span_m=None if given.span is None else float(given.span),
        strip_width_m=None if given.strip_width is None else float(given.strip_width),
        ignore=given.ignore,
    )
