"""Nodes: places where the inner lines of joints end together, end on, or cross one another."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components
from scipy.spatial import cKDTree

from seamwright.geometry.search import Floats, Ints, near_boxes, segment_distance
from seamwright.geometry.types import Segment, Vec3
from seamwright.joints.name import in_order
from seamwright.joints.types import Node
from seamwright.tolerance import Tolerance

_LETTERS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
"""Digits and letters that cannot be misread on site (no I, L, O or U)."""


_OFF_GRID = 0.00037
"""Added to the reach of a node, so that sizes drawn in whole millimetres never sit on it. [m]"""


@dataclass(frozen=True, kw_only=True, slots=True)
class LineEnd:
    """End `end` of joint `joint` at `at`; `also` are further places that count as the same end."""

    joint: int
    end: int
    at: Vec3
    also: tuple[Vec3, ...] = ()


@dataclass(frozen=True, kw_only=True, slots=True)
class Meetings:
    """Nodes, and for each joint end (joint, end) the set of joints that meet there."""

    nodes: tuple[Node, ...]
    at_end: dict[tuple[int, int], frozenset[int]] = field(default_factory=dict)


def join_at_nodes(
    ends: Sequence[LineEnd],
    lines: Sequence[Segment | None],
    ids: Sequence[str],
    kinds: Sequence[str],
    tolerance: Tolerance,
) -> Meetings:
    """Return the nodes of a register and who meets at each joint's ends.

    `lines`, `ids` and `kinds` list all joints; a joint without an inner line meets nothing. A node
    needs two joints. Its id is made from the ids of its joints, so it stays while they stay.
    """
    if not ends:
        return Meetings(nodes=())
    place, owner = _places(ends)
    group = _clusters(place, owner, len(ends), tolerance.node + _OFF_GRID)
    members: dict[int, set[int]] = {}
    for end, label in zip(ends, group.tolist(), strict=True):
        members.setdefault(label, set()).add(end.joint)
    _add_passing(members, place, group[owner], lines, tolerance.node + _OFF_GRID)
    found = [
        (in_order([ids[joint] for joint in joints]), label)
        for label, joints in members.items()
        if len(joints) > 1
    ]
    middles = _middles(ends, group)
    kind_of = dict(zip(ids, kinds, strict=True))
    nodes = _named(
        sorted(((names, middles[label]) for names, label in found), key=_node_key), kind_of
    )
    at_end = {
        (end.joint, end.end): frozenset(members[label])
        for end, label in zip(ends, group.tolist(), strict=True)
    }
    return Meetings(nodes=nodes, at_end=at_end)


def _node_key(item: tuple[tuple[str, ...], Vec3]) -> tuple[tuple[str, ...], float]:
    return item[0], round(item[1][2], 3)


def _places(ends: Sequence[LineEnd]) -> tuple[Floats, Ints]:
    places = [(p, number) for number, end in enumerate(ends) for p in (end.at, *end.also)]
    table = np.array([place for place, _ in places], dtype=float)
    return table, np.array([number for _, number in places], dtype=np.int64)


def _clusters(place: Floats, owner: Ints, count: int, reach: float) -> Ints:
    """Return the cluster number of every end; places of one end belong together."""
    pairs = cKDTree(place).query_pairs(reach, output_type="ndarray")
    i, j = owner[pairs[:, 0]], owner[pairs[:, 1]]
    graph = coo_array((np.ones(len(i)), (i, j)), shape=(count, count))
    return np.asarray(connected_components(graph, directed=False)[1], dtype=np.int64)


def _add_passing(
    members: dict[int, set[int]],
    place: Floats,
    label: Ints,
    lines: Sequence[Segment | None],
    reach: float,
) -> None:
    """Add joints whose line passes by a cluster without ending there."""
    whole = [(number, line) for number, line in enumerate(lines) if line is not None]
    rows = [number for number, line in whole if line.length > 0.0]
    if not rows:
        return
    start = np.array([line.start for _, line in whole if line.length > 0.0], dtype=np.float64)
    end = np.array([line.end for _, line in whole if line.length > 0.0], dtype=np.float64)
    i, j = near_boxes(place - reach, place + reach, np.minimum(start, end), np.maximum(start, end))
    near = segment_distance(place[i], start[j], end[j]) <= reach
    for at, line in zip(i[near].tolist(), j[near].tolist(), strict=True):
        members[int(label[at])].add(rows[line])


def _middles(ends: Sequence[LineEnd], group: Ints) -> dict[int, Vec3]:
    place = np.array([end.at for end in ends], dtype=float)
    count = np.bincount(group)
    total = np.stack([np.bincount(group, weights=place[:, axis]) for axis in range(3)], axis=1)
    middle = (total / np.maximum(count, 1)[:, None]).tolist()
    return {label: (x, y, z) for label, (x, y, z) in enumerate(middle)}


def _named(
    found: Sequence[tuple[tuple[str, ...], Vec3]], kind_of: dict[str, str]
) -> tuple[Node, ...]:
    used: dict[str, int] = {}
    nodes = []
    for names, at in found:
        code = f"N-{_code('|'.join(names))}"
        used[code] = used.get(code, 0) + 1
        suffix = f":{used[code]}" if used[code] > 1 else ""
        kind = "+".join(sorted({kind_of[name] for name in names}))
        nodes.append(Node(id=code + suffix, kind=kind, at=at, joints=names))
    return tuple(nodes)


def _code(text: str) -> str:
    """Return six letters that stand for `text`."""
    number = int.from_bytes(hashlib.blake2s(text.encode(), digest_size=4).digest(), "big")
    return "".join(_LETTERS[(number >> shift) & 31] for shift in range(0, 30, 5))
