"""Every seal of the house, the task that makes it, and how much work it is.

A seal's id says what it is and where: ``strip:A.1-A.2:inner``, ``bead:A.1-slab#2``,
``dam:R1.1-R1.2#1``, ``patch:N12:inner``. A part after ``@`` names a seal made in two goes: the
beads on a beam, one side per roof panel, and the wings of a draped strip, pressed up afterwards.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal, TypeAlias

from seamwright.joints.gather import natural_key
from seamwright.joints.types import FaceName, Joint
from seamwright.schedule.rules import ON_PLATE, UNDER_SILL
from seamwright.schedule.tasks_site import Site
from seamwright.seals.types import Bead, NodePatch, Stage, Strip

SealKind: TypeAlias = Literal["strip", "wings", "bead", "dam", "fill", "gasket", "patch"]

_RUNS = frozenset({"sill", "floor_line", "eave", "rake", "roof_step"})
"""Kinds whose joints follow one another along a wall and are taped in one go."""

_FOLDS = frozenset({"ridge", "hip", "valley"})


@dataclass(frozen=True, kw_only=True, slots=True)
class Seal:
    """One seal: what it is, on which joint or node, which task makes it, and how much it is.

    `length` [m], or `count` of pieces where there is no length; `stock_id` of a strip;
    `landing` is the part that comes down on this part of a seal made in two goes.
    """

    id: str
    kind: SealKind
    subject: str
    stage: Stage
    task: str
    length: float = 0.0
    count: int = 1
    face: FaceName | None = None
    stock_id: str | None = None
    landing: str | None = None


def list_seals(site: Site) -> tuple[Seal, ...]:
    """Return every seal of the schedule with the task that makes it; no seal is left out."""
    strips = tuple(_strips(site))
    makers: dict[tuple[str, str], list[Seal]] = defaultdict(list)
    for seal in strips:
        if seal.kind == "strip" and seal.face is not None:
            makers[seal.subject, seal.face].append(seal)
    return (
        *_gaskets(site),
        *_beads(site),
        *_dams(site),
        *_fills(site),
        *strips,
        *(_patch(site, patch, number, makers) for number, patch in _numbered_patches(site)),
    )


def _gaskets(site: Site) -> Iterator[Seal]:
    counts: dict[str, int] = defaultdict(int)
    for gasket in site.schedule.gaskets:
        joint = site.joints[gasket.joint_id]
        counts[joint.id] += 1
        sill = site.sill(joint)
        task = f"gasket.{sill}" if sill is not None else f"beads.{site.closer(joint.id)}"
        yield Seal(
            id=f"gasket:{joint.id}#{counts[joint.id]}",
            kind="gasket",
            subject=joint.id,
            stage=gasket.stage,
            task=task,
            length=gasket.length,
        )


def _beads(site: Site) -> Iterator[Seal]:
    counts: dict[str, int] = defaultdict(int)
    for bead in site.schedule.beads:
        joint = site.joints[bead.joint_id]
        counts[joint.id] += 1
        name = f"bead:{joint.id}#{counts[joint.id]}"
        landings = _landings(site, joint, bead)
        for landing in landings:
            yield Seal(
                id=name if landing is None else f"{name}@{landing}",
                kind="bead",
                subject=joint.id,
                stage=bead.stage,
                task=f"beads.{landing}" if landing is not None else _bead_task(site, joint, bead),
                length=bead.count * bead.length / len(landings),
                landing=landing,
            )


def _landings(site: Site, joint: Joint, bead: Bead) -> tuple[str | None, ...]:
    """Return the panels that come down one by one on beads of a beam; one None elsewhere."""
    met = site.meets[joint.id]
    if bead.stage == "before_next_panel" and len(met) > 1 and not site.is_ledger(joint):
        return met
    return (None,)


def _bead_task(site: Site, joint: Joint, bead: Bead) -> str:
    closer = site.closer(joint.id)
    if joint.kind == "opening":
        return f"recess.{site.opening(joint)}"
    if joint.kind == "penetration":
        return f"seal.{_service(joint)}"
    if site.is_ledger(joint):
        return f"lay.{closer}"
    sill = site.sill(joint)
    if (
        sill is not None
        and bead.stage == "before_setting"
        and any(word in bead.place for word in UNDER_SILL)
    ):
        return f"gasket.{sill}"
    walls = site.planes(joint, ("wall",))
    if joint.kind in {"eave", "rake"} and walls and any(w in bead.place for w in ON_PLATE):
        return f"plate.{walls[0]}"
    return f"beads.{closer}"


def _dams(site: Site) -> Iterator[Seal]:
    counts: dict[str, int] = defaultdict(int)
    for dam in site.schedule.dams:
        counts[dam.joint_id] += 1
        closer = site.closer(dam.joint_id)
        prefix = {"wall_line": "dam", "chase_crossing": "plug"}.get(dam.why, "beads")
        yield Seal(
            id=f"dam:{dam.joint_id}#{counts[dam.joint_id]}",
            kind="dam",
            subject=dam.joint_id,
            stage=dam.stage,
            task=f"{prefix}.{closer}",
        )


def _fills(site: Site) -> Iterator[Seal]:
    for fill in site.schedule.fills:
        joint = site.joints[fill.joint_id]
        plane = (*site.planes(joint, ("wall", "rim")), *site.planes(joint, ("roof", "floor")))
        wedge = fill.stage == "same_day"
        yield Seal(
            id=f"fill:{joint.id}",
            kind="fill",
            subject=joint.id,
            stage=fill.stage,
            task=f"fill.{site.closer(joint.id)}" if wedge else f"channel.{plane[0]}",
            length=fill.length,
        )


def _strips(site: Site) -> Iterator[Seal]:
    counts: dict[tuple[str, str], int] = defaultdict(int)
    crossed: dict[str, int] = defaultdict(int)
    for strip in site.schedule.strips:
        joint = site.joints[strip.joint_id]
        counts[joint.id, strip.face] += 1
        number = counts[joint.id, strip.face]
        name = f"strip:{joint.id}:{strip.face}" + ("" if number == 1 else f"#{number}")
        row = None
        if strip.wings_open:
            row = _row(site, joint, crossed[joint.id])
            crossed[joint.id] += 1
        task = f"drape.{row}" if row is not None else _strip_task(site, joint, strip)
        seal = Seal(
            id=name,
            kind="strip",
            subject=joint.id,
            stage=strip.stage,
            task=task,
            length=strip.length,
            face=strip.face,
            stock_id=strip.stock_id,
        )
        yield seal
        if row is not None and strip.stage == "before_roof":
            yield Seal(
                id=f"{name}@pressed",
                kind="wings",
                subject=joint.id,
                stage="weathered_in",
                task=f"press.{row}",
                length=strip.length,
                face=strip.face,
            )


def _row(site: Site, joint: Joint, number: int) -> str | None:
    """Return the row of timbers under the `number`-th draped strip of a joint.

    Along its line there is one strip; across it one per timber, in the order of the crossings.
    """
    line = joint.inner
    timbers = line.timbers or line.crossings
    rows = [site.row_of[i] for i in timbers if i in site.row_of]
    standing = [row for row in rows if site.by_id[row].kind != "ledger"]
    if not standing:
        return None
    return standing[min(number, len(standing) - 1)]


def _strip_task(site: Site, joint: Joint, strip: Strip) -> str:
    """Return the task of a strip that is not draped over a timber."""
    closer = site.closer(joint.id)
    if joint.kind == "opening":
        return f"tape.opening/{site.opening(joint)}.{strip.face}"
    if joint.kind == "penetration":
        return f"seal.{_service(joint)}"
    early = strip.stage in {"before_setting", "at_setting", "before_next_panel", "before_roof"}
    if early and not stays_open(joint, strip.face):
        return _early_task(site, joint, strip)
    if strip.stage == "same_day":
        return f"top.{closer}"
    return f"tape.{tape_key(site, joint)}.{strip.face}"


def stays_open(joint: Joint, face: FaceName) -> bool:
    """Return whether a tee is a corner outdoors, whose strip goes on once the panels stand."""
    line = joint.inner if face == "inner" else joint.outer
    return joint.kind == "wall_tee" and line.reach == "until_hidden"


def _early_task(site: Site, joint: Joint, strip: Strip) -> str:
    closer = site.closer(joint.id)
    if joint.kind == "wall_tee":
        return f"tee.{closer}"
    ledgers = [
        site.row_of[i]
        for i in joint.inner.crossings
        if i in site.row_of and site.by_id[site.row_of[i]].kind == "ledger"
    ]
    if ledgers and strip.stage == "before_next_panel":
        return f"lay.{max(ledgers, key=lambda row: site.order[row])}"
    if joint.kind == "floor_spline":
        return f"seam.{site.planes(joint, ('floor',))[0]}"
    return f"apron.{site.by_id[closer].plane if closer is not None else joint.id}"


def tape_key(site: Site, joint: Joint) -> str:
    """Return what is taped in one go: a seam alone, or all lines of one kind along a wall."""
    walls = site.planes(joint, ("wall", "rim"))
    if joint.kind in _RUNS and walls:
        return f"{joint.kind}/{walls[-1]}"
    if joint.kind in _FOLDS:
        return f"{joint.kind}/{'+'.join(site.planes(joint, ('roof', 'wall')))}"
    return joint.id


def _service(joint: Joint) -> str:
    return joint.others[0] if joint.others else joint.id


def _numbered_patches(site: Site) -> Iterator[tuple[int, NodePatch]]:
    counts: dict[tuple[str, str], int] = defaultdict(int)
    for patch in site.schedule.patches:
        counts[patch.node_id, patch.face] += 1
        yield counts[patch.node_id, patch.face], patch


def _patch(
    site: Site, patch: NodePatch, number: int, makers: dict[tuple[str, str], list[Seal]]
) -> Seal:
    name = f"patch:{patch.node_id}:{patch.face}" + ("" if number == 1 else f"#{number}")
    return Seal(
        id=name,
        kind="patch",
        subject=patch.node_id,
        stage=patch.stage,
        task=_patch_task(site, patch, makers),
        face=patch.face,
    )


def _patch_task(site: Site, patch: NodePatch, makers: dict[tuple[str, str], list[Seal]]) -> str:
    """Return the task that patches a node: that of its last strips, or the round of its plane."""
    joints = sorted(site.nodes[patch.node_id].joints, key=lambda i: (natural_key(i), i))
    known = [site.joints[i] for i in joints if i in site.joints]
    if patch.stage not in {"weathered_in", "rough_in"}:
        strips = [
            seal
            for joint in known
            for seal in makers.get((joint.id, patch.face), [])
            if seal.stage == patch.stage and not seal.task.startswith("tape.")
        ]
        tasks = {seal.task for seal in strips}
        if tasks:
            return max(tasks, key=lambda task: _maker_rank(site, task))
        closers = [c for c in (site.closer(j.id) for j in known if site.is_roof(j)) if c]
        if patch.stage == "same_day" and closers:
            return f"top.{max(closers, key=lambda part: site.order[part])}"
    openings = {site.opening(joint) for joint in known}
    if len(openings) == 1 and None not in openings:
        task = f"tape.opening/{openings.pop()}.{patch.face}"
        if any(seal.task == task for rows in makers.values() for seal in rows):
            return task
    planes = [p for joint in known for p in site.planes(joint, ("wall", "rim"))]
    planes += [p for joint in known for p in site.planes(joint, ("roof", "floor", "partition"))]
    return f"patch.{planes[0] if planes else 'house'}.{patch.face}"


def _maker_rank(site: Site, task: str) -> tuple[int, object]:
    key = task.split(".", maxsplit=1)[1]
    return site.order.get(key, -1), natural_key(task)
