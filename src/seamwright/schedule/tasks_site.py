"""The house as the order of work sees it: parts in order, and which of them closes each joint."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from seamwright.joints.gather import natural_key
from seamwright.joints.types import FaceLine, Joint, Node, Register
from seamwright.schedule.tasks_parts import Part, parts_in_order
from seamwright.seals.types import SealSchedule
from seamwright.shell.types import Panel, Penetration, Shell

_CLOSERS = frozenset({"floor", "rim", "wall", "partition", "roof", "deck", "ledger"})


@dataclass(frozen=True, kw_only=True, slots=True)
class Site:
    """A shell, its joints and seals with the look-ups that every rule needs.

    `order` numbers the parts as they are set; `meets` gives the parts of each joint in that order,
    the last of which closes it; `row_of` leads from a timber to the part it is set with.
    """

    shell: Shell
    register: Register
    schedule: SealSchedule
    parts: tuple[Part, ...]
    by_id: Mapping[str, Part]
    order: Mapping[str, int]
    joints: Mapping[str, Joint]
    nodes: Mapping[str, Node]
    panels: Mapping[str, Panel]
    services: Mapping[str, Penetration]
    row_of: Mapping[str, str]
    meets: Mapping[str, tuple[str, ...]]
    storeys: tuple[str, ...]

    def closer(self, joint_id: str) -> str | None:
        """Return the part that closes a joint, None where no part of the shell meets there."""
        met = self.meets.get(joint_id, ())
        return met[-1] if met else None

    def planes(self, joint: Joint, roles: Iterable[str]) -> tuple[str, ...]:
        """Return the planes of a joint's panels of some roles, in natural order."""
        wanted = frozenset(roles)
        found = {
            self.panels[p].plane_id
            for p in joint.panels
            if p in self.panels and self.panels[p].role in wanted
        }
        return tuple(sorted(found, key=lambda name: (natural_key(name), name)))

    def storey(self, joint: Joint) -> str:
        """Return the storey a joint is worked on from; the lowest where it has none."""
        if joint.storey is not None:
            return joint.storey
        found = (self.panels[p].storey for p in joint.panels if p in self.panels)
        named = next((storey for storey in found if storey is not None), None)
        return named if named is not None else self.storeys[0]

    def is_roof(self, joint: Joint) -> bool:
        """Return whether all panels of a joint are roof panels."""
        return bool(joint.panels) and all(
            self.panels[p].role == "roof" for p in joint.panels if p in self.panels
        )

    def is_ledger(self, joint: Joint) -> bool:
        """Return whether a joint is closed by a ledger."""
        closer = self.closer(joint.id)
        return closer is not None and self.by_id[closer].kind == "ledger"

    def sill(self, joint: Joint) -> str | None:
        """Return the sill plate under a joint, None where the panel stands on the bearing."""
        rows = (self.row_of[i] for i in joint.others if i in self.row_of)
        return next((row for row in rows if self.by_id[row].kind == "sill"), None)

    def opening(self, joint: Joint) -> str | None:
        """Return the opening a joint runs around, None elsewhere."""
        if joint.kind != "opening":
            return None
        known = {opening.id for opening in self.shell.openings}
        named = [i for i in joint.others if i in known] or list(joint.others)
        return named[0] if named else joint.id

    def rows(self, line: FaceLine) -> tuple[str, ...]:
        """Return the rows of timbers that lie along or across a line and stand before panels."""
        found = {self.row_of[i] for i in (*line.timbers, *line.crossings) if i in self.row_of}
        before = [row for row in found if self.by_id[row].kind in {"timber", "plate"}]
        return tuple(sorted(before, key=lambda row: self.order[row]))


def survey(
    shell: Shell, register: Register, schedule: SealSchedule, bearing: Iterable[str]
) -> Site:
    """Return the site of a shell. `bearing` are inner walls that carry a floor or roof."""
    parts = parts_in_order(shell, register, bearing)
    order = {part.id: number for number, part in enumerate(parts)}
    by_id = {part.id: part for part in parts}
    row_of = {member: part.id for part in parts for member in part.members}
    named = dict.fromkeys(
        part.storey for part in parts if part.kind in {"floor", "wall"} and part.storey is not None
    )
    return Site(
        shell=shell,
        register=register,
        schedule=schedule,
        parts=parts,
        by_id=by_id,
        order=order,
        joints={joint.id: joint for joint in register.joints},
        nodes={node.id: node for node in register.nodes},
        panels={panel.id: panel for panel in shell.panels},
        services={service.id: service for service in shell.penetrations},
        row_of=row_of,
        meets={j.id: _meeting(j, by_id, order, row_of) for j in register.joints},
        storeys=tuple(named) if named else ("house",),
    )


def _meeting(
    joint: Joint,
    by_id: Mapping[str, Part],
    order: Mapping[str, int],
    row_of: Mapping[str, str],
) -> tuple[str, ...]:
    names = {row_of.get(i, i) for i in (*joint.panels, *joint.others)}
    met = [name for name in names if name in by_id and by_id[name].kind in _CLOSERS]
    return tuple(sorted(met, key=lambda name: order[name]))
