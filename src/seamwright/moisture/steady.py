"""What steady conduction says of a joint: linear transmittance, coldest inner surface, its grid.

Steady conduction is no verdict on whether a joint stays dry: air that leaks through it carries far
more water and heat than what is counted here.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from seamwright.moisture.conduction import conduct
from seamwright.moisture.grid import FINEST, areas_of, make_grid
from seamwright.moisture.layers import RSI_MOLD
from seamwright.moisture.types import Field, Floats, Grid, JointHeat, PlainSection, Point

FLOW_LIMIT = 0.005
"""A halved grid may change the heat by this share. ISO 10211:2017, 5.4.4, asks for 1 % at twice the
subdivisions (from memory)."""

FACTOR_LIMIT = 0.005
"""A halved grid may change the temperature factor by this much. ISO 10211:2017 (from memory)."""

BALANCE_LIMIT = 1e-6
_FIT = 1e-9
_BARE = 1e-4


def joint_heat(section: PlainSection, *, finest: float = FINEST, halvings: int = 3) -> JointHeat:
    """Return the transmittance and coldest inner surface of a section, on a grid fine enough.

    Parameters
    ----------
    section
        A section whose exposures are ``inside`` and ``outside``.
    finest
        Spacing at the corners of the first grid. [m]
    halvings
        How often the spacing may be halved until the result stands still.

    Returns
    -------
    Figures of the finest grid made, with what the last halving changed. When they still change,
    `converged` is False and `advice` says what to do.

    Raises
    ------
    InputError
        When the section meets no air, or air other than inside and outside.

    Source
    ------
    ``iso-10211`` and, for the temperature factor, ``iso-13788``.
    """
    last = _figures(section, finest)
    change = factor_change = np.inf
    for _ in range(halvings):
        finest /= 2
        fresh = _figures(section, finest)
        change = abs(fresh[0].flow["inside"] / last[0].flow["inside"] - 1.0)
        factor_change = abs(fresh[1] - last[1])
        last = fresh
        if change < FLOW_LIMIT and factor_change < FACTOR_LIMIT:
            break
    field, factor, coldest = last
    advice = _advice(field, change, factor_change)
    return JointHeat(
        conductance=field.flow["inside"],
        psi=field.flow["inside"] - sum(f.u_value * f.length for f in section.flanks),
        factor=factor,
        coldest=coldest,
        probes=tuple(
            (name, float(t))
            for (name, _), t in zip(
                section.probes, values_at(field, [p for _, p in section.probes]), strict=True
            )
        ),
        change=float(change),
        factor_change=float(factor_change),
        imbalance=field.imbalance,
        converged=not advice,
        advice=advice,
        field=field,
    )


def coldest_inside(field: Field, side: str = "inside") -> tuple[float, Point]:
    """Return the lowest temperature on the faces that meet `side` [°C], and where [m]."""
    exposures = field.grid.section.exposures
    mine = np.array([e.side == side for e in exposures])[field.grid.exposure]
    nodes = np.unique(field.grid.borders[mine])
    low = nodes[np.argmin(field.temperature[nodes])]
    x, y = field.grid.points[low]
    return float(field.temperature[low]), (float(x), float(y))


def values_at(field: Field, points: Sequence[Point]) -> Floats:
    """Return the temperature at points, or at the nearest place in the section. [°C]"""
    grid = field.grid
    corners = grid.points[grid.triangles]
    found = np.empty(len(points))
    for i, point in enumerate(points):
        shares = _shares(grid, corners, np.asarray(point))
        best = int(np.argmax(shares.min(axis=1)))
        part = np.clip(shares[best], 0.0, None)
        found[i] = (part / part.sum()) @ field.temperature[grid.triangles[best]]
    return found


def _shares(grid: Grid, corners: Floats, point: Floats) -> Floats:
    """Return the barycentric shares (m, 3) of a point in each triangle."""
    to = corners - point
    a, b, c = to[:, 0], to[:, 1], to[:, 2]
    parts = [u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0] for u, v in ((b, c), (c, a), (a, b))]
    twice = 2 * areas_of(grid.points, grid.triangles)
    return np.stack(parts, axis=1) / twice[:, None]


def _figures(section: PlainSection, finest: float) -> tuple[Field, float, Point]:
    grid = make_grid(section, finest)
    airs = {"inside": 1.0, "outside": 0.0}
    cold = conduct(grid, airs, resistances={"inside": RSI_MOLD})
    factor, place = coldest_inside(cold)
    return conduct(grid, airs), factor, place


def _advice(field: Field, change: float, factor_change: float) -> str:
    grid = field.grid
    if grid.misfit > _FIT or grid.strays or grid.bare > _BARE:
        return "the grid does not keep to every outline: check the section for slivers and overlaps"
    if field.imbalance > BALANCE_LIMIT:
        return "heat in and heat out differ: the equations are ill-posed, check the conductivities"
    if change >= FLOW_LIMIT or factor_change >= FACTOR_LIMIT:
        return "the result still changes with the grid: start from a finer one"
    return ""
