"""An elevation: walls that face one way, square on, with panels, openings and joints."""

from __future__ import annotations

from typing import TypeAlias

import shapely

from seamwright.draw.dimension import stations
from seamwright.draw.facing import Facade
from seamwright.draw.hatch import as_area
from seamwright.draw.ink import BEYOND, EDGE, GREY, THIN
from seamwright.draw.jointlines import Trace, draw_nodes, draw_traces, label_traces, trace
from seamwright.draw.labels import Label
from seamwright.draw.legend import draw_key, draw_legend
from seamwright.draw.outlines import draw_outlines
from seamwright.draw.panelnames import label_panels
from seamwright.draw.sheet import ROW, Head, Sheet, draw_scale_bar, packed
from seamwright.draw.sides import BELOW, LEFT, Run, draw_runs, frame_view
from seamwright.draw.solids import face
from seamwright.draw.types import Drawing
from seamwright.draw.view import View, extent
from seamwright.geometry.types import Vec2, Vec3, dot
from seamwright.joints.types import Joint, Register
from seamwright.shell.types import Opening, Panel, Shell

LISTED = frozenset({"opening", "eave", "rake"})
"""Drawn, but named elsewhere: in the side column, and on the roof plan."""
NOTE = (
    "Seen from outside. Roof beyond in thin lines. Small rings are nodes. Ids of eaves and rakes "
    "stand on the roof plan."
)
ROOF_NOTE = "Seen square on the slope: lengths are true. Small rings are nodes."
SPILL = 1.2
"""A roof that reaches no farther than this beyond the walls may reach into the margins. [m]"""
LEVEL = 0.08
"""Heights nearer than this are one level. [m]"""
Box: TypeAlias = tuple[Vec2, Vec2]
ROOF_LINES = frozenset({"ridge", "hip", "valley", "roof_spline"})


def draw_elevation(shell: Shell, register: Register, facade: Facade, head: Head) -> Drawing:
    """Return the elevation of one facade, seen from outside."""
    sheet = Sheet(head)
    beyond = [p for p in shell.panels if p.role == "roof" and not facade.of_roof]
    points = [c for p in facade.panels for c in face(p, outer=True)]
    walls = extent(facade.axes, points)
    whole = extent(facade.axes, points + [c for p in beyond for c in face(p, outer=True)])
    low, high = walls[0][0] - whole[0][0], whole[1][0] - walls[1][0]
    wide = max(low, high) < SPILL
    box = ((walls[0][0], whole[0][1]), (walls[1][0], whole[1][1])) if wide else whole
    spill = max(low, high) if wide else 0.0
    framed = frame_view(sheet, facade.axes, box, _runs(shell, facade, box), spill)
    view, scale = framed.view, framed.view.scale
    joints = _joints(register, facade)
    traces = [_wall_trace(view, joint, walls) for joint in joints]
    _draw_beyond(sheet, view, beyond)
    draw_outlines(sheet, view, facade.panels, EDGE)
    _draw_openings(sheet, view, shell, facade)
    draw_traces(sheet, traces)
    near = _depth_of(facade)
    draw_nodes(sheet.page, view, [n for n in register.nodes if _is_near(n.at, near)])
    draw_runs(sheet, framed)
    label_panels(sheet, view, facade.panels)
    _label_openings(sheet, view, shell, facade)
    listed = LISTED if not facade.of_roof else frozenset({"opening"})
    named = [t for t in traces if t.joint.kind not in listed]
    shown = label_traces(sheet, named)
    draw_legend(sheet, {joint.kind for joint in joints})
    sheet.notes(ROOF_NOTE if facade.of_roof else NOTE, color=GREY)
    sheet.gap()
    draw_scale_bar(sheet, scale)
    shown += _list_openings(sheet, joints)
    left = draw_key(sheet, sheet.placer.key)
    return sheet.finish(scale.text, [name for name in shown if name not in left])


def _joints(register: Register, facade: Facade) -> list[Joint]:
    ids = {panel.id for panel in facade.panels}
    return [
        joint
        for joint in register.joints
        if (facade.of_roof or joint.kind not in ROOF_LINES) and ids.intersection(joint.panels)
    ]


def _list_openings(sheet: Sheet, joints: list[Joint]) -> tuple[str, ...]:
    """List the joints around openings in the side column; their ids follow panel and side."""
    ids = [joint.id for joint in joints if joint.kind == "opening"]
    if not ids:
        return ()
    sheet.gap()
    sheet.heading("around openings")
    rows = packed(ids, sheet.columns)
    room = max(int(sheet.room / ROW) - 4, 1)
    kept = rows if len(rows) <= room else rows[: room - 1]
    for row in kept:
        sheet.row("  ".join(row))
    shown = tuple(joint_id for row in kept for joint_id in row)
    if len(shown) < len(ids):
        sheet.row(f"and {len(ids) - len(shown)} more: see the register")
    return shown


