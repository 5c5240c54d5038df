"""What must hold for the joint register of any shell, however it is listed, placed or turned."""

from __future__ import annotations

import math
import random
from collections import Counter, defaultdict
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from benchmarks.estate import house_at
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.samples import corner_pair, flush_pair, gable_box
from tests.shell.plans import hipped_ell, two_storeys, with_dormer

from seamwright.geometry.types import Frame, Ring, Vec3, cross
from seamwright.joints.register import build_register
from seamwright.joints.types import Joint, Register
from seamwright.shell.build import build_shell
from seamwright.shell.plan import Plan
from seamwright.shell.types import Hole, Panel, Shell

HOUSES = (gable_box(), house_at(np.random.default_rng(3), 1), corner_pair(), flush_pair())
LAW = settings(derandomize=True, max_examples=15, deadline=None)
ANGLE = st.floats(-math.pi, math.pi)
MOVE = st.tuples(*[st.floats(-200.0, 200.0)] * 3)


def signature(register: Register) -> dict[str, tuple[object, ...]]:
    """Return what must stay of each joint, lengths to a hundredth of a millimetre."""
    return {joint.id: _facts(joint) for joint in register.joints}


def _facts(joint: Joint) -> tuple[object, ...]:
    lengths = (
        joint.length,
        joint.inner.length,
        joint.outer.length,
        joint.inner.offset,
        joint.outer.offset,
        joint.gap,
        joint.dihedral,
    )
    words = (joint.kind, joint.panels, joint.others, joint.inner.reach, joint.inner.hidden_by)
    return (*words, joint.inner.timbers, *(pytest.approx(x, abs=1e-5) for x in lengths))


def nodes(register: Register) -> Counter[tuple[str, str, tuple[str, ...]]]:
    """Return the nodes without their places."""
    return Counter((node.id, node.kind, node.joints) for node in register.nodes)


def assert_same(a: Register, b: Register) -> None:
    """Assert that two registers tell the same story."""
    assert signature(a) == signature(b)
    assert nodes(a) == nodes(b)
    assert len(a.breaks) == len(b.breaks)
    assert stretches(a) == pytest.approx(stretches(b), abs=1e-5)


def stretches(register: Register) -> dict[tuple[str, str], float]:
    """Return the length of each fate on each panel. [m]"""
    total: dict[tuple[str, str], float] = defaultdict(float)
    for use in register.ledger:
        total[use.panel_id, use.fate] += use.end - use.start
    return dict(total)


def mapped(shell: Shell, rotation: np.ndarray, move: Vec3) -> Shell:
    """Return a shell turned (or mirrored) by a matrix and then moved."""

    def turn(a: Vec3) -> Vec3:
        x, y, z = rotation @ np.array(a)
        return (float(x), float(y), float(z))

    def place(a: Vec3) -> Vec3:
        x, y, z = turn(a)
        return (x + move[0], y + move[1], z + move[2])

    mirrored = float(np.linalg.det(rotation)) < 0.0

    def frame(f: Frame) -> Frame:
        u = turn(f.u)
        u = (-u[0], -u[1], -u[2]) if mirrored else u
        return Frame(origin=place(f.origin), u=u, v=turn(f.v))

    def ring(r: Ring) -> Ring:
        return tuple((-u, v) for u, v in reversed(r)) if mirrored else r

    def panel(p: Panel) -> Panel:
        holes = tuple(Hole(opening_id=h.opening_id, outline=ring(h.outline)) for h in p.holes)
        return replace(
            p, frame=frame(p.frame), inner=ring(p.inner), outer=ring(p.outer), holes=holes
        )

    return replace(
        shell,
        panels=tuple(panel(p) for p in shell.panels),
        members=tuple(
            replace(m, start=place(m.start), end=place(m.end), up=turn(m.up)) for m in shell.members
        ),
        supports=tuple(
            replace(s, frame=frame(s.frame), outline=ring(s.outline)) for s in shell.supports
        ),
        openings=tuple(
            replace(o, frame=frame(o.frame), outline=ring(o.outline)) for o in shell.openings
        ),
        penetrations=tuple(
            replace(s, at=place(s.at), axis=turn(s.axis)) for s in shell.penetrations
        ),
    )


def turned_about(axis: Vec3, angle: float) -> np.ndarray:
    """Return the matrix of a turn about a unit axis. [rad]"""
    k = np.array([[0, -axis[2], axis[1]], [axis[2], 0, -axis[0]], [-axis[1], axis[0], 0]])
    return np.eye(3) + math.sin(angle) * k + (1 - math.cos(angle)) * (k @ k)


