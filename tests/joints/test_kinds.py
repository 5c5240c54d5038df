"""The kind of each joint on small hand-made arrangements of two or three parts."""

from __future__ import annotations

import math

import pytest
from tests.samples import THICK, UP, build, plate, rect_panel, rectangle

from seamwright.geometry.types import Frame, Ring, Vec3
from seamwright.joints.register import build_register
from seamwright.joints.types import Joint
from seamwright.shell.types import Member, Panel, Shell, Support

EAST: Vec3 = (1.0, 0.0, 0.0)
NORTH: Vec3 = (0.0, 1.0, 0.0)
WEST: Vec3 = (-1.0, 0.0, 0.0)
PITCH = math.radians(35.0)
C, S = math.cos(PITCH), math.sin(PITCH)


def shell(*panels: Panel, **parts: tuple[object, ...]) -> Shell:
    """Return a shell of the sample build."""
    return Shell(builds=(build(),), panels=panels, **parts)  # type: ignore[arg-type]


def joints(*panels: Panel, **parts: tuple[object, ...]) -> tuple[Joint, ...]:
    """Return the joints of a shell."""
    return build_register(shell(*panels, **parts)).joints


def slope(name: str, *, south: bool, low: Vec3, run: float = 2.0, width: float = 3.0) -> Panel:
    """Return a roof panel rising to the north (south slope) or to the south."""
    if south:
        return rect_panel(name, "roof", low, EAST, (0.0, C, S), width, run, None)
    start = (low[0] + width, low[1], low[2])
    return rect_panel(name, "roof", start, WEST, (0.0, -C, S), width, run, None)


def test_square_cut_ridge_is_one_joint_with_an_open_wedge() -> None:
    """Two square-cut slopes that touch along their inner arrises make a ridge, open outside."""
    run = 2.0
    south = slope("R1", south=True, low=(0.0, -run * C, 0.0))
    north = slope("R2", south=False, low=(0.0, run * C, 0.0))
    (joint,) = joints(south, north)
    assert (joint.kind, joint.contact, joint.note) == ("ridge", "edge_edge", "")
    assert joint.dihedral == pytest.approx(math.pi - 2 * PITCH)
    assert joint.gap == pytest.approx(0.0, abs=1e-9)
    assert joint.outer.opening == pytest.approx(2 * THICK * S)
    assert joint.length == pytest.approx(3.0)


def test_square_cut_valley() -> None:
    """Two slopes that fall toward each other make a valley of more than half a turn."""
    south = rect_panel("R1", "roof", (0.0, -3.0, 0.0), EAST, (0.0, C, -S), 3.0, 2.0, None)
    end = south.frame.point((0.0, 2.0), THICK)
    low = (0.0, end[1], end[2])
    n = (0.0, -S, C)
    foot = (3.0, low[1] - THICK * n[1], low[2] - THICK * n[2])
    north = rect_panel("R2", "roof", foot, WEST, (0.0, C, S), 3.0, 2.0, None)
    north = plate("R2", "roof", Frame(origin=(0.0, *foot[1:]), u=EAST, v=(0.0, C, S)), north.inner)
    (joint,) = joints(south, north)
    assert joint.kind == "valley"
    assert joint.dihedral == pytest.approx(math.pi + 2 * PITCH)
    assert joint.inner.opening == pytest.approx(2 * THICK * S)


def test_hip_angle_follows_the_closed_formula() -> None:
    """A regular hip folds by the angle whose cosine is the squared cosine of the pitch."""
    rise = 2.0 * math.tan(PITCH)
    slant = 2.0 / C
    south = Frame(origin=(0.0, 0.0, 0.0), u=EAST, v=(0.0, C, S))
    west = Frame(origin=(0.0, 4.0, 0.0), u=(0.0, -1.0, 0.0), v=(C, 0.0, S))
    ring: Ring = ((0.0, 0.0), (4.0, 0.0), (2.0, slant))
    (joint,) = joints(plate("R1", "roof", south, ring), plate("R4", "roof", west, ring))
    assert joint.kind == "hip"
    assert joint.dihedral == pytest.approx(math.pi - math.acos(C * C))
    assert joint.length == pytest.approx(math.sqrt(8.0 + rise * rise))


