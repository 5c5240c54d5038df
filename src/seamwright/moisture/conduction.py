"""Steady heat conduction through a section, after ISO 10211: linear triangles, sparse solve."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
from scipy.sparse import coo_matrix, csc_matrix
from scipy.sparse.linalg import splu

from seamwright.errors import InputError, Problem
from seamwright.moisture.grid import areas_of
from seamwright.moisture.types import Counts, Field, Flags, Floats, Grid


def conduct(
    grid: Grid, airs: Mapping[str, float], *, resistances: Mapping[str, float] | None = None
) -> Field:
    r"""Return the steady temperatures of a section between airs, and the heat that passes.

    .. math:: \nabla \cdot (\lambda \nabla T) = 0, \quad
              -\lambda \, \partial T / \partial n = (T - T_{air}) / R_s

    Parameters
    ----------
    grid
        Triangles of the section.
    airs
        Temperature on each side by its name. [°C]
    resistances
        Surface resistance by side, in place of the section's own; 0 holds the face itself at the
        air's temperature. [m²·K/W]

    Returns
    -------
    Temperatures at the grid's points and the heat entering from each side, positive from the air
    into the section. [W/m]

    Raises
    ------
    InputError
        When a side of the section has no temperature, or no side at all meets air.

    Source
    ------
    ``iso-10211``; linear finite elements, checked in ``tests/published/test_iso_10211.py``.
    """
    _check(grid, airs)
    film = _Film(grid, airs, {} if resistances is None else resistances)
    matrix = stiffness(grid) + film.matrix()
    held = film.held
    temperature = np.zeros(len(grid.points))
    temperature[held] = film.fixed[held]
    free = ~held
    load = film.load - matrix @ temperature
    temperature[free] = splu(csc_matrix(matrix[free][:, free])).solve(load[free])
    flow = film.flows(temperature, matrix @ temperature - film.load)
    most = max((abs(q) for q in flow.values()), default=0.0)
    return Field(
        grid=grid,
        airs=dict(airs),
        temperature=temperature,
        flow=flow,
        imbalance=abs(sum(flow.values())) / most if most > 0 else 0.0,
    )


def stiffness(grid: Grid) -> csc_matrix:
    """Return the matrix of conductances between points, rows summing to zero. [W/(m·K)]"""
    corners = grid.points[grid.triangles]
    opposite = np.roll(corners, -1, axis=1) - np.roll(corners, -2, axis=1)
    area = areas_of(grid.points, grid.triangles)
    k = np.array([region.conductivity for region in grid.section.regions])[grid.region]
    parts = np.einsum("tid,tjd->tij", opposite, opposite) * (k / (4 * area))[:, None, None]
    rows = np.repeat(grid.triangles, 3, axis=1).ravel()
    columns = np.tile(grid.triangles, (1, 3)).ravel()
    size = (len(grid.points), len(grid.points))
    return coo_matrix((parts.ravel(), (rows, columns)), shape=size).tocsc()


class _Film:
    """What the airs do to the points at the section's edge; surface terms are lumped there."""

    def __init__(
        self, grid: Grid, airs: Mapping[str, float], resistances: Mapping[str, float]
    ) -> None:
        exposures = grid.section.exposures
        self.grid = grid
        self.sides = tuple(airs)
        names = [self.sides.index(e.side) for e in exposures]
        self.side = np.array(names, dtype=np.int64)[grid.exposure]
        given = np.array([resistances.get(e.side, e.resistance) for e in exposures])[grid.exposure]
        air = np.array([airs[e.side] for e in exposures])[grid.exposure]
        ends = grid.points[grid.borders]
        length = np.linalg.norm(ends[:, 1] - ends[:, 0], axis=1)
        n, stiff = len(grid.points), given <= 0.0
        count = _summed(n, grid.borders[stiff], np.ones(stiff.sum()))
        self.held: Flags = count > 0
        self.fixed = _summed(n, grid.borders[stiff], air[stiff]) / np.maximum(count, 1)
        self.stiff = stiff
        self.air = air
        self.half = np.where(stiff, 0.0, length / 2 / np.where(stiff, 1.0, given))
        self.load = _summed(n, grid.borders, self.half * air)

    def matrix(self) -> csc_matrix:
        """Return the surface conductances on the diagonal. [W/(m·K)]"""
        n = len(self.grid.points)
        diagonal = _summed(n, self.grid.borders, self.half)
        return coo_matrix((diagonal, (np.arange(n), np.arange(n))), shape=(n, n)).tocsc()

    def flows(self, temperature: Floats, residual: Floats) -> dict[str, float]:
        """Return the heat from each side. [W/m] A held point gives its residual to its sides."""
        flow = dict.fromkeys(self.sides, 0.0)
        borders = self.grid.borders
        through = self.half[:, None] * (self.air[:, None] - temperature[borders])
        owner = np.full(len(temperature), -1)
        owner[borders[self.stiff].ravel()] = np.repeat(self.side[self.stiff], 2)
        for k, name in enumerate(self.sides):
            film = through[self.side == k].sum()
            flow[name] = float(film + residual[(owner == k) & self.held].sum())
        return flow


def _summed(n: int, borders: Counts, values: Floats) -> Floats:
    """Return `values` of border edges given in full to both their ends."""
    return np.bincount(borders.ravel(), np.repeat(values, 2), minlength=n).astype(np.float64)


def _check(grid: Grid, airs: Mapping[str, float]) -> None:
    wanted = {grid.section.exposures[i].side for i in np.unique(grid.exposure)}
    missing = sorted({e.side for e in grid.section.exposures} - set(airs))
    if not wanted or missing:
        what = f"no temperature for {', '.join(missing)}" if missing else "no face that meets air"
        remedy = "give every side a temperature" if missing else "add exposures to the section"
        raise InputError([Problem(subject="section", sentence=f"the section has {what}",
                                  remedy=remedy)])  # fmt: skip
