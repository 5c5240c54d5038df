"""Which way walls and roofs face, and which sheet shows them."""

from __future__ import annotations

import math

import pytest
from tests.draw.houses import sealed
from tests.samples import THICK, UP, build, gable_box, rect_panel

from seamwright.draw.facing import find_facades, find_roof_planes
from seamwright.draw.storeys import find_storeys
from seamwright.geometry.types import cross
from seamwright.shell.types import Shell

EAST = (1.0, 0.0, 0.0)


def test_a_box_has_four_facades_from_south_around_by_east():
    """Four walls at right angles make four elevations in a fixed order."""
    names = [facade.name for facade in find_facades(gable_box())]
    assert [f"elevation-{word}" for word in ("south", "east", "north", "west")] == names


def test_right_is_right_as_seen_from_outside():
    """Seen from the south, east is right; seen from the north, west is right."""
    by_name = {facade.name: facade for facade in find_facades(gable_box())}
    assert by_name["elevation-south"].axes.right == (1.0, 0.0, 0.0)
    assert by_name["elevation-north"].axes.right == (-1.0, 0.0, 0.0)


def test_a_wall_behind_another_gets_its_own_sheet():
    """Two walls that face south, one behind the other, do not share an elevation."""
    panels = (
        rect_panel("A.1", "wall", (0.0, THICK, 0.0), EAST, UP, 2.0, 2.4),
        rect_panel("E.1", "wall", (1.0, 4.0, 0.0), EAST, UP, 2.0, 2.4),
    )
    facades = find_facades(Shell(builds=(build(),), panels=panels))
    assert [f.name for f in facades] == ["elevation-south", "elevation-south-2"]
    assert [[p.id for p in f.panels] for f in facades] == [["A.1"], ["E.1"]]


def test_walls_beside_one_another_share_a_sheet():
    """Two walls that face south side by side, at different depths, share an elevation."""
    panels = (
        rect_panel("A.1", "wall", (0.0, THICK, 0.0), EAST, UP, 2.0, 2.4),
        rect_panel("C.1", "wall", (2.5, 4.0, 0.0), EAST, UP, 2.0, 2.4),
    )
    (facade,) = find_facades(Shell(builds=(build(),), panels=panels))
    assert sorted(p.id for p in facade.panels) == ["A.1", "C.1"]


def test_an_odd_direction_is_named_by_its_bearing():
    """A wall that faces 30 degrees east of south is on the sheet of bearing 150."""
    turn = math.radians(30.0)
    along = (math.cos(turn), math.sin(turn), 0.0)
    panel = rect_panel("A.1", "wall", (0.0, 0.0, 0.0), along, UP, 2.0, 2.4)
    (facade,) = find_facades(Shell(builds=(build(),), panels=(panel,)))
    assert facade.name == "elevation-150"


def test_a_roof_plane_is_seen_square_on():
    """The view of a roof plane looks against its normal, its right level, its up rising."""
    for plane in find_roof_planes(gable_box()):
        n = plane.panels[0].frame.n
        assert n == pytest.approx(cross(plane.axes.right, plane.axes.up))
        assert abs(plane.axes.right[2]) < 1e-12
        assert plane.axes.up[2] > 0.0


def test_a_plan_shows_walls_that_run_past_its_cut():
    """The upper plan of the house with tall walls holds walls of the lower storey too."""
    upper = find_storeys(sealed("heron_house").shell)[1]
    assert {"1", "2"} <= {panel.storey for panel in upper.panels}
