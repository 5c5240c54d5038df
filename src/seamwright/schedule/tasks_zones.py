"""Where strips are made: the zones that are dried and cleaned, and those looked at, together."""

from __future__ import annotations

from collections.abc import Sequence

from seamwright.schedule.links_bury import clad_planes
from seamwright.schedule.tasks_kinds import key_of, kind_of
from seamwright.schedule.tasks_seals import Seal
from seamwright.schedule.tasks_site import Site


def prep_zone(site: Site, task: str, seals: Sequence[Seal]) -> str:
    """Return the zone to dry and clean before a task: a face of a storey, or ``inner.roof``."""
    if _is_outer(task):
        return f"outer.{_storey(site, task, seals)}"
    return f"inner.{_storey(site, task, seals)}"


def look_zones(site: Site, task: str, seals: Sequence[Seal]) -> tuple[str, ...]:
    """Return the zones whose look takes in a task: storeys inside, wall planes outside."""
    if not _is_outer(task):
        return (prep_zone(site, task, seals),)
    if kind_of(task) == "patch":
        return (f"outer.{key_of(task).removesuffix('.outer')}",)
    joints = [site.joints[seal.subject] for seal in seals if seal.subject in site.joints]
    planes = dict.fromkeys(plane for joint in joints for plane in clad_planes(site, joint))
    return tuple(f"outer.{plane}" for plane in planes)


def _is_outer(task: str) -> bool:
    return task.endswith(".outer")


def _storey(site: Site, task: str, seals: Sequence[Seal]) -> str:
    kind, key = kind_of(task), key_of(task)
    if kind == "press":
        return "roof"
    if kind == "patch":
        plane = key.rsplit(".", maxsplit=1)[0]
        panel = next((p for p in site.shell.panels if p.plane_id == plane), None)
        if panel is not None and panel.role == "roof":
            return "roof"
        if panel is not None and panel.storey is not None:
            return panel.storey
        return site.storeys[0]
    joints = [site.joints[seal.subject] for seal in seals if seal.subject in site.joints]
    if joints and all(site.is_roof(joint) for joint in joints):
        return "roof"
    return site.storey(joints[0]) if joints else site.storeys[0]