def _wall_trace(view: View, joint: Joint, walls: tuple[Vec2, Vec2]) -> Trace:
    """Return the joint on the elevation; those near the wall's edge lean away from its middle."""
    item = trace(view, joint, outer=True)
    x = (item.start[0] + item.end[0]) / 2
    y = (item.start[1] + item.end[1]) / 2
    low, high = view.on_paper(walls[0]), view.on_paper(walls[1])
    away: Vec2 | None = None
    if abs(x - low[0]) < 3.0:
        away = (-1.0, 0.0)
    elif abs(x - high[0]) < 3.0:
        away = (1.0, 0.0)
    elif abs(y - low[1]) < 3.0:
        away = (0.0, 1.0)
    return Trace(joint=joint, start=item.start, end=item.end, away=away)


def _depth_of(facade: Facade) -> list[tuple[Vec3, float, float]]:
    found = []
    for panel in facade.panels:
        n = panel.frame.n
        at = dot(panel.frame.origin, n)
        found.append((n, at - 0.1, at + panel.thickness + 0.1))
    return found


def _is_near(p: Vec3, slabs: list[tuple[Vec3, float, float]]) -> bool:
    return any(low <= dot(p, n) <= high for n, low, high in slabs)


def _draw_beyond(sheet: Sheet, view: View, roof: list[Panel]) -> None:
    areas = [as_area([view.at(c) for c in face(p, outer=o)]) for p in roof for o in (False, True)]
    whole = shapely.unary_union([area.buffer(0.03) for area in areas if not area.is_empty])
    for part in shapely.get_parts(whole):
        if part.geom_type == "Polygon":
            sheet.page.path(list(part.exterior.coords)[:-1], BEYOND, closed=True)
    toward = view.toward
    for panel in roof:
        if dot(panel.frame.n, toward) > 0.05:
            ring = [view.at(c) for c in face(panel, outer=True)]
            sheet.page.path(ring, BEYOND.with_width(0.13), closed=True)


def _openings(shell: Shell, facade: Facade) -> list[tuple[Opening, float]]:
    thick = {panel.plane_id: panel.thickness for panel in facade.panels}
    return [(o, thick[o.plane_id]) for o in shell.openings if o.plane_id in thick]


def _draw_openings(sheet: Sheet, view: View, shell: Shell, facade: Facade) -> None:
    for opening, thickness in _openings(shell, facade):
        ring = [view.at(opening.frame.point(p, thickness)) for p in opening.outline]
        sheet.page.path(ring, EDGE, "#f0f0f0", closed=True)
        if len(ring) == 4:
            sheet.page.lines([(ring[0], ring[2]), (ring[1], ring[3])], THIN.with_width(0.13))
        for a, b in zip(ring, ring[1:] + ring[:1], strict=True):
            sheet.placer.draw_ink(a, b)


def _label_openings(sheet: Sheet, view: View, shell: Shell, facade: Facade) -> None:
    for opening, thickness in _openings(shell, facade):
        ring = [view.at(opening.frame.point(p, thickness)) for p in opening.outline]
        at = as_area(ring).representative_point().coords[0]
        sheet.label(Label(text=opening.id, start=at, end=at, on_point=True,
                                       kind="opening", keyed=False))  # fmt: skip


def _runs(shell: Shell, facade: Facade, box: Box) -> list[Run]:
    """Return the chains of an elevation: panels of the lowest walls, storey heights, the whole."""
    planes: dict[str, list[Panel]] = {}
    for panel in facade.panels:
        planes.setdefault(panel.plane_id, []).append(panel)
    outlines = {name: _outline(shell, name, panels, facade) for name, panels in planes.items()}
    seams: list[float] = []
    covered: list[tuple[float, float]] = []
    heights: list[float] = []
    for name in sorted(planes, key=lambda n: (round(outlines[n].bounds[1], 3), n)):
        x0, y0, x1, _ = outlines[name].bounds
        heights += [y for _, y in outlines[name].exterior.coords]
        if all(x1 <= a + 0.05 or x0 >= b - 0.05 for a, b in covered):
            covered.append((x0, x1))
            for panel in planes[name]:
                flat = [facade.axes.flat(c) for c in face(panel, outer=True)]
                if min(y for _, y in flat) < y0 + 0.1:
                    seams += [min(x for x, _ in flat), max(x for x, _ in flat)]
    levels = stations(heights, LEVEL)
    top = max(levels[-1], box[1][1])
    runs = [Run(side=BELOW, values=tuple(seams)), Run(side=LEFT, values=tuple(levels))]
    if len(stations(seams, LEVEL)) > 2:
        runs.append(Run(side=BELOW, values=(min(seams), max(seams))))
    if len(levels) > 2 or top > levels[-1] + LEVEL:
        runs.append(Run(side=LEFT, values=(levels[0], top)))
    return runs


def _outline(shell: Shell, plane_id: str, panels: list[Panel], facade: Facade) -> shapely.Polygon:
    """Return the outline of a wall with its openings filled, in the view's plane. [m]"""
    flat = facade.axes.flat
    areas = [as_area([flat(c) for c in face(p, outer=True)]) for p in panels]
    areas += [
        as_area([flat(opening.frame.point(p)) for p in opening.outline])
        for opening in shell.openings
        if opening.plane_id == plane_id
    ]
    whole = shapely.unary_union([a.buffer(0.02, join_style="mitre") for a in areas])
    largest = max(shapely.get_parts(whole), key=lambda part: part.area)
    return largest.buffer(-0.02, join_style="mitre").simplify(0.01)
