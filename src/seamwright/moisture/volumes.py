"""Control volumes around the points of a grid, as a transient run takes them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from seamwright.moisture.grid import areas_of
from seamwright.moisture.transient.types import Mesh
from seamwright.moisture.types import Counts, Floats, Grid


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class Rims:
    """The stretches of a grid's edge that meet air (k,), each half of a border or a part of it.

    Attributes
    ----------
    cell, air
        The point and the air. Air 0 is the room, 1 outdoors.
    length
        How long each is. [m]
    heat
        Resistance of film and covers. [m²·K/W]
    vapor
        Resistance of film, strip and covers. [m²·s·Pa/kg]
    rain
        Share of the rain offered that gets in. [-]
    """

    cell: Counts
    air: Counts
    length: Floats
    heat: Floats
    vapor: Floats
    rain: Floats


@dataclass(frozen=True, kw_only=True, slots=True, eq=False)
class Volumes:
    """A mesh, and the region of the section that each of its parts lies in (p,)."""

    mesh: Mesh
    part_region: Counts


def control_volumes(grid: Grid, material: Sequence[int], rims: Rims) -> Volumes:
    """Return one control volume for each point of a grid.

    A third of each triangle belongs to each of its corners, and two corners are joined by half
    the cotangent of the angle across: the same conductances as linear elements with lumped
    storage. `material` is the index of each region's material. No ratio is below zero on a grid
    of `make_grid`, whose angles against outlines are never obtuse.

    Source
    ------
    Half the cotangent as a conductance: R. H. MacNeal, Quarterly of Applied Mathematics 11
    (1953), 295 to 310 (from memory).
    """
    kinds = np.asarray(material, dtype=np.int64)
    cell, region, area = _parts(grid)
    a, b, made_of, ratio = _links(grid, kinds)
    mesh = Mesh(
        points=grid.points,
        part_cell=cell,
        part_material=kinds[region],
        part_area=area,
        link_a=a,
        link_b=b,
        link_material=made_of,
        link_ratio=ratio,
        rim_cell=rims.cell,
        rim_air=rims.air,
        rim_length=rims.length,
        rim_heat=rims.heat,
        rim_vapor=rims.vapor,
        rim_rain=rims.rain,
    )
    return Volumes(mesh=mesh, part_region=region)


def _parts(grid: Grid) -> tuple[Counts, Counts, Floats]:
    count = len(grid.section.regions)
    third = np.repeat(areas_of(grid.points, grid.triangles) / 3.0, 3)
    keys = grid.triangles.ravel() * count + np.repeat(grid.region, 3)
    found, index = np.unique(keys, return_inverse=True)
    area: Floats = np.bincount(index, third).astype(np.float64)
    return found // count, found % count, area


def _links(grid: Grid, kinds: Counts) -> tuple[Counts, Counts, Counts, Floats]:
    corners = grid.points[grid.triangles]
    twice = 2.0 * areas_of(grid.points, grid.triangles)
    size = len(grid.points)
    count = int(kinds.max()) + 1
    keys, values = [], []
    for k in range(3):
        i, j = (k + 1) % 3, (k + 2) % 3
        u, v = corners[:, i] - corners[:, k], corners[:, j] - corners[:, k]
        values.append(0.5 * (u * v).sum(axis=1) / twice)
        ends = np.sort(grid.triangles[:, [i, j]], axis=1)
        keys.append((ends[:, 0] * size + ends[:, 1]) * count + kinds[grid.region])
    found, index = np.unique(np.concatenate(keys), return_inverse=True)
    ratio: Floats = np.bincount(index, np.concatenate(values)).astype(np.float64)
    kept = np.abs(ratio) > 1e-9
    found, ratio = found[kept], ratio[kept]
    pair = found // count
    return pair // size, pair % size, found % count, ratio
