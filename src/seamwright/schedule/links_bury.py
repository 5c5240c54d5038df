"""Which task puts each seal out of reach: worked out from the joint, its faces and its stage."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from seamwright.joints.types import FaceName, Joint
from seamwright.schedule.rules import HIDERS
from seamwright.schedule.tasks_seals import Seal
from seamwright.schedule.tasks_site import Site

Hider = tuple[str, str]
"""A task and the rule by which it hides a seal."""

_LATE = ("finish.", "clad.", "soffit.", "window.")
_TABLE = {words: (task, rule) for words, task, rule in HIDERS}


def hiders(site: Site, seals: Iterable[Seal]) -> dict[str, tuple[Hider, ...]]:
    """Return for each seal id the tasks that hide it, each with the rule that says so."""
    listed = tuple(seals)
    strips: dict[tuple[str, str], list[Seal]] = {}
    for seal in listed:
        if seal.kind == "strip" and seal.face is not None:
            strips.setdefault((seal.subject, seal.face), []).append(seal)
    return {seal.id: tuple(dict.fromkeys(_hiders(site, seal, strips))) for seal in listed}


def face_hiders(site: Site, joint: Joint, face: FaceName) -> tuple[Hider, ...]:
    """Return the tasks that hide a face that stays within reach after the panels stand."""
    line = joint.inner if face == "inner" else joint.outer
    found = _TABLE.get(line.hidden_by)
    if found is None:
        found = _otherwise(site, joint, face)
    kind, rule = found
    return tuple((task, rule) for task in _hiding_tasks(site, joint, kind))


def _hiding_tasks(site: Site, joint: Joint, kind: str) -> tuple[str, ...]:
    """Return the tasks of one kind of cover or finish that pass over a joint."""
    if kind == "clad":
        return tuple(f"clad.{plane}" for plane in clad_planes(site, joint))
    if kind == "soffit":
        return tuple(f"soffit.{plane}" for plane in site.planes(joint, ("roof",)))
    alone = {
        "floor": f"finish.floor.{site.storey(joint)}",
        "line": f"finish.lining.{site.storey(joint)}",
        "ceiling": "finish.ceiling",
        "window": f"window.{site.opening(joint)}",
        "cap": f"cap.{cap_key(site, joint)}",
        "cover": f"cover.{site.closer(joint.id)}",
    }
    return (alone[kind],)


def _otherwise(site: Site, joint: Joint, face: FaceName) -> tuple[str, str]:
    """Return what hides a face of which the register says only that a timber or nothing does."""
    roof = site.is_roof(joint)
    if face == "inner":
        return ("ceiling", "ceiling_hides") if roof else ("line", "lining_hides")
    return ("cover", "cover_hides") if roof else ("clad", "cladding_hides")


def clad_planes(site: Site, joint: Joint) -> tuple[str, ...]:
    """Return the wall planes whose cladding passes over a joint; its roof plane without a wall."""
    walls = site.planes(joint, ("wall", "rim"))
    return walls or site.planes(joint, ("partition", "roof", "floor"))[:1]


def cap_key(site: Site, joint: Joint) -> str:
    """Return the line a cap or flashing closes: its kind and the planes that meet in it."""
    return f"{joint.kind}/{'+'.join(site.planes(joint, ('roof', 'wall')))}"


def _hiders(
    site: Site, seal: Seal, strips: Mapping[tuple[str, str], list[Seal]]
) -> tuple[Hider, ...]:
    if seal.kind == "patch":
        return _patch_hiders(site, seal, strips)
    joint = site.joints[seal.subject]
    if seal.kind in {"gasket", "bead", "dam"}:
        return _closing(site, seal, joint)
    if seal.kind == "fill":
        return _fill_hiders(site, seal, joint, strips)
    if seal.kind == "wings":
        return _finishing(face_hiders(site, joint, "inner"))
    return _strip_hiders(site, seal, joint)


def _closing(site: Site, seal: Seal, joint: Joint) -> tuple[Hider, ...]:
    """Return what closes on a gasket, bead or dam."""
    closer = site.closer(joint.id)
    prefix, key = seal.task.split(".", maxsplit=1)
    if prefix == "seal":
        return (*face_hiders(site, joint, "inner"), *face_hiders(site, joint, "outer"))
    known = {
        "gasket": (f"set.{key}", "sill_hides"),
        "recess": (f"buck.{key}", "buck_hides"),
        "lay": (f"set.{closer}", "ledger_hides"),
        "plate": (f"set.{closer}", "plate_roofed"),
    }
    if prefix in known:
        return (known[prefix],)
    if seal.landing is not None:
        return ((f"set.{seal.landing}", "timber_hides"),)
    inside = joint.kind == "wall_tee" and _is_partition(site, closer)
    return ((f"set.{closer}", "partition_hides" if inside else "panel_closes"),)


def _is_partition(site: Site, part: str | None) -> bool:
    return part is not None and site.by_id[part].kind == "partition"


def _fill_hiders(
    site: Site, seal: Seal, joint: Joint, strips: Mapping[tuple[str, str], list[Seal]]
) -> tuple[Hider, ...]:
    """Return what hides foam: cover and cap over a wedge, the strip over a drilled seam."""
    if seal.task.startswith("fill."):
        cover = (f"cover.{site.closer(joint.id)}", "cover_hides")
        return (cover, (f"cap.{cap_key(site, joint)}", "cap_hides"))
    over = [
        strip
        for face in ("inner", "outer")
        for strip in strips.get((joint.id, face), [])
        if strip.task.startswith("tape.")
    ]
    if over:
        return tuple((strip.task, "strip_over_foam") for strip in over)
    face: FaceName = "outer" if joint.inner.reach == "never" else "inner"
    return face_hiders(site, joint, face)


def _strip_hiders(site: Site, seal: Seal, joint: Joint) -> tuple[Hider, ...]:
    prefix, key = seal.task.split(".", maxsplit=1)
    face: FaceName = "inner" if seal.face is None else seal.face
    if prefix == "drape":
        return tuple((f"set.{part}", "timber_hides") for part in site.meets[joint.id])
    tee = "partition_hides" if _is_partition(site, site.closer(joint.id)) else "panel_closes"
    early = {
        "lay": (f"set.{key}", "ledger_hides"),
        "tee": (f"set.{key}", tee),
        "apron": (f"set.{site.closer(joint.id)}", "panel_stands_on"),
    }
    if prefix in early:
        return (early[prefix],)
    if prefix == "seam":
        return (*_standing_on(site, joint), *face_hiders(site, joint, face))
    if prefix == "top":
        cover = (f"cover.{site.closer(joint.id)}", "cover_hides")
        return (cover, *face_hiders(site, joint, face))
    return face_hiders(site, joint, face)


def _standing_on(site: Site, seam: Joint) -> tuple[Hider, ...]:
    """Return what stands on a seam of the floor: walls and sill plates on either of its panels."""
    found: list[Hider] = []
    for joint in site.register.joints:
        if joint.kind not in {"sill", "floor_line"} or not set(joint.panels) & set(seam.panels):
            continue
        sill = site.sill(joint)
        stander = sill if sill is not None else site.closer(joint.id)
        if stander is not None and stander not in seam.panels:
            found.append((f"set.{stander}", "panel_stands_on"))
    return tuple(found)


def _patch_hiders(
    site: Site, seal: Seal, strips: Mapping[tuple[str, str], list[Seal]]
) -> tuple[Hider, ...]:
    """Return what hides a patch: what hides the strips it joins, or the finishes over its joints.

    A patch made in a round of its plane stays within reach until a finish covers it.
    """
    face: FaceName = "inner" if seal.face is None else seal.face
    joints = [site.joints[i] for i in site.nodes[seal.subject].joints if i in site.joints]
    if seal.task.startswith(("patch.", "tape.")):
        every = [hider for joint in joints for hider in face_hiders(site, joint, face)]
        return _finishing(every)
    if seal.task.startswith("top."):
        return ((f"cover.{seal.task.split('.', maxsplit=1)[1]}", "cover_hides"),)
    return tuple(
        hider
        for joint in joints
        for strip in strips.get((joint.id, face), [])
        if strip.stage == seal.stage
        for hider in _strip_hiders(site, strip, joint)
        if not hider[0].startswith(_LATE)
    )


def _finishing(found: Iterable[Hider]) -> tuple[Hider, ...]:
    return tuple(hider for hider in found if hider[0].startswith(_LATE))
