"""What must be done before what, beyond burying: what stands first, dry, clean, tested."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from seamwright.schedule.links_bury import cap_key
from seamwright.schedule.tasks_kinds import key_of, kind_of
from seamwright.schedule.tasks_parts import INSIDE_LEVEL, ROOF_LEVEL, Part
from seamwright.schedule.tasks_seals import Seal
from seamwright.schedule.tasks_site import Site
from seamwright.schedule.tasks_zones import look_zones, prep_zone

Order = tuple[str, str, str]
"""A task, the one after it, and the rule that says so."""

_FIRST = ("gasket", "lay", "tee", "apron", "plug", "dam", "beads")
_CARRIED = frozenset({"sill", "floor_line", "eave", "rake", "roof_step", "floor_spline"})


def order_of_setting(site: Site, tasks: frozenset[str]) -> Iterator[Order]:
    """Yield what each part waits for: what carries it, and the neighbors it is set against."""
    for part in site.parts:
        yield from _beads_last(part, tasks)
    for joint in site.register.joints:
        met = site.meets[joint.id]
        sill = site.sill(joint)
        rule = "carried_by" if joint.kind in _CARRIED else "neighbor_stands"
        for number, later in enumerate(met):
            for earlier in met[:number]:
                for first in first_tasks(site, later, tasks):
                    yield f"set.{earlier}", first, rule
        for name in met if sill is not None else ():
            low, high = sorted((name, str(sill)), key=lambda n: site.order[n])
            yield from _each(f"set.{low}", first_tasks(site, high, tasks), "carried_by")
    yield from _storeys(site, tasks)
    yield from _roof(site, tasks)


def _beads_last(part: Part, tasks: frozenset[str]) -> Iterator[Order]:
    beads = f"beads.{part.id}"
    for kind in ("plug", "dam", "tee"):
        if beads in tasks:
            yield f"{kind}.{part.id}", beads, "beads_last"
    if beads in tasks and part.kind in {"wall", "rim"}:
        yield f"apron.{part.plane}", beads, "beads_last"


def first_tasks(site: Site, part_id: str, tasks: frozenset[str]) -> tuple[str, ...]:
    """Return the tasks with which a part begins: what is laid for it, else its setting."""
    part = site.by_id[part_id]
    found = [f"{kind}.{part_id}" for kind in _FIRST if f"{kind}.{part_id}" in tasks]
    apron = f"apron.{part.plane}"
    if apron in tasks and apron not in found and part.kind in {"wall", "rim"}:
        found.append(apron)
    return (*found, f"set.{part_id}")


def _each(before: str, after: Iterable[str], rule: str) -> Iterator[Order]:
    for task in after:
        yield before, task, rule


def _storeys(site: Site, tasks: frozenset[str]) -> Iterator[Order]:
    """Yield the braced storeys: all walls, then what they carry."""
    levels = sorted({part.level[0] for part in site.parts if part.level[0] < ROOF_LEVEL})
    for part in site.parts:
        level = part.level[0]
        if level < ROOF_LEVEL and part.kind in {"wall", "partition"}:
            yield f"set.{part.id}", f"stand.{_storey_name(site, level)}", "walls_braced"
        if level == INSIDE_LEVEL:
            continue
        below = [lower for lower in levels if lower < level]
        if level == ROOF_LEVEL and part.kind not in {"timber", "plate"}:
            continue
        loaded = part.kind == "ledger"
        names = [_storey_name(site, lower) for lower in (*below[-1:], *([level] * loaded))]
        for name in names:
            if f"stand.{name}" in tasks:
                yield from _each(f"stand.{name}", first_tasks(site, part.id, tasks), "walls_braced")


def _storey_name(site: Site, level: int) -> str:
    return site.storeys[min(level, len(site.storeys) - 1)]


def stands(site: Site) -> tuple[str, ...]:
    """Return the storeys that have walls, as tasks that say they stand."""
    levels = {
        part.level[0]
        for part in site.parts
        if part.level[0] < ROOF_LEVEL and part.kind in {"wall", "partition"}
    }
    return tuple(f"stand.{_storey_name(site, level)}" for level in sorted(levels))


def _roof(site: Site, tasks: frozenset[str]) -> Iterator[Order]:
    """Yield timbers, draped strips and plates before the roof, and each panel's own day."""
    for task in tasks:
        kind, key = kind_of(task), key_of(task)
        if kind == "drape":
            yield f"set.{key}", task, "timber_before_drape"
            yield task, "roof_ready", "roof_ready"
        elif kind == "plate":
            yield from _plate(site, task, key)
        elif kind in {"top", "fill", "cover"}:
            yield from _same_day(kind, key, tasks)
    for part in site.parts:
        if part.level[0] == ROOF_LEVEL and part.kind in {"timber", "plate"}:
            yield f"set.{part.id}", "roof_ready", "roof_ready"
        elif part.level[0] == ROOF_LEVEL:
            yield from _each("roof_ready", first_tasks(site, part.id, tasks), "roof_ready")
    for stand in stands(site):
        yield stand, "roof_ready", "walls_braced"
    yield from _caps(site)


