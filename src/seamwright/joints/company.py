"""Which panels belong to one house, and where a line on a face ends with nothing to go on to."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Mapping, Sequence

import numpy as np
from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components

from seamwright.geometry.types import Frame, Segment, Vec3, dot
from seamwright.joints.close import Company, OpenEnd
from seamwright.joints.draft import Draft
from seamwright.joints.gather import BACK, FRONT, OUTER
from seamwright.joints.types import Joint
from seamwright.shell.types import Panel, Support

_RUNNING = ("sill", "eave", "rake", "floor_line", "roof_step")
"""Kinds whose line must go on around the house."""


def companies(
    drafts: Sequence[Draft], panels: Sequence[Panel], supports: Sequence[Support]
) -> dict[int, Company]:
    """Return for each panel the house it belongs to: all that joints connect with it.

    A deck carried by walls lies within the house and is no part of its hull.
    """
    count = len(panels)
    links: list[tuple[int, int]] = []
    inside = set()
    for draft in drafts:
        links += [(draft.panels[0], other) for other in draft.panels[1:]]
        if draft.surface is not None and draft.surface[0] >= FRONT:
            links.append((draft.panels[0], count + draft.surface[1]))
            if draft.surface[0] == BACK:
                inside.add(draft.surface[1])
    total = count + len(supports)
    pairs = np.array(links, dtype=np.int64).reshape(-1, 2)
    graph = coo_array((np.ones(len(pairs)), (pairs[:, 0], pairs[:, 1])), shape=(total, total))
    labels = connected_components(graph, directed=False)[1].tolist()
    members: dict[int, tuple[list[int], list[int]]] = defaultdict(lambda: ([], []))
    for number, label in enumerate(labels):
        if number < count:
            members[label][0].append(number)
        elif number - count not in inside:
            members[label][1].append(number - count)
    made = {
        label: Company(panels=tuple(group[0]), supports=tuple(group[1]))
        for label, group in members.items()
    }
    return {number: made[labels[number]] for number in range(count)}


def open_ends(
    drafts: Sequence[Draft],
    joints: Sequence[Joint],
    at_end: Mapping[tuple[int, int], frozenset[int]],
    panels: Sequence[Panel],
    supports: Sequence[Support],
    company: Mapping[int, Company],
) -> list[OpenEnd]:
    """Return the ends of lines on faces where no other joint meets them."""
    found = []
    for at, (draft, joint) in enumerate(zip(drafts, joints, strict=True)):
        if joint.kind not in _RUNNING or draft.surface is None or draft.inner is None:
            continue
        if panels[draft.panels[0]].role == "floor":
            continue
        for end, place in enumerate((draft.inner.start, draft.inner.end)):
            if len(at_end.get((at, end), ())) < 2:
                host, frame = _host(draft.surface, panels, supports)
                sign = 1.0 if end else -1.0
                plane = (*_plane(frame), float(company[draft.panels[0]].panels[0]))
                way = (sign * draft.along[0], sign * draft.along[1], sign * draft.along[2])
                found.append(OpenEnd(joint_id=joint.id, host=host, plane=plane, at=place, way=way))
    return found


def nearest_on(line: Segment, point: Vec3) -> Vec3:
    """Return the point of a segment nearest to `point`. [m]"""
    run = tuple(b - a for a, b in zip(line.start, line.end, strict=True))
    square = math.fsum(x * x for x in run)
    if square <= 0.0:
        return line.start
    off = tuple(p - a for p, a in zip(point, line.start, strict=True))
    t = min(1.0, max(0.0, sum(o * r for o, r in zip(off, run, strict=True)) / square))
    a = line.start
    return (a[0] + t * run[0], a[1] + t * run[1], a[2] + t * run[2])


def corner_arris(draft: Draft, kind: str, place: Vec3, panels: Sequence[Panel]) -> tuple[Vec3, ...]:
    """Return where the inner arris of a wall running through stands at an inside corner.

    There the butting wall stands on the outer skin, and the room sees the end of the other wall:
    lines on its inner face end a wall's thickness away from the corner line. [m]
    """
    if kind != "wall_corner" or draft.surface is None or draft.surface[0] != OUTER:
        return ()
    thick, into = panels[draft.surface[1]].thickness, draft.into
    return (
        (
            place[0] - thick * into[0],
            place[1] - thick * into[1],
            place[2] - thick * into[2],
        ),
    )


def _host(
    surface: tuple[int, int], panels: Sequence[Panel], supports: Sequence[Support]
) -> tuple[str, Frame]:
    if surface[0] >= FRONT:
        return supports[surface[1]].id, supports[surface[1]].frame
    return panels[surface[1]].id, panels[surface[1]].frame


def _plane(frame: Frame) -> tuple[float, ...]:
    """Return numbers that are equal for frames in one plane, give or take a centimetre."""
    n = frame.n
    values = (*n, dot(n, frame.origin))
    return tuple(float(math.floor((value + 0.000237) / 0.01)) for value in values)
