"""Conduction on plain sections: exact cases and refusals."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests.moisture.sections import box, part, run, seam

from seamwright.errors import GeometryError, InputError
from seamwright.moisture.conduction import conduct
from seamwright.moisture.grid import make_grid
from seamwright.moisture.steady import joint_heat, values_at
from seamwright.moisture.types import PlainSection


def test_plane_layers_pass_their_u_value_exactly() -> None:
    """Without a spline a seam passes the U-value of its layers times its width."""
    section = seam(None)
    field = conduct(make_grid(section), {"inside": 1.0, "outside": 0.0})
    flank = section.flanks[0]
    assert field.flow["inside"] == pytest.approx(flank.u_value * flank.length, rel=1e-9)
    assert field.flow["outside"] == pytest.approx(-field.flow["inside"], rel=1e-9)


def test_a_lumber_spline_is_a_thermal_bridge() -> None:
    """Wood through the whole core passes more heat and cools the inner skin over it."""
    wood, plain = joint_heat(seam()), joint_heat(seam(None))
    assert wood.psi > 0.02
    assert wood.factor < plain.factor - 0.02
    assert abs(wood.coldest[0]) < 0.04
    assert dict(wood.probes)["inner seam"] < dict(plain.probes)["inner seam"]


def test_where_parts_overlap_the_first_counts() -> None:
    """The order of overlapping parts decides, so that a spline can be laid over a core."""
    section = seam()
    turned = replace(section, regions=section.regions[::-1])
    assert joint_heat(turned).psi == pytest.approx(0.0, abs=1e-6)


def test_a_hole_between_parts_is_adiabatic() -> None:
    """A gap that no region fills passes no heat."""
    regions = (part(box(0, 0, 1, 0.1), 1.0), part(box(0, 0.2, 1, 0.3), 1.0))
    section = PlainSection(
        regions=regions,
        exposures=(run((0, 0), (1, 0), "inside", 0.1), run((0, 0.3), (1, 0.3), "outside", 0.1)),
    )
    field = conduct(make_grid(section), {"inside": 1.0, "outside": 0.0})
    assert field.flow["inside"] == pytest.approx(0.0, abs=1e-12)


def test_values_are_read_between_points() -> None:
    """A temperature is read off anywhere in the section, and at the nearest place outside it."""
    section = seam(None)
    field = conduct(make_grid(section), {"inside": 1.0, "outside": 0.0})
    u = section.flanks[0].u_value
    surface = 1 - 0.13 * u
    found = values_at(field, [(0.1234, 0.0), (0.1, 0.011)])
    assert found == pytest.approx([surface, surface - 0.011 / 0.13 * u])


def test_resistances_may_be_given_anew() -> None:
    """The resistance for mold makes the inner surface colder than that for heat."""
    grid = make_grid(seam())
    airs = {"inside": 1.0, "outside": 0.0}
    normal, calm = conduct(grid, airs), conduct(grid, airs, resistances={"inside": 0.25})
    face = np.unique(grid.borders[grid.exposure == 0])
    assert (calm.temperature[face] < normal.temperature[face]).all()


def test_a_section_needs_air_and_temperatures() -> None:
    """Sections without faces or temperatures are refused in a sentence."""
    section = seam()
    with pytest.raises(InputError, match="no temperature for outside"):
        conduct(make_grid(section), {"inside": 20.0})
    closed = replace(section, exposures=())
    with pytest.raises(InputError, match="no face that meets air"):
        conduct(make_grid(closed), {"inside": 20.0})


def test_a_section_without_area_is_refused() -> None:
    """Lines alone cannot conduct."""
    with pytest.raises(GeometryError, match="without any area"):
        make_grid(PlainSection(regions=(), exposures=()))


def test_the_grid_is_the_same_each_time() -> None:
    """Twice the same section gives the same points and triangles."""
    a, b = make_grid(seam()), make_grid(seam())
    assert np.array_equal(a.points, b.points)
    assert np.array_equal(a.triangles, b.triangles)
