"""The plan of one storey: walls cut, openings, joints and nodes with their ids, dimensions."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import TypeAlias

import shapely

from seamwright.draw.dimension import Chain, draw_chain
from seamwright.draw.hatch import as_area, hatch_lines
from seamwright.draw.ink import CUT, FAINT, GREY, HATCH, HIDDEN, SMALL, THIN, WHITE
from seamwright.draw.jointlines import (
    Trace,
    draw_nodes,
    draw_traces,
    is_upright,
    label_traces,
    trace,
)
from seamwright.draw.labels import Label
from seamwright.draw.legend import draw_key, draw_legend
from seamwright.draw.sheet import Head, Sheet, draw_north, draw_scale_bar
from seamwright.draw.sides import ABOVE, BELOW, LEFT, RIGHT, Run, draw_runs, frame_view
from seamwright.draw.solids import Slice, corners, cut_at
from seamwright.draw.storeys import StoreyWalls
from seamwright.draw.types import Drawing
from seamwright.draw.view import PLAN, View, extent
from seamwright.geometry.types import Vec2, Vec3
from seamwright.joints.types import Joint, Node, Register
from seamwright.shell.types import Opening, Panel, Shell
from seamwright.units import format_length

SHOWN = frozenset(
    {"sill", "floor_line", "floor_spline", "wall_spline", "wall_corner", "wall_tee", "end_joint",
     "penetration"}
)  # fmt: skip
SIDES: tuple[tuple[Vec3, Vec2], ...] = (
    ((0.0, -1.0, 0.0), BELOW),
    ((0.0, 1.0, 0.0), ABOVE),
    ((1.0, 0.0, 0.0), RIGHT),
    ((-1.0, 0.0, 0.0), LEFT),
)
OVERALL = (BELOW, LEFT)
FOOT = 0.15
"""A line this near to the bearing of the walls belongs to the storey's foot. [m]"""
Box: TypeAlias = tuple[Vec2, Vec2]


def draw_plan(shell: Shell, register: Register, storey: StoreyWalls, head: Head) -> Drawing:
    """Return the plan of one storey, cut at `storey.cut`."""
    sheet = Sheet(head)
    box = extent(PLAN, (c for p in storey.panels for c in corners(p)))
    framed = frame_view(sheet, PLAN, box, _runs(storey, box))
    view, scale = framed.view, framed.view.scale
    joints = _joints(register, storey)
    traces = [_plan_trace(view, shell, joint) for joint in joints]
    slices = [piece for panel in storey.panels for piece in cut_at(panel, storey.cut)]
    _draw_walls(sheet, view, slices, storey)
    _draw_openings(sheet, view, shell, storey)
    draw_traces(sheet, traces)
    nodes = _nodes(register, storey, joints)
    draw_nodes(sheet.page, view, nodes, traces)
    draw_runs(sheet, framed)
    _draw_askew(sheet, view, storey)
    _label_openings(sheet, view, shell, storey)
    _label_inner_walls(sheet, view, storey)
    shown = label_traces(sheet, traces)
    _fill_side(sheet, joints, storey)
    draw_scale_bar(sheet, scale)
    left = draw_key(sheet, sheet.placer.key)
    return sheet.finish(scale.text, [name for name in shown if name not in left])


def _fill_side(sheet: Sheet, joints: Iterable[Joint], storey: StoreyWalls) -> None:
    draw_north(sheet)
    draw_legend(sheet, {joint.kind for joint in joints})
    up = format_length(storey.cut - storey.bottom, sheet.head.system)
    sheet.notes(f"Cut {up} above the bearing of the walls. Small rings are nodes.", color=GREY)
    sheet.gap()


def _joints(register: Register, storey: StoreyWalls) -> list[Joint]:
    """Return the joints at the storey's foot and those that the cut meets.

    Lines higher up (the floor line over the storey) lie at the foot of the next plan.
    """
    ids = {panel.id for panel in storey.panels}
    found = []
    for joint in register.joints:
        zs = (joint.line.start[2], joint.line.end[2])
        met = abs(min(zs) - storey.bottom) < FOOT or min(zs) <= storey.cut <= max(zs)
        in_walls = joint.kind in SHOWN and (met and _in_plan(joint, ids))
        service = joint.kind == "penetration" and joint.storey == storey.id
        if in_walls or service:
            found.append(joint)
    return found


def _nodes(register: Register, storey: StoreyWalls, joints: Iterable[Joint]) -> list[Node]:
    ids = {joint.id for joint in joints}
    low, high = storey.bottom - 0.1, storey.bottom + 0.3
    return [n for n in register.nodes if low <= n.at[2] <= high and ids.intersection(n.joints)]


