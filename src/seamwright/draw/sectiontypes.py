"""Which sections a packet needs: one per type of joint, each standing for all joints like it."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from seamwright.draw.ink import KINDS
from seamwright.joints.types import Joint, Register, Section
from seamwright.seals.types import SealSchedule

STEP = 0.003
"""Skins offset by more than this are stepped; same as the tolerance of the geometry. [m]"""
ANGLE_CLASS = math.radians(5.0)
"""Dihedral angles are sorted into classes this wide; common practice, no source. [rad]"""
FLUSH = math.radians(1.0)


@dataclass(frozen=True, kw_only=True, slots=True)
class SectionType:
    """A type of joint: the sheet's name, its words, the joint drawn, and all it stands for."""

    name: str
    title: str
    joint_id: str
    joint_ids: tuple[str, ...]


def section_types(
    register: Register, sections: Mapping[str, Section], schedule: SealSchedule
) -> tuple[SectionType, ...]:
    """Return the types of joint present, in the order of the joint kinds.

    Two joints are of one type when kind, spline, step, timbers and bearings, the class of the
    dihedral angle, the strips with their widths and the beads agree. The longest joint is drawn.
    Joints without a section are left out.
    """
    groups: dict[tuple[object, ...], list[Joint]] = {}
    seals = _seal_keys(schedule)
    for joint in register.joints:
        section = sections.get(joint.id)
        if section is not None:
            key = (*_shape_key(joint, section), seals.get(joint.id))
            groups.setdefault(key, []).append(joint)
    ordered = sorted(groups.items(), key=lambda item: (_rank(item[0]), repr(item[0])))
    per_kind: dict[str, int] = {}
    for key, _ in ordered:
        per_kind[str(key[0])] = per_kind.get(str(key[0]), 0) + 1
    counted: dict[str, int] = {}
    found = []
    for key, joints in ordered:
        kind = str(key[0])
        counted[kind] = counted.get(kind, 0) + 1
        number = f"-{counted[kind]}" if per_kind[kind] > 1 else ""
        drawn = max(joints, key=lambda joint: (joint.length, joint.id))
        found.append(
            SectionType(
                name=f"section-{kind}{number}",
                title=_title(drawn, sections[drawn.id]),
                joint_id=drawn.id,
                joint_ids=tuple(joint.id for joint in joints),
            )
        )
    return tuple(found)


def _rank(key: tuple[object, ...]) -> int:
    return list(KINDS).index(str(key[0]))


def _shape_key(joint: Joint, section: Section) -> tuple[object, ...]:
    materials = sorted({s.material for s in section.shapes if s.owner in _partners(joint)})
    return (
        joint.kind,
        joint.spline if joint.spline is not None else "",
        joint.contact,
        joint.outside_corner,
        abs(joint.inner.offset) > STEP,
        abs(joint.outer.offset) > STEP,
        len(joint.inner.timbers) > 0,
        len(joint.outer.timbers) > 0,
        tuple(materials),
        round((joint.dihedral - math.pi) / ANGLE_CLASS),
        section.inner is None,
        section.outer is None,
    )


def _partners(joint: Joint) -> set[str]:
    return {*joint.others, *joint.inner.timbers, *joint.outer.timbers}


def _seal_keys(schedule: SealSchedule) -> dict[str, tuple[object, ...]]:
    """Return by joint what its seals have that a section shows."""
    found: dict[str, list[object]] = {}
    for side in schedule.sides:
        found.setdefault(side.joint_id, []).append(("side", side.face, side.signed))
    for strip in schedule.strips:
        width = -1.0 if strip.width is None else round(strip.width, 4)
        found.setdefault(strip.joint_id, []).append(
            ("strip", strip.face, width, strip.primary, strip.wings_open, strip.stage)
        )
    for bead in schedule.beads:
        size = -1.0 if bead.diameter is None else bead.diameter
        found.setdefault(bead.joint_id, []).append(("bead", bead.place, bead.count, size))
    for fill in schedule.fills:
        found.setdefault(fill.joint_id, []).append(("fill", fill.stage))
    return {joint_id: tuple(sorted(items, key=repr)) for joint_id, items in found.items()}


def _title(joint: Joint, section: Section) -> str:
    parts = [KINDS[joint.kind].name]
    if joint.spline is not None:
        parts.append(f"{joint.spline.replace('_', '-')} spline")
    if joint.kind == "wall_corner":
        parts.append("outside" if joint.outside_corner else "inside")
    if abs(joint.dihedral - math.pi) > FLUSH and joint.contact == "edge_edge":
        parts.append(f"{math.degrees(joint.dihedral):.0f}°")
    if joint.inner.timbers or joint.outer.timbers:
        parts.append("over timber")
    if max(abs(joint.inner.offset), abs(joint.outer.offset)) > STEP:
        parts.append("stepped")
    bearing = {s.material for s in section.shapes if s.owner in joint.others}
    parts += [f"on {word}" for word in ("concrete", "deck") if word in bearing]
    return ", ".join(parts)
