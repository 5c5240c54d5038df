"""The cut parts of a section on paper: outlines, hatches by material, break lines where cropped."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeAlias

import shapely
from shapely.geometry import LineString, Polygon, box

from seamwright.draw.hatch import as_area, hatch_lines, stipple_points, zigzag_lines
from seamwright.draw.ink import CUT, GREY, HATCH, PALE, THIN, WHITE, Pen
from seamwright.draw.page import Page
from seamwright.draw.sheet import Sheet
from seamwright.draw.types import Rect
from seamwright.draw.view import View
from seamwright.geometry.types import Vec2
from seamwright.joints.types import Section, SectionShape

ORDER = ("concrete", "deck", "core", "gap", "skin", "timber", "spline")
OUTLINE: dict[str, Pen] = {
    "concrete": CUT,
    "deck": CUT,
    "core": Pen(width=0.25),
    "gap": Pen(width=0.13, color=GREY),
    "skin": CUT,
    "timber": CUT.with_width(0.6),
    "spline": Pen(width=0.35),
}
SKIN_FILL = "#a8a8a8"
SPLINE_FILL = "#d9d9d9"
TIMBER_FILL = "#f7f3ea"
Edge: TypeAlias = tuple[Vec2, Vec2]
NEAR = 0.02
TOUCHING = 0.6
"""Cut edges nearer than this share one break line. [mm]"""
BREAK = Pen(width=0.18)


@dataclass(frozen=True, kw_only=True, slots=True)
class Part:
    """One cut part inside the crop, on paper. [mm]"""

    shape: SectionShape
    area: shapely.Geometry
    uncut: shapely.Geometry
    whole: bool


def cropped_parts(section: Section, view: View, crop: Rect) -> list[Part]:
    """Return the parts of a section inside `crop` [mm], in drawing order, empty ones left out."""
    window = box(crop.x0, crop.y0, crop.x1, crop.y1)
    found = []
    for shape in sorted(section.shapes, key=lambda s: ORDER.index(s.material)):
        area = as_area(view.ring(shape.outline))
        inside = area.intersection(window)
        if inside.area > 1e-3:
            whole = abs(inside.area - area.area) < 1e-6 * area.area
            found.append(Part(shape=shape, area=inside, uncut=area, whole=whole))
    return found


def draw_parts(sheet: Sheet, parts: Sequence[Part], crop: Rect, limit: Rect) -> None:
    """Draw fills and hatches, then outlines, then break lines where the picture ends.

    `limit` is where the section itself ends. [mm]
    """
    for part in parts:
        _fill(sheet.page, part.area, part.shape.material)
        if part.shape.material == "timber":
            _draw_timber(sheet.page, part)
    cuts: list[Edge] = []
    for part in parts:
        real: list[Edge] = []
        for edge in _edges(part.area):
            (cuts if _is_cut(edge, part, crop, limit) else real).append(edge)
        sheet.page.lines(real, OUTLINE[part.shape.material])
        for a, b in real:
            sheet.placer.draw_ink(a, b, 0.8)
    _draw_breaks(sheet.page, cuts, crop)


def draw_swatch(page: Page, material: str, rect: Rect) -> None:
    """Draw a small patch of a material as the sections show it."""
    area = box(rect.x0, rect.y0, rect.x1, rect.y1)
    _fill(page, area, material)
    if material == "timber":
        page.lines([((rect.x0, rect.y0), (rect.x1, rect.y1)),
                    ((rect.x0, rect.y1), (rect.x1, rect.y0))], THIN)  # fmt: skip
    page.path(_ring(area.exterior), OUTLINE[material].with_width(0.25), closed=True)


def _fill(page: Page, area: shapely.Geometry, material: str) -> None:
    rings = [_ring(r) for p in _polygons(area) for r in (p.exterior, *p.interiors)]
    fills = {"skin": SKIN_FILL, "spline": SPLINE_FILL, "timber": TIMBER_FILL}
    page.rings(rings, None, fills.get(material, WHITE))
    if material == "core":
        page.lines(zigzag_lines(area, 2.6), HATCH)
    elif material == "spline":
        page.lines(hatch_lines(area, 0.8, 60.0), Pen(width=0.13, color=GREY))
    elif material == "deck":
        page.lines(hatch_lines(area, 1.6, 30.0), Pen(width=0.13, color=GREY))
    elif material == "concrete":
        for at in stipple_points(area.buffer(-0.3), 2.1):
            _grain(page, at)


def _grain(page: Page, at: Vec2) -> None:
    x, y = at
    if (math.sin(x * 3.7 + y * 11.3) * 1e4) % 1.0 > 0.12:
        page.circle(at, 0.14, None, GREY)
        return
    page.path(((x, y - 0.6), (x + 0.6, y + 0.4), (x - 0.5, y + 0.4)), THIN.with_width(0.13),
              closed=True)  # fmt: skip


def _draw_timber(page: Page, part: Part) -> None:
    """Cross a whole timber from corner to corner; hatch one that the crop cuts."""
    corners = _ring(part.area.exterior) if part.area.geom_type == "Polygon" else []
    if part.whole and len(corners) == 4:
        page.lines([(corners[0], corners[2]), (corners[1], corners[3])], THIN)
    else:
        page.lines(hatch_lines(part.area, 1.8, 45.0), Pen(width=0.13, color=PALE))


def _is_cut(edge: Edge, part: Part, crop: Rect, limit: Rect) -> bool:
    """Return whether an edge is only where the picture ends: at the crop, or at the section's end.

    A face of the part itself that happens to lie on the crop is drawn like any other.
    """
    if _on_border(edge, limit):
        return True
    if not _on_border(edge, crop):
        return False
    middle = shapely.Point((edge[0][0] + edge[1][0]) / 2, (edge[0][1] + edge[1][1]) / 2)
    return bool(part.uncut.boundary.distance(middle) > NEAR)


def _draw_breaks(page: Page, cuts: Sequence[Edge], crop: Rect) -> None:
    """Draw one break line across all that is cut side by side along the crop."""
    lines = [LineString(edge).buffer(TOUCHING, cap_style="flat") for edge in cuts]
    sides = (
        ((crop.x0, crop.y0), (crop.x1, crop.y0)),
        ((crop.x1, crop.y0), (crop.x1, crop.y1)),
        ((crop.x1, crop.y1), (crop.x0, crop.y1)),
        ((crop.x0, crop.y1), (crop.x0, crop.y0)),
    )
    for a, b in sides:
        side = LineString([a, b])
        along = [g for g in lines if side.intersection(g).length > 1.0]
        cover = side.intersection(shapely.unary_union(along)).buffer(TOUCHING, cap_style="flat")
        for piece in shapely.get_parts(side.intersection(cover)):
            if piece.geom_type == "LineString" and piece.length > 1.0:
                ends = list(piece.coords)
                page.path(_break_line(ends[0], ends[-1]), BREAK)


def _break_line(a: Vec2, b: Vec2) -> list[Vec2]:
    """Return a line that runs past both ends, with one zigzag in its middle."""
    length = math.dist(a, b)
    d = ((b[0] - a[0]) / length, (b[1] - a[1]) / length)
    n = (-d[1], d[0])

    def at(s: float, t: float) -> Vec2:
        return (a[0] + d[0] * s + n[0] * t, a[1] + d[1] * s + n[1] * t)

    half = length / 2
    size = min(1.6, length / 4)
    return [
        at(-1.5, 0), at(half - size / 2, 0), at(half - size / 4, size), at(half + size / 4, -size),
        at(half + size / 2, 0), at(length + 1.5, 0),
    ]  # fmt: skip


def _edges(area: shapely.Geometry) -> list[tuple[Vec2, Vec2]]:
    found = []
    for polygon in _polygons(area):
        for ring in (polygon.exterior, *polygon.interiors):
            points = [(float(x), float(y)) for x, y in ring.coords]
            found += list(itertools.pairwise(points))
    return found


def _on_border(edge: tuple[Vec2, Vec2], crop: Rect) -> bool:
    (ax, ay), (bx, by) = edge
    return any(
        abs(p - at) < NEAR and abs(q - at) < NEAR
        for p, q, at in (
            (ax, bx, crop.x0), (ax, bx, crop.x1), (ay, by, crop.y0), (ay, by, crop.y1)
        )
    )  # fmt: skip


def _polygons(area: shapely.Geometry) -> list[Polygon]:
    return [p for p in shapely.get_parts(area) if p.geom_type == "Polygon"]


def _ring(ring: shapely.LinearRing) -> list[Vec2]:
    return [(float(x), float(y)) for x, y in ring.coords][:-1]


def solid_area(parts: Sequence[Part]) -> shapely.Geometry:
    """Return everything solid in the section as one area. [mm]"""
    return shapely.unary_union([p.area for p in parts if p.shape.material != "gap"])
