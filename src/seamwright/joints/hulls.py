"""The houses of a shell: which panels, bases, decks and openings close one room from outdoors."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components

from seamwright.geometry.types import Ring, Vec3
from seamwright.joints.types import Register
from seamwright.shell.types import Member, Opening, Panel, Shell, Support
from seamwright.tolerance import Tolerance


@dataclass(frozen=True, kw_only=True, slots=True)
class House:
    """The parts of a shell that make one house. `bases` close it from below, counter-clockwise
    from outside; `decks` are floors inside it, as supports.
    """

    panels: tuple[Panel, ...]
    bases: tuple[tuple[Vec3, ...], ...]
    decks: tuple[Support, ...]
    openings: tuple[Opening, ...]
    ledgers: tuple[Member, ...]


def hulls(shell: Shell, register: Register, tolerance: Tolerance) -> list[House]:
    """Return the houses of a shell: what joints connect or what stands in one another's way."""
    panels = [p for p in shell.panels if p.role != "partition"]
    groups = _groups(panels, shell.supports, register, tolerance)
    carried = _carried(shell, register)
    held = {hole.opening_id for p in panels for hole in p.holes}
    houses = []
    for members, supports in groups:
        mine = tuple(panels[i] for i in members)
        planes = {p.plane_id for p in mine}
        under = [shell.supports[i] for i in supports if shell.supports[i].id not in carried]
        houses.append(
            House(
                panels=mine,
                bases=tuple(loop for loop in _bases(under)),
                decks=tuple(shell.supports[i] for i in supports if shell.supports[i].id in carried),
                openings=tuple(
                    o for o in shell.openings if o.id not in held and o.plane_id in planes
                ),
                ledgers=_ledgers(shell.members, mine),
            )
        )
    return houses


def _groups(
    panels: Sequence[Panel], supports: Sequence[Support], register: Register, tolerance: Tolerance
) -> list[tuple[list[int], list[int]]]:
    """Return the numbers of the panels and supports of each house."""
    count = len(panels)
    names = {p.id: i for i, p in enumerate(panels)}
    names |= {s.id: count + i for i, s in enumerate(supports)}
    links = []
    for joint in register.joints:
        found = [names[x] for x in (*joint.panels, *joint.others) if x in names]
        links += [(found[0], other) for other in found[1:]]
    labels = _components(links, count + len(supports))
    loops = [[p.frame.point(uv) for uv in p.inner] for p in panels]
    loops += [[s.frame.point(uv) for uv in s.outline] for s in supports]
    labels = _merged(labels, loops, tolerance.bridged_gap)
    groups: dict[int, tuple[list[int], list[int]]] = defaultdict(lambda: ([], []))
    for number, label in enumerate(labels):
        groups[label][0 if number < count else 1].append(number - (number >= count) * count)
    return [group for group in groups.values() if group[0]]


def _components(links: Sequence[tuple[int, int]], total: int) -> list[int]:
    pairs = np.array(links, dtype=np.int64).reshape(-1, 2)
    graph = coo_array((np.ones(len(pairs)), (pairs[:, 0], pairs[:, 1])), shape=(total, total))
    return list(connected_components(graph, directed=False)[1].tolist())


def _merged(labels: list[int], loops: Sequence[Sequence[Vec3]], near: float) -> list[int]:
    """Return labels with groups joined whose boxes overlap: loose parts of one house."""
    if not labels:
        return labels
    count = max(labels) + 1
    low, high = np.full((count, 3), np.inf), np.full((count, 3), -np.inf)
    for label, loop in zip(labels, loops, strict=True):
        points = np.array(loop)
        low[label] = np.minimum(low[label], points.min(axis=0))
        high[label] = np.maximum(high[label], points.max(axis=0))
    boxes = shapely.box(low[:, 0], low[:, 1], high[:, 0] + near, high[:, 1] + near)
    a, b = shapely.STRtree(boxes).query(boxes, predicate="intersects")
    joined = _components(list(zip(a.tolist(), b.tolist(), strict=True)), count)
    return [joined[label] for label in labels]


def _carried(shell: Shell, register: Register) -> frozenset[str]:
    """Return the ids of supports that panels below carry: floors inside the house."""
    heights = {
        p.id: math.fsum(p.frame.point(uv)[2] for uv in p.inner) / len(p.inner)
        for p in shell.panels
        if p.role != "partition"
    }
    tops = {s.id: s.frame.origin[2] for s in shell.supports}
    return frozenset(
        name
        for joint in register.joints
        for name in joint.others
        if name in tops
        and joint.panels
        and joint.panels[0] in heights
        and heights[joint.panels[0]] < tops[name]
    )


def _bases(supports: Sequence[Support]) -> list[tuple[Vec3, ...]]:
    """Return the outlines that close a house from below; rings of stem wall are filled in."""
    by_height: dict[float, list[Support]] = defaultdict(list)
    for support in supports:
        by_height[round(support.frame.origin[2], 3)].append(support)
    loops = []
    for same in by_height.values():
        frame = same[0].frame
        rings: list[Ring] = []
        for support in same:
            points = [frame.local(support.frame.point(uv)) for uv in support.outline]
            rings.append(tuple((p[0], p[1]) for p in points))
        loops += [tuple(frame.point(uv) for uv in reversed(outline)) for outline in _filled(rings)]
    return loops


def _filled(rings: Sequence[Ring]) -> list[Ring]:
    """Return the outlines around touching rings, courts within them filled."""
    near = 0.01
    whole = shapely.unary_union(
        [shapely.Polygon(ring).buffer(near, join_style=2) for ring in rings]
    )
    whole = whole.buffer(-near, join_style=2)
    shapes = getattr(whole, "geoms", [whole])
    found = []
    for shape in shapes:
        outline = shapely.orient_polygons(shapely.Polygon(shape.exterior)).exterior.coords
        found.append(tuple((x, y) for x, y in list(outline)[:-1]))
    return found


def _ledgers(members: Sequence[Member], panels: Sequence[Panel]) -> tuple[Member, ...]:
    """Return the ledgers within the outlines of a house in plan."""
    ledgers = [m for m in members if m.kind == "ledger"]
    if not ledgers or not panels:
        return ()
    points = np.array([p.frame.point(uv)[:2] for p in panels for uv in p.inner])
    low, high = points.min(axis=0) - 0.1, points.max(axis=0) + 0.1
    return tuple(
        m
        for m in ledgers
        if np.all(np.array(m.start[:2]) >= low) and np.all(np.array(m.start[:2]) <= high)
    )
