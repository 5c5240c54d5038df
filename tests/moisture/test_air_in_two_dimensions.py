"""Heat and vapor in two dimensions with air along a seam, against an independent solution.

The outside solution takes scikit-fem's quadratic elements for the walls and the exact integral of
the air's two equations along the seam, one after the other until neither moves.
"""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from skfem import Basis, BilinearForm, ElementQuad2, LinearForm, MeshQuad, asm, solve
from skfem.assembly import FacetBasis
from skfem.helpers import dot, grad
from tests.moisture.test_transient import steady_drive, stuff
from tests.moisture.walls import graded, plain_mesh

from seamwright.climate.moist_air import saturation_pressure
from seamwright.moisture.transient.run import run_case
from seamwright.moisture.transient.tables import air_permeability
from seamwright.moisture.transient.types import AirWay, Case, Curve, Run, Settings
from seamwright.moisture.types import Floats

PRESSURE, RATIO, AIR_HEAT = 101_325.0, 0.621945, 1006.0
DEPTH = 0.15
SKIN, FOAM, SPLINE = range(3)
CONDUCTS, RESISTS = np.array([0.13, 0.037, 0.12]), np.array([50.0, 60.0, 20.0])
FILMS, VAPOR_FILMS = (0.13, 0.04), (5.7e7, 7.1e6)
ROOM, OUTDOORS = (20.0, 0.28), (2.0, 0.60)
CONTACT = 0.6
"""Heat from the air to the walls. [W/(m·K) per metre of the way]"""


def boxes(fine: int) -> tuple[Floats, Floats, Floats]:
    """Return places across and through a seam with a spline on one side, and what fills it."""
    x = graded([-0.2, -0.03, 0.0, 0.04, 0.25], [n * fine for n in (6, 6, 8, 7)])
    y = graded([0.0, 0.011, DEPTH - 0.011, DEPTH], [n * fine for n in (3, 12, 3)])
    mid_x, mid_y = (x[1:] + x[:-1]) / 2, (y[1:] + y[:-1]) / 2
    kinds = np.full((len(mid_x), len(mid_y)), FOAM)
    kinds[(mid_x > 0.0) & (mid_x < 0.04)] = SPLINE
    kinds[:, (mid_y < 0.011) | (mid_y > DEPTH - 0.011)] = SKIN
    return x, y, kinds


def ran(flow: float, fine: int) -> tuple[Case, Run]:
    """Return the section after airs that stay the same for long, by the hourly run."""
    x, y, kinds = boxes(fine)
    mesh = plain_mesh(x, y, kinds, (*FILMS, *VAPOR_FILMS))
    materials = tuple(
        stuff(id=f"m{k}", density=20.0, conductivity=float(CONDUCTS[k]),
              sorption=Curve(x=(0.0, 1.0), y=(0.0, 0.02)),
              vapor_factor=Curve(x=(0.0, 1.0), y=(float(RESISTS[k]),) * 2))
        for k in range(3)
    )  # fmt: skip
    cells = np.flatnonzero(np.abs(mesh.points[:, 0]) < 1e-12)
    steps = np.diff(y)
    width = (np.concatenate([[0.0], steps]) + np.concatenate([steps, [0.0]])) / 2
    hours = 600
    drive = steady_drive(hours, ROOM[0], OUTDOORS[0], (ROOM[1], OUTDOORS[1]))
    way = AirWay(first=0, last=1, cells=cells, contact=CONTACT * width,
                 flow=np.full(hours, flow))  # fmt: skip
    n = len(mesh.points)
    case = Case(mesh=mesh, materials=materials, drive=drive, ways=(way,),
                temperature=np.full(n, 10.0), humidity=np.full(n, 0.4))  # fmt: skip
    return case, run_case(case, Settings(tolerance=1e-9))


