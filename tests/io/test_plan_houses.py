"""The built-in houses are read, stand, and are the houses they say they are."""

from __future__ import annotations

import pytest

from seamwright.errors import InputError
from seamwright.io.plan import builtin_house, builtin_house_names, read_plan, with_place
from seamwright.joints.register import build_register
from seamwright.shell.build import build_shell
from seamwright.tolerance import DEFAULT


def test_there_are_three_houses() -> None:
    """Two full houses and a small one for the docs."""
    assert builtin_house_names() == ("cypress_house", "first_house", "heron_house")


def test_an_unknown_house_names_the_nearest() -> None:
    """A slip in a house's name is answered with the right one."""
    with pytest.raises(InputError, match="did you mean ‘heron_house’"):
        builtin_house("herron_house")


@pytest.mark.parametrize("name", builtin_house_names())
def test_each_house_stands(name: str) -> None:
    """Each built-in house is read without a problem and laid out into panels."""
    shell = build_shell(read_plan(builtin_house(name), name=name).plan)
    least, most = (10, 30) if name == "first_house" else (60, 125)
    assert least <= len(shell.panels) <= most


@pytest.mark.parametrize("name", builtin_house_names())
def test_no_correction_of_a_house_is_lost(name: str) -> None:
    """Every override of a built-in house names a joint that is there."""
    plan = read_plan(builtin_house(name)).plan
    register = build_register(build_shell(plan), plan.overrides, DEFAULT)
    assert register.lost_overrides == ()
    assert {item.joint for item in plan.overrides} <= {joint.id for joint in register.joints}


def test_the_first_house_has_eight_wall_panels() -> None:
    """The house of the docs is small enough to draw by hand."""
    shell = build_shell(read_plan(builtin_house("first_house")).plan)
    assert sum(panel.role == "wall" for panel in shell.panels) == 8


def test_a_problem_of_the_geometry_points_into_the_file() -> None:
    """An opening outside its wall, found by the shell, is told with file and line."""
    text = builtin_house("first_house").replace("in: A, along: 2'", "in: A, along: 14'")
    planfile = read_plan(text, name="house.yaml")
    with pytest.raises(InputError) as caught:
        build_shell(planfile.plan)
    (found,) = with_place(caught.value.problems, planfile)
    assert found.file == "house.yaml"
    assert found.line is not None
    assert "id: D1" in text.split("\n")[found.line - 1]


def test_the_cold_marine_house_has_what_it_promises() -> None:
    """Heron House has a valley, a ridge beam, purlins, tees and an unsigned roof."""
    plan = read_plan(builtin_house("heron_house")).plan
    assert (plan.site.climate_zone, plan.site.zone_edition) == ("4C", "IECC 2021")
    assert plan.roof[0].ridge_beam is not None
    assert plan.roof[0].purlins is not None
    assert plan.roof[1].open_end
    assert {wall.bearing for wall in plan.inner_walls} == {True, False}
    assert {item.kind for item in plan.penetrations} == {"pipe", "duct", "flue", "box"}
    signed = {kind for decision in plan.decisions for kind in decision.kinds}
    assert "wall_spline" in signed
    assert not signed & {"ridge", "roof_spline", "valley"}


def test_the_warm_humid_house_has_what_it_promises() -> None:
    """Cypress House has two storeys, a hip roof, floor panels and a signed outer face."""
    plan = read_plan(builtin_house("cypress_house")).plan
    assert plan.site.climate_zone == "2A"
    assert len(plan.storeys) == 2
    assert plan.storeys[1].floor == "platform"
    assert plan.roof[0].kind == "hip"
    assert plan.base is not None
    assert plan.base.kind == "floor_panels"
    assert plan.decisions[0].face == "outer"
