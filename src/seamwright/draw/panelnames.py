"""Panel ids on elevations and roof plans, each inside its own panel where there is room."""

from __future__ import annotations

from collections.abc import Iterable

import shapely

from seamwright.draw.hatch import as_area
from seamwright.draw.ink import GREY, SMALL
from seamwright.draw.labels import Label
from seamwright.draw.sheet import Sheet
from seamwright.draw.solids import face
from seamwright.draw.view import View
from seamwright.geometry.types import Vec2
from seamwright.shell.types import Panel

STEPS = 7


def label_panels(sheet: Sheet, view: View, panels: Iterable[Panel]) -> None:
    """Write each panel's id inside its outline, clear of its holes; ids with no room are left out.

    Panel ids stand in the title of every joint, so none is lost by that.
    """
    for panel in panels:
        area = as_area([view.at(c) for c in face(panel, outer=True)])
        for hole in panel.holes:
            ring = [view.at(panel.frame.point(p, panel.thickness)) for p in hole.outline]
            area = area.difference(as_area(ring).buffer(1.0))
        if area.area < 4.0:
            continue
        circle = shapely.maximum_inscribed_circle(area, tolerance=0.5)
        middle = (float(circle.coords[0][0]), float(circle.coords[0][1]))
        sheet.label(
            Label(
                text=panel.id, start=middle, end=middle, size=SMALL, color=GREY, bold=True,
                on_point=True, others=inner_spots(area), kind="panel", keyed=False,
            )
        )  # fmt: skip


def inner_spots(area: shapely.Geometry) -> tuple[Vec2, ...]:
    """Return points well inside an area on a coarse grid of its own, middle ones first."""
    x0, y0, x1, y1 = area.bounds
    inner = area.buffer(-1.6)
    found: list[tuple[float, Vec2]] = []
    for column in range(1, STEPS):
        for row in range(1, STEPS):
            x, y = x0 + (x1 - x0) * column / STEPS, y0 + (y1 - y0) * row / STEPS
            if inner.covers(shapely.Point(x, y)):
                off = abs(column / STEPS - 0.5) + abs(row / STEPS - 0.5)
                found.append((round(off, 6), (x, y)))
    return tuple(at for _, at in sorted(found))
