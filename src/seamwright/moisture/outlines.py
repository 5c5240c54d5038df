"""The outlines of a section as one net of straight edges, cut where they meet."""

from __future__ import annotations

import itertools
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry import LineString, Polygon

from seamwright.errors import GeometryError
from seamwright.moisture.types import Counts, Flags, Floats, PlainSection

SNAP = 1e-5
"""Points nearer than this are one. [m]"""


@dataclass(frozen=True, kw_only=True, slots=True)
class Net:
    """Corners (n, 2) [m] and edges (m, 2) of all outlines; `corner` marks the points where heat
    may crowd. `cells` are the faces between the edges, `region` (c,) the region of each.
    """

    points: Floats
    edges: Counts
    sharp: Floats
    cells: tuple[Polygon, ...]
    region: Counts


def net_of(section: PlainSection) -> Net:
    """Return the outlines of a section cut at every meeting point, and the faces between them.

    Raises
    ------
    GeometryError
        Without any region that has an area.
    """
    areas = [shapely.make_valid(Polygon(region.outline)) for region in section.regions]
    rims = [LineString([e.start, e.end]) for e in section.exposures]
    lines = shapely.unary_union([*(area.boundary for area in areas), *rims], grid_size=SNAP)
    cells, region = _cells(lines, areas)
    if not cells:
        raise GeometryError("a section without any area cannot conduct; give it closed outlines")
    rings = shapely.unary_union([cell.boundary for cell in cells])
    pairs = [pair for line in shapely.get_parts(rings) for pair in itertools.pairwise(line.coords)]
    ends = np.round(np.array(pairs, dtype=np.float64).reshape(-1, 2) / SNAP).astype(np.int64)
    keys, index = np.unique(ends, axis=0, return_inverse=True)
    points: Floats = keys.astype(np.float64) * SNAP
    edges = np.sort(index.reshape(-1, 2), axis=1)
    edges = np.unique(edges[edges[:, 0] != edges[:, 1]], axis=0)
    return Net(
        points=points,
        edges=edges,
        sharp=points[_sharp(points, edges, cells, section)],
        cells=tuple(cells),
        region=region,
    )


def _cells(lines: shapely.Geometry, areas: list[shapely.Geometry]) -> tuple[list[Polygon], Counts]:
    faces = list(shapely.get_parts(shapely.polygonize(shapely.get_parts(lines).tolist())))
    inner = [face.representative_point() for face in faces]
    tree = shapely.STRtree(areas)
    owner = np.full(len(faces), len(areas), dtype=np.int64)
    if faces:
        face, area = tree.query(inner, predicate="within")
        np.minimum.at(owner, face, area)
    kept = owner < len(areas)
    return [face for face, keep in zip(faces, kept, strict=True) if keep], owner[kept]


def _sharp(points: Floats, edges: Counts, cells: list[Polygon], section: PlainSection) -> Flags:
    """Return which points are corners: not on an adiabatic cut, not in the run of a line."""
    rim = shapely.unary_union(cells).boundary
    open_air = [LineString([e.start, e.end]) for e in section.exposures]
    closed = rim.difference(shapely.unary_union(open_air).buffer(2 * SNAP))
    on_cut = shapely.distance(shapely.points(points), closed) < SNAP
    turns = np.zeros(len(points), dtype=bool)
    around: list[list[int]] = [[] for _ in points]
    for a, b in edges:
        around[a].append(int(b))
        around[b].append(int(a))
    for i, others in enumerate(around):
        d = points[others] - points[i]
        d /= np.linalg.norm(d, axis=1)[:, None]
        turns[i] = len(others) != 2 or abs(d[0] @ d[1] + 1.0) > 1e-4
    return turns if closed.is_empty else np.asarray(turns & ~on_cut, dtype=np.bool_)
