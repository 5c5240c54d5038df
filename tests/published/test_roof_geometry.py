"""Roof lengths and angles against the carpenter's closed formulas.

The rafter table stamped on the steel framing square gives, per foot of common-rafter run, the
length of the common rafter, √(12² + rise²) (US Navy training manual NAVEDTRA 14044, Builder,
volume 2, figure 2-17: 13.89 in at 7 in rise), and of the hip or valley over a square corner,
√(17² + rise²) with 17 for √288 (I. S. Griffith, Carpentry, 1916, sections 20 and 23). The hip
column is from memory and equal to the formula. Backing angles and unequal pitches follow from
vectors, derived here, with the rule tan(backing) = sin(rise angle of the hip) / tan(plan angle).
"""

from __future__ import annotations

import math
from fractions import Fraction as F  # noqa: N817 (a plan is full of fractions)

import numpy as np
import pytest
from tests.shell.plans import box, gable, gapless, hip, tee, wing

from seamwright.shell.build import build_shell
from seamwright.shell.types import Panel, Shell

FOOT = 12.0
TABLE = [
    # rise in inches per foot of run, common rafter, hip or valley rafter, both in inches
    (4, 12.65, 17.44),
    (5, 13.00, 17.69),
    (6, 13.42, 18.00),
    (7, 13.89, 18.36),
    (8, 14.42, 18.76),
    (10, 15.62, 19.70),
    (12, 16.97, 20.78),
    (18, 21.63, 24.74),
]
ROUNDING = 0.006 / FOOT
"""The table is rounded to 0.01 in per foot of run."""


def edges(panels: list[Panel], *, outer: bool = False) -> list[tuple[np.ndarray, np.ndarray]]:
    """Return the edges of one face of panels in space, as pairs of points. [m]"""
    found = []
    for panel in panels:
        ring, w = (panel.outer, panel.thickness) if outer else (panel.inner, 0.0)
        points = [np.array(panel.frame.point(p, w)) for p in ring]
        found += list(zip(points, [*points[1:], points[0]], strict=True))
    return found


def length_on(panels: list[Panel], plan: tuple[float, float, float]) -> float:
    """Return the length of inner edges over the plan line a·x + b·y + c = 0. [m]"""
    a, b, c = plan
    total = 0.0
    for p, q in edges(panels):
        if all(abs(a * x[0] + b * x[1] + c) < 1e-6 for x in (p, q)):
            total += math.dist(p, q)
    return total


def plane(shell: Shell, name: str) -> list[Panel]:
    """Return the panels of one roof plane."""
    return [p for p in shell.panels if p.plane_id == name]


@pytest.mark.source("navedtra-14044", "figure 2-17, first line of the rafter table")
@pytest.mark.parametrize(("rise", "common", "_hip"), TABLE)
def test_common_rafter(rise: int, common: float, _hip: float) -> None:
    """The slope length of a gable's panels is the table's length times the run."""
    roof = gable(pitch=F(rise, 12), overhang_eave=F(0))
    shell = build_shell(gapless(box(roof=(roof,))))
    vs = [v for p in plane(shell, "R1") for _, v in p.inner]
    run = 3.0
    assert max(vs) - min(vs) == pytest.approx(run * common / FOOT, abs=run * ROUNDING)
    assert max(vs) - min(vs) == pytest.approx(run * math.hypot(1, rise / 12), abs=1e-9)


@pytest.mark.source("griffith-1916", "sections 20 and 23")
@pytest.mark.parametrize(("rise", "_common", "slant"), TABLE)
def test_hip_length(rise: int, _common: float, slant: float) -> None:
    """The hip over a square corner is the table's length times the common run."""
    roof = hip(pitch=F(rise, 12), overhang_eave=F(0))
    shell = build_shell(gapless(box(roof=(roof,))))
    run = 3.0
    found = length_on(plane(shell, "R1"), (1.0, -1.0, 0.0))
    assert found == pytest.approx(run * slant / FOOT, abs=run * ROUNDING)
    assert found == pytest.approx(run * math.sqrt(2 + (rise / 12) ** 2), abs=1e-8)


@pytest.mark.source("griffith-1916", "sections 20 and 23")
@pytest.mark.parametrize(("rise", "_common", "slant"), TABLE)
def test_valley_length(rise: int, _common: float, slant: float) -> None:
    """The valley of a T with equal pitches is the table's length times the wing's run."""
    pitch = F(rise, 12)
    main = gable(area=tee().roof[0].area, pitch=pitch, overhang_eave=F(0))
    side = wing(pitch=pitch, overhang_eave=F(0))
    shell = build_shell(gapless(tee(main=main, side=side)))
    run = 2.0
    found = length_on(plane(shell, "R3"), (1.0, 1.0, -8.0))
    assert found == pytest.approx(run * slant / FOOT, abs=run * ROUNDING)


