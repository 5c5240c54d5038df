"""Take out of panel outlines what an opening cuts from their edges."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import shapely

from seamwright.io.ifc.layers import exact
from seamwright.io.ifc.place import Placed
from seamwright.io.ifc.plates import GRID, corners_of, paired
from seamwright.io.ifc.types import Floats
from seamwright.shell.plan import GivenPanel, Point2


def lies_within(panel: GivenPanel, low: Floats, high: Floats) -> bool:
    """Return whether a rectangle lies wholly in the panel, touching its edges at most below."""
    outline = _polygon(panel.outline)
    if not outline.buffer(2 * GRID).covers(shapely.box(*low, *high)):
        return False
    inside = shapely.box(low[0] + 1e-4, low[1] + 2e-4, high[0] - 1e-4, high[1] - 1e-4)
    grown = shapely.box(low[0] - 1e-4, low[1] + 1e-4, high[0] + 1e-4, high[1] + 1e-4)
    return bool(outline.covers(inside) and outline.covers(grown))


def notched(panel: GivenPanel, low: Floats, high: Floats) -> GivenPanel | None:
    """Return the panel without the rectangle; None when that would leave no single outline.

    Both faces are cut square through. A panel that the rectangle only touches, or that is cut
    there already, comes back as it is.
    """
    rect = shapely.box(*low, *high)
    faces = [panel.outline, panel.outline if panel.outer_outline is None else panel.outer_outline]
    if all(_polygon(face).intersection(rect).area < 1e-5 for face in faces):
        return panel
    cut = [shapely.set_precision(_polygon(face).difference(rect), GRID) for face in faces]
    if not all(isinstance(part, shapely.Polygon) and not part.interiors for part in cut):
        return None
    rings = paired(corners_of(cut[0].exterior), corners_of(cut[1].exterior))
    if rings is None:
        return None
    inner, outer = (tuple((exact(float(u)), exact(float(v))) for u, v in ring) for ring in rings)
    square = panel.outer_outline is None
    return replace(panel, outline=inner, outer_outline=None if square else outer)


def in_axes_of(host: Placed, other: Placed, low: Floats, high: Floats) -> tuple[Floats, Floats]:
    """Return a rectangle given in one panel's axes in those of another panel of its plane."""
    corners = np.array([(low[0], low[1]), (high[0], low[1]), (high[0], high[1]), (low[0], high[1])])
    local = other.local(host.origin + corners @ host.axes[:2])[:, :2]
    return local.min(axis=0), local.max(axis=0)


def stands_between(host: Placed, others: Sequence[Placed], points: Floats) -> bool:
    """Return whether a void goes through the plane of `host`, within the outline round its panels.

    `others` are the panels among which those of the same plane are looked for.
    """
    low, high = host.local(points).min(axis=0), host.local(points).max(axis=0)
    if low[2] > 1e-3 or high[2] < host.piece.plate.thickness - 1e-3:
        return False
    plane = [item for item in others if item.panel.plane == host.panel.plane]
    corners = [
        host.local(item.origin + np.array(item.panel.outline, dtype=float) @ item.axes[:2])[:, :2]
        for item in plane
    ]
    hull = shapely.MultiPoint(np.vstack(corners)).convex_hull
    return len(plane) > 1 and bool(hull.buffer(2 * GRID).covers(shapely.box(*low[:2], *high[:2])))


def _polygon(ring: tuple[Point2, ...]) -> shapely.Polygon:
    return shapely.Polygon([(float(u), float(v)) for u, v in ring])
