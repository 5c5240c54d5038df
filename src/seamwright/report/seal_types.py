"""Joints sealed in the same way, gathered into seal types S1, S2 ... that a crew can learn."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Hashable
from dataclasses import dataclass
from typing import TypeVar

from seamwright.joints.types import Joint, Register
from seamwright.report.words import KINDS
from seamwright.seals.types import Bead, Dam, Fill, Gasket, SealSchedule, SidePlan, Strip

Seal = TypeVar("Seal", Strip, Bead, Fill, Dam, Gasket)

_SAME = 4
"""Decimals of a metre to which two strips or voids count as alike (0.1 mm)."""


@dataclass(frozen=True, kw_only=True, slots=True)
class JointSeal:
    """Everything that seals one joint."""

    joint: Joint
    side: SidePlan | None
    strips: tuple[Strip, ...]
    beads: tuple[Bead, ...]
    fills: tuple[Fill, ...]
    dams: tuple[Dam, ...]
    gaskets: tuple[Gasket, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class SealType:
    """One way of sealing, shown on its first joint, and every joint sealed that way.

    `length` [m] and the `void` to foam [m³] are those of all its joints together.
    """

    id: str
    example: JointSeal
    joint_ids: tuple[str, ...]
    length: float
    void: float


def joint_seals(register: Register, schedule: SealSchedule) -> tuple[JointSeal, ...]:
    """Return the seal of each joint, by kind from the ground up, then in register order."""
    strips, beads = _by_joint(schedule.strips), _by_joint(schedule.beads)
    fills, dams = _by_joint(schedule.fills), _by_joint(schedule.dams)
    gaskets = _by_joint(schedule.gaskets)
    sides = {side.joint_id: side for side in schedule.sides}
    order = {kind: place for place, kind in enumerate(KINDS)}
    return tuple(
        JointSeal(
            joint=joint,
            side=sides.get(joint.id),
            strips=tuple(strips[joint.id]),
            beads=tuple(beads[joint.id]),
            fills=tuple(fills[joint.id]),
            dams=tuple(dams[joint.id]),
            gaskets=tuple(gaskets[joint.id]),
        )
        for joint in sorted(register.joints, key=lambda j: order[j.kind])
    )


def seal_types(seals: tuple[JointSeal, ...]) -> tuple[SealType, ...]:
    """Return the seal types in the order in which they first occur.

    Joints share a type when kind, spline, face, strips, beads, gaskets and void all agree; their
    lengths and the number of their dams may differ.
    """
    groups: defaultdict[Hashable, list[JointSeal]] = defaultdict(list)
    for seal in seals:
        groups[_likeness(seal)].append(seal)
    return tuple(
        SealType(
            id=f"S{number}",
            example=group[0],
            joint_ids=tuple(seal.joint.id for seal in group),
            length=math.fsum(seal.joint.length for seal in group),
            void=math.fsum(fill.volume for seal in group for fill in seal.fills),
        )
        for number, group in enumerate(groups.values(), start=1)
    )


def _by_joint(seals: tuple[Seal, ...]) -> defaultdict[str, list[Seal]]:
    found: defaultdict[str, list[Seal]] = defaultdict(list)
    for seal in seals:
        found[seal.joint_id].append(seal)
    return found


def _likeness(seal: JointSeal) -> Hashable:
    side = None if seal.side is None else (seal.side.face, seal.side.signed)
    return (
        seal.joint.kind,
        seal.joint.spline,
        side,
        tuple(_strip_likeness(strip) for strip in seal.strips),
        tuple((b.place, b.count, b.diameter, b.stage) for b in seal.beads),
        tuple((round(f.area, _SAME + 1), f.stage) for f in seal.fills),
        tuple((g.place, g.stage) for g in seal.gaskets),
    )


def _strip_likeness(strip: Strip) -> Hashable:
    terms = tuple((t.label, round(t.value, _SAME), t.count) for t in strip.terms)
    manner = (strip.stage, strip.primary, strip.wings_open, strip.fold)
    return (strip.face, terms, strip.stock_id, manner)
