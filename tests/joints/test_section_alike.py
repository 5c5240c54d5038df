"""Joints that look alike: one cut serves them all, and no other joint."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import pytest

from seamwright.io.plan import read_plan
from seamwright.joints.section import cut_section, cut_sections
from seamwright.joints.section_alike import Likenesses
from seamwright.joints.section_near import Surroundings
from seamwright.joints.types import Joint, Section, SectionShape
from seamwright.shell.types import Member, Shell
from seamwright.workflow import register_joints

REACH = 0.40
PLANS = Path(__file__).parents[1] / "plans"
NAMES = ("gambrel", "turned", "u_court", "dormers3")


def house(name: str) -> tuple[Shell, tuple[Joint, ...]]:
    """Return the shell and the joints of a plan."""
    shell, register = register_joints(read_plan(PLANS / f"{name}.yaml").plan)
    return shell, tuple(register.joints)


def turned_alike(shape: SectionShape, other: SectionShape) -> bool:
    """Return whether two shapes are the same, wherever their outlines begin."""
    a, b = shape.outline, other.outline
    named = (shape.material, shape.owner, len(a)) == (other.material, other.owner, len(b))
    n = len(a)
    return named and any(
        all(math.dist(a[i], b[(i + k) % n]) < 1e-8 for i in range(n)) for k in range(n)
    )


def assert_same(section: Section, other: Section) -> None:
    """Hold two sections to the same place, shapes and paths."""
    for name in ("origin", "u", "v"):
        assert getattr(section.frame, name) == pytest.approx(getattr(other.frame, name), abs=1e-8)
    assert len(section.shapes) == len(other.shapes)
    assert all(map(turned_alike, section.shapes, other.shapes))
    for mine, its in ((section.inner, other.inner), (section.outer, other.outer)):
        assert (mine is None) == (its is None)
        if mine is not None and its is not None:
            assert len(mine.path) == len(its.path)
            ends = zip((*mine.path, *mine.lands), (*its.path, *its.lands), strict=True)
            assert all(math.dist(p, q) < 1e-8 for p, q in ends)


@pytest.mark.parametrize("name", NAMES)
def test_one_cut_for_all_that_look_alike_is_each_one_s_own(name: str) -> None:
    """Every section of a house is the one its joint would get if it were cut alone."""
    shell, joints = house(name)
    near = Surroundings(shell)
    sections = cut_sections(shell, joints, REACH)
    for joint in joints:
        assert_same(sections[joint.id], cut_section(near.of(joint, REACH), joint, REACH))


def test_a_house_of_equal_panels_has_fewer_looks_than_joints() -> None:
    """In a house with equal panels, fewer than two thirds of the joints need a cut of their own."""
    shell, joints = house("gambrel")
    near, likenesses = Surroundings(shell), Likenesses()
    own = [likenesses.of(joint, near.of(joint, REACH), REACH) for joint in joints]
    looks = {one.key for one in own if one is not None}
    assert len(looks) < len(joints) * 2 / 3


def test_a_timber_close_by_makes_a_joint_another() -> None:
    """A timber within sight of a joint changes what it is like; one out of sight does not."""
    shell, joints = house("gambrel")
    joint = next(one for one in joints if one.kind == "wall_spline")
    x, y, z = joint.line.middle

    def with_post(away: float) -> Shell:
        foot, head = (x + away, y + away, z - 0.5), (x + away, y + away, z + 0.5)
        post = Member(
            id="P", kind="post", start=foot, end=head, up=(1.0, 0.0, 0.0), width=0.05, depth=0.05
        )
        return replace(shell, members=(*shell.members, post))

    def key(of: Shell) -> object:
        found = Likenesses().of(joint, Surroundings(of).of(joint, REACH), REACH)
        assert found is not None
        return found.key

    assert key(with_post(0.2)) != key(shell)
    assert key(with_post(0.2)) != key(with_post(0.21))
    assert key(with_post(2.0)) == key(shell)
