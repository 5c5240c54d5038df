"""The air boundary: where a joint's inner line leaves the room under a wall, roof or corner line.

A roof seam runs out over the eave; indoors it ends where the eave line crosses it. A wall that runs
through at a corner has a sill to its very end; indoors that sill ends at the corner line. In both
cases another panel's edge stands on this panel's inner face and its room lies on one side.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from scipy.spatial import cKDTree

from seamwright.geometry.types import Segment, Vec3, dot
from seamwright.joints.draft import Draft
from seamwright.joints.gather import INNER
from seamwright.joints.types import JointKind
from seamwright.shell.types import Panel
from seamwright.tolerance import Tolerance

_OBLIQUE = 0.05
"""Sine of the least angle at which one line can end another. [-]"""


_SAME = 0.0005
"""Crossings nearer than this are one. [m]"""


@dataclass(frozen=True, kw_only=True, slots=True)
class Meeting:
    """End `end` (0 start, 1 end) of joint `joint` was cut by the line of joint `by`."""

    joint: int
    end: int
    by: int


def walls_on_faces(
    drafts: Sequence[Draft], kinds: Sequence[JointKind], panels: Sequence[Panel]
) -> dict[int, list[int]]:
    """Return for each panel the joints whose line bounds the room on its inner face."""
    found: dict[int, list[int]] = defaultdict(list)
    for at, (draft, kind) in enumerate(zip(drafts, kinds, strict=True)):
        if draft.surface is None or draft.surface[0] != INNER or draft.inner is None:
            continue
        if kind != "wall_tee" and panels[draft.panels[0]].role != "floor":
            found[draft.surface[1]].append(at)
    return found


def clip_to_air(
    drafts: Sequence[Draft], bounds: dict[int, list[int]], tolerance: Tolerance
) -> tuple[list[Draft], list[Meeting]]:
    """Return the drafts with inner lines cut to the room, and which line cut which end."""
    result = list(drafts)
    meetings = []
    for at, draft in enumerate(drafts):
        on = {use.panel for use in draft.uses}
        cutters = [by for panel in sorted(on) for by in bounds.get(panel, ()) if by != at]
        if not cutters or draft.inner is None:
            continue
        ends, cut_by = _cut_ends(draft, [(by, drafts[by]) for by in cutters], tolerance)
        meetings += [Meeting(joint=at, end=end, by=by) for end, by in sorted(cut_by.items())]
        start, end = ends
        inner = _part(draft.inner, start, end) if end - start >= tolerance.min_length else None
        result[at] = replace(draft, inner=inner)
    return result, meetings


def drop_outdoors(
    drafts: Sequence[Draft],
    whole: Sequence[Draft],
    meetings: Sequence[Meeting],
    panels: Sequence[Panel],
    tolerance: Tolerance,
) -> list[Draft]:
    """Return the drafts with no inner line on roof seams that go on from an end cut off outdoors.

    At an inside corner a valley's outer piece meets no wall line itself, but it starts where the
    next piece has already left the room. `whole` are the drafts before they were clipped.
    """
    roofs = [at for at, d in enumerate(whole) if all(panels[p].role == "roof" for p in d.panels)]
    roofs = [at for at in roofs if len(whole[at].panels) == 2]
    if not roofs:
        return list(drafts)
    ends = np.array([(whole[at].line.start, whole[at].line.end) for at in roofs], dtype=float)
    tree = cKDTree(ends.reshape(-1, 3))
    row_of = {at: row for row, at in enumerate(roofs)}
    cut = {meeting.joint for meeting in meetings}
    ways = [(m.joint, m.end) for m in meetings if m.joint in row_of]
    result = list(drafts)
    while ways:
        at, end = ways.pop()
        for near in tree.query_ball_point(ends[row_of[at], end], tolerance.gap):
            other, side = roofs[near // 2], near % 2
            if other not in cut:
                cut.add(other)
                result[other] = replace(result[other], inner=None)
                ways.append((other, 1 - side))
    return result


def is_beyond(point: Vec3, cutter: Draft, slack: float) -> bool:
    """Return whether `point`, on the face that `cutter` stands on, lies outside its room.

    Only for points abreast of one of the cutter's skin lines, give or take `slack`. [m]
    """
    line = cutter.inner
    if line is None:
        return False
    off = _minus(point, line.start)
    place = dot(off, cutter.along)
    outside = -dot(off, cutter.room)
    low, high = 0.0, line.length
    if cutter.outer is not None:
        ends = [dot(_minus(p, line.start), cutter.along) for p in _both(cutter.outer)]
        low, high = min(low, *ends), max(high, *ends)
    return outside > -0.001 and low - slack <= place <= high + slack


def _cut_ends(
    draft: Draft, cutters: Sequence[tuple[int, Draft]], tolerance: Tolerance
) -> tuple[tuple[float, float], dict[int, int]]:
    """Return the two ends of what is left of the inner line, and which joint cut which end.

    Lines that reach the crossing come first; one that falls short of it, by no more than a plate,
    cuts only an end that no other has cut.
    """
    assert draft.inner is not None
    ends = [0.0, draft.inner.length]
    by_end: dict[int, int] = {}
    found = [(_cut(draft, cutter, tolerance), by) for by, cutter in cutters]
    for cut, by in sorted((cut, by) for cut, by in found if cut is not None):
        short, place, end = cut
        deeper = place < ends[1] - _SAME if end else place > ends[0] + _SAME
        if deeper and (short <= tolerance.node or end not in by_end):
            ends[end] = place
            by_end[end] = by
    return (ends[0], ends[1]), by_end


def _cut(draft: Draft, cutter: Draft, tolerance: Tolerance) -> tuple[float, float, int] | None:
    """Return how far the cutter's line falls short, where its wall plane crosses the draft's
    inner line, and which end that cuts off (0 start, 1 end). [m]
    """
    line, across = draft.inner, cutter.inner
    if line is None or across is None:
        return None
    lean = dot(draft.along, cutter.room)
    if abs(lean) < _OBLIQUE:
        return None
    place = dot(_minus(across.start, line.start), cutter.room) / lean
    at = tuple(p + place * d for p, d in zip(line.start, draft.along, strict=True))
    off = _minus(at, across.start)  # type: ignore[arg-type]
    beside = dot(off, cutter.along)
    short = max(0.0, -beside, beside - across.length)
    if short > tolerance.bridged_gap:
        return None
    away = sum((o - beside * d) ** 2 for o, d in zip(off, cutter.along, strict=True))
    if away > (tolerance.bridged_gap + tolerance.node) ** 2:
        return None
    return round(short, 3), place, 1 if lean < 0.0 else 0


def _part(line: Segment, start: float, end: float) -> Segment:
    if line.length <= 0.0:
        return line
    d = tuple((b - a) / line.length for a, b in zip(line.start, line.end, strict=True))
    a, b = (tuple(p + s * x for p, x in zip(line.start, d, strict=True)) for s in (start, end))
    return Segment(start=a, end=b)  # type: ignore[arg-type]


def _both(line: Segment) -> tuple[Vec3, Vec3]:
    return line.start, line.end


def _minus(a: Vec3, b: Vec3) -> Vec3:
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])
