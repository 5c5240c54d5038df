"""From a house's real joints to the meshes and air ways of transient runs."""

from __future__ import annotations

import functools

import numpy as np
import pytest
import shapely

from seamwright.io.plan import builtin_house, read_plan
from seamwright.moisture.air_ways import in_series
from seamwright.moisture.covers import Covers, Strip, Strips
from seamwright.moisture.verdict.leak import largest_leak
from seamwright.report.dry_cases import expected_leakage, next_level, sealed, set_to
from seamwright.report.dry_joints import dry_joints
from seamwright.report.dry_probes import OUTER, probes_of
from seamwright.report.dryness_types import FACES, Asked, DryJoint
from seamwright.report.joint_mesh import joint_mesh
from seamwright.seals.catalog import default_catalog
from seamwright.workflow import seal_house


@functools.cache
def joints(name: str = "first_house") -> tuple[DryJoint, ...]:
    """Return the joint types of a built-in house."""
    house = seal_house(read_plan(builtin_house(name)).plan, default_catalog())
    return dry_joints(house, Asked())


def test_every_type_of_the_first_house_has_a_way_for_air() -> None:
    """Each kind of joint of the smallest house is run, on 100 to 450 volumes."""
    found = joints()
    assert {j.joint.kind for j in found} == {"sill", "wall_spline", "wall_corner", "eave", "rake",
                                             "roof_spline", "ridge"}  # fmt: skip
    for one in found:
        assert one.why_not == ""
        assert 100 < len(one.cut.grid.points) < 450


def test_meshes_fill_their_sections() -> None:
    """The volumes add up to the section's area, and every stretch of its edge meets one air."""
    for one in joints():
        mesh = joint_mesh(one.cut, Covers(), Strips()).mesh
        whole = shapely.unary_union([shapely.Polygon(r.outline) for r in one.cut.plain.regions])
        assert mesh.part_area.sum() == pytest.approx(whole.area, rel=1e-3)
        asked = sum(np.hypot(*np.subtract(e.start, e.end)) for e in one.cut.plain.exposures)
        assert mesh.rim_length.sum() == pytest.approx(asked, rel=1e-3)
        assert mesh.link_ratio.min() > 0.0


def test_a_strip_covers_its_width() -> None:
    """A strip of 150 mm on the outer face of a seam resists vapor over 150 mm of it."""
    (one,) = [j for j in joints() if j.joint.kind == "wall_spline"]
    bare = joint_mesh(one.cut, Covers(), Strips()).mesh
    mesh = joint_mesh(one.cut, Covers(), Strips(outer=Strip(width=0.15, sd=50.0))).mesh
    assert mesh.rim_length[mesh.rim_vapor > 1e11].sum() == pytest.approx(0.15, abs=0.004)
    assert mesh.rim_length.sum() == pytest.approx(bare.rim_length.sum())
    assert bare.rim_vapor.max() < 1e11


def test_air_goes_around_the_splines_of_a_wall() -> None:
    """The way through a surface-spline seam is longer than the wall is thick, twice by a spline."""
    (one,) = [j for j in joints() if j.joint.kind == "wall_spline"]
    assert one.cut.seam is not None
    assert 0.165 + 0.1 < one.cut.seam.length < 0.165 + 0.2


def test_skins_are_watched_on_the_right_side() -> None:
    """The outer skin's probe lies in the outer half of the section."""
    (one,) = [j for j in joints() if j.joint.kind == "wall_spline"]
    volumes = joint_mesh(one.cut, Covers(), Strips())
    probe = next(p for p, _ in probes_of(one.cut, volumes) if p.name == OUTER)
    seam = one.cut.seam
    assert seam is not None
    at = volumes.mesh.points[volumes.mesh.part_cell[probe.parts]]
    far = np.linalg.norm(at - volumes.mesh.points[seam.cells[-1]], axis=1)
    assert far.max() <= 0.04


def test_a_joint_with_a_skin_running_by_is_left_out_with_its_reason() -> None:
    """The tee of an inner wall has no way for air, and says so."""
    tees = [j for j in joints("cypress_house") if j.joint.kind == "wall_tee"]
    assert tees
    assert all("runs by" in one.why_not for one in tees)


def test_lines_are_set_so_that_the_whole_leaks_as_asked() -> None:
    """Whatever the face, the lines in series give the leakage asked; open lines stay open."""
    lines = joints()[0].lines
    for face in FACES:
        for level in (0.01, 0.3, expected_leakage(lines, face)):
            assert in_series(set_to(lines, face, level)) == pytest.approx(level)
    assert set_to(lines, "inner", 0.1)[2] == sealed(lines, "inner")[2] == lines.crack


def test_two_strips_leak_less_than_one() -> None:
    """Both faces sealed leak less than either alone."""
    for one in joints():
        both = expected_leakage(one.lines, "both")
        assert both < min(expected_leakage(one.lines, f) for f in ("inner", "outer"))


def test_levels_close_in_on_the_largest_that_passes() -> None:
    """The search ends with a pass right below a failure, or at an end of the levels."""
    levels = (0.01, 0.03, 0.1, 0.3, 1.0, 3.0)
    for limit in (0.005, 0.02, 0.2, 0.5, 9.0):
        margins: dict[float, float] = {}
        while (level := next_level(margins, 0.42, levels)) is not None:
            margins[level] = 1.0 if level < limit else -1.0
        passed = [k for k in (*levels, 0.42) if k < limit]
        failed = [k for k in (*levels, 0.42) if k >= limit]
        assert not passed or max(passed) in margins
        assert not failed or min(failed) in margins
        assert not passed or min(levels) in margins
        assert len(margins) <= 5


def test_a_joint_that_is_wetter_when_tighter_is_found_out() -> None:
    """Where only leaky levels pass, the lowest is run all the same, and no leak counts as limit."""
    levels = (0.01, 0.03, 0.1, 0.3, 1.0, 3.0)
    margins: dict[float, float] = {}
    while (level := next_level(margins, 0.42, levels)) is not None:
        margins[level] = 1.0 if 0.2 < level < 2.0 else -1.0
    found = largest_leak(sorted(margins), [margins[k] for k in sorted(margins)])
    assert (found.case, found.level, found.lowest) == ("not monotone", None, 0.01)
