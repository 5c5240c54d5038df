"""Patches of nodes, and lines that change face there."""

from __future__ import annotations

import pytest
from tests.hand_seals import HOUSE, INCH, plan, signed
from tests.samples import gable_box

from seamwright.joints.types import Node


def test_each_node_is_patched_on_the_face_of_its_joints() -> None:
    """A node of two joints sealed inside gets one inner patch; a lone end gets none."""
    nodes = [
        Node(
            id="N1", kind="eave+roof_spline", at=(2.4, 0.1, 2.5), joints=("A.1-R1.1", "R1.1-R1.2")
        ),
        Node(id="N2", kind="sill", at=(0, 0, 0), joints=("A.1-slab",)),
    ]
    patches = plan(gable_box(), HOUSE, nodes).patches
    assert [(p.node_id, p.face, p.side) for p in patches] == [
        ("N1", "inner", pytest.approx(6 * INCH))
    ]


def test_a_line_that_changes_face_at_a_node_is_a_finding() -> None:
    """Inner walls under an outer roof leave the line to be carried through the joint."""
    node = Node(id="N1", kind="eave+roof_spline", at=(0, 0, 0), joints=("A.1-R1.1", "R1.1-R1.2"))
    schedule = plan(gable_box(), HOUSE, [node], decisions=[signed("outer", kinds=("eave",))])
    assert "crossing:N1" in {f.id for f in schedule.findings}


def test_a_change_of_face_is_told_in_words() -> None:
    """Joint kinds are written as the trade speaks them, without underscores."""
    node = Node(id="N1", kind="eave+roof_spline", at=(0, 0, 0), joints=("A.1-R1.1", "R1.1-R1.2"))
    schedule = plan(gable_box(), HOUSE, [node], decisions=[signed("outer", kinds=("eave",))])
    told = next(f.sentence.text for f in schedule.findings if f.id == "crossing:N1")
    assert "inner on roof spline, outer on eave" in told


def test_a_joint_sealed_on_both_faces_carries_the_line_across() -> None:
    """Where one joint of a node is sealed on both faces, the line passes there unremarked."""
    joints = ("A.1-R1.1", "R1.1-R1.2", "A.1-W1")
    node = Node(id="N1", kind="eave+opening+roof_spline", at=(0, 0, 0), joints=joints)
    decisions = [signed("outer", kinds=("eave",)), signed("both", kinds=("opening",))]
    schedule = plan(gable_box(), HOUSE, [node], decisions=decisions)
    assert "crossing:N1" not in {f.id for f in schedule.findings}
