"""An extra corner in an outline does not part a joint."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.samples import THICK, flush_pair, gable_box, plate

from seamwright.geometry.types import Frame, Ring
from seamwright.joints.register import build_register
from seamwright.shell.types import Panel, Shell


def with_middles(panel: Panel) -> Panel:
    """Return the panel with a corner more in the middle of each side."""

    def ring(r: Ring) -> Ring:
        sides = zip(r, r[1:] + r[:1], strict=True)
        return tuple(p for a, b in sides for p in (a, ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)))

    return replace(panel, inner=ring(panel.inner), outer=ring(panel.outer))


@pytest.mark.parametrize("shell", [flush_pair(), gable_box()])
def test_corners_on_straight_sides_change_no_joint(shell: Shell) -> None:
    """Panels whose sides are drawn in two halves have the joints of the whole sides."""
    whole = build_register(shell)
    halves = tuple(with_middles(panel) for panel in shell.panels)
    parted = build_register(replace(shell, panels=halves))
    assert {j.id: round(j.length, 6) for j in parted.joints} == {
        j.id: round(j.length, 6) for j in whole.joints
    }
    assert [node.id for node in parted.nodes] == [node.id for node in whole.nodes]
    assert parted.breaks == whole.breaks


def test_a_seam_parted_by_a_notch_stays_two_joints() -> None:
    """Two stretches with a space between are two joints, the lower one first."""
    frame = Frame(origin=(0.0, THICK, 0.0), u=(1.0, 0.0, 0.0), v=(0.0, 0.0, 1.0))
    notched: Ring = ((0, 0), (1, 0), (1, 0.8), (0.6, 0.8), (0.6, 1.6), (1, 1.6), (1, 2.4), (0, 2.4))
    beside: Ring = ((1.003, 0.0), (2.0, 0.0), (2.0, 2.4), (1.003, 2.4))
    pair = (plate("A.1", "wall", frame, notched), plate("A.2", "wall", frame, beside))
    found = {j.id: j for j in build_register(replace(flush_pair(), panels=pair)).joints}
    assert sorted(found) == ["A.1-A.2", "A.1-A.2:2"]
    assert found["A.1-A.2"].line.middle[2] == pytest.approx(0.4)
