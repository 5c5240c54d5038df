"""The edge ledger: every stretch of every panel's inner edges is a joint, free or explained."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from seamwright.geometry.types import Segment, Vec3, dot
from seamwright.joints.air import is_beyond
from seamwright.joints.draft import Draft
from seamwright.joints.gather import OUTER, Edges
from seamwright.joints.types import EdgeUse, JointKind
from seamwright.shell.types import Panel
from seamwright.tolerance import Tolerance

PARTITION = "edge of a partition, inside the air boundary"
CROSSING = "opening between neighbors where another joint crosses"


@dataclass(frozen=True, kw_only=True, slots=True)
class Loose:
    """A stretch of an inner edge that no joint takes up and nothing local explains. [m]

    `line` is its inner arris, `far` its outer one; `into` leads into the panel, `room` to its room.
    """

    panel: int
    edge: int
    start: float
    end: float
    line: Segment
    far: Segment
    into: Vec3
    room: Vec3


@dataclass(frozen=True, kw_only=True, slots=True)
class EdgeRow:
    """One panel edge as plain numbers."""

    panel: int
    index: int
    start: Vec3
    along: Vec3
    length: float
    across: Vec3
    into: Vec3
    room: Vec3


@dataclass(frozen=True, kw_only=True, slots=True)
class Corner:
    """A butt joint that ends a wall running through: its draft and id."""

    draft: Draft
    joint_id: str


def edge_rows(panels: Sequence[Panel], edges: Edges) -> list[EdgeRow]:
    """Return the edges as records, for the few places where each is looked at alone."""
    normals = [panel.frame.n for panel in panels]
    columns = (
        edges.panel.tolist(),
        edges.index.tolist(),
        edges.start.tolist(),
        edges.along.tolist(),
        edges.length.tolist(),
        edges.across.tolist(),
    )
    rows = []
    for panel, index, start, along, length, across in zip(*columns, strict=True):
        n = normals[panel]
        into = (
            n[1] * along[2] - n[2] * along[1],
            n[2] * along[0] - n[0] * along[2],
            n[0] * along[1] - n[1] * along[0],
        )
        rows.append(
            EdgeRow(
                panel=panel,
                index=index,
                start=tuple(start),
                along=tuple(along),
                length=length,
                across=tuple(across),
                into=into,
                room=(-n[0], -n[1], -n[2]),
            )
        )
    return rows


def account_edges(
    panels: Sequence[Panel],
    rows: Sequence[EdgeRow],
    joints: Mapping[tuple[int, int], Sequence[EdgeUse]],
    corners: Mapping[int, Sequence[Corner]],
    tolerance: Tolerance,
) -> tuple[list[EdgeUse], list[Loose]]:
    """Return the ledger of what is known at once, and the stretches still to be judged.

    `joints` gives the uses of each (panel, edge). `corners` gives for each panel the joints whose
    parts stand on its faces and bound its room. Stretches of one edge add up to its length.
    """
    ledger: list[EdgeUse] = []
    loose: list[Loose] = []
    for row in rows:
        if row.length <= tolerance.equal:
            continue
        used, gaps = _split(row, joints.get((row.panel, row.index), ()), tolerance)
        ledger += used
        for start, end in gaps:
            if panels[row.panel].role == "partition":
                ledger.append(_explained(panels, row, start, end, PARTITION))
                continue
            if end - start <= tolerance.gap:
                ledger.append(_explained(panels, row, start, end, CROSSING))
                continue
            cutters = corners.get(row.panel, ())
            for a, b in _cut(row, start, end, cutters, tolerance):
                reason = _reason(row, (a + b) / 2.0, cutters, tolerance)
                if reason is None:
                    loose.append(_loose(row, a, b))
                else:
                    ledger.append(_explained(panels, row, a, b, reason))
    return ledger, loose


def _split(
    row: EdgeRow, uses: Sequence[EdgeUse], tolerance: Tolerance
) -> tuple[list[EdgeUse], list[tuple[float, float]]]:
    """Return the uses cut so that none overlaps another, and the stretches left between."""
    at = 0.0
    kept: list[EdgeUse] = []
    gaps: list[tuple[float, float]] = []
    for use in sorted(uses, key=lambda use: (use.start, use.end, use.ref)):
        start, end = max(use.start, at), min(use.end, row.length)
        if end <= start:
            continue
        if start - at <= tolerance.equal:
            start = at
        else:
            gaps.append((at, start))
        kept.append(_moved_use(use, start, end))
        at = end
    if row.length - at > tolerance.equal:
        gaps.append((at, row.length))
    elif kept:
        kept[-1] = _moved_use(kept[-1], kept[-1].start, row.length)
    return kept, gaps


def _moved_use(use: EdgeUse, start: float, end: float) -> EdgeUse:
    return EdgeUse(
        panel_id=use.panel_id,
        edge=use.edge,
        start=start,
        end=end,
        fate=use.fate,
        ref=use.ref,
        reason=use.reason,
    )


def _cut(
    row: EdgeRow, start: float, end: float, cutters: Sequence[Corner], tolerance: Tolerance
) -> list[tuple[float, float]]:
    """Return a stretch cut where it leaves a room and where a bounding line begins or ends."""
    places = {start, end}
    for cutter in cutters:
        line = cutter.draft.inner
        if line is None:
            continue
        lean = dot(row.along, cutter.draft.room)
        level = dot(row.along, cutter.draft.along)
        for point in (line.start, line.end):
            off = tuple(a - b for a, b in zip(point, row.start, strict=True))
            if abs(lean) > 0.05:
                places.add(dot(off, cutter.draft.room) / lean)  # type: ignore[arg-type]
            if abs(level) > 0.05:
                places.add(dot(off, cutter.draft.along) / level)  # type: ignore[arg-type]
    inside = sorted(p for p in places if start <= p <= end)
    merged = [inside[0]]
    for place in inside[1:]:
        if place - merged[-1] > tolerance.min_length:
            merged.append(place)
    merged[-1] = end if len(merged) > 1 else merged[-1]
    if len(merged) == 1:
        merged.append(end)
    return list(pairwise(merged))


def _reason(
    row: EdgeRow, place: float, cutters: Sequence[Corner], tolerance: Tolerance
) -> str | None:
    """Return why a stretch needs nothing, as far as the joints on its panel's faces tell."""
    s = row.start
    point = (
        s[0] + place * row.along[0],
        s[1] + place * row.along[1],
        s[2] + place * row.along[2],
    )
    for cutter in cutters:
        draft = cutter.draft
        if draft.surface is not None and draft.surface[0] == OUTER:
            if _ends_flush(point, row, draft, tolerance):
                return f"cut edge in the room, behind {cutter.joint_id}"
        elif is_beyond(point, draft, tolerance.node):
            if abs(dot(row.along, draft.along)) > 0.99 and abs(draft.along[2]) > 0.7:
                return f"end of a wall that runs through at {cutter.joint_id}"
            return f"outside the air boundary, beyond {cutter.joint_id}"
    return None


