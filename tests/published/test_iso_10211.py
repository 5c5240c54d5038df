"""Conduction against the validation cases of ISO 10211, a corner's shape factor and scikit-fem.

`COLUMN` is case 1 as printed, to one decimal (from memory; one value seen), and the series behind
it is summed here. `BRACKET` is case 2: points, conductivities and values as seen second-hand. The
standard allows 0.1 K and 0.1 W/m. The shape factor of a square corner between isothermal faces,
0.559, follows from a conformal map. scikit-fem solves a ridge on quadratic elements of its own.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from skfem import BilinearForm, ElementTriP2, FacetBasis, LinearForm, MeshTri, asm, solve
from skfem.assembly import Basis
from tests.moisture.sections import FOAM, OSB, box, corner, part, ridge, run

from seamwright.moisture.conduction import conduct
from seamwright.moisture.grid import make_grid
from seamwright.moisture.steady import values_at
from seamwright.moisture.types import PlainSection

# °C at x = 1/8, 2/8, 3/8, 4/8 (the axis) of the side; rows y = 1/8 ... 7/8 from the warm side
COLUMN = [
    (9.7, 13.4, 14.7, 15.1),
    (5.3, 8.6, 10.3, 10.8),
    (3.2, 5.6, 7.0, 7.5),
    (2.0, 3.6, 4.7, 5.0),
    (1.3, 2.3, 3.0, 3.2),
    (0.7, 1.4, 1.8, 1.9),
    (0.3, 0.6, 0.8, 0.9),
]

# mm and °C
BRACKET = {
    "A": (0, 47.5, 7.1), "B": (500, 47.5, 0.8), "C": (0, 41.5, 7.9), "D": (15, 41.5, 6.3),
    "E": (500, 41.5, 0.8), "F": (0, 36.5, 16.4), "G": (15, 36.5, 16.3), "H": (0, 0, 16.8),
    "I": (500, 0, 18.3),
}  # fmt: skip
BRACKET_FLOW = 9.5


def series(x: float, y: float) -> float:
    """Return the temperature of the column by Fourier's series; sides of length one."""
    return sum(
        20.0 * 4 / (n * math.pi) * math.sin(n * math.pi * x)
        * (math.exp(-n * math.pi * y) - math.exp(n * math.pi * (y - 2)))
        / (1 - math.exp(-2 * n * math.pi))
        for n in range(1, 200, 2)
    )  # fmt: skip


def half_column() -> PlainSection:
    """Return case 1: half a square column, one side warm, two cold, its axis adiabatic."""
    return PlainSection(
        regions=(part(box(0.0, 0.0, 0.5, 1.0), 1.0),),
        exposures=(
            run((0.0, 0.0), (0.5, 0.0), "warm", 0.0),
            run((0.0, 0.0), (0.0, 1.0), "cold", 0.0),
            run((0.0, 1.0), (0.5, 1.0), "cold", 0.0),
        ),
    )


def bracket() -> PlainSection:
    """Return case 2: an aluminum bracket under a slab."""

    def mm(x0: float, x1: float, y0: float, y1: float, k: float):
        return part(box(x0 / 1e3, y0 / 1e3, x1 / 1e3, y1 / 1e3), k)

    return PlainSection(
        regions=(
            mm(0, 500, 41.5, 47.5, 1.15), mm(0, 15, 36.5, 41.5, 0.12), mm(0, 15, 35, 36.5, 230),
            mm(0, 1.5, 1.5, 35, 230), mm(0, 500, 0, 1.5, 230), mm(0, 500, 1.5, 41.5, 0.029),
        ),
        exposures=(
            run((0.0, 0.0475), (0.5, 0.0475), "top", 0.06),
            run((0.0, 0.0), (0.5, 0.0), "bottom", 0.11),
        ),
    )  # fmt: skip


@pytest.mark.source("iso-10211", "validation case 1")
def test_the_half_column_meets_all_28_nodes() -> None:
    """Every node lies within 0.1 K of the printed table and within 0.02 K of the exact series."""
    field = conduct(make_grid(half_column(), 0.0025), {"warm": 20.0, "cold": 0.0})
    nodes = [(x / 8, y / 8) for y in range(1, 8) for x in range(1, 5)]
    found = values_at(field, nodes)
    assert np.abs(found - np.ravel(COLUMN)).max() < 0.1
    assert np.abs(found - [series(*node) for node in nodes]).max() < 0.02
    assert field.imbalance < 1e-6


