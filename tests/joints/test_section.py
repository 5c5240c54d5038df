"""Sections of joints: what is cut, and the way a strip takes on each face."""

from __future__ import annotations

import itertools
import math
from dataclasses import replace

import pytest
from shapely.geometry import Polygon
from tests.hand_joints import (
    corner_joint,
    eave_joint,
    joint,
    opening_joint,
    ridge_joint,
    roof_seam,
    sill_joint,
    spline_joint,
)
from tests.samples import (
    CORE,
    GAP,
    PITCH,
    SKIN,
    THICK,
    corner_pair,
    flush_pair,
    gable_box,
)

from seamwright.joints.section import cut_section, cut_sections
from seamwright.joints.section_spline import area
from seamwright.joints.types import Joint, Section
from seamwright.shell.types import Opening, Shell

INCH = 0.0254


def spans(shell: Shell, at: Joint) -> tuple[float, float]:
    """Return the developed spans of both faces."""
    section = cut_section(shell, at)
    assert section.inner is not None
    assert section.outer is not None
    return section.inner.span, section.outer.span


def of(section: Section, material: str, owner: str | None = None) -> float:
    """Return the area of one material in a section, of one owner or all."""
    return math.fsum(
        area(s.outline)
        for s in section.shapes
        if s.material == material and owner in {None, s.owner}
    )


def test_flush_seam_spans_its_gap() -> None:
    """At a flush seam the way from skin to skin is the gap between them, on both faces."""
    assert spans(flush_pair(), spline_joint()) == pytest.approx((GAP, GAP))


def test_laps_at_a_seam_run_apart_along_the_skins() -> None:
    """The two laps of a flush seam point away from each other in one line."""
    section = cut_section(flush_pair(), spline_joint())
    assert section.inner is not None
    (ax, ay), (bx, by) = section.inner.lands
    assert (ax + bx, ay + by) == pytest.approx((0.0, 0.0))


def test_corner_closes_inside_and_wraps_the_through_wall_outside() -> None:
    """Inside the skins meet; outside the end of the through wall lies between them."""
    assert spans(corner_pair(), corner_joint()) == pytest.approx((0.0, THICK), abs=1e-9)


def test_laps_of_a_corner_stand_square() -> None:
    """Both laps of a square corner stand at a right angle, on both faces."""
    section = cut_section(corner_pair(), corner_joint())
    for path in (section.inner, section.outer):
        assert path is not None
        (ax, ay), (bx, by) = path.lands
        assert ax * bx + ay * by == pytest.approx(0.0, abs=1e-9)


def test_plumb_cut_ridge_without_a_beam_closes() -> None:
    """Plumb cuts that meet leave no span, inside or outside."""
    at = ridge_joint(beam=False)
    assert spans(gable_box(beam=False), at) == pytest.approx((0.0, 0.0), abs=1e-9)


def test_ridge_strip_is_led_over_the_beam() -> None:
    """Over a beam backed to both slopes the way is its width measured on the slopes."""
    inner, outer = spans(gable_box(), ridge_joint())
    assert inner == pytest.approx(0.1334 * math.hypot(1.0, PITCH))
    assert outer == pytest.approx(0.0, abs=1e-9)


def test_ridge_strip_crosses_a_beam_whose_edges_touch_the_roof() -> None:
    """Over a flat beam whose top edges touch the undersides the way is the beam's width."""
    shell = gable_box()
    beam = shell.members[0]
    drop = beam.width / 2 * PITCH
    low = Shell(
        builds=shell.builds,
        panels=shell.panels,
        members=(
            type(beam)(
                id=beam.id,
                kind=beam.kind,
                start=(beam.start[0], beam.start[1], beam.start[2] - drop),
                end=(beam.end[0], beam.end[1], beam.end[2] - drop),
                up=beam.up,
                width=beam.width,
                depth=beam.depth,
            ),
        ),
    )
    assert spans(low, ridge_joint())[0] == pytest.approx(beam.width)


def test_flush_eave_closes_and_its_outer_lap_runs_on_under_the_overhang() -> None:
    """A bevel-cut wall top leaves no span; the outer lap lies on the roof's underside."""
    section = cut_section(gable_box(), eave_joint())
    assert section.inner is not None
    assert section.outer is not None
    assert (section.inner.span, section.outer.span) == pytest.approx((0.0, 0.0), abs=1e-9)
    down = section.outer.lands[1]
    assert down[1] < 0
    assert down == pytest.approx((-math.cos(math.atan(PITCH)), -math.sin(math.atan(PITCH))))


def test_sill_laps_on_the_slab_inside_and_down_its_side_outside() -> None:
    """The inner lap lies on the slab's top; the outer one goes down the slab's flush side."""
    section = cut_section(gable_box(), sill_joint())
    assert section.inner is not None
    assert section.outer is not None
    assert section.inner.lands[1] == pytest.approx((1.0, 0.0), abs=1e-9)
    assert section.outer.lands[1] == pytest.approx((0.0, -1.0), abs=1e-9)


def test_opening_laps_onto_the_skin_and_into_the_reveal() -> None:
    """Around an opening one lap lies on the skin and the other goes into the depth of the wall."""
    section = cut_section(gable_box(), opening_joint())
    assert section.inner is not None
    assert section.inner.span == 0.0
    assert section.inner.lands == (
        pytest.approx((0.0, -1.0), abs=1e-9),
        pytest.approx((-1.0, 0.0), abs=1e-9),
    )