def test_gambrel_break_is_a_ridge_with_a_note() -> None:
    """A level fold between slopes that fall the same way is a ridge, and the note says so."""
    steep = math.radians(60.0)
    lower = rect_panel(
        "R1", "roof", (0.0, 0.0, 0.0), EAST, (0.0, math.cos(steep), math.sin(steep)), 3.0, 2.0, None
    )
    top = lower.frame.point((0.0, 2.0))
    upper = rect_panel("R2", "roof", top, EAST, (0.0, C, S), 3.0, 2.0, None)
    (joint,) = joints(lower, upper)
    assert joint.kind == "ridge"
    assert "gambrel" in joint.note
    assert joint.dihedral == pytest.approx(math.pi - (steep - PITCH))


@pytest.mark.parametrize(("across", "kind"), [(False, "roof_spline"), (True, "end_joint")])
def test_roof_seams_by_direction(*, across: bool, kind: str) -> None:
    """A roof seam up the slope is a spline, one along the slope's level line an end joint."""
    first = rect_panel("R1", "roof", (0.0, 0.0, 0.0), EAST, (0.0, C, S), 1.2, 2.0, None)
    corner = first.frame.point((0.0, 2.003) if across else (1.203, 0.0))
    second = rect_panel("R2", "roof", corner, EAST, (0.0, C, S), 1.2, 2.0, None)
    (joint,) = joints(first, second)
    assert joint.kind == kind
    assert joint.gap == pytest.approx(0.003)
    assert joint.dihedral == pytest.approx(math.pi)


def test_wall_stacked_on_wall_is_an_end_joint() -> None:
    """A level seam in one wall of one storey is an end joint."""
    low = rect_panel("A.1", "wall", (0.0, 0.0, 0.0), EAST, UP, 1.2, 2.0)
    high = rect_panel("A.2", "wall", (0.0, 0.0, 2.003), EAST, UP, 1.2, 1.0)
    assert [joint.kind for joint in joints(low, high)] == ["end_joint"]


def test_mitered_corner_meets_edge_to_edge() -> None:
    """Walls mitered at 135 degrees meet edge to edge in an outside corner without a gap."""
    turn = math.radians(45.0)
    shift = THICK * math.tan(turn / 2)
    a = Frame(origin=(0.0, 0.0, 0.0), u=EAST, v=UP)
    b = Frame(origin=(2.0, 0.0, 0.0), u=(math.cos(turn), math.sin(turn), 0.0), v=UP)
    ring = rectangle(2.0, 2.4)
    outer_a: Ring = ((0.0, 0.0), (2.0 + shift, 0.0), (2.0 + shift, 2.4), (0.0, 2.4))
    outer_b: Ring = ((-shift, 0.0), (2.0, 0.0), (2.0, 2.4), (-shift, 2.4))
    (joint,) = joints(
        plate("A.1", "wall", a, ring, outer_a), plate("B.1", "wall", b, ring, outer_b)
    )
    assert (joint.kind, joint.contact, joint.outside_corner) == ("wall_corner", "edge_edge", True)
    assert joint.dihedral == pytest.approx(math.pi - turn)
    assert joint.gap == pytest.approx(0.0, abs=1e-9)


