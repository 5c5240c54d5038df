"""A case laid out for the kernel: flat arrays, merged links, places in the band matrix."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import reverse_cuthill_mckee

from seamwright.moisture.transient.tables import HUMIDITIES, WATER, air_table, material_table
from seamwright.moisture.transient.types import Case, Mesh
from seamwright.moisture.types import Counts, Floats

FREE = 1.0e5
"""Rise of free water above saturation per rise of relative humidity. [kg/m³] 1,000 kg/m³ of
condensate stand at 101 %: a number of the method, no property."""

_LEAST_SWELL = 10.0


class Net(NamedTuple):
    """What stays the same over a run; plain arrays only.

    A node is a volume or the moving air at one cell of an air way. `place` is each node's row in
    the band matrix, `first` the first column of each place's row, `last` the last one, `reach`
    the widest distance between joined places.
    """

    tables: Floats
    air: Floats
    pressure: float
    part_start: Counts
    part_material: Counts
    part_area: Floats
    conductivity: Floats
    rise: Floats
    capacity: Floats
    swell: Floats
    above: Floats
    edge_a: Counts
    edge_b: Counts
    link_edge: Counts
    link_a: Counts
    link_b: Counts
    link_ratio: Floats
    pull_a: Counts
    pull_b: Counts
    pull_part_a: Counts
    pull_part_b: Counts
    pull_ratio: Floats
    rim_cell: Counts
    rim_air: Counts
    rim_heat: Floats
    rim_vapor: Floats
    rim_rain: Floats
    way_start: Counts
    way_first: Counts
    way_last: Counts
    way_cell: Counts
    way_contact: Floats
    place: Counts
    first: Counts
    last: Counts
    reach: int


def lay_out(case: Case) -> Net:
    """Return the case as the kernel takes it; the mesh must have been checked."""
    mesh, materials = case.mesh, case.materials
    n = len(mesh.points)
    cells, kinds, area, start = _parts(mesh)
    slot = {(int(c), int(m)): k for k, (c, m) in enumerate(zip(cells, kinds, strict=True))}
    tables = np.stack([material_table(m) for m in materials])
    steep = (tables[:, -1, WATER] - tables[:, -2, WATER]) / (HUMIDITIES[-1] - HUMIDITIES[-2])
    dry = np.array([m.density * m.heat_capacity for m in materials])
    swell = np.bincount(cells, area * np.maximum(steep, _LEAST_SWELL)[kinds], minlength=n)
    whole = np.bincount(cells, area, minlength=n)
    edges, link_edge = _edges(mesh)
    at = [
        np.array([slot[int(c), int(m)] for c, m in zip(ends, mesh.link_material, strict=True)])
        for ends in (mesh.link_a, mesh.link_b)
    ]
    link_a, link_b = (np.asarray(ends, dtype=np.int64) for ends in at)
    wet = np.array([m.liquid is not None for m in materials], dtype=bool)[mesh.link_material]
    way_cell = np.concatenate([np.zeros(0, dtype=np.int64), *(w.cells for w in case.ways)])
    place, first, last, reach = _places(mesh, edges, [w.cells for w in case.ways])
    return Net(
        tables=tables,
        air=air_table(case.pressure),
        pressure=float(case.pressure),
        part_start=start,
        part_material=kinds,
        part_area=area,
        conductivity=np.array([m.conductivity for m in materials]),
        rise=np.array([m.conductivity_rise for m in materials]),
        capacity=np.bincount(cells, area * dry[kinds], minlength=n),
        swell=swell,
        above=swell / (FREE * whole),
        edge_a=np.ascontiguousarray(edges[:, 0]),
        edge_b=np.ascontiguousarray(edges[:, 1]),
        link_edge=link_edge,
        link_a=link_a,
        link_b=link_b,
        link_ratio=_floats(mesh.link_ratio),
        pull_a=_counts(mesh.link_a[wet]),
        pull_b=_counts(mesh.link_b[wet]),
        pull_part_a=link_a[wet],
        pull_part_b=link_b[wet],
        pull_ratio=_floats(mesh.link_ratio[wet]),
        rim_cell=_counts(mesh.rim_cell),
        rim_air=_counts(mesh.rim_air),
        rim_heat=_floats(mesh.rim_length / mesh.rim_heat),
        rim_vapor=_floats(mesh.rim_length / mesh.rim_vapor),
        rim_rain=_floats(mesh.rim_length * mesh.rim_rain),
        way_start=_counts(np.cumsum([0, *(len(w.cells) for w in case.ways)])),
        way_first=_counts(np.array([w.first for w in case.ways], dtype=np.int64)),
        way_last=_counts(np.array([w.last for w in case.ways], dtype=np.int64)),
        way_cell=_counts(way_cell),
        way_contact=np.concatenate([np.zeros(0), *(w.contact for w in case.ways)]),
        place=place,
        first=first,
        last=last,
        reach=reach,
    )


def slots_of(mesh: Mesh) -> Counts:
    """Return for each part of a mesh its place among the parts that the kernel keeps (p,)."""
    key = mesh.part_cell * (int(mesh.part_material.max()) + 1) + mesh.part_material
    return np.asarray(np.unique(key, return_inverse=True)[1], dtype=np.int64)


def _parts(mesh: Mesh) -> tuple[Counts, Counts, Floats, Counts]:
    """Return cell, material and area of the parts by cell, and where each cell's begin."""
    count = int(mesh.part_material.max()) + 1
    found, index = np.unique(mesh.part_cell * count + mesh.part_material, return_inverse=True)
    cells = found // count
    start = np.searchsorted(cells, np.arange(len(mesh.points) + 1))
    return cells, found % count, np.bincount(index, mesh.part_area), _counts(start)


