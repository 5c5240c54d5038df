"""The seal schedule: every seal of the house, and everything the lead must look at."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from seamwright.joints.types import Joint, Register, Section
from seamwright.seals.bead_rules import bead_findings, plan_beads, plan_gaskets
from seamwright.seals.faces import plan_sides
from seamwright.seals.facts import Facts, finding, gather, plain, primary_faces
from seamwright.seals.nodes import node_findings, plan_patches
from seamwright.seals.strips import plan_strips
from seamwright.seals.types import (
    Bead,
    Catalog,
    Dam,
    Fill,
    Finding,
    Gasket,
    SealSchedule,
    SidePlan,
    Strip,
)
from seamwright.seals.voids import plan_dams, plan_fills
from seamwright.shell.plan import Decision, Override
from seamwright.shell.types import Shell

_WEIGHT = {"stop": 0, "attention": 1, "note": 2}


def plan_seals(
    shell: Shell,
    register: Register,
    sections: Mapping[str, Section],
    *,
    catalog: Catalog,
    decisions: Sequence[Decision],
    overrides: Sequence[Override],
    climate_zone: str | None,
    zone_edition: str | None,
) -> SealSchedule:
    """Return every seal of a house and what is open about it.

    Parameters
    ----------
    shell, register
        The house and its joints.
    sections
        A section per joint id; a joint without one gets a finding, unless its span is given.
    catalog
        Strips, sealants, bead rules and laps.
    decisions
        What the designer has signed about faces.
    overrides
        Corrections by joint id; an ignored joint gets no seal.
    climate_zone, zone_edition
        For proposing faces that nobody has signed; None proposes the inner face.

    Returns
    -------
    Records in the order of joint ids, whatever the order of panels and joints; findings by weight,
    then id. Every joint that is not ignored has a seal or a finding.
    """
    facts = gather(
        shell, register, sections, catalog=catalog, decisions=decisions, overrides=overrides
    )
    side_list, findings = plan_sides(facts, climate_zone, zone_edition)
    sides = {side.joint_id: side for side in side_list}
    gathered = _Gathered()
    for joint in facts.joints:
        gathered.add(facts, joint, sides[joint.id])
    findings += tuple(gathered.findings)
    findings += bead_findings(facts, gathered.beads)
    findings += node_findings(facts, sides)
    findings += _register_findings(facts, sides, overrides)
    return SealSchedule(
        sides=side_list,
        strips=tuple(gathered.strips),
        beads=tuple(gathered.beads),
        fills=tuple(gathered.fills),
        dams=tuple(gathered.dams),
        gaskets=tuple(gathered.gaskets),
        patches=plan_patches(facts, sides, gathered.strips),
        findings=tuple(sorted(findings, key=lambda f: (_WEIGHT[f.severity], f.id))),
    )


class _Gathered:
    """The seals found so far, joint by joint."""

    def __init__(self) -> None:
        self.strips: list[Strip] = []
        self.beads: list[Bead] = []
        self.fills: list[Fill] = []
        self.dams: list[Dam] = []
        self.gaskets: list[Gasket] = []
        self.findings: list[Finding] = []

    def add(self, facts: Facts, joint: Joint, side: SidePlan) -> None:
        """Add everything that seals one joint."""
        strips, about_strips = plan_strips(facts, joint, side)
        beads, about_beads = plan_beads(facts, joint)
        self.strips += strips
        self.beads += beads
        self.fills += plan_fills(facts, joint)
        self.dams += plan_dams(facts, joint)
        self.gaskets += plan_gaskets(facts, joint)
        self.findings += [*about_strips, *about_beads, *_about_service(facts, joint)]
        if not strips and not beads and not about_strips and not about_beads:
            self.findings += _unsealed(facts, joint)


def _about_service(facts: Facts, joint: Joint) -> list[Finding]:
    service = facts.service(joint)
    if service is None or service.kind != "flue":
        return []
    return [
        finding(
            "flue",
            "stop",
            joint.id,
            f"Flue {plain(service.id)}: no foam, strip or sealant of this schedule may touch it.",
            "Cut the panel back and line the hole as the listed instructions of the flue and the "
            "building code say; close it with the listed plate and have the inspector see it.",
        )
    ]


def _unsealed(facts: Facts, joint: Joint) -> list[Finding]:
    service = facts.service(joint)
    if service is not None and service.kind == "flue":
        return []
    return [
        finding(
            "unsealed",
            "stop",
            joint.id,
            f"This joint of kind {joint.kind.replace('_', ' ')} has no seal.",
            "Add a bead rule for its kind to the catalog, or ignore it under overrides with the "
            "reason.",
        )
    ]


def _register_findings(
    facts: Facts, sides: Mapping[str, SidePlan], overrides: Sequence[Override]
) -> tuple[Finding, ...]:
    """Return the breaks of the line and the corrections that found no joint."""
    sealed = {
        (panel, face)
        for joint in facts.joints
        for face in primary_faces(joint, sides[joint.id])
        for panel in joint.panels
    }
    found = []
    for number, gap in enumerate(facts.register.breaks, start=1):
        primary = (gap.panel_id, gap.face) in sealed
        found.append(
            finding(
                f"break-{number}",
                "attention" if primary else "note",
                gap.panel_id,
                f"The {gap.face} line does not close over {{length}} at panel "
                f"{plain(gap.panel_id)}: {plain(gap.reason)}.",
                plain(gap.remedy),
                length=gap.line.length,
            )
        )
    known = {joint.id for joint in facts.register.joints}
    gone = {o.joint for o in overrides} - known | set(facts.register.lost_overrides)
    found += [
        finding(
            "lost-override",
            "attention",
            joint_id,
            f"A correction names joint {plain(joint_id)}, which is no longer there.",
            "Give it the id of the joint it is meant for, or take it out of the plan.",
        )
        for joint_id in sorted(gone)
    ]
    return tuple(found)
