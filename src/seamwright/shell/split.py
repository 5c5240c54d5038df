"""Splitting a surface into panels: strips along u, rows along v where a strip is too long."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

import shapely

from seamwright.geometry.plate import Axis, Plate, extent, halfway, kept_above, kept_below
from seamwright.geometry.polygon import counter_clockwise, signed_area
from seamwright.geometry.types import Ring
from seamwright.shell.layout import Module, Seams, Stretch, merged, seams
from seamwright.shell.plan import Preferences
from seamwright.shell.surface import Cut, Region, Surface
from seamwright.shell.types import Build, Hole, Panel

RIM = 0.1524
"""Least panel left beside an opening before a seam, 6 in; common practice, no source. [m]"""
LEAST_STEP = 0.02
"""Two seams nearer than this are one. [m]"""
SCRAP = 1e-6
"""A piece smaller than this is rounding, not a panel. [m²]"""


def panels_of(surface: Surface, build: Build, preferences: Preferences) -> tuple[Panel, ...]:
    """Return the panels of a surface, numbered from its start.

    Parameters
    ----------
    surface : Surface
        The plane, with its openings already cut.
    build : Build
        The panel type: largest sizes and the gap left at a seam. [m]
    preferences : Preferences
        Least width and whether panels break at openings.

    Returns
    -------
    tuple of Panel
        Each shortened by half the gap at every seam, never at the surface's own edges.
    """
    pieces: list[tuple[Plate, Region]] = []
    for region in surface.regions:
        found = (region.plate,) if surface.whole else _pieces(surface, region, build, preferences)
        pieces.extend((piece, region) for piece in found)
    pieces.sort(key=lambda x: _place(x[0]))
    single = len(pieces) == 1 and (surface.whole or surface.lengthwise)
    return tuple(
        _panel(surface, build, piece, region, surface.id if single else f"{surface.id}.{i + 1}")
        for i, (piece, region) in enumerate(pieces)
    )


def _panel(surface: Surface, build: Build, piece: Plate, region: Region, name: str) -> Panel:
    return Panel(
        id=name,
        build_id=build.id,
        role=surface.role,
        plane_id=surface.id if surface.plane is None else surface.plane,
        storey=surface.storey,
        frame=surface.frame,
        inner=_from_start(piece.boundary.inner, piece.boundary.inner),
        outer=_from_start(piece.boundary.outer, piece.boundary.inner),
        thickness=build.thickness,
        skin_inner=build.skin_inner,
        skin_outer=build.skin_outer,
        holes=tuple(
            Hole(opening_id=cut.opening, outline=counter_clockwise(void.inner))
            for void in piece.voids
            for cut in region.cuts
            if _inside(void.inner[0], cut)
        ),
    )


def _from_start(ring: Ring, inner: Ring) -> Ring:
    """Return a ring that begins at the vertex lowest, then nearest the start, on the inner face."""
    first = min(range(len(inner)), key=lambda i: (round(inner[i][1], 6), round(inner[i][0], 6)))
    return (*ring[first:], *ring[:first])


def _pieces(
    surface: Surface, region: Region, build: Build, preferences: Preferences
) -> list[Plate]:
    plate, half = region.plate, build.edge_gap / 2.0
    found: list[Plate] = []
    at = _strip_seams(surface, region, build, preferences)
    most = math.inf if surface.lengthwise else build.max_length
    for strip in _sliced(plate, 0, at, half):
        low, high = extent(strip, 1)
        if high - low > most + 1e-6:
            rows = _row_seams(strip, region.cuts, build, preferences)
            found.extend(_sliced(strip, 1, rows, half))
        else:
            found.append(strip)
    return [p for p in found if abs(signed_area(halfway(p.boundary))) > SCRAP]


def _sliced(plate: Plate, axis: Axis, at: Sequence[float], half: float) -> list[Plate]:
    """Return the plate cut at positions `at`, each piece shortened by `half` at the cut. [m]"""
    found: list[Plate] = []
    stops = [None, *at, None]
    for a, b in pairwise(stops):
        parts = (plate,) if a is None else kept_above(plate, axis, a + half)
        for part in parts:
            found.extend((part,) if b is None else kept_below(part, axis, b - half))
    return found


def _strip_seams(
    surface: Surface, region: Region, build: Build, preferences: Preferences
) -> tuple[float, ...]:
    low, high = extent(region.plate, 0)
    from_end = surface.layout_from == "end"
    fixed = _fixed(low, high, surface.fixed_widths, from_end=from_end)
    if fixed:
        low, high = (low, fixed[0]) if from_end else (fixed[-1], high)
    most = build.max_length if surface.lengthwise else build.max_width
    if fixed and high - low <= most + 1e-6:
        return fixed
    found = _laid_out((low, high), surface, region, build, preferences)
    return tuple(sorted((*fixed, *found)))


def _laid_out(
    span: Stretch, surface: Surface, region: Region, build: Build, preferences: Preferences
) -> tuple[float, ...]:
    """Return the seams of a stretch of a surface that nobody has fixed."""
    low, high = span
    from_end = surface.layout_from == "end"
    most = build.max_length if surface.lengthwise else build.max_width
    module = Module(most=most, least=float(preferences.min_width))
    half = build.edge_gap / 2.0
    skewed = _skewed(region.plate, 0, half)
    cuts = [c for c in region.cuts if c.high[0] > low + half and c.low[0] < high - half]
    broken = list(cuts) if preferences.break_at_openings else []
    while True:
        blocked = skewed + [(c.low[0] - RIM, c.high[0] + RIM) for c in cuts if c not in broken]
        forced = _void_middles(region) + [
            x for c in broken for x in (c.low[0] + half, c.high[0] - half) if low < x < high
        ]
        found = seams(low, high, module, blocked=blocked, forced=forced, from_end=from_end)
        more = [c for c in cuts if c not in broken and _was_hit(c, found)]
        if not more:
            return _clear(_without_inside(found.at, broken, build), skewed)
        broken.extend(more)


def _was_hit(cut: Cut, found: Seams) -> bool:
    return any(a < (cut.low[0] + cut.high[0]) / 2.0 < b for a, b in found.hit)


def _without_inside(
    at: tuple[float, ...], broken: Sequence[Cut], build: Build
) -> tuple[float, ...]:
    """Return the seams without those that would divide a header short enough for one panel."""
    keep = []
    for x in at:
        inside = [
            c
            for c in broken
            if c.low[0] + build.edge_gap < x < c.high[0] - build.edge_gap
            and c.high[0] - c.low[0] <= build.max_length
        ]
        if not inside:
            keep.append(x)
    return tuple(keep)


def _row_seams(
    strip: Plate, cuts: Sequence[Cut], build: Build, preferences: Preferences
) -> tuple[float, ...]:
    low, high = extent(strip, 1)
    module = Module(most=build.max_length, least=float(preferences.min_width))
    skewed = _skewed(strip, 1, build.edge_gap / 2.0)
    blocked = skewed + [(c.low[1] - RIM, c.high[1] + RIM) for c in cuts]
    return _clear(seams(low, high, module, blocked=blocked).at, skewed)


def _clear(at: Sequence[float], skewed: Sequence[Stretch]) -> tuple[float, ...]:
    """Return seams moved out of stretches no square cut may pass, dropped where none is left."""
    kept: list[float] = []
    zones = merged(skewed)
    for x in at:
        zone = next(((a, b) for a, b in zones if a < x < b), None)
        for place in (x,) if zone is None else zone:
            if not kept or place > kept[-1] + LEAST_STEP:
                kept.append(place)
                break
    return tuple(kept)


def _fixed(
    low: float, high: float, widths: Sequence[float], *, from_end: bool
) -> tuple[float, ...]:
    at: list[float] = []
    here = high if from_end else low
    for width in widths:
        here += -width if from_end else width
        if low + 1e-6 < here < high - 1e-6:
            at.append(here)
    return tuple(sorted(at))


def _skewed(plate: Plate, axis: Axis, half: float) -> list[Stretch]:
    """Return the stretches where a square cut would pass between the two faces of a corner."""
    found: list[Stretch] = []
    for loop in plate.loops:
        for a, b in loop.pairs:
            if abs(a[axis] - b[axis]) > 1e-6:
                low, high = sorted((a[axis], b[axis]))
                found.append((low - half - 1e-4, high + half + 1e-4))
    return found


def _void_middles(region: Region) -> list[float]:
    """Return where seams must pass through voids that are not openings (dormers)."""
    found: list[float] = []
    for void in region.plate.voids:
        if not any(_inside(void.inner[0], cut) for cut in region.cuts):
            low = min(p[0] for p in void.inner)
            high = max(p[0] for p in void.inner)
            found.append((low + high) / 2.0)
    return found


def _inside(point: tuple[float, float], cut: Cut) -> bool:
    (x, y), (u0, v0), (u1, v1) = point, cut.low, cut.high
    if not (u0 - LEAST_STEP < x < u1 + LEAST_STEP and v0 - LEAST_STEP < y < v1 + LEAST_STEP):
        return False
    shape = shapely.Polygon(cut.ring).buffer(1e-6)
    return bool(shape.covers(shapely.Point(point)))


def _place(piece: Plate) -> tuple[float, float]:
    (u0, u1), (v0, v1) = extent(piece, 0), extent(piece, 1)
    return (round((u0 + u1) / 2.0, 3), round((v0 + v1) / 2.0, 3))