def test_inside_corner_turns_more_than_half() -> None:
    """A wall that butts on the outer skin at the other's end is an inside corner."""
    a = rect_panel("A.1", "wall", (-2.0, THICK, 0.0), EAST, UP, 2.0 + THICK, 2.4)
    b = rect_panel("B.1", "wall", (THICK, 0.0, 0.0), (0.0, -1.0, 0.0), UP, 2.0, 2.4)
    register = build_register(shell(a, b))
    (joint,) = register.joints
    assert (joint.kind, joint.outside_corner) == ("wall_corner", False)
    assert joint.dihedral == pytest.approx(1.5 * math.pi)
    end = [use for use in register.ledger if (use.panel_id, use.edge) == ("A.1", 1)]
    assert [use.fate for use in end] == ["explained"]


def test_partition_makes_a_tee_that_is_buried() -> None:
    """A partition against a wall's field leaves no outer line and buries the inner one."""
    wall = rect_panel("A.1", "wall", (0.0, 0.0, 0.0), EAST, UP, 4.0, 2.4)
    inner = rect_panel("P.1", "partition", (2.0, 0.0, 0.0), NORTH, UP, 2.0, 2.4)
    (joint,) = joints(wall, inner)
    assert joint.kind == "wall_tee"
    assert (joint.inner.reach, joint.inner.hidden_by) == ("before_panels_only", "P.1")
    assert joint.outer.line is None


def test_tee_over_a_seam_is_counted_once() -> None:
    """A partition standing right behind a seam makes one tee and leaves the seam one spline."""
    first = rect_panel("A.1", "wall", (0.0, 0.0, 0.0), EAST, UP, 2.0, 2.4)
    second = rect_panel("A.2", "wall", (2.003, 0.0, 0.0), EAST, UP, 2.0, 2.4)
    middle = 2.0015 - THICK / 2
    inner = rect_panel("P.1", "partition", (middle + THICK, 0.0, 0.0), NORTH, UP, 2.0, 2.4)
    assert sorted(joint.kind for joint in joints(first, second, inner)) == [
        "wall_spline",
        "wall_tee",
    ]


def slab(kind: str = "slab", top: float = 0.0, thick: float = 0.1) -> Support:
    """Return a bearing 6 m by 6 m around the origin."""
    frame = Frame(origin=(-3.0, -3.0, top), u=EAST, v=NORTH)
    return Support(id=kind, kind=kind, frame=frame, outline=rectangle(6.0, 6.0), thickness=thick)  # type: ignore[arg-type]


def sole_plate(top: float, y: float) -> Member:
    """Return a plate lying under the wall whose inner face is at `y`."""
    return Member(
        id="plate",
        kind="plate",
        start=(0.0, y - THICK / 2, top),
        end=(2.0, y - THICK / 2, top),
        up=UP,
        width=0.14,
        depth=0.038,
    )


def test_wall_on_slab_is_a_sill() -> None:
    """A wall standing on a slab is a sill, with the angle of the wall to the floor."""
    wall = rect_panel("A.1", "wall", (0.0, 0.0, 0.0), EAST, UP, 2.0, 2.4)
    (joint,) = joints(wall, supports=(slab(),))
    assert (joint.id, joint.kind, joint.contact) == ("A.1-slab", "sill", "edge_support")
    assert joint.dihedral == pytest.approx(math.pi / 2)


def test_gap_counts_only_when_a_timber_fills_it() -> None:
    """A wall 38 mm above a slab makes a sill over a plate, and nothing without one."""
    wall = rect_panel("A.1", "wall", (0.0, 0.0, 0.038), EAST, UP, 2.0, 2.4)
    assert joints(wall, supports=(slab(),)) == ()
    (joint,) = joints(wall, supports=(slab(),), members=(sole_plate(0.038, 0.0),))
    assert joint.others == ("plate", "slab")
    assert joint.inner.offset == pytest.approx(0.038)
    assert joint.gap == 0.0


