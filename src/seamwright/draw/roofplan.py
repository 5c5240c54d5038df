"""The roof plan: planes with their fall, seams by kind, timbers beneath, overhangs and dams."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TypeAlias

import shapely

from seamwright.draw.hatch import as_area
from seamwright.draw.ink import (
    BLACK,
    CENTER,
    EDGE,
    GREY,
    HIDDEN,
    SMALL,
    THIN,
    WHITE,
    Pen,
)
from seamwright.draw.jointlines import Trace, draw_nodes, draw_traces, label_traces, trace
from seamwright.draw.labels import Label
from seamwright.draw.legend import draw_key, draw_legend
from seamwright.draw.outlines import draw_outlines
from seamwright.draw.page import Page
from seamwright.draw.panelnames import inner_spots, label_panels
from seamwright.draw.sheet import ROW, Head, Sheet, draw_north, draw_scale_bar
from seamwright.draw.sides import BELOW, LEFT, Run, draw_runs, frame_view
from seamwright.draw.solids import corners, face, is_upright, member_top
from seamwright.draw.types import Drawing, Rect
from seamwright.draw.view import PLAN, View, extent
from seamwright.geometry.types import Vec2
from seamwright.joints.types import Joint, Node, Register
from seamwright.seals.types import Dam, SealSchedule
from seamwright.shell.types import Panel, Shell
from seamwright.units import System, format_angle

SHOWN = frozenset({"ridge", "hip", "valley", "roof_spline", "eave", "rake", "roof_step"})
Box: TypeAlias = tuple[Vec2, Vec2]
DAM_PEN = Pen(width=0.45, color=BLACK)
ARROW = 9.0


def draw_roof_plan(
    shell: Shell, register: Register, schedule: SealSchedule, head: Head
) -> Drawing | None:
    """Return the roof plan, None for a shell without roof panels."""
    roof = [p for p in shell.panels if p.role == "roof"]
    if not roof:
        return None
    sheet = Sheet(head)
    box = extent(PLAN, (c for p in roof for c in corners(p)))
    framed = frame_view(sheet, PLAN, box, _runs(shell, box))
    view, scale = framed.view, framed.view.scale
    joints = _joints(register, roof)
    traces = _traces(view, joints, roof)
    from_below = sorted(roof, key=lambda p: max(c[2] for c in corners(p)))
    draw_outlines(sheet, view, from_below, THIN)
    _draw_wall_line(sheet, view, shell)
    _draw_timbers(sheet, view, shell)
    _draw_holes(sheet, view, shell, roof)
    draw_traces(sheet, traces)
    dams = [d for d in schedule.dams if d.why == "wall_line"]
    _draw_dams(sheet, view, dams)
    draw_nodes(sheet.page, view, _roof_nodes(register, joints))
    draw_runs(sheet, framed)
    _draw_falls(sheet, view, roof, head.system)
    label_panels(sheet, view, roof)
    shown = label_traces(sheet, traces)
    draw_north(sheet)
    draw_legend(sheet, {joint.kind for joint in joints})
    _draw_own_legend(sheet, timbers=bool(shell.members), dams=bool(dams), walls=_has_walls(shell))
    draw_scale_bar(sheet, scale)
    left = draw_key(sheet, sheet.placer.key)
    return sheet.finish(scale.text, [name for name in shown if name not in left])


def _joints(register: Register, roof: Sequence[Panel]) -> list[Joint]:
    ids = {panel.id for panel in roof}
    found = []
    for joint in register.joints:
        of_roof = joint.kind in {"penetration", "opening", "end_joint"}
        if joint.kind in SHOWN or (of_roof and ids.intersection(joint.panels)):
            found.append(joint)
    return found


def _traces(view: View, joints: Sequence[Joint], roof: Sequence[Panel]) -> list[Trace]:
    low, high = extent(PLAN, (c for p in roof for c in corners(p)))
    middle = ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2)
    found = []
    for joint in joints:
        away: Vec2 | None = None
        if joint.kind in {"eave", "rake"}:
            a, b = joint.line.start, joint.line.end
            dx, dy = b[0] - a[0], b[1] - a[1]
            length = math.hypot(dx, dy)
            if length > 0.0:
                out = (dy / length, -dx / length)
                side = (a[0] + dx / 2 - middle[0]) * out[0] + (a[1] + dy / 2 - middle[1]) * out[1]
                sign = 1.0 if side >= 0.0 else -1.0
                away = (sign * out[0], -sign * out[1])
        found.append(trace(view, joint, away=away))
    return found


def _roof_nodes(register: Register, joints: Sequence[Joint]) -> list[Node]:
    ids = {joint.id for joint in joints}
    return [node for node in register.nodes if ids.intersection(node.joints)]


def _walls(shell: Shell) -> list[Panel]:
    return [p for p in shell.panels if p.role == "wall" and is_upright(p)]


def _has_walls(shell: Shell) -> bool:
    return bool(_walls(shell))


def _wall_area(shell: Shell) -> shapely.Geometry:
    """Return what the walls cover in plan, closed into one area. [m]"""
    strips = []
    for panel in _walls(shell):
        flat = [(c[0], c[1]) for c in corners(panel)]
        strips.append(shapely.MultiPoint(flat).convex_hull.buffer(0.02, join_style="mitre"))
    return shapely.unary_union(strips).buffer(-0.02, join_style="mitre")


def _draw_wall_line(sheet: Sheet, view: View, shell: Shell) -> None:
    for part in shapely.get_parts(_wall_area(shell)):
        if part.geom_type == "Polygon":
            sheet.outline(view.ring(list(part.exterior.coords)[:-1]), CENTER)


def _draw_timbers(sheet: Sheet, view: View, shell: Shell) -> None:
    for member in shell.members:
        sheet.outline([view.at(p) for p in member_top(member)], HIDDEN)


def _draw_holes(sheet: Sheet, view: View, shell: Shell, roof: Sequence[Panel]) -> None:
    planes = {panel.plane_id: panel.thickness for panel in roof}
    for opening in shell.openings:
        if opening.plane_id not in planes:
            continue
        ring = [view.at(opening.frame.point(p, planes[opening.plane_id])) for p in opening.outline]
        sheet.page.path(ring, EDGE, "#f0f0f0", closed=True)
        at = as_area(ring).representative_point().coords[0]
        label = Label(text=opening.id, start=at, end=at, on_point=True, kind="opening", keyed=False)
        sheet.label(label)
    for hole in shell.penetrations:
        if hole.plane_id in planes:
            wide = hole.diameter if hole.diameter is not None else hole.width
            size = (wide if wide is not None else 0.1) * view.scale.mm_per_m / 2
            sheet.page.circle(view.at(hole.at), size, THIN, WHITE)


def _draw_dams(sheet: Sheet, view: View, dams: Sequence[Dam]) -> None:
    for dam in dams:
        x, y = view.at(dam.at)
        sheet.page.lines([((x - 0.9, y - 0.9), (x + 0.9, y + 0.9)),
                    ((x - 0.9, y + 0.9), (x + 0.9, y - 0.9))], DAM_PEN)  # fmt: skip
        sheet.placer.draw_ink((x - 0.9, y), (x + 0.9, y), 3.0)


def _draw_falls(sheet: Sheet, view: View, roof: Sequence[Panel], system: System) -> None:
    """Draw one arrow down each plane with its pitch beside it."""
    planes: dict[str, list[Panel]] = {}
    for panel in roof:
        planes.setdefault(panel.plane_id, []).append(panel)
    for panels in planes.values():
        n = panels[0].frame.n
        fall = view.direction((n[0], n[1], 0.0))
        if fall is None or math.hypot(n[0], n[1]) < 1e-3:
            continue
        reach = ARROW / 2
        x, y = _free_spot(sheet, view, panels, fall)
        tail = (x - fall[0] * reach, y - fall[1] * reach)
        tip = (x + fall[0] * reach, y + fall[1] * reach)
        _arrow(sheet.page, tail, tip, fall)
        sheet.placer.draw_ink(tail, tip, 6.0)
        text = pitch_text(math.atan2(math.hypot(n[0], n[1]), abs(n[2])), system)
        sheet.label(Label(text=text, start=tail, end=tip, kind="pitch", keyed=False))


def _free_spot(sheet: Sheet, view: View, panels: Sequence[Panel], fall: Vec2) -> Vec2:
    """Return where an arrow down the plane lies clearest of everything drawn so far."""
    half = (ARROW / 2 * abs(fall[0]) + 2.6, ARROW / 2 * abs(fall[1]) + 2.6)
    areas = [as_area([view.at(c) for c in face(p, outer=True)]) for p in panels]
    spots = [spot for area in areas if not area.is_empty for spot in inner_spots(area)]
    if not spots:
        spots = [shapely.unary_union(areas).representative_point().coords[0]]

    def busy(at: Vec2) -> float:
        x, y = at
        around = Rect(x0=x - half[0], y0=y - half[1], x1=x + half[0], y1=y + half[1])
        return sheet.placer.busy(around)

    return min(spots, key=busy)


def pitch_text(angle: float, system: System) -> str:
    """Return a slope [rad] as the trade says it: ``8:12``, or degrees in metric."""
    degrees = format_angle(angle)
    if system == "metric":
        return degrees
    rise = 12 * math.tan(angle)
    half = round(rise * 2) / 2
    return f"{half:g}:12" if abs(rise - half) < 0.02 else f"{rise:.2f}:12"


def _arrow(page: Page, tail: Vec2, tip: Vec2, way: Vec2) -> None:
    page.line(tail, tip, EDGE.with_width(0.25))
    left = (tip[0] - 2.2 * way[0] - 0.7 * way[1], tip[1] - 2.2 * way[1] + 0.7 * way[0])
    right = (tip[0] - 2.2 * way[0] + 0.7 * way[1], tip[1] - 2.2 * way[1] - 0.7 * way[0])
    page.path((tip, left, right), None, BLACK, closed=True)


def _runs(shell: Shell, box: Box) -> list[Run]:
    """Return overhang, wall to wall, overhang; and the whole, below and at the left."""
    walls = _wall_area(shell)
    bounds = walls.bounds if not walls.is_empty else (*box[0], *box[1])
    runs = []
    for side, axis in ((BELOW, 0), (LEFT, 1)):
        ends = (box[0][axis], box[1][axis])
        runs.append(Run(side=side, values=(ends[0], bounds[axis], bounds[axis + 2], ends[1])))
        runs.append(Run(side=side, values=ends))
    return runs


def _draw_own_legend(sheet: Sheet, *, timbers: bool, dams: bool, walls: bool) -> None:
    """Write the rows that only a roof plan has."""
    x = sheet.side.x0 + 2.0
    rows = ((walls, CENTER, "outer face of walls"), (timbers, HIDDEN, "timber beneath"))
    for present, pen, name in rows:
        if present:
            y = sheet.take(ROW + 0.5) + 1.6
            sheet.page.line((x, y), (x + 12.0, y), pen)
            sheet.page.text((x + 14.0, y + 0.7), name, SMALL)
    if dams:
        y = sheet.take(ROW + 0.5) + 1.6
        sheet.page.lines([((x + 5.1, y - 0.9), (x + 6.9, y + 0.9)),
                          ((x + 5.1, y + 0.9), (x + 6.9, y - 0.9))], DAM_PEN)  # fmt: skip
        sheet.page.text((x + 14.0, y + 0.7), "dam at the wall line", SMALL)
    sheet.notes("Arrows point down the slope. Small rings are nodes.", color=GREY)
    sheet.gap()
