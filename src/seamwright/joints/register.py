"""The joint register of a shell: find, classify, name, join at nodes, account, close."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from seamwright.joints.account import account_edges, bounding, by_edge, edge_rows
from seamwright.joints.air import Meeting, clip_to_air, drop_outdoors, walls_on_faces
from seamwright.joints.bearings import draft_bearings
from seamwright.joints.bridge import as_bounds, as_breaks, bridge_open_ends
from seamwright.joints.classify import Verdict, classify, look_around
from seamwright.joints.close import judge_loose, steps_at_nodes
from seamwright.joints.company import (
    Places,
    beyond_step,
    companies,
    fold_lines,
    in_planes,
    nearest_on,
    open_ends,
)
from seamwright.joints.correct import Corrected, Found, corrected_by, without_buried
from seamwright.joints.cross import crossed
from seamwright.joints.draft import Draft, Use, draft_joints
from seamwright.joints.fill import Boxes, member_boxes
from seamwright.joints.find import draft_ledgers, find_on_cut_edges, find_touches
from seamwright.joints.finish import Ready, base_name, finish, room_way
from seamwright.joints.gather import (
    SIDE,
    Edges,
    gather_edges,
    gather_surfaces,
    in_natural_order,
    natural_key,
)
from seamwright.joints.merge import merge_pieces
from seamwright.joints.name import numbered
from seamwright.joints.nodes import LineEnd, Meetings, join_at_nodes
from seamwright.joints.openings import draft_openings, draft_penetrations
from seamwright.joints.thresholds import draft_thresholds
from seamwright.joints.timbers import InnerLine, timbers_behind
from seamwright.joints.types import EdgeFate, EdgeUse, Joint, Register
from seamwright.shell.plan import Override
from seamwright.shell.types import Panel, Shell
from seamwright.tolerance import DEFAULT, Tolerance

_FOLDED = ("ridge", "hip", "valley")
_SEAMS = ("wall_spline", "wall_corner", "roof_spline", "floor_spline", "end_joint")


@dataclass(frozen=True, kw_only=True, slots=True)
class _Clipped:
    """Joints cut back to the air boundary, where they were cut, and what bounds each face."""

    drafts: list[Draft]
    meetings: Sequence[Meeting]
    bounds: dict[int, list[int]]


@dataclass(frozen=True, kw_only=True, slots=True)
class _House:
    """What the ledger is drawn up from. `bounds` lists joints on each panel's inner face."""

    panels: Sequence[Panel]
    edges: Edges
    joints: list[Joint]
    bounds: dict[int, list[int]]


def build_register(
    shell: Shell, overrides: Sequence[Override] = (), tolerance: Tolerance = DEFAULT
) -> Register:
    """Return every joint and node of a shell, its edge ledger and the breaks in its lines.

    Found from geometry alone: the result does not depend on the order of panels, on where the house
    stands or how it is turned, or on the units it was drawn in.

    Parameters
    ----------
    shell : Shell
        Panels, members, supports, openings and services in space. [m]
    overrides : sequence of Override
        Corrections by joint id. `kind` and `ignore` are applied here; the others belong to seals.
    tolerance : Tolerance
        How near counts as touching.

    Returns
    -------
    register : Register
        Joints in the natural order of their ids; `lost_overrides` lists corrections whose joint
        does not exist.
    """
    panels = in_natural_order(shell)
    edges = gather_edges(panels)
    boxes = member_boxes(shell.members, tolerance.gap)
    found = _find(shell, panels, edges, boxes, tolerance)
    corrected = corrected_by(found, overrides)
    clipped = _clipped(corrected, panels, tolerance)
    apart = without_buried(corrected, clipped.drafts)
    if apart is not corrected:
        corrected, clipped = apart, _clipped(apart, panels, tolerance)
    corrected = replace(corrected, found=replace(corrected.found, drafts=clipped.drafts))
    joints = _finished(shell, panels, corrected.found, boxes, tolerance)
    met = _nodes(corrected.found, joints, panels, clipped.meetings, tolerance)
    house = _House(panels=panels, edges=edges, joints=joints, bounds=clipped.bounds)
    return _accounted(shell, house, met, corrected, tolerance)


