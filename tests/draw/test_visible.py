"""Hidden parts: visible pieces tile the silhouette, and lines end where a face covers them."""

from __future__ import annotations

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.samples import THICK, UP, gable_box, rect_panel

from seamwright.draw.axonometric import corner_axes
from seamwright.draw.bodies import panel_faces
from seamwright.draw.view import Axes
from seamwright.draw.visible import front_faces, visible_areas, visible_stretches
from seamwright.geometry.types import Segment

SOUTH = Axes(right=(1.0, 0.0, 0.0), up=UP)


def wall(name, x, y, width=1.0, height=1.0):
    """Return a wall panel that faces south at depth y."""
    return rect_panel(name, "wall", (x, y + THICK, 0.0), (1.0, 0.0, 0.0), UP, width, height)


def seen_from_south(*panels):
    """Return the front faces of panels seen from the south."""
    return front_faces(SOUTH, [f for p in panels for f in panel_faces(p)])


def letters(seen, columns, rows):
    """Return what is seen at the middles of a grid of cells as letters, from the top down."""
    parts = visible_areas(seen)
    lines = []
    for v in reversed(rows):
        line = ""
        for u in columns:
            owners = {
                f.owner for f, part in zip(seen.faces, parts, strict=True)
                if part.contains(shapely.Point(u, v))
            }  # fmt: skip
            assert len(owners) < 2
            line += min(owners, default="_")
        lines.append(line)
    return lines


def test_a_near_wall_covers_a_far_one():
    """A low wall in front hides the foot of a high wall behind, and nothing else."""
    seen = seen_from_south(wall("N", 1.0, 0.0, 2.0, 1.0), wall("F", 0.0, 3.0, 4.0, 2.0))
    found = letters(seen, [0.5, 1.5, 2.5, 3.5, 4.5], [0.5, 1.5, 2.5])
    assert found == ["_____", "FFFF_", "FNNF_"]


@settings(derandomize=True, max_examples=30, deadline=None)
@given(
    st.lists(
        st.tuples(st.floats(0.0, 3.0), st.floats(0.3, 2.0), st.floats(0.3, 2.0)),
        min_size=1,
        max_size=8,
    )
)
def test_visible_parts_tile_the_silhouette(walls):
    """Whatever stands before whatever, visible pieces add up to the outline of the whole."""
    axes = corner_axes("south-east")
    panels = [wall(f"{i}", x, 0.7 * i, w, h) for i, (x, w, h) in enumerate(walls)]
    seen = front_faces(axes, [f for p in panels for f in panel_faces(p)])
    silhouette = shapely.unary_union(list(seen.areas)).area
    total = sum(part.area for part in visible_areas(seen))
    assert silhouette == pytest.approx(total, rel=2e-3)


def test_the_box_tiles_its_silhouette_from_every_corner():
    """The sample house leaves no hole and no double cover from any corner."""
    faces = [f for p in gable_box().panels for f in panel_faces(p)]
    for corner in ("south-east", "south-west", "north-east", "north-west"):
        seen = front_faces(corner_axes(corner), faces)
        silhouette = shapely.unary_union(list(seen.areas)).area
        assert silhouette == pytest.approx(sum(a.area for a in visible_areas(seen)), rel=5e-3)


def test_a_line_behind_a_wall_shows_only_at_its_ends():
    """A line behind the middle third of its length is seen in the outer thirds."""
    seen = seen_from_south(wall("N", 1.0, 0.0, 1.0, 1.0))
    line = Segment(start=(0.0, 5.0, 0.5), end=(3.0, 5.0, 0.5))
    (stretches,) = visible_stretches(SOUTH, seen, [line])
    assert [(0.0, pytest.approx(1 / 3)), (pytest.approx(2 / 3), 1.0)] == stretches


def test_a_line_on_a_face_is_seen():
    """A line that lies on the face toward the eye is seen whole."""
    seen = seen_from_south(wall("N", 0.0, 0.0))
    line = Segment(start=(0.2, 0.0, 0.5), end=(0.8, 0.0, 0.5))
    assert visible_stretches(SOUTH, seen, [line]) == [[(0.0, 1.0)]]
