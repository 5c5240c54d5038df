"""How fast conduction comes to rest as the grid is refined: rates and totals."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.sparse.linalg import spsolve
from tests.moisture.sections import box, corner, part, ridge, seam

from seamwright.moisture.conduction import conduct, stiffness
from seamwright.moisture.grid import areas_of, make_grid
from seamwright.moisture.steady import joint_heat
from seamwright.moisture.types import Floats, Grid, PlainSection


def held_solution(grid: Grid, exact: Floats) -> Floats:
    """Return the solution with the exact values held at all outer points."""
    sides = np.sort(np.concatenate([grid.triangles[:, [i, (i + 1) % 3]] for i in range(3)]), axis=1)
    edges, count = np.unique(sides, axis=0, return_counts=True)
    outer = np.unique(edges[count == 1])
    free = np.setdiff1d(np.arange(len(grid.points)), outer)
    matrix = stiffness(grid)
    found = np.zeros(len(grid.points))
    found[outer] = exact[outer]
    found[free] = spsolve(matrix[free][:, free], -(matrix @ found)[free])
    return found


def test_a_smooth_field_converges_with_the_square_of_the_spacing() -> None:
    """The mean error of a harmonic field falls with order 2, and the area stays whole."""
    section = PlainSection(regions=(part(box(0.0, 0.0, 1.0, 1.0), 1.0),), exposures=())
    errors = []
    for finest in (0.02, 0.01, 0.005, 0.0025):
        grid = make_grid(section, finest)
        x, y = grid.points.T
        exact = np.exp(3 * x) * np.cos(3 * y)
        area = areas_of(grid.points, grid.triangles)
        off = (held_solution(grid, exact) - exact)[grid.triangles] ** 2
        errors.append(np.sqrt(area @ off.mean(axis=1)))
        assert area.sum() == pytest.approx(1.0, rel=1e-12)
    assert np.log2(errors[0] / errors[-1]) / 3 > 1.85
    assert np.log2(np.divide(errors[:-1], errors[1:])).min() > 1.2


def test_a_kinked_field_across_an_oblique_interface_is_exact() -> None:
    """A field linear on both sides of a slanted joint of two materials comes out to rounding."""
    k1, k2 = 0.04, 2.0
    section = PlainSection(
        regions=(
            part(((0.0, 0.0), (0.4, 0.0), (0.7, 1.0), (0.0, 1.0)), k1),
            part(((0.4, 0.0), (1.0, 0.0), (1.0, 1.0), (0.7, 1.0)), k2),
        ),
        exposures=(),
    )
    grid = make_grid(section, 0.01)
    square = np.array([1.0, -0.3]) / np.hypot(1.0, 0.3)
    depth = (grid.points - [0.4, 0.0]) @ square
    exact = np.where(depth < 0, depth / k1, depth / k2)
    assert np.abs(held_solution(grid, exact) - exact).max() < 1e-9 * np.abs(exact).max()


def test_heat_around_a_sharp_corner_converges_at_the_rate_of_theory() -> None:
    """At a reentrant corner theory promises order 4/3 to the exact 2a/t + 1 - 2 ln 2/π."""
    exact = 4.0 + 1.0 - 2.0 * math.log(2.0) / math.pi
    flows = [
        conduct(make_grid(corner(arm=2.0), h), {"inside": 1.0, "outside": 0.0}).flow["inside"]
        for h in (0.01, 0.005, 0.0025)
    ]
    errors = np.array(flows) - exact
    assert (errors > 0).all()
    assert np.log2(errors[:-1] / errors[1:]) == pytest.approx(4 / 3, abs=0.1)
    assert errors[-1] < 2e-4 * exact


@pytest.mark.parametrize("section", [seam(), seam(None), ridge()], ids=["wood", "plain", "ridge"])
def test_joints_stand_still_when_the_grid_is_halved(section: PlainSection) -> None:
    """A joint's heat changes by less than 0.1 % and its balance closes to 1e-6."""
    heat = joint_heat(section)
    assert heat.converged
    assert heat.change < 1e-3
    assert heat.imbalance < 1e-6


def test_a_grid_too_coarse_says_so() -> None:
    """A result that still changes with the grid is marked, with advice."""
    heat = joint_heat(corner(arm=1.0), finest=0.3, halvings=1)
    assert not heat.converged
    assert "finer" in heat.advice