def _in_plan(joint: Joint, ids: set[str]) -> bool:
    """Return whether a joint belongs to walls in the plan, or is a seam of the floor itself."""
    return joint.kind == "floor_spline" or bool(ids.intersection(joint.panels))


def _plan_trace(view: View, shell: Shell, joint: Joint) -> Trace:
    """Return the joint on the plan, in the middle of its wall so that both faces stay clear.

    Upright ones lean outside, level ones into the room.
    """
    walls = [p for p in shell.panels if p.id in joint.panels and p.role in {"wall", "rim"}]
    if not walls:
        return trace(view, joint)
    n = walls[0].frame.n
    if is_upright(joint.line):
        normals = [p.frame.n for p in walls]
        n = (math.fsum(n[0] for n in normals), math.fsum(n[1] for n in normals), 0.0)
    item = trace(view, joint)
    shift = (0.0, 0.0)
    for panel in walls[:1] if joint.contact != "edge_face" else walls:
        off = panel.thickness / 2 - panel.frame.local(joint.line.middle)[2]
        if abs(off) < panel.thickness:
            x, y = view.flat(panel.frame.n)
            k = off * view.scale.mm_per_m
            shift = (shift[0] + x * k, shift[1] - y * k)
    away = view.direction(n)
    if away is not None and not is_upright(joint.line) and joint.length > 0.0:
        away = (-away[0], -away[1])
    return Trace(joint=joint, start=_moved(item.start, shift), end=_moved(item.end, shift),
                 away=away)  # fmt: skip


def _moved(p: Vec2, by: Vec2) -> Vec2:
    return (p[0] + by[0], p[1] + by[1])


def _draw_walls(sheet: Sheet, view: View, slices: Iterable[Slice], storey: StoreyWalls) -> None:
    skins: list[tuple[Slice, shapely.Polygon]] = []
    cores: list[tuple[Slice, shapely.Polygon]] = []
    for piece in slices:
        area = as_area(view.ring(piece.outline))
        (skins if piece.layer == "skin" else cores).append((piece, area))
    for piece, area in cores:
        sheet.page.path(view.ring(piece.outline), None, WHITE, closed=True)
        sheet.page.lines(hatch_lines(area, 1.3, 45.0), HATCH)
    for piece, _ in skins:
        sheet.page.path(view.ring(piece.outline), THIN, "#303030", closed=True)
    whole = shapely.unary_union([area.buffer(0.02) for _, area in (*skins, *cores)])
    for part in shapely.get_parts(whole):
        if part.geom_type == "Polygon":
            sheet.page.rings(
                [list(r.coords)[:-1] for r in (part.exterior, *part.interiors)], CUT, None
            )
    for piece, _ in skins:
        ring = view.ring(piece.outline)
        for a, b in zip(ring, ring[1:] + ring[:1], strict=True):
            sheet.placer.draw_ink(a, b, 1.2)
    low = [p for p in storey.panels if p.id not in {s.panel_id for s, _ in skins}]
    for panel in low:
        sheet.page.path(tuple(view.at(c) for c in _foot(panel)), FAINT, closed=True)


def _foot(panel: Panel) -> tuple[Vec3, ...]:
    us = [p[0] for p in panel.inner]
    frame, t = panel.frame, panel.thickness
    at = ((min(us), 0.0), (max(us), 0.0), (max(us), t), (min(us), t))
    return tuple(frame.point((u, 0.0), w) for u, w in at)


def _of_storey(shell: Shell, storey: StoreyWalls) -> list[tuple[Opening, float]]:
    thick = {panel.plane_id: panel.thickness for panel in storey.panels}
    return [
        (opening, thick[opening.plane_id])
        for opening in shell.openings
        if opening.plane_id in thick and (opening.storey is None or opening.storey == storey.id)
    ]


def _plate(view: View, opening: Opening, thickness: float) -> tuple[Vec2, ...]:
    us = [p[0] for p in opening.outline]
    v = opening.outline[0][1]
    at = ((min(us), 0.0), (max(us), 0.0), (max(us), thickness), (min(us), thickness))
    return tuple(view.at(opening.frame.point((u, v), w)) for u, w in at)


