"""The built-in model of the wren house."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.ifc_wren import FILE, wren_house

from seamwright.io.ifc import IfcReading, read_ifc


@pytest.fixture(scope="module")
def wren() -> IfcReading:
    """Return the built-in model as it is read."""
    return read_ifc(FILE)


def test_the_file_is_what_its_script_writes(tmp_path: Path) -> None:
    """The model in the package is the one that tests/ifc_wren.py authors."""
    fresh = wren_house().save(tmp_path / FILE.name)
    assert fresh.read_text() == FILE.read_text()


def test_it_gives_planes_panels_and_a_partition(wren: IfcReading) -> None:
    """Three walls and two slopes are laid out by the tool; the west wall comes as plates."""
    lay_out = {p.id for p in wren.plan.panels if p.lay_out}
    assert lay_out == {"South", "North", "East", "Roof_south", "Roof_north"}
    assert {p.id for p in wren.plan.panels if p.plane == "West"} == {"West.1", "West.2", "West.3"}
    assert [p.id for p in wren.plan.panels if p.role == "partition"] == ["Bedroom_wall"]


def test_it_gives_openings_and_services(wren: IfcReading) -> None:
    """Windows, door and skylight are hosted; the duct and the pipe pass through."""
    assert {(s.id, s.kind, s.host) for s in wren.plan.openings} == {
        ("W1", "window", "South"),
        ("W2", "window", "South"),
        ("W3", "window", "North"),
        ("W4", "window", "East"),
        ("D1", "door", "South"),
        ("S1", "skylight", "Roof_south"),
    }
    assert {(s.id, s.kind, s.host) for s in wren.plan.penetrations} == {
        ("Vent_duct", "duct", "North"),
        ("Vent_pipe", "pipe", "Roof_north"),
    }


def test_clutter_is_left_out_by_name(wren: IfcReading) -> None:
    """Rail, steps and a thin garden wall are named among what was left out."""
    said = " ".join(wren.left_out)
    for name in ("Porch rail", "Porch steps", "Garden wall facing"):
        assert name in said
