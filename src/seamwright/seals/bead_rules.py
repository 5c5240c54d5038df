"""Beads of a joint, by its kind, its spline and what it stands on."""

from __future__ import annotations

from collections.abc import Iterable

from seamwright.joints.types import Joint
from seamwright.seals.facts import SEAM_KINDS, Facts, finding
from seamwright.seals.tables import MOST_BEADS
from seamwright.seals.types import Bead, BeadRule, Finding, Gasket

_RIDGES = frozenset({"ridge", "hip", "valley"})
_CONCRETE = frozenset({"slab", "stem_wall"})


def plan_beads(facts: Facts, joint: Joint) -> tuple[tuple[Bead, ...], tuple[Finding, ...]]:
    """Return the beads of a joint; a joint no rule speaks of is a finding, not a guess.

    A rule that says zero beads settles the matter (a flue); beads run the joint's whole length.
    """
    rules = rules_for(facts.catalog.beads, joint, stands_on(facts, joint))
    if not rules:
        return (), (_no_rule(joint),)
    beads = tuple(
        Bead(
            joint_id=joint.id,
            place=rule.place,
            count=rule.count,
            diameter=rule.diameter,
            length=joint.length,
            stage=rule.stage,
            source=rule.source,
        )
        for rule in rules
        if rule.count > 0
    )
    return beads, ()


def rules_for(rules: Iterable[BeadRule], joint: Joint, on: str | None) -> list[BeadRule]:
    """Return the rules that fit a joint: the same kind, and the same or any spline and footing."""
    return [
        rule
        for rule in rules
        if rule.kind == joint.kind
        and rule.spline in {None, joint.spline}
        and (rule.on is None or rule.on == on)
    ]


def stands_on(facts: Facts, joint: Joint) -> str | None:
    """Return what a bead rule may ask for under `on` (see `BeadRule`)."""
    if joint.kind == "penetration":
        service = facts.service(joint)
        return None if service is None else service.kind
    if joint.kind in _RIDGES:
        return "timber" if joint.inner.timbers else "bare"
    if joint.kind == "sill":
        kinds = {facts.supports[i].kind for i in joint.others if i in facts.supports}
        return "concrete" if kinds & _CONCRETE else "deck"
    if joint.kind == "floor_line":
        return "ledger" if facts.is_ledger(joint) else "plate"
    return None


def plan_gaskets(facts: Facts, joint: Joint) -> tuple[Gasket, ...]:
    """Return the gasket under a sill on concrete: it seals and keeps water from rising."""
    if joint.kind != "sill" or stands_on(facts, joint) != "concrete":
        return ()
    return (
        Gasket(
            joint_id=joint.id,
            place="between concrete and sill",
            length=joint.length,
            stage="before_setting",
        ),
    )


def bead_findings(facts: Facts, beads: Iterable[Bead]) -> tuple[Finding, ...]:
    """Return one finding per kind of bead without a diameter, and per kind with too many beads."""
    kinds = {joint.id: joint.kind for joint in facts.joints}
    sizeless: dict[str, int] = {}
    counts: dict[str, int] = {}
    for bead in beads:
        counts[bead.joint_id] = counts.get(bead.joint_id, 0) + bead.count
        if bead.diameter is None:
            kind = kinds[bead.joint_id]
            sizeless[kind] = sizeless.get(kind, 0) + 1
    crowded = {
        kinds[joint_id]
        for joint_id, count in counts.items()
        if count > MOST_BEADS.get(kinds[joint_id], MOST_BEADS["*"])
    }
    return tuple(
        [
            finding(
                "bead-size",
                "attention",
                kind,
                f"Beads at joints of kind {kind} have no diameter ({sizeless[kind]} entries), so "
                "their sealant is not counted.",
                "Give the diameter in the catalog from the panel supplier's detail.",
            )
            for kind in sorted(sizeless)
        ]
        + [
            finding(
                "bead-count",
                "note",
                kind,
                f"The catalog lays more beads at joints of kind {kind} than the published upper "
                "end of six (eight at the ridge).",
                "Check the count against the approved detail.",
            )
            for kind in sorted(crowded)
        ]
    )


def _no_rule(joint: Joint) -> Finding:
    if joint.kind in SEAM_KINDS and joint.spline is None:
        return finding(
            "bead-rule",
            "attention",
            joint.id,
            "The spline of this seam is not known, so its beads are not counted.",
            "Give the spline of the panel type in the plan.",
        )
    spline = "" if joint.spline is None else f" with a {joint.spline} spline"
    return finding(
        "bead-rule",
        "attention",
        joint.id,
        f"The catalog has no bead rule for a joint of kind {joint.kind}{spline}.",
        "Add a rule to the catalog from the panel supplier's detail.",
    )
