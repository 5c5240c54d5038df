"""Cuts of panels, hatches, dimension stations: small geometry of the drawings."""

from __future__ import annotations

import math

import pytest
import shapely
from tests.samples import CORE, SKIN, THICK, gable_box

from seamwright.draw.dimension import stations
from seamwright.draw.hatch import as_area, hatch_lines, stipple_points, zigzag_lines
from seamwright.draw.roofplan import pitch_text
from seamwright.draw.sheet import packed, shortened, wrapped
from seamwright.draw.solids import cut_at

PATCH = shapely.Point(20.0, 20.0).buffer(8.0).difference(shapely.box(18.0, 18.0, 22.0, 22.0))


def test_a_cut_wall_has_two_skins_and_a_core():
    """Layers of a cut wall have the areas of their thickness times its length."""
    wall = next(p for p in gable_box().panels if p.id == "A.2")
    length = wall.inner[1][0] - wall.inner[0][0]
    cut = list(cut_at(wall, 1.2))
    assert [piece.layer for piece in cut] == ["skin", "core", "skin"]
    areas = [as_area(piece.outline).area for piece in cut]
    assert [SKIN * length, CORE * length, SKIN * length] == pytest.approx(areas)


def test_a_window_leaves_a_gap_in_the_cut():
    """At window height the wall is cut in two pieces, the window's width apart."""
    wall = next(p for p in gable_box().panels if p.holes)
    outer = [piece for piece in cut_at(wall, 1.2) if piece.layer == "core"]
    assert len(outer) == 2
    xs = sorted(x for piece in outer for x, _ in piece.outline)
    assert pytest.approx(xs[4] - xs[3]) == 0.9
    assert len([piece for piece in cut_at(wall, 0.5) if piece.layer == "core"]) == 1


def test_a_cut_above_the_wall_is_empty():
    """A cut over the top of a wall finds nothing."""
    wall = next(p for p in gable_box().panels if p.id == "A.2")
    assert list(cut_at(wall, 5.0)) == []


def test_a_beveled_top_is_cut_with_its_slope():
    """A cut through the beveled top of an eave wall is thinner than the wall."""
    wall = next(p for p in gable_box().panels if p.id == "A.2")
    depths = [y for piece in cut_at(wall, 2.44) for _, y in piece.outline]
    assert max(depths) <= THICK + 1e-9
    assert min(depths) > 0.0


def test_hatches_stay_inside_what_they_fill():
    """Lines, zigzags and dots lie inside their area, holes left free."""
    inside = PATCH.buffer(1e-6)
    for lines in (hatch_lines(PATCH, 1.1, 35.0), zigzag_lines(PATCH, 2.0)):
        assert lines
        assert all(inside.covers(shapely.LineString(pair)) for pair in lines)
    dots = stipple_points(PATCH, 1.5)
    assert dots
    assert all(inside.covers(shapely.Point(dot)) for dot in dots)


def test_an_empty_area_has_no_hatch():
    """Nothing is hatched where there is nothing."""
    empty = shapely.Polygon()
    assert hatch_lines(empty, 1.0, 45.0) == []
    assert zigzag_lines(empty, 1.0) == []
    assert stipple_points(empty, 1.0) == []


def test_stations_drop_near_repeats():
    """Stations come sorted, those within the tolerance of the last one left out."""
    assert stations([2.4, 0.0, 1.2, 0.003, 1.203], 0.02) == [0.0, 1.2, 2.4]


@pytest.mark.parametrize(
    ("angle", "system", "text"),
    [
        (math.atan(8 / 12), "us", "8:12"),
        (math.atan(4.5 / 12), "us", "4.5:12"),
        (math.atan(0.55), "us", "6.60:12"),
        (math.radians(30.0), "metric", "30.0°"),
    ],
)
def test_slopes_read_as_the_trade_says_them(angle, system, text):
    """A slope is a rise in twelve in feet and inches, degrees in metres."""
    assert text == pitch_text(angle, system)


def test_text_is_broken_at_spaces_and_long_words_cut():
    """Lines are no longer than asked, and no word is lost."""
    lines = wrapped("beads on both faces of an extraordinarilylongword", 12)
    assert all(len(line) <= 12 for line in lines)
    assert "".join("".join(lines).split()) == "beadsonbothfacesofanextraordinarilylongword"


def test_rows_of_ids_fit_their_columns():
    """Ids are packed in rows, in order, none lost."""
    rows = packed(["A.1-A.2", "A.2-A.3", "B.1-slab"], 17)
    assert rows == [["A.1-A.2", "A.2-A.3"], ["B.1-slab"]]


def test_a_long_text_is_shortened_with_an_ellipsis():
    """What does not fit ends in an ellipsis; what fits is left alone."""
    assert shortened("short", 100.0, 2.0) == "short"
    assert shortened("a rather long caption", 10.0, 2.0).endswith("…")
