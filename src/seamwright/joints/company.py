"""Which panels belong to one house, and where a line on a face ends with nothing to go on to."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components
from scipy.spatial import cKDTree

from seamwright.geometry.types import Frame, Segment, Vec3, dot
from seamwright.joints.account import Loose
from seamwright.joints.bridge import Folds, OpenEnd, Plane
from seamwright.joints.close import Company
from seamwright.joints.draft import Draft
from seamwright.joints.gather import BACK, FRONT, OUTER
from seamwright.joints.types import Joint
from seamwright.shell.types import Panel, Support

_RUNNING = ("sill", "eave", "rake", "floor_line", "roof_step")
"""Kinds whose line must go on around the house."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Places:
    """What open ends are judged by; `reach` is how near ends count as one place. [m]"""

    panels: Sequence[Panel]
    supports: Sequence[Support]
    company: Mapping[int, Company]
    loose: Sequence[Loose]
    reach: float


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
    places: Places,
) -> list[OpenEnd]:
    """Return the ends of lines on faces where no other such line goes on.

    An end where two loose panel edges begin is left out: those edges are the break there.
    """
    found = []
    for at, (draft, joint) in enumerate(zip(drafts, joints, strict=True)):
        if joint.kind not in _RUNNING or draft.surface is None or draft.inner is None:
            continue
        if places.panels[draft.panels[0]].role == "floor":
            continue
        for end in (0, 1):
            others = at_end.get((at, end), frozenset()) - {at}
            if not any(_goes_on(draft, drafts[other], joints[other]) for other in others):
                found.append(_open_end(draft, joint.id, end, places))
    crowded = _loose_ends_near([end.at for end in found], places)
    return [end for end, count in zip(found, crowded, strict=True) if count < 2]


def _goes_on(draft: Draft, other: Draft, joint: Joint) -> bool:
    """Return whether another joint carries a line on: not one on the far side of a deck or rim."""
    if joint.kind == "wall_corner":
        return joint.contact == "edge_support"
    if joint.kind == "opening":
        return True
    sides = {d.surface[0] for d in (draft, other) if d.surface is not None}
    stacked = sides == {FRONT, BACK} or (joint.kind == "floor_line" and other.surface is None)
    return joint.kind in _RUNNING and not stacked


def fold_lines(drafts: Sequence[Draft], panels: Sequence[Panel]) -> Folds:
    """Return the lines in which panels of two planes meet edge to edge."""
    found: dict[frozenset[Plane], list[Segment]] = defaultdict(list)
    for draft in drafts:
        if draft.contact == "edge_edge":
            planes = frozenset(plane_of(panels[number].frame) for number in draft.panels)
            found[planes].append(draft.line)
    return found


def in_planes(
    panels: Sequence[Panel], company: Mapping[int, Company]
) -> dict[tuple[int, Plane], list[int]]:
    """Return the panels that lie in one plane of one house."""
    found: dict[tuple[int, Plane], list[int]] = defaultdict(list)
    for number, panel in enumerate(panels):
        found[company[number].panels[0], plane_of(panel.frame)].append(number)
    return found


def _open_end(draft: Draft, joint_id: str, end: int, places: Places) -> OpenEnd:
    assert draft.inner is not None
    assert draft.surface is not None
    on_support = draft.surface[0] >= FRONT
    number = draft.surface[1]
    host = places.supports[number] if on_support else places.panels[number]
    sign = 1.0 if end else -1.0
    return OpenEnd(
        joint_id=joint_id,
        draft=draft,
        host=host.id,
        panel=-1 if on_support else number,
        house=places.company[draft.panels[0]].panels[0],
        plane=plane_of(host.frame),
        at=draft.inner.end if end else draft.inner.start,
        way=(sign * draft.along[0], sign * draft.along[1], sign * draft.along[2]),
    )


def _loose_ends_near(points: Sequence[Vec3], places: Places) -> list[int]:
    """Return how many loose panel edges end near each point."""
    ends = [p for loose in places.loose for p in (loose.line.start, loose.line.end)]
    if not ends or not points:
        return [0] * len(points)
    tree = cKDTree(np.array(ends, dtype=float))
    found = tree.query_ball_point(np.array(points, dtype=float), places.reach)
    return [len(near) for near in found]


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


def beyond_step(draft: Draft, kind: str, place: Vec3, panels: Sequence[Panel]) -> tuple[Vec3, ...]:
    """Return where else a line end counts as being: across the step between the two skins.

    Over a plate the line on the other face ends above this one. At an inside corner the butting
    wall stands on the outer skin and the room sees the end of the wall that runs through: lines on
    its inner face end a wall's thickness away from the corner line. [m]
    """
    if draft.surface is None:
        return ()
    far = draft.inner_step
    if kind == "wall_corner" and draft.surface[0] == OUTER:
        far = panels[draft.surface[1]].thickness
    if far <= 0.0:
        return ()
    a = draft.into
    return ((place[0] - far * a[0], place[1] - far * a[1], place[2] - far * a[2]),)


def plane_of(frame: Frame) -> Plane:
    """Return numbers that are equal for frames in one plane, give or take a centimetre."""
    n = frame.n
    values = (*n, dot(n, frame.origin))
    return tuple(math.floor((value + 0.000237) / 0.01) for value in values)
