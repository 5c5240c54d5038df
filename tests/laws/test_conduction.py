"""What holds for steady conduction whatever the section."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.moisture.sections import ridge, seam

from seamwright.moisture.conduction import conduct, stiffness
from seamwright.moisture.grid import make_grid
from seamwright.moisture.steady import joint_heat
from seamwright.moisture.types import PlainSection

LAW = settings(derandomize=True, max_examples=25, deadline=None)
COARSE = 0.01
AIRS = {"inside": 1.0, "outside": 0.0}
conductivities = st.floats(0.02, 50.0)
slopes = st.floats(0.1, 2.0)


def heat(section: PlainSection, finest: float = COARSE) -> float:
    """Return the heat through a section per kelvin. [W/(m·K)]"""
    return conduct(make_grid(section, finest), AIRS).flow["inside"]


def conducting(section: PlainSection, which: int, conductivity: float) -> PlainSection:
    """Return the section with one region of another conductivity."""
    regions = list(section.regions)
    regions[which] = replace(regions[which], conductivity=conductivity)
    return replace(section, regions=tuple(regions))


@LAW
@given(slope=slopes, spline=conductivities)
def test_no_point_is_warmer_than_the_room_or_colder_than_outdoors(
    slope: float, spline: float
) -> None:
    """The maximum principle holds at every point, and no conductance between points is below 0."""
    for section in (ridge(slope), seam(spline)):
        grid = make_grid(section, COARSE)
        field = conduct(grid, {"inside": 20.0, "outside": -10.0})
        assert field.temperature.max() <= 20.0
        assert field.temperature.min() >= -10.0
        matrix = stiffness(grid).tocoo()
        apart = matrix.row != matrix.col
        assert matrix.data[apart].max() < 1e-9 * matrix.data.max()


@LAW
@given(slope=slopes)
def test_grids_keep_to_every_outline(slope: float) -> None:
    """No triangle crosses an outline, no area is lost and every face is reached."""
    grid = make_grid(ridge(slope), COARSE)
    assert grid.strays == 0
    assert grid.misfit < 1e-9
    assert grid.bare < 1e-4


@LAW
@given(slope=slopes)
def test_heat_is_balanced_and_the_same_in_a_mirror(slope: float) -> None:
    """Heat in equals heat out to 1e-9, and a mirrored section passes as much."""
    field = conduct(make_grid(ridge(slope), COARSE), AIRS)
    assert field.imbalance < 1e-9
    mirrored = heat(ridge(slope, mirrored=True))
    assert field.flow["inside"] == pytest.approx(mirrored, rel=1e-3)


@LAW
@given(factor=st.floats(0.1, 10.0), spline=conductivities)
def test_heat_scales_with_all_conductances(factor: float, spline: float) -> None:
    """All conductivities and surface conductances times a factor pass that much more heat."""
    section = seam(spline)
    scaled = PlainSection(
        regions=tuple(replace(r, conductivity=factor * r.conductivity) for r in section.regions),
        exposures=tuple(replace(e, resistance=e.resistance / factor) for e in section.exposures),
    )
    assert heat(scaled) == pytest.approx(factor * heat(section), rel=1e-9)


@LAW
@given(warm=st.floats(-30.0, 40.0), cold=st.floats(-30.0, 40.0))
def test_heat_follows_the_difference_of_temperatures(warm: float, cold: float) -> None:
    """Only the difference counts, and turned around it passes the other way."""
    grid = make_grid(seam(), COARSE)
    unit = conduct(grid, AIRS).flow["inside"]
    found = conduct(grid, {"inside": warm, "outside": cold}).flow["inside"]
    assert found == pytest.approx(unit * (warm - cold), rel=1e-8, abs=1e-10)


@LAW
@given(which=st.integers(0, 3), before=conductivities, share=st.floats(0.05, 1.0), slope=slopes)
def test_more_insulation_never_passes_more_heat(
    which: int, before: float, share: float, slope: float
) -> None:
    """A part that conducts less makes the whole conduct no more, wherever it lies."""
    for section in (seam(), ridge(slope)):
        more = heat(conducting(section, which, before))
        less = heat(conducting(section, which, before * share))
        assert less <= more * (1 + 1e-12)


@LAW
@given(added=st.floats(0.0, 1.0))
def test_more_surface_resistance_never_passes_more_heat(added: float) -> None:
    """A thicker air film lowers the heat and warms no inner surface."""
    section = seam()
    calm = replace(
        section,
        exposures=tuple(replace(e, resistance=e.resistance + added) for e in section.exposures),
    )
    assert heat(calm) <= heat(section) * (1 + 1e-12)


@pytest.mark.parametrize("spline", [None, 0.037, 0.12, 1.0])
def test_a_spline_no_better_than_foam_adds_nothing(spline: float | None) -> None:
    """The linear transmittance of a seam is zero for foam and grows with what stands in it."""
    psi = joint_heat(seam(spline)).psi
    if spline is None or spline == pytest.approx(0.037):
        assert psi == pytest.approx(0.0, abs=1e-6)
    else:
        assert psi > 0.01


def test_the_field_of_a_symmetric_seam_is_symmetric() -> None:
    """Points mirrored about the seam have the same temperature within 0.2 % of the difference."""
    grid = make_grid(seam(), 0.002)
    field = conduct(grid, AIRS)
    face = np.unique(grid.borders[grid.exposure == 0])
    x, t = grid.points[face, 0], field.temperature[face]
    order = np.argsort(x)
    assert np.interp(-x, x[order], t[order]) == pytest.approx(t, abs=2e-3)