def test_platform_floor_has_two_floor_lines_at_the_rim() -> None:
    """Wall, rim, deck and wall above meet in three floor lines; the rim's are out of reach."""
    low = rect_panel("A.1", "wall", (0.0, 0.0, 0.0), EAST, UP, 2.0, 2.4, "1")
    rim = rect_panel("rim.1", "rim", (0.0, 0.0, 2.4), EAST, UP, 2.0, 0.3, "1")
    high = rect_panel("2A.1", "wall", (0.0, 0.0, 2.718), EAST, UP, 2.0, 2.4, "2")
    found = {j.id: j for j in joints(low, rim, high, supports=(slab("deck", 2.718, 0.018),))}
    assert {name: joint.kind for name, joint in found.items()} == {
        "2A.1-deck": "floor_line",
        "A.1-rim.1": "floor_line",
        "rim.1-deck": "floor_line",
    }
    assert found["A.1-rim.1"].inner.reach == "never"
    assert found["2A.1-deck"].inner.reach == "until_hidden"


def test_ledger_is_a_floor_line_per_panel() -> None:
    """A ledger on a wall's inner face is one floor line on each panel it crosses."""
    first = rect_panel("A.1", "wall", (0.0, 0.0, 0.0), EAST, UP, 2.0, 4.0)
    second = rect_panel("A.2", "wall", (2.003, 0.0, 0.0), EAST, UP, 2.0, 4.0)
    ledger = Member(
        id="L",
        kind="ledger",
        start=(0.5, 0.019, 2.6),
        end=(3.5, 0.019, 2.6),
        up=UP,
        width=0.038,
        depth=0.24,
    )
    found = {joint.id: joint for joint in joints(first, second, members=(ledger,))}
    assert sorted(found) == ["A.1-A.2", "A.1-L", "A.2-L"]
    assert found["A.1-L"].kind == "floor_line"
    assert found["A.1-L"].length == pytest.approx(1.5)
    assert found["A.1-A.2"].inner.crossings == ("L",)


def test_floor_panels() -> None:
    """Floor panels meet in splines; a wall standing on them has a sill, split at the seam."""
    down: Vec3 = (0.0, -1.0, 0.0)
    first = rect_panel("F.1", "floor", (0.0, 2.0, 0.0), EAST, down, 1.2, 4.0)
    second = rect_panel("F.2", "floor", (1.203, 2.0, 0.0), EAST, down, 1.2, 4.0)
    wall = rect_panel("A.1", "wall", (0.0, -1.8, 0.0), EAST, UP, 2.4, 2.4)
    found = {joint.id: joint.kind for joint in joints(first, second, wall)}
    assert found == {"F.1-F.2": "floor_spline", "A.1-F.1": "sill", "A.1-F.2": "sill"}


def test_floor_panels_bear_on_a_stem_wall() -> None:
    """A floor's rim on a stem wall is a sill under it; the seam between the panels is none."""
    down: Vec3 = (0.0, -1.0, 0.0)
    first = rect_panel("F.1", "floor", (0.0, 2.0, 0.0), EAST, down, 1.2, 4.0)
    second = rect_panel("F.2", "floor", (1.203, 2.0, 0.0), EAST, down, 1.2, 4.0)
    frame = Frame(origin=(0.0, -2.0, -THICK), u=EAST, v=NORTH)
    stem = Support(
        id="stem", kind="stem_wall", frame=frame, outline=rectangle(2.403, 0.2), thickness=0.6
    )
    found = {j.id: j for j in joints(first, second, supports=(stem,))}
    assert {name: joint.kind for name, joint in found.items()} == {
        "F.1-F.2": "floor_spline",
        "F.1-stem": "sill",
        "F.2-stem": "sill",
    }
    assert found["F.1-stem"].length == pytest.approx(1.2)
    assert found["F.1-stem"].inner.line is None
    assert found["F.1-stem"].outer.line is not None


