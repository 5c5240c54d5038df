"""What every rule needs to know: the house, its register, sections, catalog and corrections."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from seamwright.joints.types import FaceLine, FaceName, Joint, Node, Register, Section, SkinPath
from seamwright.seals.types import Catalog, Finding, Sentence, Severity, SidePlan
from seamwright.shell.plan import Decision, Override
from seamwright.shell.types import Build, Member, Panel, Penetration, Shell, Support

SEAM_KINDS = frozenset({"wall_spline", "roof_spline", "floor_spline", "end_joint"})
"""Joints between two panels in one plane, with a spline."""

ROOF_KINDS = frozenset({"roof_spline", "ridge", "hip", "valley", "eave", "rake", "roof_step"})
"""Joints of the roof, worked from ladders or staging."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Facts:
    """The inputs of the schedule with their look-ups. `joints` leaves out the ignored ones."""

    shell: Shell
    register: Register
    joints: tuple[Joint, ...]
    by_id: Mapping[str, Joint]
    nodes_of: Mapping[str, tuple[Node, ...]]
    sections: Mapping[str, Section]
    catalog: Catalog
    decisions: tuple[Decision, ...]
    overrides: Mapping[str, Override]
    panels: Mapping[str, Panel]
    builds: Mapping[str, Build]
    members: Mapping[str, Member]
    supports: Mapping[str, Support]
    penetrations: Mapping[str, Penetration]

    def path(self, joint: Joint, face: FaceName) -> SkinPath | None:
        """Return the strip's way on one face, None without a section or a line there."""
        section = self.sections.get(joint.id)
        if section is None:
            return None
        return section.inner if face == "inner" else section.outer

    def is_roof(self, joint: Joint) -> bool:
        """Return whether the joint is worked on in the roof."""
        if joint.kind in ROOF_KINDS:
            return True
        return any(self.panels[p].role == "roof" for p in joint.panels if p in self.panels)

    def is_ledger(self, joint: Joint) -> bool:
        """Return whether the joint is a ledger on the face of a wall that runs by."""
        return joint.contact == "edge_support" and any(
            self.members[i].kind == "ledger" for i in joint.others if i in self.members
        )

    def is_under_deck(self, joint: Joint) -> bool:
        """Return whether the joint is a rim's with the deck on it, and a wall stands on that deck.

        The wall's strip covers both lines.
        """
        if joint.kind != "floor_line" or joint.contact != "edge_support":
            return False
        if any(self.panels[p].role != "rim" for p in joint.panels if p in self.panels):
            return False
        return any(
            other.kind == "floor_line"
            and other.contact == "edge_support"
            and set(other.others) & set(joint.others)
            and any(self.panels[p].role == "wall" for p in other.panels if p in self.panels)
            for other in self.joints
        )

    def bearing_timbers(self, ids: Sequence[str]) -> tuple[Member, ...]:
        """Return the timbers that stand before the panels they carry; a ledger comes after."""
        found = [self.members[i] for i in ids if i in self.members]
        return tuple(member for member in found if member.kind != "ledger")

    def service(self, joint: Joint) -> Penetration | None:
        """Return the pipe, duct or box of a penetration joint."""
        return next((self.penetrations[i] for i in joint.others if i in self.penetrations), None)


def gather(
    shell: Shell,
    register: Register,
    sections: Mapping[str, Section],
    *,
    catalog: Catalog,
    decisions: Sequence[Decision],
    overrides: Sequence[Override],
) -> Facts:
    """Return the facts, joints in the order of their ids and without the ignored ones."""
    by_joint = {override.joint: override for override in overrides}
    nodes_of: dict[str, tuple[Node, ...]] = {}
    for node in register.nodes:
        for joint_id in node.joints:
            nodes_of[joint_id] = (*nodes_of.get(joint_id, ()), node)
    ignored = {key for key, override in by_joint.items() if override.ignore}
    joints = sorted((j for j in register.joints if j.id not in ignored), key=lambda j: j.id)
    return Facts(
        shell=shell,
        register=register,
        joints=tuple(joints),
        by_id={joint.id: joint for joint in joints},
        nodes_of=nodes_of,
        sections=sections,
        catalog=catalog,
        decisions=tuple(decisions),
        overrides=by_joint,
        panels={panel.id: panel for panel in shell.panels},
        builds={build.id: build for build in shell.builds},
        members={member.id: member for member in shell.members},
        supports={support.id: support for support in shell.supports},
        penetrations={service.id: service for service in shell.penetrations},
    )


def line_of(joint: Joint, face: FaceName) -> FaceLine:
    """Return the record of one face of a joint."""
    return joint.inner if face == "inner" else joint.outer


def primary_faces(joint: Joint, side: SidePlan) -> tuple[FaceName, ...]:
    """Return the faces that carry the primary seal, of those that the joint has.

    A line that a joint does not have (the outer side of a tee) needs no strip: the skin runs by.
    """
    wanted: tuple[FaceName, ...] = ("inner", "outer") if side.face == "both" else (side.face,)
    return tuple(face for face in wanted if line_of(joint, face).line is not None)


def plain(words: str) -> str:
    """Return the user's own words with braces made round, so that they are no placeholders."""
    return words.replace("{", "(").replace("}", ")")


def finding(
    code: str,
    severity: Severity,
    subject: str,
    text: str,
    way_out: str,
    **lengths: float,
) -> Finding:
    """Return a finding; its id joins what it is about and whom it concerns.

    `lengths` fill the ``{name}`` placeholders of both sentences. [m]
    """

    def sentence(words: str) -> Sentence:
        used = {name: value for name, value in lengths.items() if f"{{{name}}}" in words}
        return Sentence(text=words, lengths=used)

    return Finding(
        id=f"{code}:{subject}",
        severity=severity,
        subject=subject,
        sentence=sentence(text),
        way_out=sentence(way_out),
    )
