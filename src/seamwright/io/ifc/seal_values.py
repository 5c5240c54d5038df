"""What the property sets of joints and strips say. Lengths in metres, angles in degrees."""

from __future__ import annotations

import math

from seamwright.io.ifc.author import Value
from seamwright.joints.types import FaceLine, Joint
from seamwright.seals.types import SealSchedule, Strip

UNSIGNED = "UNSIGNED"


def joint_values(joint: Joint) -> dict[str, Value]:
    """Return the rows of Seamwright_Joint."""
    return {
        "Id": joint.id,
        "Kind": joint.kind,
        "Length": float(joint.length),
        "DihedralAngle": math.degrees(joint.dihedral),
        "Gap": float(joint.gap),
        "Contact": joint.contact,
        "Panels": ", ".join(joint.panels),
        "Others": ", ".join(joint.others) or None,
        "Storey": joint.storey,
        "Spline": joint.spline,
        **_face_values("Inner", joint.inner),
        **_face_values("Outer", joint.outer),
        "Note": joint.note or None,
    }


def seal_values(joint: Joint, schedule: SealSchedule) -> dict[str, Value]:
    """Return the rows of Seamwright_Seal: whose decision, and every seal of the joint in words."""
    values: dict[str, Value] = {}
    side = next((s for s in schedule.sides if s.joint_id == joint.id), None)
    values["Face"] = side.face if side is not None else "undecided"
    values["Signed"] = "signed" if side is not None and side.signed else UNSIGNED
    values["By"] = (side.by or None) if side is not None else None
    values["Reason"] = side.reason if side is not None else None
    for strip in (s for s in schedule.strips if s.joint_id == joint.id):
        name = strip.face.capitalize()
        values[f"{name}StripWidth"] = strip.width
        values[f"{name}StripWidthNeeded"] = float(strip.required)
        values[f"{name}StripStock"] = strip.stock_id or "no stock strip covers it"
        values[f"{name}StripStage"] = strip.stage
    beads = [b for b in schedule.beads if b.joint_id == joint.id]
    values["Beads"] = "; ".join(f"{b.count} {b.place} ({b.stage})" for b in beads) or None
    values["BeadCount"] = sum(b.count for b in beads)
    values["DamCount"] = sum(1 for d in schedule.dams if d.joint_id == joint.id)
    fills = [f.volume for f in schedule.fills if f.joint_id == joint.id]
    values["FoamVolume"] = math.fsum(fills) if fills else None
    gaskets = [g for g in schedule.gaskets if g.joint_id == joint.id]
    values["Gaskets"] = "; ".join(f"{g.place} ({g.stage})" for g in gaskets) or None
    return values


def strip_values(strip: Strip) -> dict[str, Value]:
    """Return the rows of Seamwright_Strip, with the arithmetic of its width."""
    terms = " + ".join(
        f"{t.count} × {t.value * 1000:.1f} mm {t.label}" if t.count != 1
        else f"{t.value * 1000:.1f} mm {t.label}"
        for t in strip.terms
    )  # fmt: skip
    return {
        "Joint": strip.joint_id,
        "Face": strip.face,
        "Span": float(strip.span),
        "WidthNeeded": float(strip.required),
        "Width": strip.width,
        "Arithmetic": terms or None,
        "Lap": float(strip.lap),
        "Length": float(strip.length),
        "Stock": strip.stock_id or "no stock strip covers it",
        "Stage": strip.stage,
        "Primary": strip.primary,
        "WingsLeftOpen": strip.wings_open,
        "Folded": strip.fold,
    }


def _face_values(name: str, face: FaceLine) -> dict[str, Value]:
    return {
        f"{name}Length": float(face.length),
        f"{name}Offset": float(face.offset),
        f"{name}Reach": face.reach,
        f"{name}HiddenBy": face.hidden_by or None,
        f"{name}Timbers": ", ".join(face.timbers) or None,
    }
