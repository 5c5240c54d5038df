"""Control volumes of a grid."""

from __future__ import annotations

import numpy as np

from seamwright.moisture.conduction import stiffness
from seamwright.moisture.grid import make_grid
from seamwright.moisture.types import Exposure, PlainSection, Region
from seamwright.moisture.volumes import Rims, control_volumes


def _two_boards() -> PlainSection:
    low = Region(outline=((0, 0), (0.2, 0), (0.2, 0.011), (0, 0.011)), conductivity=0.13, name="a")
    high = Region(
        outline=((0, 0.011), (0.2, 0.011), (0.2, 0.1), (0, 0.1)), conductivity=0.037, name="b"
    )
    rim = Exposure(start=(0, 0), end=(0.2, 0), side="inside", resistance=0.13)
    return PlainSection(regions=(low, high), exposures=(rim,))


def _bare() -> Rims:
    none = np.zeros(0)
    which = np.zeros(0, dtype=np.int64)
    return Rims(cell=which, air=which, length=none, heat=none, vapor=none, rain=none)


def test_parts_fill_the_section() -> None:
    """The parts' areas add up to each region's own."""
    section = _two_boards()
    volumes = control_volumes(make_grid(section, 0.01), (0, 1), _bare())
    area = np.bincount(volumes.part_region, volumes.mesh.part_area)
    assert np.allclose(area, [0.2 * 0.011, 0.2 * 0.089])


def test_links_are_the_linear_elements() -> None:
    """Links times conductivity are the off-diagonal of the stiffness of linear elements."""
    section = _two_boards()
    grid = make_grid(section, 0.01)
    mesh = control_volumes(grid, (0, 1), _bare()).mesh
    k = np.array([0.13, 0.037])[mesh.link_material]
    matrix = stiffness(grid).toarray()
    built = np.zeros_like(matrix)
    np.add.at(built, (mesh.link_a, mesh.link_b), -k * mesh.link_ratio)
    upper = np.triu(matrix, 1)
    assert np.allclose(built, upper, atol=1e-9)


def test_no_link_runs_backward() -> None:
    """Every link conducts: none has a ratio below zero."""
    mesh = control_volumes(make_grid(_two_boards(), 0.01), (0, 1), _bare()).mesh
    assert mesh.link_ratio.min() > 0.0
