"""The scene: solids that are closed, lines and points where the register has them."""

from __future__ import annotations

import base64

import numpy as np
import pytest
from numpy.typing import NDArray

from seamwright.app.built import Built, build
from seamwright.app.contract.scene import Bodies
from seamwright.app.scene import scene_of
from seamwright.io.plan import builtin_house

HOUSES = ("first_house", "heron_house", "cypress_house")


@pytest.fixture(scope="module", params=HOUSES)
def built(request: pytest.FixtureRequest) -> Built:
    """Return a built-in house worked out."""
    return build(request.param, builtin_house(request.param))


def floats(text: str) -> NDArray[np.float32]:
    """Return packed points."""
    return np.frombuffer(base64.b64decode(text), "<f4").reshape(-1, 3)


def whole(text: str, width: int) -> NDArray[np.uint32]:
    """Return packed numbers, some to a row."""
    return np.frombuffer(base64.b64decode(text), "<u4").reshape(-1, width)


def volume(bodies: Bodies, at: int) -> float:
    """Return the volume that the triangles of one body enclose. [m³]"""
    points = floats(bodies.positions_f32).astype(float)
    rows = whole(bodies.triangles_u32, 3)[bodies.first_triangle[at] : bodies.first_triangle[at + 1]]
    a, b, c = (points[rows[:, k]] - points[rows[0, 0]] for k in range(3))
    return float(np.einsum("ij,ij->i", a, np.cross(b, c)).sum() / 6.0)


def test_every_panel_encloses_what_its_outlines_say(built) -> None:
    """Triangles face outward, and hold the prism between inner and outer outline less its holes."""
    scene = scene_of(built, {}, house="h", revision=1)
    panels = {panel.id: panel for panel in built.house.shell.panels}
    for at, name in enumerate(scene.bodies.ids):
        enclosed = volume(scene.bodies, at)
        assert enclosed > 0, name
        panel = panels.get(name)
        if panel is None or panel.inner != panel.outer:
            continue
        area = ring_area(panel.inner) - sum(ring_area(hole.outline) for hole in panel.holes)
        assert enclosed == pytest.approx(area * panel.thickness, rel=1e-4), name


def ring_area(ring: tuple[tuple[float, float], ...]) -> float:
    """Return the area of an outline. [m²]"""
    pairs = zip(ring, (*ring[1:], ring[0]), strict=True)
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in pairs)) / 2.0


def test_joints_lie_where_the_register_has_them(built) -> None:
    """Ends, kinds and lengths in the register's own order, to a hundredth of a millimetre."""
    lines = scene_of(built, {}, house="h", revision=1).joints
    ends = floats(lines.ends_f32).reshape(-1, 2, 3)
    for at, joint in enumerate(built.house.register.joints):
        assert lines.ids[at] == joint.id
        assert lines.kinds[lines.kind[at]] == joint.kind
        assert np.allclose(ends[at], (joint.line.start, joint.line.end), atol=1e-5)


def test_nodes_name_the_joints_that_meet(built) -> None:
    """Every node leads to the joints of the register, by their place."""
    scene = scene_of(built, {}, house="h", revision=1)
    numbers = whole(scene.nodes.joints_u32, 1)[:, 0]
    for at, node in enumerate(built.house.register.nodes):
        own = numbers[scene.nodes.first_joint[at] : scene.nodes.first_joint[at + 1]]
        assert [scene.joints.ids[k] for k in own] == list(node.joints)


def test_everything_lies_within_the_bounds(built) -> None:
    """No vertex of a panel lies outside the box that is told."""
    scene = scene_of(built, {}, house="h", revision=1)
    count = scene.bodies.first_vertex[len(built.house.shell.panels)]
    points = floats(scene.bodies.positions_f32)[:count]
    assert (points >= np.array(scene.low_m) - 1e-4).all()
    assert (points <= np.array(scene.high_m) + 1e-4).all()
