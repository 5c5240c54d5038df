"""A plan written out in full reads back as the same plan."""

from __future__ import annotations

from dataclasses import replace
from importlib import resources
from pathlib import Path

import pytest

from seamwright.errors import InputError
from seamwright.io.desk.panels import with_panel_list
from seamwright.io.desk.read import read_lone_plan
from seamwright.io.desk.whole import listed_text
from seamwright.io.desk.write import size
from seamwright.io.ifc import read_ifc
from seamwright.io.panel_list import read_panel_list
from seamwright.units import parse_length

EXAMPLES = Path(__file__).parents[3] / "examples"


def test_a_building_model_written_as_a_plan_is_the_same_plan() -> None:
    """Every panel, timber, opening and service, to the last digit."""
    with resources.as_file(resources.files("seamwright") / "data/houses/wren_house.ifc") as path:
        plan = read_ifc(path).plan
    again = read_lone_plan(listed_text(plan, ["a note\nof two lines"])).plan
    assert again.panels == plan.panels
    assert replace(again, panels=()) == replace(plan, panels=())


def test_a_panel_list_written_into_its_types_is_the_same_list() -> None:
    """Nothing is lost between the CSV and the plan text."""
    types = (EXAMPLES / "sixty_panels_types.yaml").read_text(encoding="utf-8")
    panels = (EXAMPLES / "sixty_panels.csv").read_text(encoding="utf-8")
    text = with_panel_list(types, panels, name="sixty_panels.csv")
    assert read_lone_plan(text).plan.panels == read_panel_list(panels)


def test_a_plan_with_panels_of_its_own_takes_no_list() -> None:
    """Two lists of panels would be one too many."""
    with pytest.raises(InputError, match="has panels of its own"):
        with_panel_list("panels: [{id: a}]\n", "id\n", name="list.csv")


@pytest.mark.parametrize("metres", [0.0, 0.0111125, 0.1651, 2.4384, 7.3152, 6.1, 1e-4, 123.4567])
@pytest.mark.parametrize("units", ["us", "metric"])
def test_a_size_reads_back_as_long_as_it_was(metres: float, units) -> None:
    """In feet and inches or millimetres, to a millionth of a metre."""
    assert float(parse_length(str(size(metres, units)))) == pytest.approx(metres, abs=1e-6)