def _caps(site: Site) -> Iterator[Order]:
    for joint in site.register.joints:
        if joint.kind in {"ridge", "hip", "valley"}:
            for name in site.meets[joint.id]:
                yield f"cover.{name}", f"cap.{cap_key(site, joint)}", "cap_after_cover"


def _same_day(kind: str, key: str, tasks: frozenset[str]) -> Iterator[Order]:
    """Yield what is done on a roof panel the day it is set."""
    task = f"{kind}.{key}"
    if kind == "cover":
        yield f"set.{key}", task, "same_day_cover"
        return
    yield f"set.{key}", task, "set_before_strip" if kind == "top" else "set_before_fill"
    yield task, f"cover.{key}", "same_day_cover"
    if kind == "fill" and f"top.{key}" in tasks:
        yield task, f"top.{key}", "strip_over_foam"


def _plate(site: Site, task: str, plane: str) -> Iterator[Order]:
    walls: list[Part] = [p for p in site.parts if p.plane == plane and p.kind == "wall"]
    for part in walls:
        yield f"set.{part.id}", task, "carried_by"
    if walls and all(part.level[0] < ROOF_LEVEL for part in walls):
        yield task, "roof_ready", "roof_ready"


def order_of_sealing(
    site: Site, seals: Mapping[str, list[Seal]], tasks: frozenset[str]
) -> Iterator[Order]:
    """Yield what strips, patches and services wait for once the panels stand."""
    for task in tasks:
        kind, key = kind_of(task), key_of(task)
        if kind in {"tape", "patch", "press"} or _is_late_tee(site, kind, key):
            yield from _on_clean_skin(site, task, seals.get(task, []), tasks)
        if kind == "press":
            yield f"drape.{key}", task, "wings_after_cover"
        elif kind == "clean":
            yield f"dry.{key}", task, "dry_first"
        elif kind == "prime":
            yield f"clean.{key}", task, "clean_first"
        elif kind in {"dry", "channel", "rough_in"}:
            yield "weathered_in", task, "weathered_in"
        elif kind == "seal":
            yield "rough_in", task, "holes_known"
            yield task, "look_services", "look_before_hiding"
    yield from _openings(site, tasks)
    yield from _outside(site, tasks)
    yield from _patches(site, seals)
    yield from _weathered_in(tasks)
    for part in site.parts:
        if part.level[0] == INSIDE_LEVEL:
            yield from _each("weathered_in", first_tasks(site, part.id, tasks), "covered_all")
            yield f"set.{part.id}", "fan_test", "all_sealed"


def _on_clean_skin(
    site: Site, task: str, made: Sequence[Seal], tasks: frozenset[str]
) -> Iterator[Order]:
    """Yield what a strip or patch waits for, and the look that follows it."""
    zone = prep_zone(site, task, made)
    yield f"clean.{zone}", task, "clean_first"
    if f"prime.{zone}" in tasks and task.startswith("tape.sill/"):
        yield f"prime.{zone}", task, "primer_flashes"
    for look in look_zones(site, task, made) if kind_of(task) != "tee" else ():
        yield task, f"look.{look}", "look_before_hiding"


