"""An elevation: walls that face one way, square on, with panels, openings and joints."""

from __future__ import annotations

import shapely

from seamwright.draw.dimension import stations
from seamwright.draw.facing import Facade
from seamwright.draw.hatch import as_area
from seamwright.draw.ink import BEYOND, CUT, EDGE, GREY, SMALL, THIN, WHITE
from seamwright.draw.jointlines import Trace, draw_nodes, draw_traces, label_traces, trace
from seamwright.draw.labels import Label
from seamwright.draw.legend import draw_key, draw_legend
from seamwright.draw.scale import HOUSE, fitting_scale
from seamwright.draw.sheet import Head, Sheet, draw_scale_bar
from seamwright.draw.sides import FIRST, PITCH, Run, draw_side_chains
from seamwright.draw.solids import face
from seamwright.draw.types import Drawing, Rect
from seamwright.draw.view import View, centered_view, extent
from seamwright.geometry.types import Vec2, Vec3, dot
from seamwright.joints.types import Joint, Register
from seamwright.shell.types import Opening, Panel, Shell

MARGIN = (2 * (FIRST + PITCH + 4.0), 2 * (FIRST + PITCH + 4.0))
ROOF_LINES = frozenset({"ridge", "hip", "valley", "roof_spline"})
UPRIGHT_SHARE = 0.9


def draw_elevation(shell: Shell, register: Register, facade: Facade, head: Head) -> Drawing:
    """Return the elevation of one facade, seen from outside."""
    sheet = Sheet(head)
    beyond = [p for p in shell.panels if p.role == "roof"]
    points = [c for p in facade.panels for c in face(p, outer=True)]
    box = extent(facade.axes, points + [c for p in beyond for c in face(p, outer=True)])
    walls = extent(facade.axes, points)
    size = (box[1][0] - box[0][0], box[1][1] - box[0][1])
    scale = fitting_scale(HOUSE[head.system], size, sheet.window, MARGIN)
    view = centered_view(facade.axes, box, scale, sheet.window)
    joints = _joints(register, facade)
    traces = [_wall_trace(view, joint, walls) for joint in joints]
    _draw_beyond(sheet, view, beyond, facade)
    _draw_panels(sheet, view, facade)
    _draw_openings(sheet, view, shell, facade)
    draw_traces(sheet, traces)
    near = _depth_of(facade)
    draw_nodes(sheet.page, view, [n for n in register.nodes if _is_near(n.at, near)])
    _draw_dimensions(sheet, view, facade, box)
    _label_panels(sheet, view, facade)
    _label_openings(sheet, view, shell, facade)
    shown = label_traces(sheet, traces)
    draw_legend(sheet, {joint.kind for joint in joints})
    sheet.notes("Seen from outside. Roof beyond in thin lines. Small rings are nodes.", color=GREY)
    sheet.gap()
    draw_scale_bar(sheet, scale)
    left = draw_key(sheet, sheet.placer.key)
    return sheet.finish(scale.text, [name for name in shown if name not in left])


def _joints(register: Register, facade: Facade) -> list[Joint]:
    ids = {panel.id for panel in facade.panels}
    return [
        joint
        for joint in register.joints
        if joint.kind not in ROOF_LINES and ids.intersection(joint.panels)
    ]


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


def _draw_beyond(sheet: Sheet, view: View, roof: list[Panel], facade: Facade) -> None:
    areas = [as_area([view.at(c) for c in face(p, outer=o)]) for p in roof for o in (False, True)]
    whole = shapely.unary_union([area.buffer(0.03) for area in areas if not area.is_empty])
    for part in shapely.get_parts(whole):
        if part.geom_type == "Polygon":
            sheet.page.path([*list(part.exterior.coords)[:-1]], BEYOND, closed=True)
    toward = view.toward
    for panel in roof:
        if dot(panel.frame.n, toward) > 0.05:
            ring = [view.at(c) for c in face(panel, outer=True)]
            sheet.page.path(ring, BEYOND.with_width(0.13), closed=True)
    del facade


def _draw_panels(sheet: Sheet, view: View, facade: Facade) -> None:
    areas = []
    for panel in facade.panels:
        ring = [view.at(c) for c in face(panel, outer=True)]
        sheet.page.path(ring, EDGE, WHITE, closed=True)
        areas.append(as_area(ring).buffer(0.25))
        for a, b in zip(ring, ring[1:] + ring[:1], strict=True):
            sheet.placer.draw_ink(a, b)
    whole = shapely.unary_union(areas).buffer(-0.25)
    for part in shapely.get_parts(whole):
        if part.geom_type == "Polygon":
            sheet.page.rings(
                [list(r.coords)[:-1] for r in (part.exterior, *part.interiors)], CUT, None
            )


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


def _label_panels(sheet: Sheet, view: View, facade: Facade) -> None:
    for panel in facade.panels:
        area = as_area([view.at(c) for c in face(panel, outer=True)])
        for hole in panel.holes:
            ring = [view.at(panel.frame.point(p, panel.thickness)) for p in hole.outline]
            area = area.difference(as_area(ring).buffer(1.0))
        if area.is_empty:
            continue
        spot = shapely.maximum_inscribed_circle(area, tolerance=0.5).coords[0]
        sheet.label(
            Label(text=panel.id, start=spot, end=spot, size=SMALL, color=GREY, bold=True,
                  on_point=True, kind="panel", keyed=False),
        )  # fmt: skip


def _draw_dimensions(sheet: Sheet, view: View, facade: Facade, box: tuple[Vec2, Vec2]) -> None:
    low, high = view.on_paper(box[0]), view.on_paper(box[1])
    around = Rect(x0=low[0], y0=high[1], x1=high[0], y1=low[1])
    seams: list[tuple[float, Vec2]] = []
    levels: list[float] = []
    for panel in facade.panels:
        flat = [view.flat(c) for c in face(panel, outer=True)]
        bottom = min(y for _, y in flat)
        seams += [(x, view.on_paper((x, y))) for x, y in flat if y < bottom + 0.05]
        if panel.role != "partition":
            levels += [min(y for _, y in flat), max(y for _, y in flat)]
    down = (0.0, 1.0)
    xs = [x for x, _ in seams]
    runs = [Run(side=down, spots=tuple(seams))]
    if len(stations(xs, 0.02)) > 2:
        ends = [(x, view.on_paper((x, box[0][1]))) for x in (min(xs), max(xs))]
        runs.append(Run(side=down, spots=tuple(ends)))
    left = (-1.0, 0.0)
    zs = stations(levels, 0.05)
    runs.append(Run(side=left, spots=tuple((z, view.on_paper((box[0][0], z))) for z in zs)))
    top = max([*levels, box[1][1]])
    if top - zs[0] > 0.05 and (len(zs) > 2 or top > zs[-1] + 0.05):
        runs.append(
            Run(side=left, spots=tuple((z, view.on_paper((box[0][0], z))) for z in (zs[0], top)))
        )
    draw_side_chains(sheet, runs, around)