def rechosen(panel: Panel, turn: float, start: int) -> Panel:
    """Return the same panel in other axes of its plane, its outline begun at another corner."""
    c, s = math.cos(turn), math.sin(turn)
    f = panel.frame
    u = tuple(c * a + s * b for a, b in zip(f.u, f.v, strict=True))
    v = tuple(-s * a + c * b for a, b in zip(f.u, f.v, strict=True))
    origin = f.point((0.7, -0.3))

    def ring(r: Ring) -> Ring:
        moved = [(a - 0.7, b + 0.3) for a, b in r]
        moved = [(c * a + s * b, -s * a + c * b) for a, b in moved]
        shift = start % len(moved)
        return tuple(moved[shift:] + moved[:shift])

    holes = tuple(Hole(opening_id=h.opening_id, outline=ring(h.outline)) for h in panel.holes)
    frame = Frame(origin=origin, u=u, v=v)  # type: ignore[arg-type]
    return replace(
        panel, frame=frame, inner=ring(panel.inner), outer=ring(panel.outer), holes=holes
    )


@pytest.mark.parametrize("shell", HOUSES)
@LAW
@given(seed=st.integers(0, 10_000))
def test_order_does_not_matter(shell: Shell, seed: int) -> None:
    """Panels, members and supports in any order give the same register, down to the places."""
    rng = random.Random(seed)
    shuffled = replace(
        shell,
        panels=tuple(rng.sample(shell.panels, len(shell.panels))),
        members=tuple(rng.sample(shell.members, len(shell.members))),
        openings=tuple(rng.sample(shell.openings, len(shell.openings))),
    )
    assert build_register(shell) == build_register(shuffled)


@pytest.mark.parametrize("shell", HOUSES)
@LAW
@given(angle=ANGLE, move=MOVE)
def test_place_and_turn_do_not_matter(shell: Shell, angle: float, move: Vec3) -> None:
    """A house turned about the vertical and moved has the same joints, nodes and ledger."""
    there = mapped(shell, turned_about((0.0, 0.0, 1.0), angle), move)
    assert_same(build_register(shell), build_register(there))


@pytest.mark.parametrize("shell", HOUSES)
@LAW
@given(angle=ANGLE, move=MOVE)
def test_mirrored_house_has_the_same_joints(shell: Shell, angle: float, move: Vec3) -> None:
    """A mirrored house has the same joints; only the jambs change sides."""
    mirror = np.diag([-1.0, 1.0, 1.0]) @ turned_about((0.0, 0.0, 1.0), angle)
    there = signature(build_register(mapped(shell, mirror, move)))
    swap = {"left": "right", "right": "left"}
    renamed = {_swapped(name, swap): facts for name, facts in there.items()}
    assert renamed == signature(build_register(shell))


def _swapped(name: str, swap: dict[str, str]) -> str:
    head, _, side = name.rpartition(".")
    return f"{head}.{swap[side]}" if side in swap else name


@pytest.mark.parametrize("shell", HOUSES)
@LAW
@given(
    axis=st.tuples(*[st.floats(-1.0, 1.0)] * 3).filter(lambda a: math.hypot(*a) > 0.1),
    angle=ANGLE,
)
def test_contact_is_found_at_any_tilt(shell: Shell, axis: Vec3, angle: float) -> None:
    """Turned about any axis the same parts touch over the same lengths."""
    size = math.hypot(*axis)
    unit = (axis[0] / size, axis[1] / size, axis[2] / size)
    there = build_register(mapped(shell, turned_about(unit, angle), (5.0, -3.0, 2.0)))
    here = build_register(shell)
    assert contacts(here) == contacts(there)


def contacts(register: Register) -> Counter[tuple[object, ...]]:
    """Return who touches whom over what length, without kinds or sides. [0.1 mm]"""
    return Counter(
        (joint.panels, joint.others, joint.contact, round(joint.length * 1e4 + 0.37))
        for joint in register.joints
    )


@pytest.mark.parametrize("shell", HOUSES)
@LAW
@given(turn=ANGLE, start=st.integers(0, 7))
def test_frames_and_first_corners_do_not_matter(shell: Shell, turn: float, start: int) -> None:
    """Other axes in each panel's plane and other first corners give the same register."""
    other = replace(shell, panels=tuple(rechosen(p, turn, start) for p in shell.panels))
    assert_same(build_register(shell), build_register(other))