class Outside:
    """Steady fields on a rectangle with air along x = 0."""

    def __init__(self, fine: int) -> None:
        x, y, self.kinds = boxes(fine)
        self.mesh = MeshQuad.init_tensor(x, y)
        self.basis = Basis(self.mesh, ElementQuad2())
        middle = self.mesh.p[:, self.mesh.t].mean(axis=1)
        self.kind = self.kinds[np.searchsorted(x, middle[0]) - 1, np.searchsorted(y, middle[1]) - 1]
        on = [f for f in range(self.mesh.nfacets)
              if np.allclose(self.mesh.p[0, self.mesh.facets[:, f]], 0.0)]  # fmt: skip
        self.line = FacetBasis(self.mesh, ElementQuad2(), facets=np.array(on), intorder=6)
        self.at = np.asarray(self.line.global_coordinates())[1]

    def walls(self, conductance: Floats, films: tuple[float, float], air: tuple[float, float],
              take: Floats, give: Floats) -> Floats:  # fmt: skip
        """Return the field where the line takes up `take` times it and gives `give`. (dofs,)"""
        stiff = asm(BilinearForm(lambda u, v, w: w.k * dot(grad(u), grad(v))), self.basis,
                    k=conductance)  # fmt: skip
        load = np.zeros(self.basis.N)
        for film, level, place in ((films[0], air[0], 0.0), (films[1], air[1], DEPTH)):
            edge = self.basis.boundary(
                self.mesh.facets_satisfying(lambda p, at=place: np.isclose(p[1], at))
            )
            stiff = stiff + asm(BilinearForm(lambda u, v, w: u * v), edge) / film
            load += asm(LinearForm(lambda v, w: v), edge) * level / film
        stiff = stiff + asm(BilinearForm(lambda u, v, w: w.c * u * v), self.line, c=take)
        load += asm(LinearForm(lambda v, w: w.c * v), self.line, c=give)
        return np.asarray(solve(stiff, load))

    def along(self, wall: Floats, enters: float, units: float, *, inward: bool) -> Floats:
        """Return what air carries at the line's points: d(air) = `units` (wall - air) d(way)."""
        order = np.argsort(self.at.ravel())
        way, there = self.at.ravel()[order], wall.ravel()[order]
        fine = np.linspace(0.0, DEPTH, 4001)
        known = np.interp(fine, way, there)
        if inward:
            known = known[::-1]
        step = fine[1]
        keep = np.exp(-units * step)
        air = np.empty(len(fine))
        air[0] = enters
        for k in range(1, len(fine)):
            air[k] = keep * air[k - 1] + (1.0 - keep) * (known[k] + known[k - 1]) / 2
        if inward:
            air = air[::-1]
        found = np.empty(len(way))
        found[order] = np.interp(way, fine, air)
        return found.reshape(self.at.shape)

    def solved(self, flow: float) -> tuple[Floats, Floats]:
        """Return temperature [°C] and vapor pressure [Pa] at the corners of the boxes."""
        inward, units = flow < 0.0, CONTACT / (abs(flow) * AIR_HEAT)
        t_in, wet_in = OUTDOORS if inward else ROOM
        p_in = wet_in * float(saturation_pressure(t_in))
        ends = tuple(w * float(saturation_pressure(t)) for t, w in (ROOM, OUTDOORS))
        shape = (self.mesh.nelements, self.basis.X.shape[1])
        k = np.broadcast_to(CONDUCTS[self.kind][:, None], shape)
        take = np.full(self.at.shape, CONTACT)
        air = np.full(self.at.shape, t_in)
        moved = math.inf
        while moved > 1e-5:
            t = self.walls(k, FILMS, (ROOM[0], OUTDOORS[0]), take, take * air)
            before = air
            air = self.along(np.asarray(self.line.interpolate(t)), t_in, units, inward=inward)
            moved = np.abs(air - before).max()
        warm = np.asarray(self.basis.interpolate(t))
        delta = air_permeability(warm, PRESSURE) / RESISTS[self.kind][:, None]
        give = CONTACT / AIR_HEAT
        p_wall, ratio, moved = (
            np.full(self.at.shape, p_in),
            _ratio(np.full(self.at.shape, p_in)),
            1.0,
        )
        while moved > 1e-3:
            slope, before = RATIO / (PRESSURE - p_wall), p_wall
            p = self.walls(delta, VAPOR_FILMS, ends, give * slope, give * ratio)
            p_wall = np.asarray(self.line.interpolate(p))
            ratio = self.along(_ratio(p_wall), float(_ratio(p_in)), units, inward=inward)
            moved = np.abs(p_wall - before).max()
        corner = self.basis.nodal_dofs[0]
        order = np.lexsort((self.mesh.p[1], self.mesh.p[0]))
        return t[corner][order], p[corner][order]


def _ratio(vapor: Floats | float) -> Floats:
    return np.asarray(RATIO * vapor / (PRESSURE - vapor))


def apart(flow: float, fine: int) -> tuple[float, float, float]:
    """Return how far the run is from the outside solution: temperature at worst [K], vapor pressure
    in the mean, and at worst save where the air leaves: there it gives up its vapor into one point
    of the section, and a finer grid only comes nearer to that point. [Pa]
    """
    case, run = ran(flow, fine)
    assert run.converged
    t, p = Outside(fine).solved(flow)
    off = run.end_humidity * saturation_pressure(run.end_temperature) - p
    leaves = DEPTH if flow > 0.0 else 0.0
    far = np.hypot(case.mesh.points[:, 0], case.mesh.points[:, 1] - leaves) > 0.005
    worst = float(np.abs(run.end_temperature - t).max())
    return worst, float(np.sqrt((off**2).mean())), float(np.abs(off[far]).max())


@pytest.mark.parametrize("flow", [4e-5, -4e-5, 3e-4])
def test_air_along_a_seam_agrees_with_an_independent_solution(flow: float) -> None:
    """Of 18 K within 0.15 K, of 231 Pa within 0.5 % in the mean and 3 % at worst, with air that
    warms, cools, wets and dries unlike walls on its way; without it a wall is 1 K and 160 Pa off.
    """
    warm, mean, worst = apart(flow, 1)
    assert warm < 0.15
    assert mean < 0.005 * 231.0
    assert worst < 0.03 * 231.0
    case, run = ran(flow, 1)
    still = run_case(replace(case, ways=()), Settings(tolerance=1e-9))
    assert np.abs(still.end_temperature - run.end_temperature).max() > 1.0


def test_a_finer_grid_comes_nearer() -> None:
    """Half the spacing halves how far the run is from the outside solution, or better."""
    coarse, fine = apart(-4e-5, 1), apart(-4e-5, 2)
    assert all(b < 0.55 * a for a, b in zip(coarse, fine, strict=True))
