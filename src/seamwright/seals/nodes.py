"""Nodes: the patch each needs, and whether the primary seal passes through it on one face."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from seamwright.joints.types import FaceName, Joint, Node
from seamwright.seals.facts import Facts, finding, primary_faces
from seamwright.seals.types import Finding, NodePatch, SidePlan, Stage, Strip

_THREE_PLANES = frozenset({"wall_corner", "hip", "valley", "roof_step"})
_STRETCHED = frozenset({"opening", "penetration"})


def plan_patches(
    facts: Facts, sides: Mapping[str, SidePlan], strips: Sequence[Strip]
) -> tuple[NodePatch, ...]:
    """Return the patch of every node where two or more joints meet, one per face that is sealed.

    The face is that of most of its joints. A corner of three planes takes liquid flashing or a
    preformed boot, the corner of an opening a stretched piece, any other node a folded one (common
    practice, no source).
    """
    by_joint: dict[str, list[Strip]] = {}
    for strip in strips:
        by_joint.setdefault(strip.joint_id, []).append(strip)
    patches: list[NodePatch] = []
    for node in facts.register.nodes:
        joints = joints_at(facts, node)
        if len(joints) < 2:
            continue
        patches += [
            NodePatch(
                node_id=node.id,
                kind=node.kind,
                face=face,
                side=facts.catalog.laps.node_patch,
                how=_manner(joints),
                stage=_stage(facts, joints, face, by_joint),
            )
            for face in _faces(joints, sides)
        ]
    return tuple(patches)


def node_findings(facts: Facts, sides: Mapping[str, SidePlan]) -> tuple[Finding, ...]:
    """Return one finding per node where the primary seal changes from one face to the other."""
    found = []
    for node in facts.register.nodes:
        change = _change(joints_at(facts, node), sides)
        if change is None:
            continue
        inner, outer = change
        found.append(
            finding(
                "crossing",
                "attention",
                node.id,
                f"The primary seal changes face here: inner on {inner}, outer on {outer}; the line "
                "must cross through the joint.",
                "Carry it through with a bead and a dam across the full thickness, or have the "
                "designer sign both faces on one of them.",
            )
        )
    return tuple(found)


def _change(joints: list[Joint], sides: Mapping[str, SidePlan]) -> tuple[str, str] | None:
    """Return the kinds sealed on the inner and on the outer face alone; None without both, or
    where a joint of the node is sealed on both faces and so carries the line across.
    """
    alone: dict[FaceName, set[str]] = {"inner": set(), "outer": set()}
    for joint in joints:
        faces = primary_faces(joint, sides[joint.id])
        if len(faces) == 2:
            return None
        if len(faces) == 1:
            alone[faces[0]].add(joint.kind.replace("_", " "))
    if not alone["inner"] or not alone["outer"]:
        return None
    return ", ".join(sorted(alone["inner"])), ", ".join(sorted(alone["outer"]))


def joints_at(facts: Facts, node: Node) -> list[Joint]:
    """Return the joints of a node that are not ignored, in the order of their ids."""
    return [facts.by_id[i] for i in sorted(set(node.joints)) if i in facts.by_id]


def _faces(joints: list[Joint], sides: Mapping[str, SidePlan]) -> list[FaceName]:
    """Return the face of most joints, or both where a joint is sealed on both."""
    votes = [primary_faces(joint, sides[joint.id]) for joint in joints]
    if any(len(faces) == 2 for faces in votes):
        return ["inner", "outer"]
    inner, outer = votes.count(("inner",)), votes.count(("outer",))
    if inner + outer == 0:
        return []
    return ["inner"] if inner >= outer else ["outer"]


def _manner(joints: list[Joint]) -> str:
    kinds = {joint.kind for joint in joints}
    if kinds & _STRETCHED:
        return "stretched piece"
    if kinds & _THREE_PLANES or {"eave", "rake"} <= kinds or {"ridge", "rake"} <= kinds:
        return "liquid flashing or boot"
    return "folded patch"


def _stage(
    facts: Facts, joints: list[Joint], face: FaceName, strips: Mapping[str, list[Strip]]
) -> Stage:
    """Return when the patch goes on: with the strips it joins, the last of them."""
    order: tuple[Stage, ...] = (
        "before_setting",
        "at_setting",
        "before_next_panel",
        "before_roof",
        "same_day",
        "weathered_in",
        "rough_in",
    )
    stages = {s.stage for joint in joints for s in strips.get(joint.id, ()) if s.face == face}
    if not stages:
        is_roof = any(facts.is_roof(joint) for joint in joints)
        return "same_day" if face == "outer" and is_roof else "weathered_in"
    return max(stages, key=order.index)