def test_penetration_is_cut_through_its_hole() -> None:
    """The hole of a pipe is open in the section, as wide as the pipe."""
    shell = gable_box()
    at = shell.penetrations[0].at
    pipe = joint(
        "R1.1-P1",
        "penetration",
        at,
        at,
        panels=("R1.1",),
        others=("P1",),
        contact="penetration",
    )
    section = cut_section(shell, pipe)
    assert section.inner is not None
    assert math.hypot(*section.inner.path[0]) == pytest.approx(0.055, abs=1e-6)


def test_skins_and_core_have_the_build_s_thickness() -> None:
    """The layers of a seam add up to the area of the panels shown."""
    section = cut_section(flush_pair(), spline_joint(), reach=0.25)
    length = 0.5 - GAP
    assert of(section, "skin") == pytest.approx(2 * SKIN * length)
    taken = 2 * SKIN * (0.0762 - GAP)
    assert of(section, "core") == pytest.approx(CORE * length - taken)
    assert of(section, "gap") == pytest.approx(GAP * (THICK - 2 * SKIN))


@pytest.mark.parametrize(
    ("kind", "material", "expected"),
    [
        ("surface", "spline", 2 * 0.0762 * SKIN),
        ("block", "spline", 2 * 0.0762 * SKIN),
        ("lumber", "timber", 0.0762 * CORE),
        ("i_joist", "timber", 2 * 0.0762 * 0.0381 + 0.0095 * (CORE - 2 * 0.0381)),
        ("cam_lock", "spline", 0.0),
    ],
)
def test_each_spline_is_drawn_from_its_sizes(kind: str, material: str, expected: float) -> None:
    """A spline shows with the width of the build and the depth of skin or core."""
    section = cut_section(flush_pair(spline=kind), spline_joint())  # type: ignore[arg-type]
    assert of(section, material, "spline") == pytest.approx(expected)


def test_no_two_parts_of_a_section_overlap() -> None:
    """A beam is backed to the roof, cores give way to splines and let-in timbers."""
    for shell, at in (
        (gable_box(), ridge_joint()),
        (gable_box(), eave_joint()),
        (gable_box(), sill_joint()),
        (corner_pair(), corner_joint()),
        (flush_pair(spline="block"), spline_joint()),
        (flush_pair(spline="i_joist"), spline_joint()),
    ):
        shapes = [Polygon(s.outline) for s in cut_section(shell, at).shapes]
        for a, b in itertools.combinations(shapes, 2):
            assert a.intersection(b).area < 2e-7


def test_framed_edges_have_their_timber() -> None:
    """A sill shows the bottom plate in the wall's recess, a corner the end timbers of both."""
    sill = cut_section(gable_box(), sill_joint())
    assert of(sill, "timber", "A.1 let-in timber") == pytest.approx(CORE * 0.0381)
    corner = cut_section(corner_pair(), corner_joint())
    owners = {s.owner for s in corner.shapes if s.material == "timber"}
    assert owners == {"A.1 let-in timber", "B.1 let-in timber"}


def test_a_section_looks_from_outside_left_or_from_above() -> None:
    """Plumb joints are cut level with the outside up, level ones upright with the outside left."""
    seam = cut_section(flush_pair(), spline_joint()).frame
    assert seam.n == pytest.approx((0.0, 0.0, 1.0))
    assert seam.v == pytest.approx((0.0, -1.0, 0.0))
    sill = cut_section(gable_box(), sill_joint()).frame
    assert sill.v == pytest.approx((0.0, 0.0, 1.0))
    assert sill.u == pytest.approx((0.0, 1.0, 0.0))


def test_a_cut_moves_off_the_middle_when_a_skylight_is_there() -> None:
    """A roof seam is cut beside a skylight that stands in its middle."""
    shell = gable_box()
    frame = shell.panels[6].frame
    middle = cut_section(shell, roof_seam()).frame.origin
    u, v, _ = frame.local(middle)
    hatch = Opening(
        id="S1",
        kind="skylight",
        plane_id="R1",
        frame=frame,
        outline=((u - 0.1, v - 0.1), (u + 0.1, v - 0.1), (u + 0.1, v + 0.1), (u - 0.1, v + 0.1)),
    )
    moved = cut_section(replace(shell, openings=(hatch,)), roof_seam()).frame.origin
    assert math.dist(moved, middle) > 0.2


def test_a_face_without_a_line_has_no_path() -> None:
    """A joint without a line on a face gets no path there."""
    at = spline_joint()
    blind = joint(
        at.id,
        at.kind,
        at.line.start,
        at.line.end,
        outer=type(at.outer)(line=None, offset=0.0, reach="never", hidden_by=""),
    )
    assert cut_section(flush_pair(), blind).outer is None


def test_sections_of_a_house_are_those_of_its_joints() -> None:
    """Cutting all joints at once gives what cutting each of them gives."""
    shell = gable_box()
    joints = [ridge_joint(), eave_joint(), roof_seam(), sill_joint(), opening_joint()]
    assert cut_sections(shell, joints) == {j.id: cut_section(shell, j) for j in joints}
