"""Volume, area and floor area of a shell against closed formulas and other ways to measure."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from functools import cache

import numpy as np
import pytest
import shapely
import trimesh
from shapely.affinity import translate
from tests.samples import HEIGHT, LENGTH, PITCH, THICK, WIDTH, flush_pair, gable_box
from tests.shell import plans

from seamwright.cli.source import built_in
from seamwright.joints.enclosure import Enclosure, measure_enclosure, with_own_volume
from seamwright.joints.register import build_register
from seamwright.joints.types import Register
from seamwright.shell.plan import Base, Plan
from seamwright.shell.types import Shell
from seamwright.workflow import register_joints

L, W, H = LENGTH - 2 * THICK, WIDTH - 2 * THICK, HEIGHT + PITCH * THICK
"""Clear length, width and wall height of the gable box on its inner faces. [m]"""


@cache
def house(name: str) -> tuple[Plan, Shell, Register, Enclosure]:
    """Return a built-in house and what it encloses."""
    plan = built_in(name).plan
    shell, register = register_joints(plan)
    return plan, shell, register, measure_enclosure(shell, register)


def test_gable_box_is_a_prism_with_a_gable_on_top() -> None:
    """Volume, area and floor of the gable box follow from its clear length, width and height."""
    shell = gable_box()
    found = measure_enclosure(shell, build_register(shell))
    assert found.volume == pytest.approx(L * W * H + L * W**2 * PITCH / 4, rel=1e-12)
    walls = 2 * (L + W) * H + W**2 * PITCH / 2
    assert found.area == pytest.approx(walls + L * W * (1 + math.hypot(1, PITCH)), rel=1e-12)
    assert found.floor_area == pytest.approx(L * W, rel=1e-12)
    assert found.warnings == ()


def test_gable_box_agrees_with_a_mesh_library() -> None:
    """Trimesh measures the same volume and area on the hull of the room's ten corners."""
    foot = [(x, y) for x in (THICK, LENGTH - THICK) for y in (THICK, WIDTH - THICK)]
    points = [(x, y, z) for x, y in foot for z in (0.0, H)]
    points += [(x, WIDTH / 2, H + W / 2 * PITCH) for x in (THICK, LENGTH - THICK)]
    mesh = trimesh.Trimesh(points).convex_hull
    shell = gable_box()
    found = measure_enclosure(shell, build_register(shell))
    assert found.volume == pytest.approx(mesh.volume, rel=1e-9)
    assert found.area == pytest.approx(mesh.area, rel=1e-9)


def test_hip_house_follows_the_hip_roof_formula() -> None:
    """Cypress House: two full storeys and a hip of equal pitch, b² p (3a − b) / 12 over the walls.

    The roof's underside passes through the outer wall face at the plate, so over the inner face it
    stands higher by pitch times the wall's thickness.
    """
    plan, shell, _, found = house("cypress_house")
    storeys, base, roof = plan.storeys, plan.base, plan.roof[0]
    assert base is not None
    t = next(p.thickness for p in shell.panels if p.role == "wall")
    a, b, pitch = 9.6 - 2 * t, 7.2 - 2 * t, float(roof.pitch)
    wall = float(base.sill + sum(s.height + s.floor_depth for s in storeys)) + pitch * t
    wall += float(roof.eave_plate)
    assert found.volume == pytest.approx(a * b * wall + b * b * pitch * (3 * a - b) / 12, rel=2e-3)
    slope = a * b * math.hypot(1, pitch)
    assert found.area == pytest.approx(2 * (a + b) * wall + slope + a * b, rel=2e-3)
    assert found.floors == pytest.approx((a * b, a * b), rel=1e-9)


PLANS: dict[str, Callable[[], Plan]] = {
    "first_house": lambda: built_in("first_house").plan,
    "cypress_house": lambda: built_in("cypress_house").plan,
    "heron_house": lambda: built_in("heron_house").plan,
    "an L with a valley": plans.ell,
    "an L with hips": plans.hipped_ell,
    "a T": plans.tee,
    "eight walls": plans.octagon,
    "a gambrel": lambda: plans.box(roof=(plans.gambrel(),)),
    "a dormer": plans.with_dormer,
    "a platform floor": lambda: plans.two_storeys("platform"),
    "a hanging floor": lambda: plans.two_storeys("hanging"),
    "an entry": lambda: plans.with_entry("hanging"),
    "stem walls": lambda: plans.box(base=Base(kind="stem_wall", thickness=Fraction(1, 5))),
}


@pytest.mark.parametrize("name", PLANS)
def test_houses_agree_with_heights_under_the_roof(name: str) -> None:
    """Clear heights under the roof's inner faces, summed over the floor, give the volume."""
    plan = PLANS[name]()
    shell, register = register_joints(plan)
    found = measure_enclosure(shell, register)
    assert plan.base is not None
    floor = float(plan.base.top)
    x, y, cell = _grid_of(plan, shell, floor)
    roof, _ = _under_roof(shell, x, y)
    assert np.isfinite(roof).all()
    assert found.warnings == ()
    assert found.volume == pytest.approx(cell * float((roof - floor).sum()), rel=0.01)


STEPPED = ("heron_house", "an entry", "a dormer")
"""Houses with a wall that stands on a roof, whose area the heights along the walls miss."""


