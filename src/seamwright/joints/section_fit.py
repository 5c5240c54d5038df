"""Making the parts of a section fit: no two of them in one place.

A spline or let-in timber takes its place from the cores it is let into and from the void; a free
timber that would stand into a panel is backed to it; a panel gives way to nothing but its spline.
"""

from __future__ import annotations

from collections.abc import Sequence

import shapely

from seamwright.joints.types import SectionShape

_LEAST = 1e-7
_GRID = 1e-9


def fitted(
    panels: Sequence[SectionShape],
    loose: Sequence[SectionShape],
    let_in: Sequence[SectionShape],
    voids: Sequence[SectionShape],
) -> tuple[SectionShape, ...]:
    """Return all shapes of a section without overlaps.

    `loose` are bearings and timbers, the earlier before the later; `let_in` splines and timbers in
    the panels' recesses; `voids` openings between panels. Slivers under 0.1 mm² are dropped.
    """
    body = _union(panels)
    inserts = _union(let_in)
    cut = [*_less([s for s in panels if s.material == "core"], inserts)]
    skins = [s for s in panels if s.material != "core"]
    taken, backed = shapely.union_all([body, inserts]), []
    for shape in loose:
        rest = _less([shape], taken)
        backed += rest
        taken = shapely.union_all([taken, _union(rest)])
    empty = _less(voids, shapely.union_all([inserts, _union(backed)]))
    return (*skins, *cut, *backed, *empty, *let_in)


def _union(shapes: Sequence[SectionShape]) -> shapely.Geometry:
    return shapely.union_all([shapely.Polygon(shape.outline).buffer(0) for shape in shapes])


def _less(shapes: Sequence[SectionShape], taken: shapely.Geometry) -> list[SectionShape]:
    """Return shapes with `taken` cut out of them; those it does not touch stay as they are."""
    kept = []
    for shape in shapes:
        area = shapely.Polygon(shape.outline)
        if not area.intersects(taken) or area.intersection(taken).area < _LEAST:
            kept.append(shape)
            continue
        rest = shapely.set_precision(area.difference(taken), _GRID)
        for part in shapely.get_parts(rest):
            if part.geom_type == "Polygon" and part.area >= _LEAST:
                ring = shapely.geometry.polygon.orient(part).exterior.coords[:-1]
                outline = tuple((float(x), float(y)) for x, y in ring)
                kept.append(
                    SectionShape(outline=outline, material=shape.material, owner=shape.owner)
                )
    return kept