def _clipped(corrected: Corrected, panels: Sequence[Panel], tolerance: Tolerance) -> _Clipped:
    """Return the drafts with their inner lines cut back to the part within the air boundary."""
    found = corrected.found
    bounds = walls_on_faces(found.drafts, [kind for kind, _ in found.verdicts], panels)
    drafts, meetings = clip_to_air(found.drafts, bounds, tolerance)
    drafts = drop_outdoors(drafts, found.drafts, meetings, panels, tolerance)
    return _Clipped(drafts=drafts, meetings=meetings, bounds=bounds)


def _find(
    shell: Shell, panels: Sequence[Panel], edges: Edges, boxes: Boxes, tolerance: Tolerance
) -> Found:
    surfaces = gather_surfaces(shell, panels, tolerance.equal)
    touches = find_touches(edges, surfaces, boxes, tolerance)
    roofs = np.array([panel.role == "roof" for panel in panels], dtype=bool)
    touches, with_sides = find_on_cut_edges(edges, touches, surfaces, roofs, tolerance)
    drafts = merge_pieces(draft_joints(panels, edges, with_sides, touches))
    around = look_around(drafts, panels, shell.supports, tolerance)
    sorted_out: list[tuple[Draft, Verdict, float]] = []
    for draft in drafts:
        verdict = classify(draft, around)
        if verdict is not None:
            sorted_out.append((draft, verdict, draft.line.length))
    sorted_out = _indoors(sorted_out, panels, tolerance)
    openings = merge_pieces(draft_openings(shell, panels, edges, tolerance))
    openings += draft_thresholds(shell, panels, surfaces, openings, tolerance)
    sorted_out += [(draft, ("opening", ""), draft.line.length) for draft in openings]
    sorted_out += [
        (draft, ("floor_line", "ledger of a hanging floor"), draft.line.length)
        for draft in draft_ledgers(shell.members, panels, boxes, surfaces, tolerance)
    ]
    sorted_out += [
        (draft, ("sill", "floor panel on its bearing"), draft.line.length)
        for draft in draft_bearings(panels, edges, touches, surfaces, tolerance)
    ]
    sorted_out += [
        (draft, ("penetration", ""), service.perimeter)
        for draft, service in draft_penetrations(shell, panels)
    ]
    names = [base_name(draft, panels, shell.supports) for draft, _, _ in sorted_out]
    ids = numbered(names, [draft.line for draft, _, _ in sorted_out])
    order = sorted(range(len(ids)), key=lambda at: (natural_key(ids[at]), ids[at]))
    return Found(
        drafts=[draft for draft, _, _ in sorted_out],
        verdicts=[verdict for _, verdict, _ in sorted_out],
        lengths=[length for _, _, length in sorted_out],
        ids=ids,
    ).take(order)


def _indoors(
    rows: list[tuple[Draft, Verdict, float]], panels: Sequence[Panel], tolerance: Tolerance
) -> list[tuple[Draft, Verdict, float]]:
    """Return the rows without contacts on cut edges that lie outdoors, under an overhang."""
    cut = [at for at, row in enumerate(rows) if row[0].surface is not None]
    cut = [at for at in cut if rows[at][0].surface[0] == SIDE]  # type: ignore[index]
    if not cut:
        return rows
    drafts = [draft for draft, _, _ in rows]
    bounds = walls_on_faces(drafts, [verdict[0] for _, verdict, _ in rows], panels)
    clipped, meetings = clip_to_air(drafts, bounds, tolerance)
    clipped = drop_outdoors(clipped, drafts, meetings, panels, tolerance)
    dropped = {at for at in cut if clipped[at].inner is None}
    return [row for at, row in enumerate(rows) if at not in dropped]


def _finished(
    shell: Shell, panels: Sequence[Panel], found: Found, boxes: Boxes, tolerance: Tolerance
) -> list[Joint]:
    lines = [
        InnerLine(
            joint=at,
            line=draft.inner,
            room=room_way(draft, panels),
            fold=_fold(draft) if verdict[0] in _FOLDED else 0.0,
        )
        for at, (draft, verdict) in enumerate(zip(found.drafts, found.verdicts, strict=True))
        if draft.inner is not None and verdict[0] in (*_FOLDED, *_SEAMS)
    ]
    along, across = timbers_behind(lines, boxes, tolerance)
    splines = {build.id: build.spline for build in shell.builds}
    rank = {m: in_order_rank for in_order_rank, m in enumerate(_member_order(shell))}
    rows = zip(found.drafts, found.verdicts, found.ids, found.lengths, strict=True)
    return [
        finish(
            Ready(
                draft=draft,
                kind=kind,
                note=note,
                id=name,
                length=length,
                timbers=tuple(sorted(along.get(at, ()), key=rank.__getitem__)),
                crossings=tuple(sorted(across.get(at, ()), key=rank.__getitem__)),
            ),
            shell,
            panels,
            splines,
        )
        for at, (draft, (kind, note), name, length) in enumerate(rows)
    ]


