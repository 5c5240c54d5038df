"""Plates and timbers found in triangles, whatever their shape, place and turn."""

from __future__ import annotations

import itertools
import math

import numpy as np
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from seamwright.io.ifc.bodies import merged
from seamwright.io.ifc.plates import fit_plate
from seamwright.io.ifc.timbers import fit_stick, top_face
from seamwright.io.ifc.types import Body, Floats, Plate

ANGLES = st.floats(-math.pi, math.pi)
SHIFTS = st.tuples(*[st.floats(-500.0, 500.0)] * 3)


def turn(a: float, b: float, c: float) -> Floats:
    """Return a rotation from three angles about z, y and x."""
    ca, sa, cb, sb, cc, sc = (f(x) for x in (a, b, c) for f in (math.cos, math.sin))
    about_z = np.array([[ca, -sa, 0], [sa, ca, 0], [0, 0, 1]])
    about_y = np.array([[cb, 0, sb], [0, 1, 0], [-sb, 0, cb]])
    return about_z @ about_y @ np.array([[1, 0, 0], [0, cc, -sc], [0, sc, cc]])


def prism(low: Floats, high: Floats, base: float, top: float) -> Body:
    """Return the triangles of a convex plate between two outlines, fans on both faces."""
    n = len(low)
    points = np.vstack([np.c_[low, np.full(n, base)], np.c_[high, np.full(n, top)]])
    faces = [(0, i + 1, i) for i in range(1, n - 1)]
    faces += [(n, n + i, n + i + 1) for i in range(1, n - 1)]
    for i in range(n):
        j = (i + 1) % n
        faces += [(i, j, n + j), (i, n + j, n + i)]
    return Body(points=points, triangles=np.array(faces), placement=np.eye(4))


def moved(body: Body, rotation: Floats, shift: tuple[float, float, float]) -> Body:
    """Return a body turned and shifted."""
    return Body(
        points=body.points @ rotation.T + np.array(shift),
        triangles=body.triangles,
        placement=np.eye(4),
    )


@st.composite
def convex_rings(draw: st.DrawFn) -> Floats:
    """Return a convex outline of 3 to 9 corners, metres across, counter-clockwise."""
    count = draw(st.integers(3, 9))
    steps = [draw(st.floats(0.5, 1.0)) for _ in range(count)]
    angles = np.cumsum(steps) / sum(steps) * 2 * math.pi
    wide, high = draw(st.floats(1.0, 9.0)), draw(st.floats(1.0, 4.0))
    ring = np.round(np.c_[wide * np.cos(angles), high * np.sin(angles)], 6)
    return np.asarray(ring)


@settings(derandomize=True, max_examples=60, deadline=None)
@given(ring=convex_rings(), angles=st.tuples(ANGLES, ANGLES, ANGLES), shift=SHIFTS)
def test_any_convex_plate_is_found_with_all_its_corners(
    ring: Floats, angles: tuple[float, float, float], shift: tuple[float, float, float]
) -> None:
    """Turned and shifted anyhow, both outlines come back within a tenth of a millimetre."""
    bevel = 0.97 * ring
    body = moved(prism(ring, bevel, 0.0, 0.15), turn(*angles), shift)
    plate = fit_plate(body)
    assert isinstance(plate, Plate)
    assert abs(plate.thickness - 0.15) < 1e-6
    n = len(ring)
    faces = (body.points[:n], body.points[n:])
    flipped = np.linalg.norm(plate.low[:, None] - faces[0][None], axis=2).min() > 0.01
    for want, got in zip(faces[::-1] if flipped else faces, (plate.low, plate.high), strict=True):
        assert len(got) == n
        gaps = np.linalg.norm(want[:, None] - got[None], axis=2)
        assert gaps.min(axis=1).max() < 1e-4
    side = np.linalg.norm(plate.low - plate.high, axis=1)
    assert side.max() < 0.5


