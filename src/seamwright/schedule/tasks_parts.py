"""The parts that are set, one after another, and which of them closes each joint.

The order is a proposal: storey by storey from the ground, each storey from a corner outward, then
timbers, then the roof plane by plane. The erection plan of whoever answers for the structure
outranks it. What is said here is only which of two neighbors stands first, because that decides
which panel closes their joint and what must lie in it before.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Literal, TypeAlias

from seamwright.joints.gather import natural_key
from seamwright.joints.types import Register
from seamwright.shell.types import Member, Panel, Shell

PartKind: TypeAlias = Literal[
    "floor", "wall", "rim", "partition", "roof", "sill", "deck", "ledger", "plate", "timber"
]
ROOF_LEVEL = 1000
"""Level of everything that comes after the last storey's walls."""

INSIDE_LEVEL = 2000
"""Level of what is set under the closed roof."""

_ABOVE = 0.10
"""A panel that starts this much above its neighbor in the same storey goes up after it. [m]
Common practice, no source."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Part:
    """Something that is set in one go: a panel, a timber or a row of like timbers, a deck.

    `level` is (storey number or ROOF_LEVEL, step within it); `members` are the timbers it is made
    of, `plane` the wall or roof plane it belongs to.
    """

    id: str
    kind: PartKind
    level: tuple[int, int]
    storey: str | None
    plane: str
    members: tuple[str, ...] = ()


def parts_in_order(shell: Shell, register: Register, bearing: Iterable[str]) -> tuple[Part, ...]:
    """Return all parts in the order in which they are set.

    `bearing` are ids of inner walls that carry a floor or roof; the others stand under the roof.
    """
    levels = _storey_levels(shell)
    parts = [
        *_panel_parts(shell, register, levels, frozenset(bearing)),
        *_deck_parts(shell, levels),
        *_member_parts(shell, register, levels),
    ]
    rows: dict[tuple[int, int], list[Part]] = defaultdict(list)
    for part in parts:
        rows[part.level].append(part)
    found: list[Part] = []
    for level in sorted(rows):
        row = sorted(rows[level], key=lambda p: (natural_key(p.id), p.id))
        walls = all(part.kind == "wall" for part in row)
        found += _outward(row, shell, register) if walls else row
    return tuple(found)


def _storey_levels(shell: Shell) -> dict[str, int]:
    """Return the number of each storey from the lowest panel up."""
    lowest: dict[str, float] = {}
    for panel in shell.panels:
        if panel.storey is not None and panel.role in {"wall", "floor"}:
            low = _lowest(panel)
            lowest[panel.storey] = min(low, lowest.get(panel.storey, low))
    named = sorted(lowest, key=lambda s: (lowest[s], natural_key(s)))
    return {storey: number for number, storey in enumerate(named)}


def _panel_parts(
    shell: Shell, register: Register, levels: Mapping[str, int], bearing: frozenset[str]
) -> list[Part]:
    on_roof = _planes_on_roof(register, shell)
    late_roofs = _roofs_over(register, shell, on_roof)
    steps = {"floor": 1, "rim": 3, "wall": 5, "partition": 6}
    found = []
    for panel in shell.panels:
        storey = levels.get(panel.storey, 0) if panel.storey is not None else 0
        if panel.role == "roof":
            level = (ROOF_LEVEL, 4 if panel.plane_id in late_roofs else 2)
        elif panel.role == "partition" and panel.id not in bearing:
            level = (INSIDE_LEVEL, 0)
        elif panel.role == "wall" and panel.plane_id in on_roof:
            level = (ROOF_LEVEL, 3)
        else:
            level = (storey, steps[panel.role])
        found.append(
            Part(
                id=panel.id,
                kind=panel.role,
                level=level,
                storey=panel.storey,
                plane=panel.plane_id,
            )
        )
    return found


def _planes_on_roof(register: Register, shell: Shell) -> frozenset[str]:
    """Return wall planes that stand on a roof: they meet one in a step and no floor or sill."""
    plane = {p.id: p.plane_id for p in shell.panels if p.role == "wall"}
    step, footed = set(), set()
    for joint in register.joints:
        planes = {plane[p] for p in joint.panels if p in plane}
        if joint.kind == "roof_step":
            step |= planes
        elif joint.kind in {"sill", "floor_line"}:
            footed |= planes
    return frozenset(step - footed)


def _roofs_over(register: Register, shell: Shell, on_roof: frozenset[str]) -> frozenset[str]:
    """Return roof planes carried by walls that stand on a roof themselves."""
    panels = {p.id: p for p in shell.panels}
    found = set()
    for joint in register.joints:
        met = [panels[p] for p in joint.panels if p in panels]
        if joint.kind in {"eave", "rake"} and any(p.plane_id in on_roof for p in met):
            found |= {p.plane_id for p in met if p.role == "roof"}
    return frozenset(found)


def _deck_parts(shell: Shell, levels: Mapping[str, int]) -> list[Part]:
    """Return the decks laid on the walls below; the lowest bearing is there before."""
    return [
        Part(
            id=support.id,
            kind="deck",
            level=(levels[support.storey], 4),
            storey=support.storey,
            plane=support.id,
        )
        for support in shell.supports
        if support.kind == "deck" and support.storey is not None and levels.get(support.storey, 0)
    ]


def _member_parts(shell: Shell, register: Register, levels: Mapping[str, int]) -> list[Part]:
    storey_of = {p.id: p.storey for p in shell.panels}
    footing: dict[str, str] = {}
    touching: dict[str, list[int]] = defaultdict(list)
    for joint in register.joints:
        floors = [levels.get(storey_of.get(p) or "", 0) for p in joint.panels]
        for other in joint.others:
            touching[other] += floors
            if joint.kind == "sill" and joint.storey is not None:
                footing.setdefault(other, joint.storey)
    rows: dict[str, list[Member]] = defaultdict(list)
    for member in shell.members:
        rows[_row_name(member)].append(member)
    found = []
    for name, members in rows.items():
        first = members[0]
        top = max(touching.get(first.id, [0]), default=0)
        kind: PartKind = "timber"
        level = (ROOF_LEVEL, 1)
        if first.kind == "ledger":
            kind, level = "ledger", (top, 7)
        elif first.kind == "plate" and first.id in footing:
            kind, level = "sill", (levels.get(footing[first.id], 0), 2)
        elif first.kind == "plate":
            kind, level = "plate", (ROOF_LEVEL, 0)
        found.append(
            Part(
                id=name,
                kind=kind,
                level=level,
                storey=footing.get(first.id),
                plane=name,
                members=tuple(m.id for m in members),
            )
        )
    return found


def _row_name(member: Member) -> str:
    """Return the name of the row of like timbers a member belongs to: R1.purlin.2 is R1.purlin."""
    if member.kind in {"purlin", "rafter"}:
        return re.sub(r"[.\-_]?\d+$", "", member.id) or member.id
    return member.id


def _outward(row: list[Part], shell: Shell, register: Register) -> list[Part]:
    """Return walls from a corner outward, each against one that stands where there is one.

    A wall panel above an opening follows the panels beside it.
    """
    panels = {p.id: p for p in shell.panels}
    ids = {part.id for part in row}
    near: dict[str, set[str]] = defaultdict(set)
    corners = set()
    for joint in register.joints:
        met = [p for p in joint.panels if p in ids]
        if len(met) == 2:
            near[met[0]].add(met[1])
            near[met[1]].add(met[0])
            corners |= set(met) if joint.kind == "wall_corner" else set()
    low = {part.id: _lowest(panels[part.id]) for part in row}
    before = {p: {q for q in near[p] if low[q] < low[p] - _ABOVE} for p in ids}
    left = dict.fromkeys(part.id for part in row)
    done: set[str] = set()
    order: list[str] = []
    while left:
        free = [p for p in left if before[p] <= done] or list(left)
        joined = [p for p in free if near[p] & done]
        last_plane = panels[order[-1]].plane_id if order else ""
        pick = next((p for p in joined if panels[p].plane_id == last_plane), None)
        if pick is None:
            pick = next(iter(joined), None)
        if pick is None:
            pick = next((p for p in free if p in corners), free[0])
        order.append(pick)
        done.add(pick)
        del left[pick]
    by_id = {part.id: part for part in row}
    return [by_id[p] for p in order]


def _lowest(panel: Panel) -> float:
    return min(panel.frame.point(uv)[2] for uv in panel.inner)