@pytest.mark.parametrize("shell", HOUSES)
@LAW
@given(seed=st.integers(0, 10_000))
def test_rounding_of_units_does_not_matter(shell: Shell, seed: int) -> None:
    """Places rounded to a hundredth of a millimetre by another unit keep every joint."""
    rng = random.Random(seed)

    def jog(a: Vec3) -> Vec3:
        return (
            a[0] + rng.uniform(-5e-6, 5e-6),
            a[1] + rng.uniform(-5e-6, 5e-6),
            a[2] + rng.uniform(-5e-6, 5e-6),
        )

    panels = tuple(
        replace(p, frame=replace(p.frame, origin=jog(p.frame.origin))) for p in shell.panels
    )
    there = build_register(replace(shell, panels=panels))
    here = build_register(shell)
    assert {j.id: j.kind for j in here.joints} == {j.id: j.kind for j in there.joints}
    assert nodes(here) == nodes(there)
    assert len(here.breaks) == len(there.breaks)


@pytest.mark.parametrize("shell", HOUSES)
@LAW
@given(seed=st.integers(0, 10_000))
def test_ledger_adds_up(shell: Shell, seed: int) -> None:
    """With any panels left out, each edge's stretches follow one another from end to end."""
    rng = random.Random(seed)
    kept = tuple(panel for panel in shell.panels if rng.random() > 0.15)
    register = build_register(replace(shell, panels=kept))
    by_edge: dict[tuple[str, int], list[tuple[float, float]]] = defaultdict(list)
    for use in register.ledger:
        by_edge[use.panel_id, use.edge].append((use.start, use.end))
    lengths = edge_lengths(kept)
    assert set(by_edge) == set(lengths)
    for key, length in lengths.items():
        uses = by_edge[key]
        assert uses[0][0] == pytest.approx(0.0, abs=1e-5)
        assert uses[-1][1] == pytest.approx(length, abs=1e-5)
        gaps = [after[0] - before[1] for before, after in pairwise(uses)]
        assert gaps == pytest.approx([0.0] * len(gaps), abs=1e-5)
    ids = {joint.id for joint in register.joints}
    assert {use.ref for use in register.ledger if use.fate == "joint"} <= ids


def edge_lengths(panels: tuple[Panel, ...]) -> dict[tuple[str, int], float]:
    """Return the length of every inner edge, boundary first and then holes. [m]"""
    lengths = {}
    for panel in panels:
        rings = [panel.inner, *(hole.outline for hole in panel.holes)]
        sides = [side for ring in rings for side in zip(ring, ring[1:] + ring[:1], strict=True)]
        lengths |= {(panel.id, i): math.dist(a, b) for i, (a, b) in enumerate(sides)}
    return lengths


@LAW
@given(seed=st.integers(0, 10_000))
def test_any_gable_house_closes(seed: int) -> None:
    """Generated gable houses of any size and pitch close on both faces."""
    shell = house_at(np.random.default_rng(seed), 1)
    register = build_register(shell)
    assert register.breaks == ()
    assert [use for use in register.ledger if use.fate == "free"] == []


@pytest.mark.parametrize("plan", [with_dormer(), two_storeys("platform"), hipped_ell()])
def test_laid_out_houses_keep_the_same_story(plan: Plan) -> None:
    """Houses with a dormer, a platform floor and valleys keep it shuffled, turned and re-framed."""
    shell = build_shell(plan)
    here = build_register(shell)
    rng = random.Random(7)
    shuffled = replace(shell, panels=tuple(rng.sample(shell.panels, len(shell.panels))))
    assert build_register(shuffled) == here
    turn = turned_about((0.0, 0.0, 1.0), 1.234)
    assert_same(here, build_register(mapped(shell, turn, (17.3, -55.1, 3.3))))
    panels = tuple(rechosen(panel, 0.77, 2) for panel in shell.panels)
    assert_same(here, build_register(replace(shell, panels=panels)))


@pytest.mark.parametrize("lost", [panel.id for panel in gable_box().panels])
def test_missing_panel_leaves_its_rim(lost: str) -> None:
    """A house short of one panel breaks just along the lines where that panel was joined."""
    whole = gable_box()
    rim = sum(
        joint.inner.length
        for joint in build_register(whole).joints
        if lost in joint.panels and joint.contact in ("edge_edge", "edge_face", "edge_support")
    )
    left = replace(whole, panels=tuple(panel for panel in whole.panels if panel.id != lost))
    breaks = build_register(left).breaks
    found = sum(b.line.length for b in breaks if b.face == "inner")
    assert found == pytest.approx(rim, abs=0.02)


def test_frames_in_these_laws_stay_right_handed() -> None:
    """The mirrored frames used above still point their normals out of the house."""
    shell = mapped(gable_box(), np.diag([-1.0, 1.0, 1.0]), (0.0, 0.0, 0.0))
    south = next(panel for panel in shell.panels if panel.id == "A.1")
    assert cross(south.frame.u, south.frame.v) == pytest.approx((0.0, -1.0, 0.0))
