"""What holds for leaking joints whatever leaks, blows or is damp."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.moisture.walls import seam

from seamwright.climate.moist_air import saturation_pressure
from seamwright.moisture.air_ways import (
    ROOM_PRESSURE,
    Airs,
    Exposed,
    SealLines,
    through_flow,
    ways_of,
)
from seamwright.moisture.transient.run import run_case
from seamwright.moisture.transient.types import AirWay, Case, Drive, Run, Settings

LAW = settings(derandomize=True, max_examples=10, deadline=None)
HOURS = 240
FINE = Settings(tolerance=1e-9)
seeds = st.integers(0, 10**6)


def winter(seed: int, humidity: float = 0.5) -> Drive:
    """Return ten cold days: a room at 20 °C, outdoors about freezing and damp."""
    rng = np.random.default_rng(seed)
    out = rng.uniform(-8.0, 8.0) + 4.0 * np.sin(np.arange(HOURS) / 3.8) + rng.normal(0, 1, HOURS)
    room = np.full(HOURS, 20.0)
    temperature = np.column_stack([room, out])
    vapor = np.column_stack([humidity * saturation_pressure(room), 0.8 * saturation_pressure(out)])
    rain = np.zeros((HOURS, 2))
    return Drive(temperature=temperature, face=temperature, vapor=vapor, rain=rain)


def leaking(drive: Drive, flow: float) -> Case:
    """Return a seam through which so much dry air leaks out, hour after hour. [kg/(s·m)]"""
    case = seam(HOURS, leak=1.0, drive=drive)
    (way,) = case.ways
    return replace(case, ways=(replace(way, flow=np.full(HOURS, flow)),))


def airs_of(drive: Drive, wind: float = 0.0) -> Airs:
    """Return the airs that a drive has."""
    return Airs(
        inside=drive.temperature[:, 0], outside=drive.temperature[:, 1],
        vapor_inside=drive.vapor[:, 0], vapor_outside=drive.vapor[:, 1],
        wind=np.full(len(drive.temperature), wind),
    )  # fmt: skip


def _ran(case: Case) -> Run:
    run = run_case(case, FINE)
    assert run.converged
    return run


@LAW
@given(seed=seeds, above=st.floats(-4.0, 4.0), fan=st.floats(-10.0, 10.0))
def test_lines_that_let_nothing_through_leave_diffusion(
    seed: int, above: float, fan: float
) -> None:
    """With both lines perfect, whatever the pressure, a joint does as without any way for air."""
    drive = winter(seed)
    case = leaking(drive, 0.0)
    (way,) = case.ways
    shares = np.full(len(way.cells), 0.02)
    tight = SealLines(inner=0.0, channel=1.0, outer=0.0, gap=0.003, run=2.4)
    ways = ways_of(way.cells, shares, airs_of(drive, 5.0), Exposed(above=above, fan=fan), tight)
    sealed, plain = _ran(replace(case, ways=ways)), _ran(replace(case, ways=()))
    assert sealed.water == pytest.approx(plain.water, rel=1e-9)
    assert sealed.balance.water_out == pytest.approx(plain.balance.water_out, rel=1e-9)


@LAW
@given(seed=seeds, low=st.floats(1e-7, 1e-4), more=st.floats(1.05, 8.0))
def test_more_air_out_never_carries_less_water_out(seed: int, low: float, more: float) -> None:
    """Room air that leaks faster takes at least as much water from the room and to outdoors."""
    drive = winter(seed)
    slow, fast = _ran(leaking(drive, low)).balance, _ran(leaking(drive, low * more)).balance
    assert fast.water_in >= slow.water_in * (1.0 - 1e-9)
    assert fast.water_out >= slow.water_out * (1.0 - 1e-9)


@LAW
@given(seed=seeds, flow=st.sampled_from([-3e-5, 0.0, 1e-6, 3e-5]), more=st.floats(0.02, 0.3))
def test_a_wetter_room_never_dries_wood(seed: int, flow: float, more: float) -> None:
    """With more vapor in the room no hour finds the outer skin drier by more than a ten-thousandth
    of its dry mass: what adsorbs elsewhere warms it a little.
    """
    dry, wet = (_ran(leaking(winter(seed, h), flow)) for h in (0.4, 0.4 + more))
    assert (wet.water - dry.water).min() >= -1e-4


@settings(derandomize=True, max_examples=60, deadline=None)
@given(fan=st.floats(0.1, 50.0), wind=st.floats(0.0, 15.0), leak=st.floats(1e-3, 5.0))
def test_mirrored_pressure_mirrors_the_flow(fan: float, wind: float, leak: float) -> None:
    """With like air on both sides, fans and wind turned about send the same flow the other way."""
    n = 48
    same = Airs(
        inside=np.full(n, 15.0), outside=np.full(n, 15.0), vapor_inside=np.full(n, 900.0),
        vapor_outside=np.full(n, 900.0), wind=np.full(n, wind),
    )  # fmt: skip
    push = (0.6, -0.4, -0.3, -0.5)
    back = tuple(2.0 * ROOM_PRESSURE - c for c in push)
    out = through_flow(same, Exposed(above=0.0, fan=fan, face_coefficients=push), leak)
    into = through_flow(same, Exposed(above=0.0, fan=-fan, face_coefficients=back), leak)
    assert into == pytest.approx(-out, rel=1e-9, abs=1e-15)


@LAW
@given(seed=seeds, flow=st.sampled_from([1e-6, 1e-5, 1e-4]))
def test_a_mirrored_joint_gets_mirrored(seed: int, flow: float) -> None:
    """Room and outdoors change places, with the way of the air: every volume finds its mirror."""
    drive = winter(seed)
    case = leaking(drive, flow)
    mesh = case.mesh
    even = replace(
        mesh, rim_heat=np.full(len(mesh.rim_cell), 0.1), rim_vapor=np.full(len(mesh.rim_cell), 3e8)
    )
    turned = Drive(
        temperature=drive.temperature[:, ::-1].copy(), face=drive.face[:, ::-1].copy(),
        vapor=drive.vapor[:, ::-1].copy(), rain=drive.rain,
    )  # fmt: skip
    (way,) = case.ways
    other = AirWay(first=1, last=0, cells=way.cells[::-1].copy(), contact=way.contact[::-1].copy(),
                   flow=way.flow)  # fmt: skip
    straight = _ran(replace(case, mesh=even))
    mirrored = _ran(replace(case, mesh=even, drive=turned, ways=(other,)))
    x, y = mesh.points[:, 0], mesh.points[:, 1]
    rows = len(np.unique(y))
    to = np.arange(len(x)).reshape(-1, rows)[:, ::-1].ravel()
    assert y[to] == pytest.approx(y.max() - y)
    assert mirrored.end_temperature[to] == pytest.approx(straight.end_temperature, abs=1e-4)
    assert mirrored.end_humidity[to] == pytest.approx(straight.end_humidity, abs=1e-5)
