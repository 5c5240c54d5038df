"""What holds for every run hour by hour, whatever the section and the weather."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.moisture.walls import MATERIALS, plain_mesh, shuffled

from seamwright.climate.moist_air import saturation_pressure
from seamwright.moisture.transient.run import run_case
from seamwright.moisture.transient.types import AirWay, Case, Drive, Probe, Settings

LAW = settings(derandomize=True, max_examples=25, deadline=None)
HOURS = 30
FINE = Settings(tolerance=1e-10)
seeds = st.integers(0, 10**6)
leaks = st.sampled_from([0.0, 1e-6, 1e-4, 3e-3])


def made_up(seed: int, leak: float, *, dry: bool = False) -> Case:
    """Return a small section of mixed materials in wild weather, with a way of air through it."""
    rng = np.random.default_rng(seed)
    x, y = (np.concatenate([[0.0], np.cumsum(rng.uniform(0.003, 0.04, n))]) for n in (3, 4))
    kinds = rng.integers(0, len(MATERIALS), (3, 4))
    mesh = plain_mesh(x, y, kinds, (0.13, 0.04, 1e8, 1e9))
    mesh = replace(mesh, rim_rain=rng.uniform(0.0, 0.02, len(mesh.rim_cell)) * (not dry))
    n = len(mesh.points)
    t = rng.uniform(-15.0, 35.0, (HOURS, 2))
    wet = rng.uniform(0.1, 1.0, (HOURS, 2)) * (not dry)
    face, rain = t + rng.uniform(-5.0, 25.0, (HOURS, 2)), rng.uniform(0.0, 1e-4, (HOURS, 2))
    drive = Drive(temperature=t, face=face, vapor=wet * saturation_pressure(t), rain=rain)
    cells = np.array([5, 6, 7, 8, 9, 8, 7])
    way = AirWay(first=0, last=1, cells=cells, contact=rng.uniform(0.0, 0.1, len(cells)),
                 flow=leak * rng.normal(0.0, 1.0, HOURS))  # fmt: skip
    return Case(
        mesh=mesh, materials=MATERIALS, drive=drive, ways=(way,),
        temperature=rng.uniform(-5.0, 25.0, n), humidity=rng.uniform(0.1, 1.001, n) * (not dry),
        probes=(Probe(name="all", parts=np.arange(len(mesh.part_cell))),),
    )  # fmt: skip


@LAW
@given(seed=seeds, leak=leaks, order=st.sampled_from([1, 2]))
def test_heat_and_water_are_all_accounted_for(seed: int, leak: float, order: int) -> None:
    """What came in less what went out is what is stored, to 1e-6 of what passed through."""
    run = run_case(made_up(seed, leak), Settings(order=order))
    assert run.converged
    assert run.balance.heat_error < 1e-6
    assert run.balance.water_error < 1e-6


@LAW
@given(seed=seeds, leak=leaks)
def test_no_volume_leaves_the_range_of_what_it_meets(seed: int, leak: float) -> None:
    """Without vapor no temperature leaves the range of start, airs and faces."""
    case = made_up(seed, leak, dry=True)
    run = run_case(case, FINE)
    given_t = np.concatenate([case.temperature, case.drive.temperature.ravel(),
                              case.drive.face.ravel()])  # fmt: skip
    assert run.converged
    assert run.end_temperature.max() <= given_t.max() + 1e-5
    assert run.end_temperature.min() >= given_t.min() - 1e-5


@LAW
@given(seed=seeds, leak=leaks)
def test_humidity_without_heat_or_sources_stays_in_range(seed: int, leak: float) -> None:
    """At one temperature, without rain, no humidity leaves the range of start and airs by more
    than the little that latent heat makes.
    """
    case = made_up(seed, leak)
    t = np.full_like(case.drive.temperature, 15.0)
    wet = case.drive.vapor / saturation_pressure(case.drive.temperature)
    drive = replace(case.drive, temperature=t, face=t, vapor=wet * saturation_pressure(t),
                    rain=np.zeros_like(t))  # fmt: skip
    start = np.minimum(case.humidity, 1.0)
    run = run_case(
        replace(case, drive=drive, humidity=start, temperature=np.full(len(start), 15.0))
    )
    assert run.end_humidity.max() <= max(wet.max(), start.max()) + 0.05
    assert run.end_humidity.min() >= min(wet.min(), start.min()) - 0.05


@LAW
@given(seed=seeds, leak=leaks)
def test_what_is_dry_stays_dry(seed: int, leak: float) -> None:
    """Where no vapor is about, none comes from nowhere: not a bit of it."""
    run = run_case(made_up(seed, leak, dry=True))
    assert not run.end_humidity.any()
    assert not run.water.any()
    assert run.balance.water_stored == 0.0


@LAW
@given(seed=seeds, leak=leaks)
def test_the_order_of_volumes_does_not_matter(seed: int, leak: float) -> None:
    """With volumes, parts, links and rims shuffled the run is the same within its tolerance."""
    case = made_up(seed, leak)
    other, went = shuffled(case, seed)
    first, second = run_case(case, FINE), run_case(other, FINE)
    assert second.end_temperature[went] == pytest.approx(first.end_temperature, abs=1e-4)
    assert second.end_humidity[went] == pytest.approx(first.end_humidity, abs=1e-5)
    assert second.water == pytest.approx(first.water, rel=1e-5)


@LAW
@given(seed=seeds, leak=leaks)
def test_a_way_told_backward_is_the_same_way(seed: int, leak: float) -> None:
    """From last to first with the flow's sign changed, a way carries the same."""
    case = made_up(seed, leak)
    (way,) = case.ways
    back = AirWay(first=way.last, last=way.first, cells=way.cells[::-1].copy(),
                  contact=way.contact[::-1].copy(), flow=-way.flow)  # fmt: skip
    first, second = run_case(case, FINE), run_case(replace(case, ways=(back,)), FINE)
    assert second.end_temperature == pytest.approx(first.end_temperature, abs=1e-4)
    assert second.end_humidity == pytest.approx(first.end_humidity, abs=1e-5)


@LAW
@given(seed=seeds)
def test_a_way_without_flow_is_no_way(seed: int) -> None:
    """A way that stands still changes nothing."""
    case = made_up(seed, 0.0)
    first, second = run_case(case, FINE), run_case(replace(case, ways=()), FINE)
    assert second.end_temperature == pytest.approx(first.end_temperature, abs=1e-4)
    assert second.end_humidity == pytest.approx(first.end_humidity, abs=1e-5)