def _draw_openings(sheet: Sheet, view: View, shell: Shell, storey: StoreyWalls) -> None:
    for opening, thickness in _of_storey(shell, storey):
        a, b, c, d = _plate(view, opening, thickness)
        zs = [opening.frame.point(p)[2] for p in opening.outline]
        pen = THIN if min(zs) <= storey.cut <= max(zs) else HIDDEN
        sheet.page.lines([(a, b), (c, d)], pen)
        if opening.kind == "window":
            middle = tuple(((p[0] + q[0]) / 2, (p[1] + q[1]) / 2) for p, q in ((a, d), (b, c)))
            sheet.page.line(middle[0], middle[1], pen)
        sheet.placer.draw_ink(a, b)
        sheet.placer.draw_ink(c, d)


def _label_openings(sheet: Sheet, view: View, shell: Shell, storey: StoreyWalls) -> None:
    for opening, thickness in _of_storey(shell, storey):
        a, b, _, _ = _plate(view, opening, thickness)
        inward = view.direction(opening.frame.n)
        away = None if inward is None else (-inward[0], -inward[1])
        sheet_label = Label(text=opening.id, start=a, end=b, size=SMALL, away=away, color=GREY,
                            kind="opening")  # fmt: skip
        sheet.label(sheet_label)


def _label_inner_walls(sheet: Sheet, view: View, storey: StoreyWalls) -> None:
    for panel in storey.panels:
        if panel.role == "partition":
            low, high = panel.inner[0], panel.inner[1]
            a, b = (view.at(panel.frame.point((p[0], 0.0))) for p in (low, high))
            sheet.label(Label(text=panel.id, start=a, end=b, size=SMALL, color=GREY, bold=True,
                              kind="panel", keyed=False))  # fmt: skip


def _runs(storey: StoreyWalls, box: Box) -> list[Run]:
    """Return the dimension chains of a plan: panels wall by wall, then the whole."""
    runs: list[Run] = []
    planes = list(_planes(storey).values())
    for normal, side in SIDES:
        axis = 0 if normal[0] == 0.0 else 1
        facing = [ps for ps in planes if _faces(ps[0], normal)]
        facing.sort(key=lambda ps: -max(_depth(c, normal) for p in ps for c in corners(p)))
        for panels in facing:
            ends = tuple(c[axis] for p in _lowest(panels) for c in _ends(p))
            runs.append(Run(side=side, values=ends))
        if side in OVERALL and facing:
            runs.append(Run(side=side, values=(box[0][axis], box[1][axis])))
    return runs


def _planes(storey: StoreyWalls) -> dict[str, list[Panel]]:
    planes: dict[str, list[Panel]] = {}
    for panel in storey.panels:
        if panel.role == "wall":
            planes.setdefault(panel.plane_id, []).append(panel)
    return planes


def _lowest(panels: list[Panel]) -> list[Panel]:
    """Return the panels that stand on the wall's foot, not those above openings."""
    feet = [min(c[2] for c in corners(p)) for p in panels]
    return [p for p, foot in zip(panels, feet, strict=True) if foot < min(feet) + 0.1]


def _draw_askew(sheet: Sheet, view: View, storey: StoreyWalls) -> None:
    """Draw the dimension of every wall that lies askew along the wall itself."""
    for panels in _planes(storey).values():
        if not any(_faces(panels[0], normal) for normal, _ in SIDES):
            _draw_aligned(sheet, view, panels)


def _faces(panel: Panel, normal: Vec3) -> bool:
    n = panel.frame.n
    return n[0] * normal[0] + n[1] * normal[1] > 0.9998


def _depth(p: Vec3, normal: Vec3) -> float:
    return p[0] * normal[0] + p[1] * normal[1]


def _ends(panel: Panel) -> tuple[Vec3, Vec3]:
    """Return the lower ends of a panel's outer face (the whole length of its wall there)."""
    us = [p[0] for p in panel.outer]
    return (
        panel.frame.point((min(us), 0.0), panel.thickness),
        panel.frame.point((max(us), 0.0), panel.thickness),
    )


def _draw_aligned(sheet: Sheet, view: View, panels: list[Panel]) -> None:
    """Draw one dimension along a wall that lies askew."""
    frame = panels[0].frame
    ends = [frame.local(c) for p in panels for c in _ends(p)]
    low, high = min(p[0] for p in ends), max(p[0] for p in ends)
    w = max(p[2] for p in ends)
    out = view.direction(frame.n)
    if out is None:
        return
    points = []
    for u in (low, high):
        x, y = view.at(frame.point((u, 0.0), w))
        points.append((x + out[0] * 9.0, y + out[1] * 9.0))
    text = format_length(high - low, sheet.head.system)
    draw_chain(sheet, Chain(points=tuple(points), texts=(text,), out=out))
