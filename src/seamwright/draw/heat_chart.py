"""The picture of steady conduction through one joint: bands and lines of equal temperature.

Bands grow lighter from cold to warm, from blue to straw, and every line carries its temperature, so
that the picture reads the same in black and white.
"""

from __future__ import annotations

import math

import numpy as np
import shapely

from seamwright.draw.ink import BLACK, EDGE, GREY, SMALL, TEXT, THIN, WHITE, Pen
from seamwright.draw.isotherms import band_areas, isolines
from seamwright.draw.page import Page
from seamwright.draw.sheet import wrapped
from seamwright.draw.types import Drawing, Rect
from seamwright.geometry.types import Vec2
from seamwright.moisture.types import JointHeat
from seamwright.units import System

WIDTH = 150.0
TOP, SIDE, FOOT = 14.0, 26.0, 30.0
TALLEST = 120.0
STEP = 5.0
"""Kelvins between two lines."""

COLD, WARM = (66, 106, 158), (252, 243, 214)
_LINE = Pen(width=0.18)
_HALF = Pen(width=0.35)
_APART = 9.0
_EDGE = 6.0


def draw_heat_chart(
    heat: JointHeat, *, name: str, title: str, inside: float, outside: float, system: System
) -> Drawing:
    """Return the picture of one joint between a room and outdoors at these temperatures. [°C]

    The coldest point of the inner surface is ringed; its temperature counts with the surface
    resistance for mold, while the lines are drawn at that for heat.
    """
    points = heat.field.grid.points
    low, high = points.min(axis=0), points.max(axis=0)
    scale = min((WIDTH - 2 * SIDE) / (high[0] - low[0]), TALLEST / (high[1] - low[1]))
    tall = scale * (high[1] - low[1])
    page = Page(WIDTH, TOP + tall + FOOT + 6.0)
    room = Rect(x0=SIDE, y0=TOP + 3.0, x1=WIDTH - SIDE, y1=TOP + 3.0 + tall)
    view = _View(middle=(low + high) / 2, paper=room.center, scale=scale)
    values = outside + heat.field.temperature * (inside - outside)
    levels = _levels(inside, outside)
    _bands(page, heat, values, levels, view)
    _parts(page, heat, view)
    _lines(page, heat=heat, values=values, levels=levels, view=view, system=system)
    _airs(page, heat, view, {"inside": inside, "outside": outside}, system)
    at = view.at(heat.coldest)
    page.circle(at, 1.5, Pen(width=0.7, color=WHITE))
    page.circle(at, 1.5, Pen(width=0.35))
    page.text((_EDGE, 6.0), title, 2.7, bold=True)
    _foot(page, heat, room.y1 + 13.0, inside=inside, outside=outside, system=system)
    return Drawing(
        name=name,
        title=title,
        svg=page.finish(),
        width_mm=page.width,
        height_mm=page.height,
        scale="not to scale",
        caption="Steady conduction: lines of equal temperature, lighter where warmer; ring: the "
        "coldest point of the inner surface. Not a verdict on dryness.",
    )


class _View:
    """From section to paper."""

    def __init__(self, *, middle: np.ndarray, paper: Vec2, scale: float) -> None:
        self.middle, self.paper, self.scale = middle, paper, scale

    def at(self, p: Vec2) -> Vec2:
        return (
            float(self.paper[0] + (p[0] - self.middle[0]) * self.scale),
            float(self.paper[1] - (p[1] - self.middle[1]) * self.scale),
        )


def _levels(inside: float, outside: float) -> list[float]:
    low, high = sorted((inside, outside))
    return [STEP * k for k in range(math.floor(low / STEP), math.ceil(high / STEP) + 1)]


def _bands(page: Page, heat: JointHeat, values: np.ndarray, levels: list[float], view: _View
           ) -> None:  # fmt: skip
    areas = band_areas(heat.field, values, levels)
    for i, area in enumerate(areas):
        share = i / max(len(areas) - 1, 1)
        tint = "#" + "".join(
            f"{round(a + (b - a) * share):02x}" for a, b in zip(COLD, WARM, strict=True)
        )
        for part in shapely.get_parts(area):
            if part.geom_type == "Polygon":
                rings = (part.exterior, *part.interiors)
                page.rings([[view.at(p) for p in ring.coords[:-1]] for ring in rings], None, tint)


