"""Scales are true: lengths on paper are lengths of the house over the ratio."""

from __future__ import annotations

import pytest
from tests.draw.houses import drawn_box
from tests.draw.textboxes import path_length, paths
from tests.samples import LENGTH

from seamwright.draw.scale import DETAIL, HOUSE, fitting_scale
from seamwright.draw.types import Rect
from seamwright.draw.view import PLAN, centered_view


def test_a_metre_at_one_to_fifty():
    """One metre is 20 mm at 1:50."""
    scale = next(s for s in HOUSE["metric"] if s.text == "1:50")
    room = Rect(x0=0.0, y0=0.0, x1=200.0, y1=100.0)
    view = centered_view(PLAN, ((0.0, 0.0), (2.0, 2.0)), scale, room)
    a, b = view.at((0.0, 0.0, 0.0)), view.at((1.0, 0.0, 5.0))
    assert pytest.approx(b[0] - a[0]) == 20.0
    assert a[1] == b[1]


def test_a_foot_at_a_quarter_inch():
    """One foot is a quarter inch at 1/4" = 1'-0", and 3 in at 3" = 1'-0"."""
    quarter = next(s for s in HOUSE["us"] if s.text.startswith('1/4"'))
    three = next(s for s in DETAIL["us"] if s.text.startswith('3"'))
    assert pytest.approx(0.3048 * quarter.mm_per_m) == 25.4 / 4
    assert pytest.approx(0.3048 * three.mm_per_m) == 76.2


def test_scales_fall_from_large_to_small():
    """Every table of scales starts with the largest picture."""
    for table in (*HOUSE.values(), *DETAIL.values()):
        ratios = [scale.ratio for scale in table]
        assert sorted(ratios) == ratios


def test_the_largest_fitting_scale_is_taken():
    """Ten metres into 210 mm go at 1:50, into 190 mm at 1:75."""
    wide = Rect(x0=0.0, y0=0.0, x1=210.0, y1=210.0)
    narrow = Rect(x0=0.0, y0=0.0, x1=190.0, y1=190.0)
    assert fitting_scale(HOUSE["metric"], (10.0, 1.0), wide).text == "1:50"
    assert fitting_scale(HOUSE["metric"], (10.0, 1.0), narrow).text == "1:75"


def test_the_overall_dimension_line_is_as_long_as_the_house():
    """On the plan of the sample box a dimension line has the house's length to scale."""
    drawing = drawn_box()["plan-1"]
    ratio = float(drawing.scale.split(":")[1])
    wanted = LENGTH * 1000.0 / ratio
    lines = [
        path_length(p["d"]) for p in paths(drawing.svg)
        if p.get("stroke-width") == "0.15" and p["d"].count("L") == 1 and "Z" not in p["d"]
    ]  # fmt: skip
    assert any(abs(length - wanted) < 0.01 for length in lines)
