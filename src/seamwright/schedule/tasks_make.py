"""From seals and parts to task records: what is done, on what, by whom and how long."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence

from seamwright.geometry.polygon import signed_area
from seamwright.joints.gather import natural_key
from seamwright.schedule.hold import HOLDS, HoldPoint
from seamwright.schedule.rates import NOTHING, Productivity, plus, time_for, times
from seamwright.schedule.tasks_kinds import KINDS, key_of, kind_of
from seamwright.schedule.tasks_parts import Part
from seamwright.schedule.tasks_seals import Seal
from seamwright.schedule.tasks_site import Site
from seamwright.schedule.tasks_zones import look_zones, prep_zone
from seamwright.schedule.types import Span3, Task, Work

_PLACES = {kind: place for place, kind in enumerate(KINDS)}

ROOFWARD = frozenset({"set", "top", "fill", "cover"})
"""Kinds that end on the day a roof panel is set."""


def make_task(
    site: Site, task_id: str, seals: Sequence[Seal], work: Productivity, *, refs: Iterable[str] = ()
) -> Task:
    """Return the task of an id with the seals it makes."""
    kind, key = kind_of(task_id), key_of(task_id)
    row = KINDS[kind]
    part = site.by_id.get(key)
    hold = _hold(kind, key)
    about = dict.fromkeys([*(seal.subject for seal in seals), *refs])
    return Task(
        id=task_id,
        work=_work(kind, part),
        title=_title(site, kind, key, part),
        refs=tuple(about),
        duration=_duration(site, kind, key, seals, work),
        skill=row.skill,
        crew_size=row.crew_size,
        crane=kind == "set" and part is not None and needs_crane(site, part, work),
        storey=_storey(site, kind, key, seals, part),
        zone=_zone(site, task_id, seals, part),
        window=_window(site, kind, key, part, work),
        same_day_as=f"set.{key}" if kind in ROOFWARD and _is_roof(part) else None,
        hold_point=None if hold is None else hold.sentence,
        released_by=None if hold is None else hold.released_by,
        products=tuple(sorted({s.stock_id for s in seals if s.stock_id is not None})),
        source=work.source,
        seals=tuple(seal.id for seal in seals),
    )


def _hold(kind: str, key: str) -> HoldPoint | None:
    """Return the hold point of a task: for strips, that of the face or of the opening."""
    if kind in {"tape", "patch"}:
        if key.startswith("opening/"):
            return HOLDS["opening"]
        return HOLDS["outside" if key.endswith(".outer") else "inside"]
    row = KINDS[kind]
    return None if row.hold is None else HOLDS[row.hold]


def by_task(seals: Iterable[Seal]) -> dict[str, list[Seal]]:
    """Return the seals by the task that makes them."""
    found: dict[str, list[Seal]] = defaultdict(list)
    for seal in seals:
        found[seal.task].append(seal)
    return dict(found)


def needs_crane(site: Site, part: Part, work: Productivity) -> bool:
    """Return whether a part is lifted by crane: roof, timbers, and panels too heavy for hands."""
    if part.kind in {"roof", "timber"}:
        return True
    panel = site.panels.get(part.id)
    if panel is None:
        return False
    skins = (panel.skin_inner + panel.skin_outer) * work.skin_density
    core = (panel.thickness - panel.skin_inner - panel.skin_outer) * work.core_density
    net = abs(signed_area(panel.inner)) - sum(
        abs(signed_area(hole.outline)) for hole in panel.holes
    )
    return net * (skins + core) > work.hand_lift


def _area(site: Site, plane: str) -> float:
    """Return the outer area of a plane's panels. [m²]"""
    return sum(abs(signed_area(p.outer)) for p in site.shell.panels if p.plane_id == plane)


def _is_roof(part: Part | None) -> bool:
    return part is not None and part.kind == "roof"


def _title(site: Site, kind: str, key: str, part: Part | None) -> str:
    """Return a task's title in words of the trade."""
    if part is not None:
        name = _part_words(site, part)
        if kind == "set" and part.kind == "deck":
            return f"Lay joists and {name}"
        return KINDS[kind].title.format(key=name)
    if kind == "finish":
        what, _, storey = key.partition(".")
        words = {"floor": "Floor finish", "lining": "Linings", "ceiling": "Ceilings"}[what]
        return f"{words} of storey {storey}" if storey else words
    openings = {opening.id: opening.kind for opening in site.shell.openings}
    name = key.removeprefix("opening/")
    face = next((f for f in ("inner", "outer") if name.endswith(f".{f}")), None)
    name = name if face is None else name.removesuffix(f".{face}")
    if name in openings:
        name = f"{openings[name]} {name}"
    elif name in site.services:
        name = f"{site.services[name].kind} {name}"
    for start in ("inner.", "outer."):
        if name.startswith(start):
            return KINDS[kind].title.format(key=_zone_words(name, start))
    words = name.replace("/", " ").replace("_", " ")
    return KINDS[kind].title.format(key=words if face is None else f"{words}, {face} face")


def _zone_words(name: str, start: str) -> str:
    place = name.removeprefix(start)
    return f"{start[:-1]} face of {'the roof' if place == 'roof' else place}"


def _part_words(site: Site, part: Part) -> str:
    """Return a part as the crew says it: panel A.1, ridge beam main.ridge."""
    if part.kind in {"floor", "rim", "wall", "roof"}:
        return (
            f"{part.kind} panel {part.id}" if part.kind in {"floor", "rim"} else f"panel {part.id}"
        )
    if part.kind == "partition":
        return f"inner wall {part.id}"
    if part.kind == "timber":
        member = next(m for m in site.shell.members if m.id == part.members[0])
        many = "s" if len(part.members) > 1 else ""
        return f"{member.kind.replace('_', ' ')}{many} {part.id}"
    word = {"sill": "sill plate", "plate": "plate"}.get(part.kind, part.kind)
    return f"{word} {part.id}"