def _parts(page: Page, heat: JointHeat, view: _View) -> None:
    for region in heat.field.grid.section.regions:
        strong = region.name in {"spline", "timber", "concrete"}
        page.path([view.at(p) for p in region.outline], EDGE if strong else THIN, closed=True)


def _lines(page: Page, *, heat: JointHeat, values: np.ndarray, levels: list[float], view: _View,
           system: System) -> None:  # fmt: skip
    taken: list[Vec2] = []
    for level in levels:
        pen = _HALF if level == 0.0 else _LINE
        for run in isolines(heat.field, values, level):
            paper = [view.at(p) for p in run]
            page.path(paper, pen)
            spot = _spot(paper, taken)
            if spot is not None:
                taken.append(spot)
                page.centered(spot, _shown(level, system), SMALL)


def _spot(run: list[Vec2], taken: list[Vec2]) -> Vec2 | None:
    """Return a place for the label of a line, clear of the others; None when it is too short."""
    line = shapely.LineString(run)
    if line.length < 14.0:
        return None
    for share in (0.25, 0.75, 0.5, 0.15, 0.85, 0.35, 0.65):
        p = line.interpolate(share, normalized=True)
        at = (float(p.x), float(p.y))
        if all(math.dist(at, other) > _APART for other in taken):
            return at
    return None


def _airs(page: Page, heat: JointHeat, view: _View, airs: dict[str, float], system: System) -> None:
    """Write the air and its temperature off the longest face of each side."""
    for side, warmth in airs.items():
        faces = [e for e in heat.field.grid.section.exposures if e.side == side]
        face = max(faces, key=lambda e: math.dist(e.start, e.end))
        a, b = view.at(face.start), view.at(face.end)
        middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
        n = (b[1] - a[1], a[0] - b[0])
        size = math.hypot(*n)
        inner = _inner(heat, view, middle)
        turn = 1.0 if (middle[0] - inner[0]) * n[0] + (middle[1] - inner[1]) * n[1] > 0 else -1.0
        off = 5.0 + 10.0 * abs(n[0]) / size
        at = (middle[0] + turn * n[0] / size * off, middle[1] + turn * n[1] / size * off)
        at = (min(max(at[0], 16.0), page.width - 16.0), at[1])
        page.centered(at, f"{side} {_shown(warmth, system)}", TEXT, bold=True)


def _inner(heat: JointHeat, view: _View, place: Vec2) -> Vec2:
    """Return the middle of the triangle nearest to a place on paper."""
    middles = heat.field.grid.points[heat.field.grid.triangles].mean(axis=1)
    paper = np.array([view.at((float(x), float(y))) for x, y in middles])
    near = paper[np.argmin(np.hypot(*(paper - place).T))]
    return (float(near[0]), float(near[1]))


def _foot(page: Page, heat: JointHeat, y: float, *, inside: float, outside: float, system: System
          ) -> None:  # fmt: skip
    coldest = outside + heat.factor * (inside - outside)
    state = "" if heat.converged else f" NOT CONVERGED: {heat.advice}."
    text = (
        f"psi {heat.psi:+.3f} W/(m·K) on inner dimensions; coldest inner surface (ring) "
        f"{_shown(coldest, system)}, temperature factor {heat.factor:.2f} at Rsi 0.25; halving the "
        f"grid changed the heat by {100 * heat.change:.2f} %, heat in and out differ by "
        f"{heat.imbalance:.0e}.{state} Bare panels, steady conduction, no air leakage: not a "
        "verdict on dryness."
    )
    for row, line in enumerate(wrapped(text, 112)):
        page.text((_EDGE, y + 3.4 * row), line, SMALL, color=BLACK if row < 2 else GREY)


def _shown(celsius: float, system: System) -> str:
    if system == "us":
        return f"{celsius * 1.8 + 32.0:.0f} °F"
    return f"{celsius:.1f}".removesuffix(".0") + " °C"