@pytest.mark.source("iso-10211", "validation case 2")
@pytest.mark.parametrize("finest", [0.002, 0.001, 0.0005])
def test_the_bracket_meets_nine_points_and_the_heat_flow(finest: float) -> None:
    """Temperatures lie within 0.1 K and the heat within 0.1 W/m, on every grid tried."""
    field = conduct(make_grid(bracket(), finest), {"top": 0.0, "bottom": 20.0})
    points = [(x / 1e3, y / 1e3) for x, y, _ in BRACKET.values()]
    expected = np.array([t for *_, t in BRACKET.values()])
    assert np.abs(values_at(field, points) - expected).max() < 0.1
    assert abs(field.flow["bottom"] - BRACKET_FLOW) < 0.1
    assert field.imbalance < 1e-6


@pytest.mark.source("corner-shape-factor", "conformal map: 0.559 for a square corner")
def test_a_square_corner_passes_its_shape_factor() -> None:
    """A corner passes as much as 0.559 of a wall as long as it is thick."""
    field = conduct(make_grid(corner(), 0.01), {"inside": 1.0, "outside": 0.0})
    assert field.flow["inside"] - 2 * 4.0 == pytest.approx(0.559, abs=0.003)


@pytest.mark.source("iso-10211", "scikit-fem on quadratic elements as an independent solver")
def test_a_ridge_agrees_with_an_independent_solver() -> None:
    """The heat through two beveled panels agrees with scikit-fem to 0.1 %."""
    section = ridge()
    own = conduct(make_grid(section, 0.002), {"inside": 1.0, "outside": 0.0}).flow["inside"]
    assert own == pytest.approx(heat_by_scikit_fem(), rel=1e-3)


def heat_by_scikit_fem() -> float:
    """Return the heat through `ridge()` per kelvin from quadratic elements on quadrilaterals cut
    in two. [W/(m·K)]
    """
    slope, half, skin, core = 0.5, 0.5, 0.012, 0.2
    plumb = math.hypot(1.0, slope)
    levels = np.array([0.0, skin, skin + core, 2 * skin + core]) * plumb
    places = np.array([-half, -0.2, -0.05, 0.0, 0.05, 0.2, half])
    points = np.array([(x, z - slope * abs(x)) for x in places for z in levels]).T
    cells = []
    for i in range(len(places) - 1):
        for j in range(3):
            a, b = 4 * i + j, 4 * (i + 1) + j
            cells += [(a, b, b + 1), (a, b + 1, a + 1)]
    mesh = MeshTri(points, np.array(cells).T).refined(4)

    def height(x):
        return x[1] + slope * np.abs(x[0])

    def conductivity(x):
        depth = height(x)
        return np.where((depth > levels[1]) & (depth < levels[2]), FOAM, OSB)

    @BilinearForm
    def heat(u, v, w):
        return conductivity(w.x.mean(axis=2, keepdims=True)) * (
            u.grad[0] * v.grad[0] + u.grad[1] * v.grad[1]
        )

    @BilinearForm
    def film(u, v, _):
        return u * v

    @LinearForm
    def load(v, _):
        return v

    element = ElementTriP2()
    inner = mesh.facets_satisfying(lambda x: np.abs(height(x)) < 1e-9, boundaries_only=True)
    outer = mesh.facets_satisfying(lambda x: np.abs(height(x) - levels[-1]) < 1e-9,
                                   boundaries_only=True)  # fmt: skip
    room = FacetBasis(mesh, element, facets=inner)
    sky = FacetBasis(mesh, element, facets=outer)
    matrix = asm(heat, Basis(mesh, element)) + asm(film, room) / 0.1 + asm(film, sky) / 0.04
    temperature = solve(matrix, asm(load, room) / 0.1)
    return float(((1.0 - temperature) @ asm(load, room)) / 0.1)