@pytest.mark.parametrize("name", [name for name in PLANS if name not in STEPPED])
def test_areas_agree_with_outlines_and_slopes(name: str) -> None:
    """Floor, slopes over it, and clear heights along its outline give the area of the shell."""
    plan = PLANS[name]()
    shell, register = register_joints(plan)
    assert plan.base is not None
    floor = float(plan.base.top)
    room = _room_of(plan, shell, floor)
    edge = room.buffer(-0.01, join_style=2).boundary
    marks = shapely.line_interpolate_point(edge, np.arange(0.01, edge.length, 0.02))
    x, y, cell = _grid_of(plan, shell, floor)
    _, slope = _under_roof(shell, x, y)
    height, _ = _under_roof(shell, shapely.get_x(marks), shapely.get_y(marks))
    walls = float((height - floor).mean()) * room.boundary.length
    expected = cell * (len(x) + float(slope.sum())) + walls
    assert measure_enclosure(shell, register).area == pytest.approx(expected, rel=0.02)


def _under_roof(shell: Shell, x: np.ndarray, y: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Return the height of the lowest roof face over plan points, and its area over plan area."""
    height, slope = np.full(len(x), np.inf), np.ones(len(x))
    for panel in shell.panels:
        if panel.role == "roof":
            ring = [panel.frame.point(uv)[:2] for uv in panel.inner]
            under = shapely.contains_xy(shapely.Polygon(ring).buffer(0.004), x, y)
            n, o = panel.frame.n, panel.frame.origin
            z = o[2] - ((x - o[0]) * n[0] + (y - o[1]) * n[1]) / n[2]
            lower = under & (z < height)
            height, slope = np.where(lower, z, height), np.where(lower, 1.0 / n[2], slope)
    return height, slope


def _room_of(plan: Plan, shell: Shell, floor: float) -> shapely.Geometry:
    """Return the outline of the lowest floor inside the inner faces of its walls."""
    rings = [[(float(x), float(y)) for x, y in f.corners] for f in plan.footprints]
    bands = []
    for wall in shell.panels:
        corners = [wall.frame.point(uv) for uv in wall.inner]
        if wall.role == "wall" and min(p[2] for p in corners) < floor + 0.2:
            line = shapely.LineString([p[:2] for p in corners])
            n = wall.frame.n
            outer = translate(line, n[0] * wall.thickness, n[1] * wall.thickness)
            bands.append(shapely.MultiLineString([line, outer]).convex_hull.buffer(0.004))
    whole = shapely.union_all([shapely.Polygon(ring) for ring in rings])
    parts = whole.difference(shapely.union_all(bands))
    return max(getattr(parts, "geoms", [parts]), key=lambda part: part.area)


def _grid_of(plan: Plan, shell: Shell, floor: float) -> tuple[np.ndarray, np.ndarray, float]:
    """Return a grid over the lowest floor, and the area of its cell."""
    room = _room_of(plan, shell, floor)
    step = 0.03
    x0, y0, x1, y1 = room.bounds
    xs, ys = np.arange(x0 + step / 2, x1, step), np.arange(y0 + step / 2, y1, step)
    x, y = (g.ravel() for g in np.meshgrid(xs, ys))
    within = shapely.contains_xy(room, x, y)
    return x[within], y[within], step * step


def test_floors_are_counted_storey_by_storey() -> None:
    """Heron House: an L of 1,088 sq ft and an entry below, the L alone in the loft."""
    _, shell, _, found = house("heron_house")
    t = next(p.thickness for p in shell.panels if p.role == "wall")
    foot = 0.3048
    main = 1088 * foot**2 - 148 * foot * t + 4 * t * t
    entry = (10 * foot - 2 * t) * 6 * foot
    assert found.floors[0] == pytest.approx(main + entry, rel=1e-6)
    assert found.floors[1] == pytest.approx(main, rel=2e-3)
    assert found.floor_area == pytest.approx(sum(found.floors))


def test_a_missing_panel_still_gives_a_figure_and_a_warning() -> None:
    """Without one panel the planes beside it close the house; the rule says to check the figure."""
    shell = gable_box()
    whole = measure_enclosure(shell, build_register(shell))
    for lost in ("A.1", "R1.2"):
        open_shell = replace(shell, panels=tuple(p for p in shell.panels if p.id != lost))
        found = measure_enclosure(open_shell, build_register(open_shell))
        assert found.volume == pytest.approx(whole.volume, rel=1e-9)
        assert "check the figure" in found.rule


def test_a_missing_wall_is_closed_by_a_box() -> None:
    """Without a whole gable wall the figure is off by a wall's thickness, and is marked."""
    shell = gable_box()
    whole = measure_enclosure(shell, build_register(shell))
    open_shell = replace(shell, panels=tuple(p for p in shell.panels if p.plane_id != "D"))
    found = measure_enclosure(open_shell, build_register(open_shell))
    assert found.volume == pytest.approx(whole.volume * (L + THICK) / L, rel=1e-6)
    assert len(found.warnings) == 1


def test_two_walls_enclose_nothing() -> None:
    """A shell that is no house has no volume, and says so."""
    shell = flush_pair()
    found = measure_enclosure(shell, build_register(shell))
    assert (found.volume, found.area, found.floor_area) == (0.0, 0.0, 0.0)
    assert "encloses nothing" in found.rule


def test_the_users_own_volume_comes_with_the_users_rule() -> None:
    """An own volume replaces ours and names its rule."""
    shell = gable_box()
    found = measure_enclosure(shell, build_register(shell))
    own = with_own_volume(found, 40.0, "clear room volumes, tape measure")
    assert own.volume == 40.0
    assert own.area == found.area
    assert own.rule.startswith("Volume given by the user: clear room volumes, tape measure.")
