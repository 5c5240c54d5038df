"""What speaks for each side of each kind of joint, and what is signed."""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from dataclasses import replace

from seamwright.app.built import Built
from seamwright.app.contract.change import DecisionGroup, DecisionsOut, FaceEvidence, SignedOut
from seamwright.joints.types import FaceName, Joint
from seamwright.report.words import KINDS
from seamwright.seals.face_table import DISAGREEMENT, NO_ZONE, row_for
from seamwright.seals.schedule import plan_seals
from seamwright.seals.types import SealSchedule, Strip
from seamwright.shell.plan import Decision


def decisions_out(built: Built, revision: int) -> DecisionsOut:
    """Return every kind of joint with the evidence for both faces and what is signed."""
    site = built.house.plan.site
    row = row_for(site.climate_zone)
    groups: defaultdict[str, list[Joint]] = defaultdict(list)
    ignored = {key for key, one in built.overrides.items() if one.ignore}
    for joint in built.house.register.joints:
        if joint.id not in ignored:
            groups[joint.kind].append(joint)
    inner, outer = _strips(_as_if(built, "inner")), _strips(_as_if(built, "outer"))
    proposed = plan_as_proposed(built)
    return DecisionsOut(
        revision=revision,
        climate_zone="" if site.climate_zone is None else site.climate_zone,
        zone_edition="" if site.zone_edition is None else site.zone_edition,
        disagreement=DISAGREEMENT,
        source=(NO_ZONE if row is None else row).source,
        groups=[
            _group(kind, groups[kind], built, proposed, (inner, outer))
            for kind in KINDS
            if kind in groups
        ],
    )


def plan_as_proposed(built: Built) -> SealSchedule:
    """Return the schedule of a house as if nobody had signed anything."""
    return _planned(built, ())


def _as_if(built: Built, face: FaceName) -> SealSchedule:
    """Return the schedule of a house as if one face were signed for all of it."""
    return _planned(built, (Decision(face=face, signed_by="evidence", role="", date=""),))


def _planned(built: Built, decisions: tuple[Decision, ...]) -> SealSchedule:
    house = built.house
    faceless = [replace(one, face=None) for one in house.plan.overrides]
    return plan_seals(
        house.shell, house.register, house.sections, catalog=house.catalog, decisions=decisions,
        overrides=faceless, climate_zone=house.plan.site.climate_zone,
        zone_edition=house.plan.site.zone_edition,
    )  # fmt: skip


def _strips(schedule: SealSchedule) -> dict[str, list[Strip]]:
    found: defaultdict[str, list[Strip]] = defaultdict(list)
    for strip in schedule.strips:
        found[strip.joint_id].append(strip)
    return found


def _group(
    kind: str,
    joints: list[Joint],
    built: Built,
    proposed: SealSchedule,
    strips: tuple[dict[str, list[Strip]], dict[str, list[Strip]]],
) -> DecisionGroup:
    ids = {joint.id for joint in joints}
    sides = [side for side in built.house.schedule.sides if side.joint_id in ids]
    would_be = [side for side in proposed.sides if side.joint_id in ids]
    signed = Counter((side.face, side.by) for side in sides if side.signed)
    count = sum(signed.values())
    reasons = Counter(side.reason for side in would_be)
    return DecisionGroup(
        kind=kind,
        joints=[joint.id for joint in joints],
        length_m=math.fsum(joint.length for joint in joints),
        proposed=dict(Counter(side.face for side in would_be)),
        reason=reasons.most_common(1)[0][0] if reasons else "",
        signed=[SignedOut(face=f, by=by, joints=n) for (f, by), n in signed.items()],
        unsigned=len(sides) - count,
        locked=bool(sides) and count == len(sides),
        inner=_evidence("inner", joints, strips[0]),
        outer=_evidence("outer", joints, strips[1]),
    )


def _evidence(face: FaceName, joints: list[Joint], strips: dict[str, list[Strip]]) -> FaceEvidence:
    lines = [joint.inner if face == "inner" else joint.outer for joint in joints]
    there = [line for line in lines if line.line is not None]
    reach = Counter(line.reach for line in there)
    own = [s for joint in joints for s in strips.get(joint.id, ()) if s.face == face and s.primary]
    return FaceEvidence(
        face=face,
        joints_with_line=len(there),
        reachable=reach["until_hidden"],
        before_panels_only=reach["before_panels_only"],
        never=reach["never"],
        strips=len(own),
        strip_length_m=math.fsum(strip.length for strip in own),
        without_stock=sum(strip.stock_id is None for strip in own),
        stages=dict(Counter(strip.stage for strip in own)),
        hidden_by=dict(Counter(line.hidden_by for line in there if line.hidden_by)),
    )
