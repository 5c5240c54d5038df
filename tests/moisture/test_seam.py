"""The way of air between the parts of a section."""

from __future__ import annotations

import numpy as np

from seamwright.moisture.grid import make_grid
from seamwright.moisture.seam import find_seam
from seamwright.moisture.types import Exposure, PlainSection, Region


def _box(x0: float, y0: float, x1: float, y1: float, owner: str) -> Region:
    return Region(
        outline=((x0, y0), (x1, y0), (x1, y1), (x0, y1)), conductivity=0.1, name="part",
        owner=owner,
    )  # fmt: skip


def _section(*regions: Region) -> PlainSection:
    return PlainSection(
        regions=regions,
        exposures=(
            Exposure(start=(-0.2, 0.0), end=(0.2, 0.0), side="inside", resistance=0.13),
            Exposure(start=(-0.2, 0.1), end=(0.2, 0.1), side="outside", resistance=0.04),
        ),
    )


def test_air_passes_between_two_parts() -> None:
    """Two parts side by side leave the straight way between them."""
    section = _section(_box(-0.2, 0, 0, 0.1, "A"), _box(0, 0, 0.2, 0.1, "B"))
    grid = make_grid(section, 0.01)
    seam = find_seam(grid, (0.0, 0.0), (0.0, 0.1))
    assert seam is not None
    assert np.allclose(grid.points[seam.cells][:, 0], 0.0)
    assert np.isclose(seam.length, 0.1)
    assert np.isclose(seam.shares.sum(), 0.1)


def test_air_goes_around_a_spline() -> None:
    """A spline across the seam makes the way longer by its width."""
    spline = _box(-0.04, 0.02, 0.04, 0.04, "spline")
    section = _section(spline, _box(-0.2, 0, 0, 0.1, "A"), _box(0, 0, 0.2, 0.1, "B"))
    seam = find_seam(make_grid(section, 0.01), (0.0, 0.0), (0.0, 0.1))
    assert seam is not None
    assert np.isclose(seam.length, 0.1 + 2 * 0.04)


def test_air_does_not_pass_a_whole_part() -> None:
    """A single part lets no air through, however many layers it has."""
    section = _section(_box(-0.2, 0, 0.2, 0.05, "A"), _box(-0.2, 0.05, 0.2, 0.1, "A"))
    assert find_seam(make_grid(section, 0.01), None, None) is None


def test_a_void_is_open() -> None:
    """Air crosses a region without owner where no border leads."""
    parts = (_box(-0.2, 0, -0.01, 0.1, "A"), _box(-0.01, 0, 0.01, 0.1, ""))
    section = _section(*parts, _box(0.01, 0, 0.2, 0.1, "A"))
    seam = find_seam(make_grid(section, 0.01), (0.0, 0.0), (0.0, 0.1))
    assert seam is not None
    assert np.isclose(seam.length, 0.1, atol=0.02)
