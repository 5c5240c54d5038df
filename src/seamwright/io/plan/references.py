"""Check that names in a plan are unique and lead somewhere."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from seamwright.io.explain import NOUNS
from seamwright.io.plan.model import PlanFields
from seamwright.io.plan.reading import Reading
from seamwright.shell.levels import letters, wall_id
from seamwright.shell.plan import Footprint, Storey

_SECTIONS = ("panel_types", "storeys", "footprints", "roof", "dormers")
_PARTS = ("inner_walls", "openings", "penetrations", "timbers", "panels", "supports")
_PLANES = {"gable": 2, "hip": 1, "shed": 1, "gambrel": 4, "saltbox": 2}


def check_names(fields: PlanFields, reading: Reading) -> None:
    """Tell every id used twice, and every name that leads nowhere."""
    for section in _SECTIONS:
        _check_unique(((section, fields),), reading)
    _check_unique([(section, fields) for section in _PARTS], reading)
    _check_walls_once(fields, reading)
    types = [item.id for item in fields.panel_types]
    storeys = [item.id for item in fields.storeys]
    for place, given in _panel_type_uses(fields):
        reading.refer(place, given, types, what="panel type")
    for place, given in _storey_uses(fields):
        reading.refer(place, given, storeys, what="storey")
    footprints = [item.id for item in fields.footprints]
    parts = [item.id for item in fields.roof]
    for i, part in enumerate(fields.roof):
        reading.refer(("roof", i, "over"), part.over, footprints, what="footprint")
    for i, dormer in enumerate(fields.dormers):
        reading.refer(("dormers", i, "part"), dormer.part, parts, what="roof part")


def check_hosts(
    fields: PlanFields,
    footprints: Iterable[Footprint],
    storeys: tuple[Storey, ...],
    given: Iterable[str],
    reading: Reading,
) -> None:
    """Tell openings, penetrations and wall rules that name no wall, roof plane or panel.

    `given` are ids of hand-placed panels and their planes.
    """
    drawn = list(footprints)
    if len(drawn) < len(fields.footprints):
        return
    walls = list(wall_ids(drawn, storeys))
    for i, rule in enumerate(fields.walls):
        reading.refer(("walls", i, "wall"), rule.wall, walls, what="wall")
    planes = sum(_planes(part.kind, i, reading, fields) for i, part in enumerate(fields.roof))
    hosts = [
        *walls,
        *(f"R{k + 1}" for k in range(planes)),
        *_floors(fields, drawn, storeys),
        *given,
    ]
    dormers = [dormer.id for dormer in fields.dormers]
    for section in ("openings", "penetrations"):
        for i, item in enumerate(getattr(fields, section)):
            if not any(item.host.startswith(dormer) for dormer in dormers):
                what = "wall, roof plane, floor or panel"
                reading.refer((section, i, "in"), item.host, hosts, what=what)


def wall_ids(footprints: Iterable[Footprint], storeys: tuple[Storey, ...]) -> Iterator[str]:
    """Yield every wall's id: A, B, C ... around the footprints in order, 2A ... upstairs."""
    order = [storey.id for storey in storeys]
    number = 0
    for footprint in footprints:
        for _ in footprint.corners:
            for storey in footprint.storeys:
                level = order.index(storey) if storey in order else 0
                yield wall_id(letters(number), level)
            number += 1


def _floors(
    fields: PlanFields, footprints: Sequence[Footprint], storeys: tuple[Storey, ...]
) -> Iterator[str]:
    """Yield the names of the floors laid of panels, one for each outline that stands apart."""
    if fields.base is not None and fields.base.kind == "floor_panels":
        yield "floor"
        lowest = [f for f in footprints if storeys and storeys[0].id in f.storeys]
        yield from (f"floor{i + 1}" for i in range(len(lowest)) if len(lowest) > 1)


def _planes(kind: str, index: int, reading: Reading, fields: PlanFields) -> int:
    if kind != "hip":
        return _PLANES[kind]
    outline = reading.outlines.get(("roof", fields.roof[index].id))
    return 4 if outline is None else len(outline.corners)


def _check_unique(sections: Iterable[tuple[str, PlanFields]], reading: Reading) -> None:
    seen: dict[str, str] = {}
    for section, fields in sections:
        entries = getattr(fields, section)
        if isinstance(entries, str):
            continue
        for i, item in enumerate(entries):
            if item.id in seen:
                told = f"the id ‘{item.id}’ is used before, by {seen[item.id]}"
                reading.tell(section, i, told, "give each its own id", "id")
            seen.setdefault(item.id, f"another {NOUNS[section]}")


def _check_walls_once(fields: PlanFields, reading: Reading) -> None:
    seen: set[str] = set()
    for i, rule in enumerate(fields.walls):
        if rule.wall in seen:
            reading.tell("walls", i, f"wall {rule.wall} has two entries", "merge them", "wall")
        seen.add(rule.wall)


def _panel_type_uses(fields: PlanFields) -> Iterator[tuple[tuple[str, int, str], str | None]]:
    name = "panel_type"
    for section in ("storeys", "walls", "roof", "dormers"):
        for i, item in enumerate(getattr(fields, section)):
            yield (section, i, name), item.panel_type
    for i, dormer in enumerate(fields.dormers):
        yield ("dormers", i, "wall_panel_type"), dormer.wall_panel_type
    if not isinstance(fields.panels, str):
        for i, panel in enumerate(fields.panels):
            yield ("panels", i, "type"), panel.type
    if fields.base is not None:
        yield ("base", -1, name), fields.base.panel_type


def _storey_uses(fields: PlanFields) -> Iterator[tuple[tuple[str, int, str], str | None]]:
    for i, footprint in enumerate(fields.footprints):
        for storey in () if footprint.storeys is None else footprint.storeys:
            yield ("footprints", i, "storeys"), storey
    for i, wall in enumerate(fields.inner_walls):
        yield ("inner_walls", i, "storey"), wall.storey
