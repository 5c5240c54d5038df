"""Runs: which strips are laid as one length."""

from __future__ import annotations

import math

import pytest
from tests.takeoff.house_kit import joint, register, strip, wall_line

from seamwright.takeoff.runs import lay_runs
from seamwright.tolerance import DEFAULT


def test_a_sill_over_four_panels_is_one_run() -> None:
    """Collinear sills of one stock are laid as one length; the seams above stay apart."""
    joints, nodes = wall_line(4, 1.2)
    runs = lay_runs([strip(j) for j in joints], register(joints, nodes), DEFAULT)
    assert sorted(len(run.strips) for run in runs) == [1, 1, 1, 4]
    sill = max(runs, key=lambda run: len(run.strips))
    assert sill.joint_ids == ("A.0-slab", "A.1-slab", "A.2-slab", "A.3-slab")
    assert sill.length == pytest.approx(4.8, abs=1e-12)


def test_order_and_direction_do_not_matter() -> None:
    """The same runs come back when strips are shuffled and lines are turned around."""
    joints, nodes = wall_line(4, 1.2)
    turned = tuple(
        joint(j.id, j.line.end, j.line.start, j.kind, dihedral=j.dihedral) for j in joints
    )
    straight = lay_runs([strip(j) for j in joints], register(joints, nodes), DEFAULT)
    back = lay_runs([strip(j) for j in reversed(turned)], register(turned, nodes), DEFAULT)
    assert [run.joint_ids for run in straight] == [run.joint_ids for run in back]
    assert [run.length for run in straight] == pytest.approx([run.length for run in back])


def test_gaps_between_panels_belong_to_the_run() -> None:
    """A strip crosses the gap between two panels, so its length includes the gap."""
    a = joint("A", (0, 0, 0), (1, 0, 0))
    b = joint("B", (1.02, 0, 0), (2, 0, 0))
    (run,) = lay_runs([strip(a), strip(b)], register((a, b)), DEFAULT)
    assert run.length == pytest.approx(2.0, abs=1e-12)


@pytest.mark.parametrize(
    ("other", "change"),
    [
        (joint("B", (1, 0, 0), (1, 1, 0)), {}),
        (joint("B", (1, 0, 0), (2, 0, 0), dihedral=math.pi), {}),
        (joint("B", (1.5, 0, 0), (2, 0, 0)), {}),
        (joint("B", (1, 0.02, 0), (2, 0.02, 0)), {}),
        (joint("B", (1, 0, 0), (2, 0, 0)), {"stage": "before_roof"}),
        (joint("B", (1, 0, 0), (2, 0, 0)), {"face": "outer"}),
        (joint("B", (1, 0, 0), (2, 0, 0)), {"stock_id": "s300"}),
        (joint("B", (1, 0, 0), (2, 0, 0)), {"length": 0.4}),
    ],
    ids=["corner", "angle", "far", "aside", "stage", "face", "stock", "part"],
)
def test_what_differs_is_not_joined(other: object, change: dict[str, object]) -> None:
    """A turn, another angle, a distance, another stage, face, stock or a part line ends a run."""
    a = joint("A", (0, 0, 0), (1, 0, 0))
    pair = register((a, other))  # type: ignore[arg-type]
    runs = lay_runs([strip(a), strip(other, **change)], pair, DEFAULT)  # type: ignore[arg-type]
    assert len(runs) == 2


def test_two_strips_on_one_joint_make_two_runs() -> None:
    """Two strips side by side on the same joints run on each into its own follower."""
    a, b = joint("A", (0, 0, 0), (1, 0, 0)), joint("B", (1, 0, 0), (2, 0, 0))
    runs = lay_runs([strip(a), strip(b), strip(a), strip(b)], register((a, b)), DEFAULT)
    assert [run.joint_ids for run in runs] == [("A", "B"), ("A", "B")]


def test_no_strips_make_no_runs() -> None:
    """Nothing to lay is an empty result, not an error."""
    assert lay_runs([], register(()), DEFAULT) == ()
