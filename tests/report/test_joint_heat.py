"""Heat through the joints of the built-in houses."""

from __future__ import annotations

import functools
from dataclasses import replace

import pytest

from seamwright.draw.heat_chart import draw_heat_chart
from seamwright.io.plan import builtin_house, read_plan
from seamwright.report.joint_heat import HeatType, heat_types, joint_table, panel_heats, remark
from seamwright.workflow import register_joints


@functools.cache
def first_house(spline: str = "surface") -> dict[str, HeatType]:
    """Return the types of the smallest house by kind, with another spline when asked."""
    shell, register = register_joints(read_plan(builtin_house("first_house")).plan)
    builds = tuple(replace(b, spline=spline) for b in shell.builds)
    return {t.joint.kind: t for t in heat_types(replace(shell, builds=builds), register)}


def test_every_type_of_the_first_house_converges_and_balances() -> None:
    """Grids keep to the outlines, halving changes nothing that shows, heat in equals heat out."""
    types = first_house()
    assert set(types) == {"sill", "wall_spline", "wall_corner", "eave", "rake", "roof_spline",
                          "ridge"}  # fmt: skip
    for one in types.values():
        assert one.heat.converged, remark(one)
        assert one.heat.imbalance < 1e-6
        assert 0.0 < one.heat.factor < 1.0


def test_a_corner_and_a_ridge_lose_heat_on_inner_dimensions() -> None:
    """Where panels fold outward the linear transmittance on inner dimensions is above zero."""
    types = first_house()
    assert types["wall_corner"].heat.psi > 0.03
    assert 0.0 < types["ridge"].heat.psi < 0.03


def test_flanks_of_a_seam_are_the_panel_itself() -> None:
    """A seam's flanks are as long as its section is wide, with the panel's U-value."""
    shell, _ = register_joints(read_plan(builtin_house("first_house")).plan)
    walls = {p.build.id: p for p in panel_heats(shell)}
    one = first_house()["wall_spline"]
    (flank,) = one.plain.flanks
    assert flank.u_value == pytest.approx(walls["wall6"].level)
    assert flank.length == pytest.approx(2 * one.section.reach)


def test_lumber_conducts_most_and_foam_in_a_block_least() -> None:
    """Lumber splines are the thermal bridge; surface and block splines hardly show."""
    psi = {s: first_house(s)["roof_spline"].heat.psi for s in ("surface", "block", "lumber")}
    assert psi["lumber"] > 0.02
    assert abs(psi["surface"]) < 0.005
    assert abs(psi["block"]) < 0.005


def test_the_table_marks_what_is_too_cold() -> None:
    """A type below the factor asked for is marked in words."""
    types = tuple(first_house().values())
    table = joint_table(types, least=0.75)
    cold = [row[1] for row in table.rows if str(row[-1]).startswith("COLD")]
    assert cold == ["sill"]
    assert len(table.columns) == len(table.widths)


def test_the_picture_carries_its_temperatures_and_its_limits() -> None:
    """The picture names both airs, the lines' temperatures and what it is not."""
    one = first_house()["wall_corner"]
    drawing = draw_heat_chart(one.heat, name="h", title="corner", inside=20.0, outside=-10.0,
                              system="metric")  # fmt: skip
    for words in ("inside 20 °C", "outside -10 °C", ">15 °C<", "not a verdict"):
        assert words in drawing.svg
    again = draw_heat_chart(one.heat, name="h", title="corner", inside=20.0, outside=-10.0,
                            system="us")  # fmt: skip
    assert "inside 68 °F" in again.svg