def _work(kind: str, part: Part | None) -> Work:
    if kind == "set" and part is not None and part.kind in {"timber", "sill", "plate", "ledger"}:
        return "set_timber"
    if kind == "set" and part is not None and part.kind == "deck":
        return "other"
    return KINDS[kind].work


def _storey(
    site: Site, kind: str, key: str, seals: Sequence[Seal], part: Part | None
) -> str | None:
    if part is not None:
        return part.storey
    if kind == "stand":
        return key
    last = key.rsplit(".", maxsplit=1)[-1]
    if kind in {"dry", "clean", "prime", "look", "finish"}:
        return last if last in site.storeys else None
    joints = [site.joints[s.subject] for s in seals if s.subject in site.joints]
    if not joints or all(site.is_roof(joint) for joint in joints):
        return None
    return site.storey(joints[0])


def _zone(site: Site, task_id: str, seals: Sequence[Seal], part: Part | None) -> str:
    """Return where the work is done: a plane outdoors, ``inner/STOREY`` or ``inner/roof`` in."""
    kind, key = kind_of(task_id), key_of(task_id)
    if part is not None:
        return part.plane
    if kind in {"tape", "patch", "press"}:
        zones = look_zones(site, task_id, seals)
        return (zones[0] if zones else prep_zone(site, task_id, seals)).replace(".", "/", 1)
    if key.startswith(("inner.", "outer.")):
        return key.replace(".", "/", 1)
    if kind in {"clad", "soffit", "channel", "plate", "seam", "apron"}:
        return key
    return "inner" if kind in {"finish", "seal", "mend", "rough_in"} else ""


def _window(site: Site, kind: str, key: str, part: Part | None, work: Productivity) -> str | None:
    if kind == "set":
        return "lift" if part is not None and needs_crane(site, part, work) else None
    outer = key.endswith(".outer") or key.startswith("outer.")
    if outer and kind in {"tape", "patch", "prime"}:
        return "tape/outer/wall"
    if kind == "tee" and part is not None and part.level[0] < 1000:
        return "tape/outer/wall"
    return KINDS[kind].window


def _duration(site: Site, kind: str, key: str, seals: Sequence[Seal], work: Productivity) -> Span3:
    fixed = _fixed(site, kind, key, work)
    return plus(fixed, *(_seal_time(site, kind, seal, work) for seal in seals))


def _fixed(site: Site, kind: str, key: str, work: Productivity) -> Span3:
    if kind == "set":
        return _setting(site.by_id.get(key), work)
    service = site.services.get(key)
    table = {
        "seal": work.flue if service is not None and service.kind == "flue" else work.service,
        "plate": work.set_buck,
        "cover": work.cover_panel,
        "cap": work.cap_line,
        "buck": work.set_buck,
        "window": work.window,
        "clean": work.clean_zone,
        "prime": work.look,
        "rough_in": work.rough_in,
        "fan_test": work.fan_test,
        "retest": work.fan_test,
        "handover": work.fan_test,
        "mend": work.mend,
        "clad": time_for(_area(site, key), work.clad),
        "soffit": work.look,
        "finish": work.finish,
    }
    looks = {"sides", "delivery", "base", "dry", "look", "look_services", "mask"}
    return work.look if kind in looks else table.get(kind, NOTHING)


def _setting(part: Part | None, work: Productivity) -> Span3:
    if part is None:
        return NOTHING
    table = {
        "floor": work.set_floor,
        "roof": work.set_roof,
        "sill": work.set_sill,
        "deck": work.deck,
        "timber": work.set_timber,
        "ledger": work.set_timber,
        "plate": work.set_sill,
    }
    return times(table.get(part.kind, work.set_wall), max(1, len(part.members)))


def _seal_time(site: Site, kind: str, seal: Seal, work: Productivity) -> Span3:
    if seal.kind == "patch":
        return work.node
    if seal.kind == "dam":
        return times(work.plug if kind == "plug" else work.dam, seal.count)
    if seal.kind == "fill":
        return time_for(seal.length, work.fill)
    if kind == "seal":
        return NOTHING
    rate = {"gasket": work.gasket, "bead": work.bead, "wings": work.press}.get(seal.kind)
    return time_for(seal.length, rate if rate is not None else _strip_rate(site, kind, seal, work))


def _strip_rate(site: Site, kind: str, seal: Seal, work: Productivity) -> Span3:
    """Return the rate of a strip by where the hand must reach."""
    if kind in {"top", "drape"}:
        return work.strip_roof
    joint = site.joints[seal.subject]
    if site.is_roof(joint):
        return work.strip_overhead
    high = joint.kind in {"eave", "rake", "roof_step"}
    upstairs = seal.face == "outer" and site.storey(joint) != site.storeys[0]
    return work.strip_ladder if high or upstairs else work.strip


def sort_key(site: Site, task_id: str) -> tuple[int, int, int, object]:
    """Return a key that puts tasks in the order of the work as far as no link says otherwise.

    All that is done for one part stands together, the rest goes by kind.
    """
    kind, key = kind_of(task_id), key_of(task_id)
    place = _PLACES.get(kind, len(_PLACES))
    if key in site.order and kind not in {"press", "tape"}:
        return (0, site.order[key], place, ())
    return (1, place, site.order.get(key, -1), natural_key(key))
