"""A case laid out for the kernel: flat arrays, merged links, places in the band matrix."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, NamedTuple, TypeAlias

import numpy as np
import numpy.typing as npt
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import reverse_cuthill_mckee

from seamwright.moisture.transient.tables import HUMIDITIES, WATER, air_table, material_table
from seamwright.moisture.transient.types import FILM, Case, Mesh
from seamwright.moisture.types import Counts, Flags, Floats

FREE = 1.0e5
"""Rise of free water above saturation per rise of relative humidity. [kg/m³] 1,000 kg/m³ of
condensate stand at 101 %: a number of the method, no property: common practice, no source."""

FILM_RISE = 1e-6
"""Rise of relative humidity with a full film on a face. [-] So little that the film does
not press water into the material. A number of the method: common practice, no source."""

_LEAST_SWELL = 10.0
"""Least rise of free water above saturation per rise of u. [kg/m³] A number of the method: common
practice, no source."""

Places: TypeAlias = npt.NDArray[np.uint32]
"""Places in other arrays; unsigned, so that compiled code need not ask whether one is below 0."""


class Net(NamedTuple):
    """What stays the same over a run; plain arrays only.

    `near` lists the later volumes joined to each volume from `near_start` on, `pull` those to which
    a liquid may flow, each pair once; `link_near` is a link's place in `near`.

    `rim_room` is how far beyond saturation u goes until the film on a rim is full.

    A node is a volume or the moving air at one cell of an air way. `place` is each node's row in
    the band matrix, `first` the first column of each place's row, `last` the last one, `reach`
    the widest distance between joined places.
    """

    tables: Floats
    air: Floats
    pressure: float
    part_start: Places
    part_material: Places
    part_area: Floats
    conductivity: Floats
    rise: Floats
    capacity: Floats
    swell: Floats
    above: Floats
    near_start: Places
    near: Places
    link_near: Places
    link_a: Places
    link_b: Places
    link_ratio: Floats
    pull_start: Places
    pull: Places
    pull_own: Places
    pull_other: Places
    pull_ratio: Floats
    rim_cell: Places
    rim_air: Places
    rim_heat: Floats
    rim_vapor: Floats
    rim_rain: Floats
    rim_room: Floats
    way_start: Counts
    way_first: Places
    way_last: Places
    way_cell: Places
    way_contact: Floats
    place: Counts
    first: Counts
    last: Counts
    reach: int


def lay_out(case: Case) -> Net:
    """Return the case as the kernel takes it; the mesh must have been checked."""
    mesh, ways = case.mesh, case.ways
    cells, kinds, area, start = _parts(mesh)
    place, first, last, reach = _places(mesh, [way.cells for way in ways])
    stores = _stores(case, cells, kinds, area)
    none, empty = np.zeros(0, dtype=np.int64), np.zeros(0)
    return Net(
        air=air_table(case.pressure),
        pressure=float(case.pressure),
        part_start=start,
        part_material=_counts(kinds),
        part_area=area,
        rim_cell=_counts(mesh.rim_cell),
        rim_air=_counts(mesh.rim_air),
        rim_heat=_floats(mesh.rim_length / mesh.rim_heat),
        rim_vapor=_floats(mesh.rim_length / mesh.rim_vapor),
        rim_rain=_floats(mesh.rim_length * mesh.rim_rain),
        rim_room=stores.pop("film") / stores["swell"][mesh.rim_cell],
        way_start=np.cumsum([0, *(len(way.cells) for way in ways)]),
        way_first=_counts(np.array([way.first for way in ways], dtype=np.int64)),
        way_last=_counts(np.array([way.last for way in ways], dtype=np.int64)),
        way_cell=_counts(np.concatenate([none, *(way.cells for way in ways)])),
        way_contact=np.concatenate([empty, *(way.contact for way in ways)]),
        place=place,
        first=first,
        last=last,
        reach=reach,
        **stores,
        **_joins(case, cells, kinds),
    )


def _stores(case: Case, cells: Counts, kinds: Counts, area: Floats) -> dict[str, Any]:
    """Return the fields that say what volumes hold, and the film of each rim. [kg/m]"""
    mesh, materials = case.mesh, case.materials
    n = len(mesh.points)
    tables = np.stack([material_table(m) for m in materials])
    steep = (tables[:, -1, WATER] - tables[:, -2, WATER]) / (HUMIDITIES[-1] - HUMIDITIES[-2])
    dry = np.array([m.density * m.heat_capacity for m in materials])
    swell = _summed(cells, area * np.maximum(steep, _LEAST_SWELL)[kinds], n)
    film = mesh.rim_film
    if film is None:
        film = np.where(mesh.rim_rain > 0.0, FILM, np.inf)
    above = swell / (FREE * _summed(cells, area, n))
    room = mesh.rim_length * film / swell[mesh.rim_cell]
    runs = np.isfinite(room)
    np.minimum.at(above, mesh.rim_cell[runs], FILM_RISE / room[runs])
    return {
        "tables": tables,
        "conductivity": np.array([m.conductivity for m in materials]),
        "rise": np.array([m.conductivity_rise for m in materials]),
        "capacity": _summed(cells, area * dry[kinds], n),
        "swell": swell,
        "above": above,
        "film": film * mesh.rim_length,
    }


def _joins(case: Case, cells: Counts, kinds: Counts) -> dict[str, Any]:
    """Return the fields that say how volumes are joined."""
    mesh = case.mesh
    slot = {(int(c), int(m)): k for k, (c, m) in enumerate(zip(cells, kinds, strict=True))}
    link_a, link_b = (
        np.array([slot[int(c), int(m)] for c, m in zip(ends, mesh.link_material, strict=True)],
                 dtype=np.int64)
        for ends in (mesh.link_a, mesh.link_b)
    )  # fmt: skip
    near_start, near, link_near = _near(mesh)
    liquid = np.array([m.liquid is not None for m in case.materials])
    pull_start, pull, row = _pulls(mesh, liquid)
    ahead = mesh.link_a < mesh.link_b
    return {
        "near_start": near_start, "near": near, "link_near": link_near,
        "link_a": _counts(link_a), "link_b": _counts(link_b),
        "link_ratio": _floats(mesh.link_ratio),
        "pull_start": pull_start, "pull": pull,
        "pull_own": _counts(np.where(ahead, link_a, link_b)[row]),
        "pull_other": _counts(np.where(ahead, link_b, link_a)[row]),
        "pull_ratio": _floats(mesh.link_ratio[row]),
    }  # fmt: skip


def slots_of(mesh: Mesh) -> Counts:
    """Return for each part of a mesh its place among the parts that the kernel keeps (p,)."""
    key = mesh.part_cell * (int(mesh.part_material.max()) + 1) + mesh.part_material
    return np.asarray(np.unique(key, return_inverse=True)[1], dtype=np.int64)


def _parts(mesh: Mesh) -> tuple[Counts, Counts, Floats, Places]:
    """Return cell, material and area of the parts by cell, and where each cell's begin."""
    count = int(mesh.part_material.max()) + 1
    found, index = np.unique(mesh.part_cell * count + mesh.part_material, return_inverse=True)
    cells = found // count
    start = np.searchsorted(cells, np.arange(len(mesh.points) + 1))
    area = _summed(index, mesh.part_area, len(found))
    return cells, found % count, area, _counts(start)


