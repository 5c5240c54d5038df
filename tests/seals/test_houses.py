"""The built-in houses, from plan to seal schedule."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest
from tests.hand_seals import INCH

import seamwright
from seamwright.io.plan import read_plan
from seamwright.joints.register import build_register
from seamwright.joints.section import cut_sections
from seamwright.joints.types import Register, Section
from seamwright.seals.catalog import default_catalog
from seamwright.seals.schedule import plan_seals
from seamwright.seals.types import SealSchedule
from seamwright.shell.build import build_shell

FOLDER = Path(seamwright.__file__).parent / "data" / "houses"
HOUSES = ["first_house", "heron_house", "cypress_house"]


@cache
def sealed(name: str) -> tuple[Register, dict[str, Section], SealSchedule]:
    """Return register, sections and schedule of a built-in house."""
    plan = read_plan(FOLDER / f"{name}.yaml").plan
    shell = build_shell(plan)
    register = build_register(shell, plan.overrides)
    sections = cut_sections(shell, register.joints)
    schedule = plan_seals(
        shell,
        register,
        sections,
        catalog=default_catalog(),
        decisions=plan.decisions,
        overrides=plan.overrides,
        climate_zone=plan.site.climate_zone,
        zone_edition=plan.site.zone_edition,
    )
    return register, sections, schedule


@pytest.mark.parametrize("name", HOUSES)
def test_every_joint_is_sealed_or_named(name: str) -> None:
    """No joint of a house falls through the schedule."""
    register, _, schedule = sealed(name)
    sealed_ids = {s.joint_id for s in schedule.strips} | {b.joint_id for b in schedule.beads}
    named = {f.subject for f in schedule.findings}
    assert {joint.id for joint in register.joints} <= sealed_ids | named


@pytest.mark.parametrize("name", HOUSES)
def test_every_strip_has_its_stock_and_its_lap(name: str) -> None:
    """In the built-in houses stock covers every joint, with at least its land on each skin."""
    land = default_catalog().laps.land
    kinds = {joint.id: joint.kind for joint in sealed(name)[0].joints}
    for strip in sealed(name)[2].strips:
        assert strip.stock_id is not None, strip.joint_id
        assert strip.lap >= land.get(kinds[strip.joint_id], land["*"]) - 1e-6, strip.joint_id


@pytest.mark.parametrize("name", HOUSES)
def test_common_practice_widths_hold_in_the_house(name: str) -> None:
    """Flush seams take 4 in and a ridge on a beam 18 in, but where the plan corrects a width."""
    register, _, schedule = sealed(name)
    corrected = {o.joint for o in read_plan(FOLDER / f"{name}.yaml").plan.overrides}
    joints = {joint.id: joint for joint in register.joints}
    for strip in schedule.strips:
        joint = joints[strip.joint_id]
        if strip.joint_id in corrected or (strip.wings_open and joint.kind != "ridge"):
            continue
        assert strip.width is not None
        width = strip.width / INCH
        if joint.kind in {"wall_spline", "roof_spline", "floor_spline", "opening"}:
            assert width == pytest.approx(4), strip.joint_id
        if joint.kind == "ridge" and strip.wings_open:
            assert width == pytest.approx(18), strip.joint_id


@pytest.mark.parametrize("name", HOUSES)
def test_roof_joints_that_run_out_are_dammed_over_the_wall(name: str) -> None:
    """Every roof seam that leaves the air boundary under an overhang has a dam over the wall."""
    register, _, schedule = sealed(name)
    dammed = {d.joint_id for d in schedule.dams if d.why == "wall_line"}
    running = {
        joint.id
        for joint in register.joints
        if joint.kind == "roof_spline"
        and joint.inner.line is not None
        and joint.inner.length < joint.line.length - 0.1
    }
    assert running
    assert running <= dammed


@pytest.mark.parametrize("name", HOUSES)
def test_sections_see_the_gap_of_every_seam(name: str) -> None:
    """The inner way of a seam in one plane is as wide as the gap of the register."""
    register, sections, _ = sealed(name)
    for joint in register.joints:
        path = sections[joint.id].inner
        if joint.kind.endswith("_spline") and path is not None and not joint.inner.timbers:
            assert path.span == pytest.approx(joint.gap, abs=1e-6), joint.id
