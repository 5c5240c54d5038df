"""Heat through the joints of a house: joints that conduct alike gathered, one figure for each type.

Steady conduction through the bare panels, for the designer's energy balance and for cold spots. It
is no verdict on dryness: air that leaks through a joint governs that.
"""

from __future__ import annotations

import math
from collections.abc import Hashable, Sequence
from dataclasses import dataclass

from seamwright.joints.types import Joint, Register, Section
from seamwright.moisture.layers import RSI, u_value
from seamwright.moisture.steady import joint_heat
from seamwright.moisture.types import JointHeat, PlainSection
from seamwright.report.section_grid import LEFT_OUT, Cutter, cutter_of, plain_section
from seamwright.report.section_runs import panel_layers
from seamwright.report.types import Quantity, Table
from seamwright.report.words import KINDS
from seamwright.shell.types import Build, Shell

LIMITS = (
    "Steady conduction is not the verdict on whether a joint stays dry: air that leaks governs it.",
    "The panels are bare: no cladding, roofing, lining, strips, screws or services.",
    "Materials are assumed from the panel type; bring the data sheets of your own.",
    "Below a slab the ground is left out, and the slab's rim counts as not insulated.",
    "Windows, doors, pipes and flues are not computed.",
    "A proposal for the building's designer, who answers for it.",
)
"""What must stand beside the figures."""

_TRIES = 3


@dataclass(frozen=True, kw_only=True, slots=True)
class HeatType:
    """Joints that conduct alike, told by one of them.

    `length` is that of all of them. [m]
    """

    name: str
    title: str
    joint: Joint
    joint_ids: tuple[str, ...]
    length: float
    plain: PlainSection
    section: Section
    heat: JointHeat


@dataclass(frozen=True, kw_only=True, slots=True)
class PanelHeat:
    """The U-value of one panel type by the way the heat goes. [W/(m²·K)]"""

    build: Build
    level: float
    up: float
    down: float


def panel_heats(shell: Shell) -> tuple[PanelHeat, ...]:
    """Return the U-values of the bare panel types that stand in the shell. Source: ISO 6946."""
    used = {p.build_id for p in shell.panels if p.role != "partition"}
    return tuple(
        PanelHeat(
            build=build,
            level=u_value(panel_layers(build), RSI["level"]),
            up=u_value(panel_layers(build), RSI["up"]),
            down=u_value(panel_layers(build), RSI["down"]),
        )
        for build in shell.builds
        if build.id in used
    )


def heat_types(shell: Shell, register: Register, *, foamed: bool = True) -> tuple[HeatType, ...]:
    """Return what steady conduction says of each type of joint, from the ground up.

    Joints are of one type when kind, spline, panel types, angle to 1°, steps, timbers and bearings
    agree. The longest is cut; where another joint lies close to it, one of the next. Windows,
    doors, pipes and flues are left out.
    """
    cutter = cutter_of(shell, register, foamed=foamed)
    groups: dict[Hashable, list[Joint]] = {}
    for joint in register.joints:
        if joint.kind not in LEFT_OUT and bounds_room(shell, joint):
            groups.setdefault(likeness(shell, joint), []).append(joint)
    order = {kind: place for place, kind in enumerate(KINDS)}
    ordered = sorted(groups.items(), key=lambda item: (order[item[1][0].kind], repr(item[0])))
    found: list[HeatType] = []
    for _, joints in ordered:
        joints.sort(key=lambda j: (-j.length, j.id))
        joint, plain, section = _best_cut(cutter, joints)
        if not {"inside", "outside"} <= {e.side for e in plain.exposures}:
            continue
        found.append(
            HeatType(
                name=f"H{len(found) + 1}",
                title=title_of(joint),
                joint=joint,
                joint_ids=tuple(j.id for j in joints),
                length=math.fsum(j.length for j in joints),
                plain=plain,
                section=section,
                heat=joint_heat(plain),
            )
        )
    return tuple(found)