def _member_order(shell: Shell) -> list[int]:
    members = shell.members
    return sorted(range(len(members)), key=lambda m: (natural_key(members[m].id), members[m].id))


def _fold(draft: Draft) -> float:
    """Return the rise of each panel over its run where they fold downward, 0 if they do not."""
    half = (math.pi - draft.dihedral) / 2.0
    return math.tan(half) if 0.0 < half < 1.5 else 0.0


def _nodes(
    found: Found,
    joints: Sequence[Joint],
    panels: Sequence[Panel],
    meetings: Sequence[Meeting],
    tolerance: Tolerance,
) -> Meetings:
    lines = [
        draft.inner if joint.kind != "penetration" else None
        for draft, joint in zip(found.drafts, joints, strict=True)
    ]
    moved = {(m.joint, m.end): m.by for m in meetings}
    ends = []
    for at, line in enumerate(lines):
        if line is None:
            continue
        for end, place in enumerate((line.start, line.end)):
            by = moved.get((at, end))
            cutter = lines[by] if by is not None else None
            here = place if cutter is None else nearest_on(cutter, place)
            also = beyond_step(found.drafts[at], joints[at].kind, place, panels)
            ends.append(LineEnd(joint=at, end=end, at=here, also=also))
    kinds = [joint.kind for joint in joints]
    return join_at_nodes(ends, lines, found.ids, kinds, tolerance)


def _accounted(
    shell: Shell, house: _House, met: Meetings, corrected: Corrected, tolerance: Tolerance
) -> Register:
    """Return the register with its ledger and breaks."""
    found, panels = corrected.found, house.panels
    numbers = {panel.id: number for number, panel in enumerate(panels)}
    by_place = by_edge(_uses(panels, corrected), numbers)
    rows = edge_rows(panels, house.edges)
    corners = bounding(
        found.drafts, [joint.kind for joint in house.joints], found.ids, house.bounds
    )
    ledger, loose = account_edges(panels, rows, by_place, corners, tolerance)
    places = Places(
        panels=panels,
        supports=shell.supports,
        company=companies(found.drafts, panels, shell.supports),
        loose=loose,
        reach=tolerance.node,
    )
    ends = open_ends(found.drafts, house.joints, met.at_end, places)
    bridges = bridge_open_ends(ends, fold_lines(found.drafts, panels) if ends else {})
    if bridges:
        for panel, extra in as_bounds(bridges, in_planes(panels, places.company)).items():
            corners[panel] = [*corners.get(panel, ()), *extra]
        ledger, loose = account_edges(panels, rows, by_place, corners, tolerance)
    stepped, loose = steps_at_nodes(loose, panels, [node.at for node in met.nodes], tolerance)
    covered, loose = crossed(loose, panels, tolerance)
    judged, breaks = judge_loose(loose, panels, shell.supports, shell.openings, places.company)
    ledger = sorted(
        ledger + stepped + covered + judged,
        key=lambda use: (numbers[use.panel_id], use.edge, use.start),
    )
    return Register(
        joints=tuple(house.joints),
        nodes=met.nodes,
        ledger=tuple(ledger),
        breaks=tuple(breaks + as_breaks(bridges)),
        lost_overrides=corrected.lost,
    )


def _uses(panels: Sequence[Panel], corrected: Corrected) -> list[EdgeUse]:
    """Return the stretches of edge that joints take up, and those of ignored joints."""
    found = corrected.found
    taken = [
        _entry(panels, use, "joint", name, "")
        for draft, name in zip(found.drafts, found.ids, strict=True)
        for use in draft.uses
    ]
    ignored = [(use, why) for draft, why in corrected.ignored for use in draft.uses]
    return taken + [_entry(panels, use, "explained", "", why) for use, why in ignored]


def _entry(panels: Sequence[Panel], use: Use, fate: EdgeFate, ref: str, reason: str) -> EdgeUse:
    return EdgeUse(
        panel_id=panels[use.panel].id,
        edge=use.edge,
        start=use.start,
        end=use.end,
        fate=fate,
        ref=ref,
        reason=reason,
    )