@settings(derandomize=True, max_examples=25, deadline=None)
@given(ring=convex_rings(), angles=st.tuples(ANGLES, ANGLES, ANGLES))
def test_layers_drawn_as_solids_make_one_plate(
    ring: Floats, angles: tuple[float, float, float]
) -> None:
    """Skin, core and skin as three solids are one plate that shows where the layers part."""
    heights = (0.0, 0.012, 0.142, 0.160)
    solids = [prism(ring, ring, a, b) for a, b in itertools.pairwise(heights)]
    plate = fit_plate(moved(merged(solids), turn(*angles), (0.0, 0.0, 0.0)))
    assert isinstance(plate, Plate)
    steps = np.array(plate.steps)
    wanted = np.array(heights)
    mirrored = np.sort(0.160 - wanted)
    off = min(np.abs(steps - wanted).max(), np.abs(steps - mirrored).max())
    assert off < 1e-5


@settings(derandomize=True, max_examples=40, deadline=None)
@given(
    size=st.tuples(st.floats(0.04, 0.2), st.floats(0.25, 0.5), st.floats(2.0, 9.0)),
    angle=ANGLES,
    rise=st.floats(-1.2, 1.2),
    shift=SHIFTS,
)
def test_any_sloping_timber_is_found(
    size: tuple[float, float, float],
    angle: float,
    rise: float,
    shift: tuple[float, float, float],
) -> None:
    """A beam turned in plan and sloped has its length, width, depth and top line."""
    width, depth, length = size
    section = np.array(
        [(-width / 2, -depth), (width / 2, -depth), (width / 2, 0.0), (-width / 2, 0.0)]
    )
    upright = np.array([[0.0, 0, 1], [1, 0, 0], [0, 1, 0]])  # length along x, depth down z
    way = turn(angle, -rise, 0.0)
    body = moved(prism(section, section, 0.0, length), way @ upright, shift)
    stick = fit_stick(body)
    assert stick is not None
    assert abs(stick.width - width) < 1e-6
    assert abs(stick.depth - depth) < 1e-6
    assert stick.fullness > 0.999999
    ends = {tuple(np.round(p, 5)) for p in (stick.start, stick.end)}
    wanted = [np.array(shift), np.array(shift) + length * way[:, 0]]
    assert ends == {tuple(np.round(p, 5)) for p in wanted}


def test_a_notched_face_keeps_its_notch_and_its_hole() -> None:
    """An outline with a notch and a hole comes back with both."""
    face = shapely.box(0, 0, 4, 2.5).difference(shapely.box(1, 0, 2, 2))
    face = face.difference(shapely.box(2.5, 1, 3.5, 2))
    flat = [
        np.array(t.exterior.coords)[:3] for t in shapely.constrained_delaunay_triangles(face).geoms
    ]
    points = np.vstack([np.c_[t, np.full(3, z)] for z in (0.0, 0.165) for t in flat])
    triangles = np.arange(len(points)).reshape(-1, 3)
    body = Body(points=points, triangles=triangles, placement=np.eye(4))
    plate = fit_plate(body)
    assert isinstance(plate, Plate)
    assert len(plate.low) == 8
    (hole,) = plate.holes
    assert sorted(map(tuple, np.round(hole[:, :2], 6))) == [
        (2.5, 1.0), (2.5, 2.0), (3.5, 1.0), (3.5, 2.0),
    ]  # fmt: skip


def test_a_flat_sheet_and_a_cube_are_no_plates() -> None:
    """What has no thickness, or no two large faces, is refused with a reason."""
    ring = np.array([(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)])
    cube = fit_plate(prism(ring, ring, 0.0, 1.0))
    assert isinstance(cube, str)
    assert "not a plate" in cube
    sheet = prism(ring, ring, 0.0, 0.0)
    flat = Body(points=sheet.points, triangles=sheet.triangles[:2], placement=np.eye(4))
    assert fit_plate(flat) == "its body has no thickness"
    point = Body(points=np.zeros((3, 3)), triangles=np.array([[0, 1, 2]]), placement=np.eye(4))
    assert fit_plate(point) == "its body has no surface"
    assert fit_stick(point) is None


def test_the_top_of_a_footing_is_its_bearing() -> None:
    """A footing bears on its level top, at its elevation, with its depth below."""
    ring = np.array([(0.0, 0.0), (6.0, 0.0), (6.0, 0.4), (0.0, 0.4)])
    top = top_face(prism(ring, ring, -0.6, -0.1))
    assert top is not None
    outline, level, depth = top
    assert np.abs(outline - ring).max() < 1e-9
    assert (round(level, 9), round(depth, 9)) == (-0.1, 0.5)