@pytest.mark.parametrize("rise", [4, 6, 8, 12, 18])
def test_backing_of_a_hip(rise: int) -> None:
    """Two planes over a hip fold by twice the backing angle tan b = sin(hip) · cot 45°."""
    shell = build_shell(box(roof=(hip(pitch=F(rise, 12)),)))
    n1 = np.array(plane(shell, "R1")[0].frame.n)
    n2 = np.array(plane(shell, "R2")[0].frame.n)
    rise_angle = math.atan(rise / 12 / math.sqrt(2))
    backing = math.atan(math.sin(rise_angle))
    fold = math.acos(float(n1 @ n2))
    assert fold == pytest.approx(2 * backing, abs=1e-12)


@pytest.mark.parametrize(("main_rise", "side_rise"), [(8, 12), (12, 8), (6, 8), (10, 5)])
def test_unequal_pitches(main_rise: int, side_rise: int) -> None:
    """A valley between unequal pitches runs along the cross product of the normals.

    In plan its run on the main part and on the wing are as the pitches are inversely, so that
    both rise alike; its length is √(run² + run'² + rise²).
    """
    p, q = main_rise / 12, side_rise / 12
    main = gable(area=tee().roof[0].area, pitch=F(main_rise, 12), overhang_eave=F(0))
    side = wing(pitch=F(side_rise, 12), overhang_eave=F(0))
    shell = build_shell(gapless(tee(main=main, side=side)))
    rise = 2.0 * q
    run = rise / p
    found = length_on(plane(shell, "R3"), (run, 2.0, -8.0 * run))
    assert found == pytest.approx(math.sqrt(run**2 + 2.0**2 + rise**2), abs=1e-8)
    n1 = np.array(plane(shell, "R1")[0].frame.n)
    n3 = np.array(plane(shell, "R3")[0].frame.n)
    way = np.cross(n1, n3)
    along = np.array([-2.0, run, rise])
    assert np.linalg.norm(np.cross(way, along)) == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize(("main_rise", "side_rise"), [(8, 8), (8, 12), (12, 6)])
def test_miters_hold_inner_and_outer_line(main_rise: int, side_rise: int) -> None:
    """At a valley the panels of both planes share the inner line and the outer line."""
    main = gable(area=tee().roof[0].area, pitch=F(main_rise, 12), overhang_eave=F(0))
    side = wing(pitch=F(side_rise, 12), overhang_eave=F(0))
    shell = build_shell(gapless(tee(main=main, side=side)))
    slopes = [plane(shell, name)[0] for name in ("R1", "R3")]
    for panel in plane(shell, "R3"):
        for inner, outer in zip(panel.inner, panel.outer, strict=True):
            a = panel.frame.point(inner)
            b = panel.frame.point(outer, panel.thickness)
            if abs(slopes[0].frame.local(a)[2]) < 1e-9:
                assert slopes[0].frame.local(b)[2] == pytest.approx(panel.thickness, abs=1e-8)


def test_plumb_cut_is_longer_by_the_secant() -> None:
    """An eave cut plumb measures the thickness over the cosine of the slope."""
    shell = build_shell(box())
    panel = plane(shell, "R1")[0]
    low = min(range(len(panel.inner)), key=lambda i: panel.inner[i][1])
    a = panel.frame.point(panel.inner[low])
    b = panel.frame.point(panel.outer[low], panel.thickness)
    assert b[:2] == pytest.approx(a[:2], abs=1e-12)
    assert b[2] - a[2] == pytest.approx(panel.thickness / math.cos(math.pi / 4), abs=1e-12)


def test_fold_of_unequal_pitches() -> None:
    """8 in 12 against 10 in 12 folds by 20.27° and 29.99°: the usual worked example of backing."""
    main = gable(area=tee().roof[0].area, pitch=F(10, 12))
    side = wing(pitch=F(8, 12))
    shell = build_shell(tee(main=main, side=side))
    n1 = np.array(plane(shell, "R1")[0].frame.n)
    n3 = np.array(plane(shell, "R3")[0].frame.n)
    rise_angle = math.atan(8 * 10 / 12 / math.hypot(8, 10))
    low = math.atan(math.sin(rise_angle) / (10 / 8))
    high = math.atan(math.sin(rise_angle) / (8 / 10))
    assert (math.degrees(low), math.degrees(high)) == pytest.approx((20.27, 29.99), abs=0.01)
    assert math.acos(float(n1 @ n3)) == pytest.approx(low + high, abs=1e-12)