def _ends_flush(point: Vec3, row: EdgeRow, draft: Draft, tolerance: Tolerance) -> bool:
    line = draft.inner
    if line is None or abs(dot(row.along, draft.along)) < 0.99:
        return False
    off = (point[0] - line.start[0], point[1] - line.start[1], point[2] - line.start[2])
    return abs(dot(off, draft.room)) <= tolerance.node


def _explained(
    panels: Sequence[Panel], row: EdgeRow, start: float, end: float, reason: str
) -> EdgeUse:
    return EdgeUse(
        panel_id=panels[row.panel].id,
        edge=row.index,
        start=start,
        end=end,
        fate="explained",
        ref="",
        reason=reason,
    )


def _loose(row: EdgeRow, start: float, end: float) -> Loose:
    def at(place: float, lift: float) -> Vec3:
        s, d, q = row.start, row.along, row.across
        return (
            s[0] + place * d[0] + lift * q[0],
            s[1] + place * d[1] + lift * q[1],
            s[2] + place * d[2] + lift * q[2],
        )

    return Loose(
        panel=row.panel,
        edge=row.index,
        start=start,
        end=end,
        line=Segment(start=at(start, 0.0), end=at(end, 0.0)),
        far=Segment(start=at(start, 1.0), end=at(end, 1.0)),
        into=row.into,
        room=row.room,
    )


def by_edge(
    uses: Sequence[EdgeUse], numbers: Mapping[str, int]
) -> dict[tuple[int, int], list[EdgeUse]]:
    """Return the uses grouped by panel number and edge."""
    grouped: dict[tuple[int, int], list[EdgeUse]] = defaultdict(list)
    for use in uses:
        grouped[numbers[use.panel_id], use.edge].append(use)
    return grouped


def bounding(
    drafts: Sequence[Draft],
    kinds: Sequence[JointKind],
    ids: Sequence[str],
    bounds: Mapping[int, Sequence[int]],
) -> dict[int, list[Corner]]:
    """Return for each panel the joints that bound its room or end it at a corner."""
    found: dict[int, list[Corner]] = defaultdict(list)
    for panel, rows in bounds.items():
        found[panel] += [Corner(draft=drafts[at], joint_id=ids[at]) for at in rows]
    for at, (draft, kind) in enumerate(zip(drafts, kinds, strict=True)):
        behind = kind in ("wall_corner", "roof_step")
        if behind and draft.surface is not None and draft.surface[0] == OUTER:
            found[draft.surface[1]].append(Corner(draft=draft, joint_id=ids[at]))
    return found
