"""Which face of each joint carries the primary air seal, and on whose word.

A signed decision of the designer rules; the one that names the joint before the one that names its
kind, and that before the one for the whole house. Without one the face is proposed by climate zone
and stays unsigned.
"""

from __future__ import annotations

from collections import defaultdict

from seamwright.joints.types import FaceLine, FaceName, Joint
from seamwright.seals.face_table import DISAGREEMENT, NO_ZONE, ROOF_LINES, ZoneRow, row_for
from seamwright.seals.facts import Facts, finding, line_of, plain
from seamwright.seals.types import FaceChoice, Finding, SidePlan
from seamwright.shell.plan import Decision


def plan_sides(
    facts: Facts, climate_zone: str | None, zone_edition: str | None
) -> tuple[tuple[SidePlan, ...], tuple[Finding, ...]]:
    """Return the face of every joint in the order of `facts.joints`, and what is open about it."""
    row = row_for(climate_zone)
    findings = [] if row is not None else [_zone_missing(climate_zone)]
    proposal = NO_ZONE if row is None else row
    sides = []
    for joint in facts.joints:
        side, conflict = _side(facts, joint, proposal, _zone_words(row, climate_zone, zone_edition))
        sides.append(side)
        findings += [conflict] if conflict is not None else []
    findings += _unsigned(facts.joints, sides)
    return tuple(sides), tuple(findings)


def _side(
    facts: Facts, joint: Joint, row: ZoneRow, zone_words: str
) -> tuple[SidePlan, Finding | None]:
    found = _applicable(joint, facts.decisions)
    faces = {decision.face for decision in found}
    if len(faces) == 1:
        return _signed(joint, found[0]), None
    override = facts.overrides.get(joint.id)
    if override is not None and override.face is not None:
        reason = f"correction to this joint: {override.reason}"
        side = SidePlan(
            joint_id=joint.id, face=override.face, signed=False, by="correction", reason=reason
        )
        return side, _conflict(joint, found) if faces else None
    face, because = _proposed(facts, joint, row)
    side = SidePlan(
        joint_id=joint.id,
        face=face,
        signed=False,
        by="",
        reason=f"{zone_words}{row.reason}{because}; {DISAGREEMENT}",
    )
    return side, _conflict(joint, found) if faces else None


def _applicable(joint: Joint, decisions: tuple[Decision, ...]) -> list[Decision]:
    """Return the most specific signed decisions about a joint; several may contradict."""
    signed = [d for d in decisions if d.signed_by.strip()]
    levels = (
        [d for d in signed if joint.id in d.joints],
        [d for d in signed if joint.kind in d.kinds],
        [d for d in signed if not d.kinds and not d.joints],
    )
    return next((level for level in levels if level), [])


def _signed(joint: Joint, decision: Decision) -> SidePlan:
    who = ", ".join(part for part in (decision.signed_by, decision.role, decision.date) if part)
    note = decision.note.strip()
    return SidePlan(
        joint_id=joint.id,
        face=decision.face,
        signed=True,
        by=who,
        reason="signed decision" if note == "" else note,
    )


def _proposed(facts: Facts, joint: Joint, row: ZoneRow) -> tuple[FaceChoice, str]:
    """Return the face to propose for a joint and what sets it apart from its zone, if anything.

    A face that can never be reached gives way to the one that can; a face without a line keeps the
    proposal, since the skin runs by and needs no strip there. Where an outer line meets a floor of
    panels, sealed from above, the sill takes both.
    """
    face = row.roof_lines if joint.kind in ROOF_LINES else row.face
    on_floor = any(facts.panels[p].role == "floor" for p in joint.panels if p in facts.panels)
    if joint.kind == "sill" and face == "outer" and on_floor:
        return "both", "; both here, where the line passes from the walls to the floor"
    if face == "both" or line_of(joint, face).line is None:
        return face, ""
    other: FaceName = "outer" if face == "inner" else "inner"
    if line_of(joint, face).reach == "never" and _is_open(line_of(joint, other)):
        hidden = line_of(joint, face).hidden_by
        return other, f"; {other} here, since the {face} face can never be reached ({hidden})"
    return face, ""


def _is_open(line: FaceLine) -> bool:
    return line.line is not None and line.reach != "never"


def _zone_words(row: ZoneRow | None, zone: str | None, edition: str | None) -> str:
    if row is None:
        return ""
    of = "edition not stated" if edition is None else edition
    return f"climate zone {zone} ({of}), "


def _zone_missing(zone: str | None) -> Finding:
    if zone is None:
        text = "No climate zone is given, so the inner face is proposed throughout."
    else:
        text = f"Climate zone '{plain(zone)}' is not one of 0A to 8, so the inner face is proposed."
    return finding(
        "zone",
        "attention",
        "site",
        text,
        "Give site.climate_zone (such as 4C) and the edition of the code it is read in, or let the "
        "designer sign the face of each kind of joint.",
    )


def _conflict(joint: Joint, found: list[Decision]) -> Finding:
    words = plain("; ".join(sorted(f"{d.face} ({d.signed_by}, {d.date})" for d in found)))
    return finding(
        "decisions-contradict",
        "stop",
        joint.id,
        f"Signed decisions about this joint contradict each other: {words}.",
        "Ask the designer to withdraw one of them; until then the face stands unsigned.",
    )


def _unsigned(joints: tuple[Joint, ...], sides: list[SidePlan]) -> list[Finding]:
    """Return one finding per joint kind whose face nobody has signed."""
    open_faces: dict[str, list[str]] = defaultdict(list)
    for joint, side in zip(joints, sides, strict=True):
        if not side.signed:
            open_faces[joint.kind].append(side.face)
    found = []
    for kind in sorted(open_faces):
        faces = open_faces[kind]
        each = ", ".join(f"{faces.count(f)} {f}" for f in sorted(set(faces)))
        found.append(
            finding(
                "unsigned",
                "attention",
                kind,
                f"The face of the primary seal is UNSIGNED at {_count(len(faces))} of kind "
                f"{kind.replace('_', ' ')} (proposed: {each}).",
                "Have the building's designer sign the face under decisions in the plan.",
            )
        )
    return found


def _count(number: int) -> str:
    return "1 joint" if number == 1 else f"{number} joints"
