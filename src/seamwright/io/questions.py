"""Questions to the designer: what only the designer can answer about a sealed house."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from seamwright.geometry.types import Segment, Vec3
from seamwright.joints.types import Joint, Register
from seamwright.seals.types import Finding, SealSchedule
from seamwright.units import System, fill, format_length

_PRIORITY = {"stop": "High", "attention": "Normal"}


@dataclass(frozen=True, kw_only=True, slots=True)
class Question:
    """One thing the designer must answer.

    `joints` are the ids it is about, `things` the panels and timbers that meet there, `lines`
    where they run, `outward` the direction to look from (toward the house it is -outward).
    """

    id: str
    title: str
    description: str
    labels: tuple[str, ...]
    priority: str
    joints: tuple[str, ...]
    things: tuple[str, ...]
    lines: tuple[Segment, ...]
    outward: Vec3


def questions_from(
    schedule: SealSchedule, register: Register, *, system: System = "metric"
) -> tuple[Question, ...]:
    """Return what only the designer can answer: unsigned faces, findings that stop, open lines.

    Unsigned faces are asked once for each kind of joint and proposed face; notes are not asked.
    """
    joints = {joint.id: joint for joint in register.joints}
    middle = middle_of([joint.line for joint in register.joints])
    return (
        *_unsigned(schedule, joints, middle),
        *_findings(schedule, register, joints, middle, system=system),
        *_breaks(schedule, register, middle, system=system),
    )


def _unsigned(schedule: SealSchedule, joints: Mapping[str, Joint], middle: Vec3) -> list[Question]:
    groups: dict[tuple[str, str], list[Joint]] = {}
    reasons: dict[tuple[str, str], str] = {}
    for side in schedule.sides:
        joint = joints.get(side.joint_id)
        if joint is not None and not side.signed:
            key = (joint.kind, side.face)
            groups.setdefault(key, []).append(joint)
            reasons.setdefault(key, side.reason)
    asked = []
    for (kind, face), found in groups.items():
        words = kind.replace("_", " ")
        where = "both faces" if face == "both" else f"the {face} face"
        asked.append(
            _question(
                f"unsigned:{kind}:{face}",
                f"UNSIGNED: which face carries the air seal of the {words} joints?",
                f"Proposed: {where}, because {reasons[kind, face].rstrip('.')}. Nobody has signed "
                f"this. It is about {', '.join(joint.id for joint in found)}. "
                "Please sign a face, with name and date.",
                labels=("UNSIGNED", words),
                found=found,
                middle=middle,
            )
        )
    return asked


def _findings(
    schedule: SealSchedule,
    register: Register,
    joints: Mapping[str, Joint],
    middle: Vec3,
    *,
    system: System,
) -> list[Question]:
    """Return one question for each finding; the same finding about joints of a kind is one."""
    nodes = {node.id: node.joints for node in register.nodes}
    groups: dict[tuple[str, str, str], list[tuple[Finding, list[Joint]]]] = {}
    for finding in schedule.findings:
        names = nodes.get(finding.subject, (finding.subject,))
        about = [joints[name] for name in names if name in joints]
        if finding.severity in _PRIORITY and about:
            code = finding.id.split(":", maxsplit=1)[0]
            key = (code, about[0].kind, fill(finding.sentence, system).rstrip("."))
            groups.setdefault(key, []).append((finding, about))
    asked = []
    for (code, kind, said), members in groups.items():
        first, words = members[0][0], kind.replace("_", " ")
        subjects = [finding.subject for finding, _ in members]
        many = f"{len(subjects)} {words} joints" if len(subjects) > 1 else subjects[0]
        way = fill(first.way_out, system).rstrip(".")
        asked.append(
            _question(
                f"finding:{code}:{subjects[0]}",
                f"{many}: {said}",
                f"{said}. A way out: {way}. It is about {', '.join(subjects)}.",
                labels=("finding", words),
                found=list({joint.id: joint for _, about in members for joint in about}.values()),
                middle=middle,
                priority=_PRIORITY[first.severity],
            )
        )
    return asked


def _breaks(
    schedule: SealSchedule, register: Register, middle: Vec3, *, system: System
) -> list[Question]:
    """Return one question for each open line, but for those that the schedule only notes."""
    noted = {finding.id for finding in schedule.findings if finding.severity == "note"}
    return [
        Question(
            id=f"break:{item.face}:{item.panel_id}:{number}",
            title=f"The {item.face} line does not close at {item.panel_id}: "
            f"{item.reason.rstrip('.')}",
            description=f"Over {format_length(item.line.length, system)} the {item.face} air line "
            f"does not close: {item.reason.rstrip('.')}. What would close it: "
            f"{item.remedy.rstrip('.')}.",
            labels=("open line", item.face),
            priority="High",
            joints=(),
            things=(item.panel_id,),
            lines=(item.line,),
            outward=_away(item.line, middle),
        )
        for number, item in enumerate(register.breaks, start=1)
        if f"break-{number}:{item.panel_id}" not in noted
    ]


def _question(
    name: str,
    title: str,
    description: str,
    *,
    labels: tuple[str, ...],
    found: Sequence[Joint],
    middle: Vec3,
    priority: str = "Normal",
) -> Question:
    first = found[0]
    things = dict.fromkeys(t for joint in found for t in (*joint.panels, *joint.others))
    return Question(
        id=name,
        title=title,
        description=description,
        labels=labels,
        priority=priority,
        joints=tuple(joint.id for joint in found),
        things=tuple(things),
        lines=tuple(joint.line for joint in found),
        outward=_outward(first, middle) if len(found) == 1 else (-0.5, -0.7, 0.5),
    )


def _outward(joint: Joint, middle: Vec3) -> Vec3:
    """Return the direction from the inner to the outer line, or away from the house's middle."""
    inner, outer = joint.inner.line, joint.outer.line
    if inner is not None and outer is not None and math.dist(inner.middle, outer.middle) > 1e-3:
        return _unit(_minus(outer.middle, inner.middle))
    return _away(joint.line, middle)


def _away(line: Segment, middle: Vec3) -> Vec3:
    away = _minus(line.middle, middle)
    return _unit(away) if math.hypot(*away) > 1e-6 else (0.0, -1.0, 0.0)


def middle_of(lines: Sequence[Segment]) -> Vec3:
    """Return the mean of the middles of lines, the origin without any. [m]"""
    if not lines:
        return (0.0, 0.0, 0.0)
    points = [line.middle for line in lines]
    n = len(points)
    x, y, z = (math.fsum(p[i] for p in points) / n for i in range(3))
    return (x, y, z)


def _minus(a: Vec3, b: Vec3) -> Vec3:
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


def _unit(v: Vec3) -> Vec3:
    size = math.hypot(*v)
    return (v[0] / size, v[1] / size, v[2] / size)