def _edges(mesh: Mesh) -> tuple[Counts, Counts]:
    """Return the pairs of joined volumes, and which pair each link belongs to.

    A link from b to a joins the pair of a and b: every law of a link is the same both ways.
    """
    ends = np.column_stack([mesh.link_a, mesh.link_b])
    pairs, index = np.unique(np.sort(ends, axis=1), axis=0, return_inverse=True)
    return _counts(pairs), _counts(index.ravel())


def _places(mesh: Mesh, edges: Counts, ways: list[Counts]) -> tuple[Counts, Counts, Counts, int]:
    """Return each node's place, first and last joined places, and the widest distance."""
    n = len(mesh.points)
    joined = [edges]
    spots = [mesh.points]
    node = n
    for cells in ways:
        own = np.arange(node, node + len(cells))
        joined += [np.column_stack([cells, own]), np.column_stack([own[:-1], own[1:]])]
        joined.append(np.column_stack([cells[1:], own[:-1]]))
        joined.append(np.column_stack([cells[:-1], own[1:]]))
        spots.append(mesh.points[cells])
        node += len(cells)
    pairs = np.concatenate(joined)
    best = min(_orders(node, pairs, np.concatenate(spots)), key=lambda p: _cost(p, pairs))
    return (best, *_profile(best, pairs))


def _orders(count: int, pairs: Counts, spots: Floats) -> Iterator[Counts]:
    """Yield orders to try: from neighbor to neighbor, and along each axis."""
    graph = coo_matrix((np.ones(len(pairs)), (pairs[:, 0], pairs[:, 1])), shape=(count, count))
    full = (graph + graph.T).tocsr()
    order = [reverse_cuthill_mckee(full, symmetric_mode=True)]
    order += [np.lexsort((spots[:, 1 - k], spots[:, k])) for k in (0, 1)]
    for row in order:
        place = np.empty(count, dtype=np.int64)
        place[row] = np.arange(count)
        yield place


def _profile(place: Counts, pairs: Counts) -> tuple[Counts, Counts, int]:
    ends = np.sort(place[pairs], axis=1)
    first = np.arange(len(place))
    np.minimum.at(first, ends[:, 1], ends[:, 0])
    last = np.arange(len(place))
    np.maximum.at(last, first, np.arange(len(place)))
    last = np.maximum.accumulate(last)
    return first, last, int((np.arange(len(place)) - first).max(initial=0))


def _cost(place: Counts, pairs: Counts) -> int:
    _, last, _ = _profile(place, pairs)
    return int(((last - np.arange(len(place)) + 1) ** 2).sum())


def _counts(values: Counts) -> Counts:
    return np.ascontiguousarray(values, dtype=np.int64)


def _floats(values: Floats) -> Floats:
    return np.ascontiguousarray(values, dtype=np.float64)