def panel_table(panels: Sequence[PanelHeat]) -> Table:
    """Return the U-values as a table."""
    return Table(
        caption="Panels: U-value of the bare panel [W/(m²·K)], ISO 6946",
        columns=("panel type", "thick", "core", "wall", "roof", "floor"),
        widths=(2.0, 1.0, 1.0, 1.0, 1.0, 1.0),
        right=(1, 3, 4, 5),
        rows=tuple(
            (
                panel.build.id,
                Quantity(value=panel.build.thickness, dimension="width"),
                panel.build.core_material,
                f"{panel.level:.3f}",
                f"{panel.up:.3f}",
                f"{panel.down:.3f}",
            )
            for panel in panels
        ),
    )


def joint_table(types: Sequence[HeatType], *, least: float | None = None) -> Table:
    """Return the joint types as a table; `least` is the temperature factor that is asked for."""
    return Table(
        caption="Joints: heat and coldest inner surface, steady conduction, ISO 10211",
        columns=("type", "joint", "drawn", "count", "length", "psi W/(m·K)", "fRsi", "remark"),
        widths=(0.6, 2.0, 1.4, 0.7, 1.0, 1.2, 0.8, 3.0),
        right=(3, 4, 5, 6),
        rows=tuple(
            (
                one.name,
                one.title,
                one.joint.id,
                str(len(one.joint_ids)),
                Quantity(value=one.length, dimension="length"),
                f"{one.heat.psi:+.3f}",
                f"{one.heat.factor:.2f}",
                remark(one, least),
            )
            for one in types
        ),
    )


def remark(one: HeatType, least: float | None = None) -> str:
    """Return what must be said beside a type's figures, as sentences."""
    said = list(one.plain.notes)
    if least is not None and one.heat.factor < least:
        said.insert(0, f"COLD: below {least:.2f}")
    if not one.heat.converged:
        said.insert(0, f"NOT CONVERGED: {one.heat.advice}")
    return "; ".join(said)


def is_bad(one: HeatType, least: float | None) -> bool:
    """Return whether a type needs attention: too cold, or not converged."""
    return not one.heat.converged or (least is not None and one.heat.factor < least)


def bounds_room(shell: Shell, joint: Joint) -> bool:
    """Return whether a joint has a panel that stands between a room and the outdoors."""
    roles = [p.role for p in shell.panels if p.id in joint.panels]
    return any(role != "partition" for role in roles)


def likeness(shell: Shell, joint: Joint) -> Hashable:
    """Return what joints of one type have in common, see `heat_types`."""
    builds = {p.id: p.build_id for p in shell.panels}
    members = {m.id: m.kind for m in shell.members}
    supports = {s.id: s.kind for s in shell.supports}
    return (
        joint.kind,
        joint.spline,
        tuple(sorted(builds[p] for p in joint.panels)),
        joint.contact,
        round(math.degrees(joint.dihedral)),
        round(joint.inner.offset, 3),
        round(joint.outer.offset, 3),
        tuple(sorted({members[t] for t in joint.inner.timbers if t in members})),
        tuple(sorted({supports.get(o, members.get(o, "")) for o in joint.others})),
    )


def _best_cut(cutter: Cutter, joints: Sequence[Joint]) -> tuple[Joint, PlainSection, Section]:
    """Return the first of the longest joints that no other joint comes close to."""
    first = None
    for joint in joints[:_TRIES]:
        plain, section = plain_section(cutter, joint)
        if first is None:
            first = (joint, plain, section)
        if not any("another joint" in note for note in plain.notes):
            return joint, plain, section
    assert first is not None
    return first


def title_of(joint: Joint) -> str:
    """Return a joint type in words: kind, spline, which corner, angle."""
    words = [KINDS[joint.kind]]
    if joint.spline is not None:
        words.append(joint.spline.replace("_", "-"))
    if joint.kind == "wall_corner":
        words.append("outside" if joint.outside_corner else "inside")
    if joint.kind in {"ridge", "hip", "valley", "eave"}:
        words.append(f"{math.degrees(joint.dihedral):.0f}°")
    return ", ".join(words)
