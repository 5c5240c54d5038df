"""Panels seen from outside: each with its edges, all of them with a heavy outline around."""

from __future__ import annotations

from collections.abc import Iterable

import shapely

from seamwright.draw.hatch import as_area
from seamwright.draw.ink import CUT, WHITE, Pen
from seamwright.draw.sheet import Sheet
from seamwright.draw.solids import face
from seamwright.draw.view import View
from seamwright.shell.types import Panel

_SEAM = 0.25
"""Panels nearer than twice this on paper are drawn as one outline. [mm]"""


def draw_outlines(sheet: Sheet, view: View, panels: Iterable[Panel], pen: Pen) -> None:
    """Draw panels over each other in their order, and the outline of what they cover together."""
    areas = []
    for panel in panels:
        ring = [view.at(c) for c in face(panel, outer=True)]
        sheet.page.path(ring, pen, WHITE, closed=True)
        areas.append(as_area(ring).buffer(_SEAM))
        for a, b in zip(ring, ring[1:] + ring[:1], strict=True):
            sheet.placer.draw_ink(a, b)
    whole = shapely.unary_union(areas).buffer(-_SEAM)
    for part in shapely.get_parts(whole):
        if part.geom_type == "Polygon":
            sheet.page.rings(
                [list(r.coords)[:-1] for r in (part.exterior, *part.interiors)], CUT, None
            )