def test_square_wall_top_touches_the_roof_along_a_line() -> None:
    """A square wall top under a slope makes an eave; the step shows on the inner face."""
    wall = rect_panel("A.1", "wall", (0.0, THICK, 0.0), EAST, UP, 2.0, 2.4)
    low = (-0.5, -0.4 * C, 2.4 - 0.4 * S)
    roof = slope("R1", south=True, low=low, run=3.0)
    (joint,) = joints(wall, roof)
    assert (joint.kind, joint.contact) == ("eave", "edge_face")
    assert joint.inner.offset == pytest.approx(THICK * math.tan(PITCH))
    assert joint.outer.offset == pytest.approx(0.0, abs=1e-9)


def test_square_wall_top_that_stands_into_the_roof_is_told() -> None:
    """A square wall top as high as its inner arris makes an eave, with a note to cut it."""
    wall = rect_panel("A.1", "wall", (0.0, THICK, 0.0), EAST, UP, 2.0, 2.4)
    low = (-0.5, THICK - C, 2.4 - S)
    (joint,) = joints(wall, slope("R1", south=True, low=low, run=3.0))
    assert joint.kind == "eave"
    assert "cut it to the slope" in joint.note
    assert joint.inner.offset == pytest.approx(0.0, abs=1e-9)
    assert joint.gap == 0.0


def test_corner_that_touches_along_its_inner_arris() -> None:
    """Two square-cut walls drawn to the inner corner make one corner with an open wedge."""
    a = rect_panel("A.1", "wall", (0.0, 0.0, 0.0), EAST, UP, 2.0, 2.4)
    b = rect_panel("B.1", "wall", (2.0, 0.0, 0.0), NORTH, UP, 2.0, 2.4)
    (joint,) = joints(a, b)
    assert (joint.kind, joint.outside_corner) == ("wall_corner", True)
    assert joint.gap == pytest.approx(0.0, abs=1e-9)
    assert joint.outer.opening == pytest.approx(math.sqrt(2.0) * THICK)


def test_roof_against_a_higher_wall_is_a_step() -> None:
    """A lower roof that runs into a higher wall's outer skin makes a roof step."""
    wall = rect_panel("A.1", "wall", (0.0, THICK, 0.0), EAST, UP, 3.0, 5.0)
    top = (0.0, 0.0, 3.0)
    foot = (0.0, top[1] - 2.0 * C, top[2] - 2.0 * S)
    roof = slope("R1", south=True, low=foot)
    square = plate("R1", "roof", roof.frame, roof.inner, plumb(roof), storey=None)
    (joint,) = joints(wall, square)
    assert joint.kind == "roof_step"


def plumb(roof: Panel) -> Ring:
    """Return the outer outline of a slope whose upper edge is cut plumb."""
    (a, b, c, d) = roof.inner
    rise = THICK * math.tan(PITCH)
    return (a, b, (c[0], c[1] + rise), (d[0], d[1] + rise))


def test_wall_standing_on_a_roof_is_a_step() -> None:
    """A dormer's cheek standing on the outer skin of the roof makes a roof step with a note."""
    roof = slope("R1", south=True, low=(0.0, 0.0, 0.0), run=4.0)
    cheek_frame = Frame(origin=roof.frame.point((1.0, 1.0), THICK), u=NORTH, v=UP)
    tan = math.tan(PITCH)
    ring: Ring = ((0.0, 0.0), (1.5, 1.5 * tan), (1.5, 1.5 * tan + 0.01), (0.0, 1.5 * tan + 0.01))
    (joint,) = joints(roof, plate("K.1", "wall", cheek_frame, ring))
    assert joint.kind == "roof_step"
    assert joint.note == "wall stands on the roof"
    assert joint.length == pytest.approx(1.5 / C)


def test_neighbors_that_only_lie_near_do_not_meet() -> None:
    """Two parallel walls a thickness apart touch along an arris and make no joint."""
    a = rect_panel("A.1", "wall", (0.0, 0.0, 0.0), EAST, UP, 2.0, 2.4)
    b = rect_panel("B.1", "wall", (2.0, THICK, 0.0), EAST, UP, 2.0, 2.4)
    assert joints(a, b) == ()
