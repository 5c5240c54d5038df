"""Laws of the enclosed volume: it does not depend on where, how turned, or in what order."""

from __future__ import annotations

import math
import random
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.samples import gable_box

from seamwright.geometry.convex import Level, cut_body, prism
from seamwright.geometry.types import Frame, Vec3
from seamwright.joints.enclosure import measure_enclosure
from seamwright.joints.partition import boundary_area
from seamwright.joints.register import build_register
from seamwright.shell.types import Shell

_BOX = gable_box()
_WHOLE = measure_enclosure(_BOX, build_register(_BOX))


def moved(shell: Shell, turn: float, by: Vec3) -> Shell:
    """Return the panels, supports and members turned about the vertical and shifted."""
    c, s = math.cos(turn), math.sin(turn)

    def way(p: Vec3) -> Vec3:
        return (c * p[0] - s * p[1], s * p[0] + c * p[1], p[2])

    def place(p: Vec3) -> Vec3:
        x, y, z = way(p)
        return (x + by[0], y + by[1], z + by[2])

    def frame(f: Frame) -> Frame:
        return Frame(origin=place(f.origin), u=way(f.u), v=way(f.v))

    return replace(
        shell,
        panels=tuple(replace(p, frame=frame(p.frame)) for p in shell.panels),
        supports=tuple(replace(p, frame=frame(p.frame)) for p in shell.supports),
        members=(),
        openings=(),
        penetrations=(),
    )


@settings(derandomize=True, max_examples=15, deadline=None)
@given(
    st.floats(0, 7),
    st.tuples(st.floats(-500, 500), st.floats(-500, 500), st.floats(-50, 50)),
    st.randoms(use_true_random=False),
)
def test_volume_is_the_same_wherever_the_house_stands(
    turn: float, by: Vec3, dice: random.Random
) -> None:
    """Turning, shifting and shuffling the panels changes neither volume nor areas."""
    shell = moved(_BOX, turn, by)
    shell = replace(shell, panels=tuple(dice.sample(shell.panels, len(shell.panels))))
    found = measure_enclosure(shell, build_register(shell))
    assert found.volume == pytest.approx(_WHOLE.volume, rel=1e-6)
    assert found.area == pytest.approx(_WHOLE.area, rel=1e-6)
    assert found.floor_area == pytest.approx(_WHOLE.floor_area, rel=1e-6)


def test_two_houses_enclose_twice_as_much() -> None:
    """Two houses in one shell are measured one by one."""
    other = moved(_BOX, 0.3, (20.0, 0.0, 0.0))
    panels = _BOX.panels + tuple(replace(p, id=f"Z{p.id}") for p in other.panels)
    slabs = _BOX.supports + tuple(replace(s, id=f"Z{s.id}") for s in other.supports)
    shell = replace(_BOX, panels=panels, supports=slabs, members=())
    found = measure_enclosure(shell, build_register(shell))
    assert found.volume == pytest.approx(2 * _WHOLE.volume, rel=1e-6)
    assert found.area == pytest.approx(2 * _WHOLE.area, rel=1e-6)


@settings(derandomize=True, max_examples=25, deadline=None)
@given(
    st.lists(
        st.tuples(st.floats(-1, 1), st.floats(-1, 1), st.floats(-1, 1), st.floats(-1, 1)),
        max_size=5,
    )
)
def test_cutting_keeps_volume_and_outside(cuts: list[tuple[float, float, float, float]]) -> None:
    """However a box is cut, its parts add up to its volume and to its area against outdoors."""
    parts = [prism([(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)], -1.0, 1.0)]
    levels = []
    for a, b, c, d in cuts:
        size = math.sqrt(a * a + b * b + c * c)
        if size < 0.1:
            continue
        levels.append(Level(normal=(a / size, b / size, c / size), offset=d))
        number = len(levels) - 1
        pieces = [cut_body(part, levels[number], number, 1e-9) for part in parts]
        parts = [piece for pair in pieces for piece in pair if piece is not None]
    assert math.fsum(p.volume for p in parts) == pytest.approx(8.0, rel=1e-9)
    assert boundary_area(parts, levels) == pytest.approx(24.0, rel=1e-6)