def _is_late_tee(site: Site, kind: str, key: str) -> bool:
    return kind == "tee" and key in site.by_id and site.by_id[key].level[0] == INSIDE_LEVEL


def _outside(site: Site, tasks: frozenset[str]) -> Iterator[Order]:
    """Yield what cladding and soffits wait for: panels that stand, under a covered roof."""
    for part in site.parts:
        clad, soffit = f"clad.{part.plane}", f"soffit.{part.plane}"
        if clad in tasks and part.kind != "roof":
            yield f"set.{part.id}", clad, "carried_by"
        if soffit in tasks and part.kind == "roof":
            yield f"cover.{part.id}", soffit, "covered_all"
    for task in tasks:
        if kind_of(task) == "clad":
            yield "weathered_in", task, "covered_all"


def _openings(site: Site, tasks: frozenset[str]) -> Iterator[Order]:
    for joint in site.register.joints:
        name = site.opening(joint)
        if name is None:
            continue
        start = f"recess.{name}" if f"recess.{name}" in tasks else f"buck.{name}"
        for part in joint.panels:
            if part in site.by_id:
                yield f"set.{part}", start, "buck_after_panel"
        for face in ("inner", "outer"):
            tape = f"tape.opening/{name}.{face}"
            if tape in tasks:
                yield f"buck.{name}", tape, "neighbor_stands"
        yield f"buck.{name}", f"window.{name}", "neighbor_stands"
        yield f"buck.{name}", "mask", "openings_masked"
        yield "weathered_in", f"window.{name}", "weathered_in"
        yield f"window.{name}", "fan_test", "all_sealed"


def _patches(site: Site, seals: Mapping[str, list[Seal]]) -> Iterator[Order]:
    """Yield the strips that meet at a node before the patch over them."""
    strips: dict[tuple[str, str | None], set[str]] = {}
    for task, made in seals.items():
        for seal in made:
            if seal.kind in {"strip", "wings"}:
                strips.setdefault((seal.subject, seal.face), set()).add(task)
    for task, made in seals.items():
        for seal in made:
            if seal.kind != "patch" or seal.subject not in site.nodes:
                continue
            for joint_id in site.nodes[seal.subject].joints:
                for before in sorted(strips.get((joint_id, seal.face), ())):
                    early = not task.startswith("patch.")
                    if before != task and not (early and _is_later(before)):
                        yield before, task, "strips_before_patch"


def _is_later(task: str) -> bool:
    return kind_of(task) in {"tape", "press", "seal"}


def _weathered_in(tasks: frozenset[str]) -> Iterator[Order]:
    for task in tasks:
        kind = kind_of(task)
        if kind in {"cover", "cap"}:
            yield task, "weathered_in", "covered_all"
        if kind == "stand":
            yield task, "weathered_in", "walls_braced"
            yield task, "mask", "walls_braced"
    if "mask" in tasks:
        yield "mask", "weathered_in", "openings_masked"


def order_of_testing(tasks: frozenset[str]) -> Iterator[Order]:
    """Yield looks, the fan test, mending and what may then be closed."""
    for task in tasks:
        kind = kind_of(task)
        if kind == "look":
            yield task, "fan_test", "bond_builds"
            if task.startswith("look.outer."):
                yield from _outer_look(task, tasks)
        if kind in {"finish", "handover"}:
            yield "retest", task, "tested_before_finish"
        if kind in {"finish", "clad", "soffit", "window"}:
            yield task, "handover", "finished_all"
    if "look_services" in tasks:
        yield "look_services", "fan_test", "bond_builds"
    yield "weathered_in", "fan_test", "all_sealed"
    yield "fan_test", "mend", "test_before_mend"
    yield "mend", "retest", "mend_before_retest"


def _outer_look(task: str, tasks: frozenset[str]) -> Iterator[Order]:
    plane = task.removeprefix("look.outer.")
    if f"clad.{plane}" in tasks:
        yield task, f"clad.{plane}", "look_before_hiding"
