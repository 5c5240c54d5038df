"""What changed between two states of one house: joints, nodes, seals and the order."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TypeAlias

from seamwright.joints.types import Joint, Node
from seamwright.report.house import SealedHouse
from seamwright.report.seal_types import JointSeal, joint_seals
from seamwright.report.words import KINDS

NEAR = 0.001
"""Ends nearer than this count as unmoved, lengths as unchanged. Our own choice. [m]"""

Value: TypeAlias = str | float | None


@dataclass(frozen=True, kw_only=True, slots=True)
class Change:
    """One property that changed; a `name` that ends in ``_m`` is a length. [m]"""

    name: str
    before: Value
    after: Value


@dataclass(frozen=True, kw_only=True, slots=True)
class JointChange:
    """A joint that is in both states and differs."""

    joint: Joint
    changes: tuple[Change, ...]

    @property
    def touches_seal(self) -> bool:
        """Return whether what was sealed before is no longer what the schedule asks for."""
        return any(change.name in _SEAL for change in self.changes)


@dataclass(frozen=True, kw_only=True, slots=True)
class OrderChange:
    """An order line whose packs or amounts differ; amounts in `unit`, 0 where there is no line."""

    item: str
    description: str
    unit: str
    amount_before: float
    amount_after: float
    packs_before: int
    packs_after: int


@dataclass(frozen=True, kw_only=True, slots=True)
class HouseChanges:
    """Everything that differs; ids survive a change of the plan where their parts do."""

    joints_came: tuple[Joint, ...]
    joints_went: tuple[Joint, ...]
    joints_changed: tuple[JointChange, ...]
    nodes_came: tuple[Node, ...]
    nodes_went: tuple[Node, ...]
    order: tuple[OrderChange, ...]

    @property
    def is_empty(self) -> bool:
        """Return whether both states are alike."""
        parts = (self.joints_came, self.joints_went, self.joints_changed, self.nodes_came)
        return not any((*parts, self.nodes_went, self.order))


def compare_houses(before: SealedHouse, after: SealedHouse) -> HouseChanges:
    """Return what came, went and changed from one state of a house to the next."""
    old, new = _seals(before), _seals(after)
    old_nodes = {node.id: node for node in before.register.nodes}
    new_nodes = {node.id: node for node in after.register.nodes}
    changed = [
        JointChange(joint=new[key].joint, changes=changes)
        for key in new
        if key in old and (changes := _changes(old[key], new[key]))
    ]
    return HouseChanges(
        joints_came=tuple(new[key].joint for key in new if key not in old),
        joints_went=tuple(old[key].joint for key in old if key not in new),
        joints_changed=tuple(changed),
        nodes_came=tuple(node for key, node in new_nodes.items() if key not in old_nodes),
        nodes_went=tuple(node for key, node in old_nodes.items() if key not in new_nodes),
        order=_order_changes(before, after),
    )


_SEAL = frozenset({"face", "strips", "beads", "stage", "kind"})


_NOTED: Mapping[str, float] = {"m": NEAR, "m3": 1e-6, "piece": 0.5}
"""A change of an amount that is worth a line: 1 mm, 1 ml, one piece. Our own choice."""


def _seals(house: SealedHouse) -> Mapping[str, JointSeal]:
    order = {kind: place for place, kind in enumerate(KINDS)}
    seals = joint_seals(house.register, house.schedule)
    return {
        seal.joint.id: seal
        for seal in sorted(seals, key=lambda s: (order[s.joint.kind], s.joint.id))
    }


def _changes(old: JointSeal, new: JointSeal) -> tuple[Change, ...]:
    pairs: list[tuple[str, Value, Value]] = [
        (name, was, now)
        for (name, was), (_, now) in zip(_facts(old), _facts(new), strict=True)
        if not _alike(was, now)
    ]
    moved = max(
        math.dist(old.joint.line.start, new.joint.line.start),
        math.dist(old.joint.line.end, new.joint.line.end),
    )
    if moved > NEAR:
        pairs.append(("moved_m", 0.0, moved))
    return tuple(Change(name=name, before=was, after=now) for name, was, now in pairs)


def _alike(was: Value, now: Value) -> bool:
    if isinstance(was, float) and isinstance(now, float):
        return abs(was - now) <= NEAR
    return was == now


def _facts(seal: JointSeal) -> tuple[tuple[str, Value], ...]:
    """Return the properties of a joint and its seal that are compared, in the order told."""
    side = seal.side
    strips = sorted(
        f"{strip.stock_id if strip.stock_id is not None else 'no stock'} {strip.face}"
        for strip in seal.strips
    )
    beads = sorted(f"{bead.count} {bead.place}" for bead in seal.beads)
    primary = sorted(strip.stage for strip in seal.strips if strip.primary)
    return (
        ("kind", seal.joint.kind),
        ("length_m", seal.joint.length),
        ("face", None if side is None else side.face),
        ("signed_by", None if side is None or not side.signed else side.by),
        ("strips", ", ".join(strips)),
        ("beads", ", ".join(beads)),
        ("stage", ", ".join(dict.fromkeys(primary))),
    )


def _order_changes(before: SealedHouse, after: SealedHouse) -> tuple[OrderChange, ...]:
    old = {line.item: line for line in before.order.lines}
    new = {line.item: line for line in after.order.lines}
    found = []
    for item in dict.fromkeys([*new, *old]):
        was, now = old.get(item), new.get(item)
        known = now if now is not None else old[item]
        change = OrderChange(
            item=item,
            description=known.description,
            unit=known.unit,
            amount_before=0.0 if was is None else was.amount,
            amount_after=0.0 if now is None else now.amount,
            packs_before=0 if was is None else was.packs,
            packs_after=0 if now is None else now.packs,
        )
        shift = abs(change.amount_before - change.amount_after)
        if change.packs_before != change.packs_after or shift > _NOTED[known.unit]:
            found.append(change)
    return tuple(found)
