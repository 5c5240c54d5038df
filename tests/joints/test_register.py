"""The register of whole sample shells."""

from __future__ import annotations

import math
from collections import Counter

import pytest
from tests.samples import GAP, corner_pair, flush_pair, gable_box

from seamwright.joints.register import build_register


def test_flush_pair_has_one_spline() -> None:
    """Two panels side by side meet in one flush seam with the gap between them."""
    register = build_register(flush_pair())
    (joint,) = register.joints
    assert (joint.id, joint.kind, joint.contact) == ("A.1-A.2", "wall_spline", "edge_edge")
    assert joint.length == pytest.approx(2.4)
    assert joint.gap == pytest.approx(GAP)
    assert joint.dihedral == pytest.approx(math.pi)
    assert joint.inner.offset == pytest.approx(0.0, abs=1e-9)


def test_corner_pair_has_one_corner() -> None:
    """A wall that butts against another's end is one outside corner, counted once."""
    (joint,) = build_register(corner_pair()).joints
    assert (joint.id, joint.kind, joint.contact) == ("A.1-B.1", "wall_corner", "edge_face")
    assert joint.outside_corner
    assert joint.dihedral == pytest.approx(math.pi / 2)


def test_gable_box_counts() -> None:
    """The sample house has every joint of each kind and no other."""
    register = build_register(gable_box())
    assert Counter(joint.kind for joint in register.joints) == {
        "wall_spline": 2,
        "wall_corner": 4,
        "sill": 6,
        "eave": 4,
        "rake": 4,
        "ridge": 2,
        "roof_spline": 2,
        "opening": 4,
        "penetration": 1,
    }


def test_gable_box_closes() -> None:
    """The inner and outer lines of the sample house close."""
    assert build_register(gable_box()).breaks == ()
