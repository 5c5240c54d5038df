"""Made-up pieces of wall for transient runs: a panel seam on a plain grid, weather from waves."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from seamwright.climate.moist_air import saturation_pressure
from seamwright.moisture.transient.materials import HYGRO
from seamwright.moisture.transient.types import AirWay, Case, Drive, Mesh, Probe
from seamwright.moisture.types import Counts, Floats

OSB, EPS, WOOD, GAP = range(4)
MATERIALS = tuple(HYGRO[key] for key in ("osb", "eps", "softwood", "air"))
TIGHT = float("inf")


def plain_mesh(x: Floats, y: Floats, kinds: Counts, rims: tuple[float, ...]) -> Mesh:
    """Return volumes around the points of a rectangular grid, `kinds` (columns, rows) of boxes.

    Air 0 lies at the first y, air 1 at the last; `rims` are their resistances to heat [m²·K/W],
    then to vapor [m²·s·Pa/kg].
    """
    nx, ny = len(x), len(y)
    dx, dy = np.diff(x), np.diff(y)
    node = np.arange(nx * ny).reshape(nx, ny)
    i, j = (a.ravel() for a in np.meshgrid(np.arange(nx - 1), np.arange(ny - 1), indexing="ij"))
    kind, area = kinds[i, j], dx[i] * dy[j] / 4.0
    corners = [node[i, j], node[i + 1, j], node[i, j + 1], node[i + 1, j + 1]]
    along, across = dy[j] / dx[i] / 2.0, dx[i] / dy[j] / 2.0
    width = np.zeros(nx)
    width[:-1] += dx / 2.0
    width[1:] += dx / 2.0
    return Mesh(
        points=np.column_stack([np.repeat(x, ny), np.tile(y, nx)]),
        part_cell=np.concatenate(corners),
        part_material=np.tile(kind, 4),
        part_area=np.tile(area, 4),
        link_a=np.concatenate([corners[0], corners[2], corners[0], corners[1]]),
        link_b=np.concatenate([corners[1], corners[3], corners[2], corners[3]]),
        link_material=np.tile(kind, 4),
        link_ratio=np.concatenate([along, along, across, across]),
        rim_cell=np.concatenate([node[:, 0], node[:, -1]]),
        rim_air=np.repeat([0, 1], nx),
        rim_length=np.tile(width, 2),
        rim_heat=np.repeat(rims[:2], nx),
        rim_vapor=np.repeat(rims[2:], nx),
        rim_rain=np.zeros(2 * nx),
    )


def graded(points: list[float], counts: list[int]) -> Floats:
    """Return places between points, evenly within each stretch."""
    pieces = [np.linspace(a, b, n, endpoint=False)
              for a, b, n in zip(points, points[1:], counts, strict=False)]  # fmt: skip
    return np.array([*np.concatenate(pieces), points[-1]])


def weather(hours: int, *, mean: float = 5.0, seed: int = 1) -> Drive:
    """Return a year's and a day's wave with noise outdoors, a steady room. Air 0 is the room."""
    t = np.arange(hours) / 24.0
    noise = np.random.default_rng(seed).normal(0.0, 1.0, hours)
    out = mean - 12.0 * np.cos(2 * np.pi * t / 365.0) - 4.0 * np.cos(2 * np.pi * t) + 0.5 * noise
    sun = 12.0 * np.maximum(0.0, -np.cos(2 * np.pi * t)) * (0.6 + 0.4 * np.sin(t * 1.7))
    room = np.full(hours, 21.0)
    vapor = np.column_stack([0.4 * saturation_pressure(room), 0.8 * saturation_pressure(out)])
    temperature = np.column_stack([room, out])
    face = temperature + np.column_stack([np.zeros(hours), sun - 1.5])
    return Drive(temperature=temperature, face=face, vapor=vapor, rain=np.zeros((hours, 2)))


def seam_boxes(fine: int, along: int = 1) -> tuple[Floats, Floats, Counts]:
    """Return places along and through panels at a seam, and the material of each box between."""
    x = graded([-0.3, -0.04, -0.002, 0.0, 0.002, 0.04, 0.3],
               [n * fine * along for n in (7, 5, 1, 1, 5, 7)])  # fmt: skip
    y = graded([0.0, 0.011, 0.154, 0.165], [n * fine for n in (4, 9, 4)])
    kinds = np.full((len(x) - 1, len(y) - 1), EPS)
    mid_x, mid_y = (x[1:] + x[:-1]) / 2, (y[1:] + y[:-1]) / 2
    skin = (mid_y < 0.011) | (mid_y > 0.154)
    kinds[np.abs(mid_x) < 0.04] = WOOD
    kinds[:, skin] = OSB
    kinds[np.abs(mid_x) < 0.002] = GAP
    return x, y, kinds


def seam(
    hours: int, *, leak: float = 1e-5, fine: int = 1, along: int = 1, drive: Drive | None = None
) -> Case:
    """Return a panel seam: skins, foam, a lumber spline with an open gap beside it.

    `leak` scales the air through the gap [kg/(s·m)]; it swings with the wind and turns about.
    `fine` multiplies the number of volumes each way, `along` that along the panels alone.
    """
    x, y, kinds = seam_boxes(fine, along)
    mesh = plain_mesh(x, y, kinds, (0.13, 0.06, 2e8, 4e8))
    n = len(mesh.points)
    seam_cells = np.flatnonzero(np.abs(mesh.points[:, 0]) < 1e-9)
    drive = weather(hours) if drive is None else drive
    wind = np.sin(np.arange(hours) / 7.3) + 0.7 * np.sin(np.arange(hours) / 31.0) + 0.4
    way = AirWay(first=0, last=1, cells=seam_cells, flow=leak * wind,
                 contact=np.full(len(seam_cells), 0.02))  # fmt: skip
    outer = np.flatnonzero((mesh.part_material == OSB) & (mesh.points[mesh.part_cell, 1] > 0.15)
                           & (np.abs(mesh.points[mesh.part_cell, 0]) < 0.02))  # fmt: skip
    return Case(
        mesh=mesh, materials=MATERIALS, drive=drive, ways=(way,) if leak else (),
        temperature=np.full(n, 15.0), humidity=np.full(n, 0.5),
        probes=(Probe(name="outer skin", parts=outer),),
    )  # fmt: skip


def shuffled(case: Case, seed: int) -> tuple[Case, Counts]:
    """Return the case with its volumes, parts, links and rims in another order, and where each
    volume went.
    """
    rng = np.random.default_rng(seed)
    mesh = case.mesh
    went = rng.permutation(len(mesh.points))
    back = np.argsort(went)
    part, link, rim = (rng.permutation(len(a))
                       for a in (mesh.part_cell, mesh.link_a, mesh.rim_cell))  # fmt: skip
    turned = rng.random(len(link)) < 0.5
    a, b = went[mesh.link_a[link]], went[mesh.link_b[link]]
    new = Mesh(
        points=mesh.points[back],
        part_cell=went[mesh.part_cell[part]],
        part_material=mesh.part_material[part],
        part_area=mesh.part_area[part],
        link_a=np.where(turned, b, a),
        link_b=np.where(turned, a, b),
        link_material=mesh.link_material[link],
        link_ratio=mesh.link_ratio[link],
        rim_cell=went[mesh.rim_cell[rim]],
        rim_air=mesh.rim_air[rim],
        rim_length=mesh.rim_length[rim],
        rim_heat=mesh.rim_heat[rim],
        rim_vapor=mesh.rim_vapor[rim],
        rim_rain=mesh.rim_rain[rim],
    )
    place = np.argsort(part)
    return replace(
        case,
        mesh=new,
        ways=tuple(replace(w, cells=went[w.cells]) for w in case.ways),
        temperature=case.temperature[back],
        humidity=case.humidity[back],
        probes=tuple(replace(p, parts=place[p.parts]) for p in case.probes),
    ), went