def _near(mesh: Mesh) -> tuple[Places, Places, Places]:
    """Return where each volume's later neighbors begin, the neighbors, and each link's place."""
    n = len(mesh.points)
    low, high = _ends(mesh)
    keys, index = np.unique(low * n + high, return_inverse=True)
    start = np.searchsorted(keys // n, np.arange(n + 1))
    return _counts(start), _counts(keys % n), _counts(index)


def _pulls(mesh: Mesh, wet: Flags) -> tuple[Places, Places, Places]:
    """Return where each volume's liquid ways to later ones begin, where they lead, their links."""
    low, high = _ends(mesh)
    kept = np.flatnonzero(wet[mesh.link_material])
    row = kept[np.argsort(low[kept], kind="stable")]
    start = np.searchsorted(low[row], np.arange(len(mesh.points) + 1))
    return _counts(start), _counts(high[row]), _counts(row)


def _ends(mesh: Mesh) -> tuple[Counts, Counts]:
    """Return the earlier and the later volume of each link."""
    return np.minimum(mesh.link_a, mesh.link_b), np.maximum(mesh.link_a, mesh.link_b)


def _places(mesh: Mesh, ways: list[Counts]) -> tuple[Counts, Counts, Counts, int]:
    """Return each node's place, first and last joined places, and the widest distance."""
    n = len(mesh.points)
    joined = [np.column_stack([mesh.link_a, mesh.link_b])]
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
    first = np.minimum.accumulate(first[::-1])[::-1].copy()
    last = np.arange(len(place))
    np.maximum.at(last, first, np.arange(len(place)))
    last = np.maximum.accumulate(last)
    return first, last, int((np.arange(len(place)) - first).max(initial=0))


def _cost(place: Counts, pairs: Counts) -> int:
    _, last, _ = _profile(place, pairs)
    return int(((last - np.arange(len(place)) + 1) ** 2).sum())


def _counts(values: Counts | Places) -> Places:
    return np.ascontiguousarray(values, dtype=np.uint32)


def _floats(values: Floats) -> Floats:
    return np.ascontiguousarray(values, dtype=np.float64)


def _summed(place: Counts, values: Floats, count: int) -> Floats:
    return np.bincount(place, values, minlength=count).astype(np.float64)
