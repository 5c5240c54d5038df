"""How fast a run comes to rest as volumes and steps are refined, and that its totals stay."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
from tests.moisture.walls import EPS, MATERIALS, OSB, TIGHT, seam

from seamwright.climate.moist_air import saturation_pressure
from seamwright.moisture.transient.line import line_mesh
from seamwright.moisture.transient.run import run_case
from seamwright.moisture.transient.types import Case, Drive, Run, Settings


def wall(fine: int, hours: int = 48) -> Case:
    """Return a board on foam, `fine` stretches per 2.75 mm of the board, in a changing climate."""
    x = np.concatenate([np.linspace(0.0, 0.011, 4 * fine + 1),
                        0.011 + np.linspace(0.0, 0.08, 8 * fine + 1)[1:]])  # fmt: skip
    kinds = (OSB,) * (4 * fine) + (EPS,) * (8 * fine)
    mesh = line_mesh(x, kinds, heat=(0.13, 0.04), vapor=(1e8, TIGHT))
    t = np.tile([20.0, 0.0], (hours, 1))
    drive = Drive(temperature=t, face=t, vapor=saturation_pressure(t) * np.array([0.7, 0.8]),
                  rain=np.zeros((hours, 2)))  # fmt: skip
    n = len(x)
    return Case(mesh=mesh, materials=MATERIALS, drive=drive, temperature=np.full(n, 10.0),
                humidity=np.full(n, 0.5))  # fmt: skip


def at_ends(run: Run, fine: int) -> np.ndarray:
    """Return temperature and humidity at the face, the middle and the back of the board."""
    place = [0, 2 * fine, 4 * fine]
    return np.concatenate([run.end_temperature[place], 10.0 * run.end_humidity[place]])


def order(found: list[np.ndarray]) -> float:
    """Return the order that three halvings show, by how their differences shrink."""
    first, second = (np.abs(b - a).max() for a, b in pairwise(found))
    return math.log2(first / second)


def order_of_means(runs: list[Run]) -> float:
    """Return the order by root mean squares over all volumes, 1 % of humidity counted as 0.2 K."""
    ends = [np.concatenate([run.end_temperature, 20.0 * run.end_humidity]) for run in runs]
    first, second = (float(np.sqrt(np.mean((b - a) ** 2))) for a, b in pairwise(ends))
    return math.log2(first / second)


def test_space_converges_with_the_square_of_the_spacing() -> None:
    """Halving the volumes quarters what changes, in temperature and in humidity."""
    exact = Settings(tolerance=1e-11)
    found = [at_ends(run_case(wall(fine), exact), fine) for fine in (4, 8, 16)]
    assert order(found) == pytest.approx(2.0, abs=0.35)


def test_time_converges_with_the_step() -> None:
    """Halving the steps halves what changes: the first order of implicit steps."""
    runs = [run_case(wall(1, 12), Settings(step=step, tolerance=1e-11, least_step=1.0))
            for step in (900.0, 450.0, 225.0)]  # fmt: skip
    assert order([at_ends(run, 1) for run in runs]) == pytest.approx(1.0, abs=0.2)


def test_two_stages_converge_with_the_square_of_the_step() -> None:
    """Halving the steps of two stages quarters what changes, down to a 10,000th of a kelvin."""
    runs = [run_case(wall(1, 12), Settings(step=step, tolerance=1e-11, least_step=1.0, order=2))
            for step in (3600.0, 1800.0, 900.0)]  # fmt: skip
    assert order_of_means(runs) == pytest.approx(2.0, abs=0.25)


def test_two_stages_stay_of_second_order_where_the_weather_jumps() -> None:
    """With airs that jump each hour, and air through a seam, the order is still two."""
    runs = [run_case(seam(12), Settings(step=step, tolerance=1e-9, least_step=1.0, order=2))
            for step in (900.0, 450.0, 225.0)]  # fmt: skip
    assert order_of_means(runs) == pytest.approx(2.0, abs=0.3)


@pytest.mark.parametrize("step", [3600.0, 1800.0])
def test_two_stages_come_closer_than_steps_of_first_order(step: float) -> None:
    """At the same number of stages they are at least twice as close to short steps."""
    exact = run_case(seam(48), Settings(step=300.0, tolerance=1e-5, order=2)).end_temperature
    one = run_case(seam(48), Settings(step=step / 2.0)).end_temperature
    two = run_case(seam(48), Settings(step=step, order=2)).end_temperature
    off = [float(np.sqrt(np.mean((found - exact) ** 2))) for found in (one, two)]
    assert off[1] < 0.5 * off[0]


def test_the_water_that_comes_in_does_not_hang_on_the_grid() -> None:
    """The total taken up over two days agrees within 1 % between coarse and fine, with its sign."""
    coarse, fine = (run_case(wall(k)).balance.water_stored for k in (6, 24))
    assert coarse > 0.0
    assert coarse == pytest.approx(fine, rel=0.01)


@pytest.mark.parametrize("order_", [1, 2])
@pytest.mark.parametrize("tolerance", [1e-3, 1e-5, 1e-8])
def test_a_loose_iteration_loses_no_water(tolerance: float, order_: int) -> None:
    """What an iteration leaves over goes into the next step: 48 of them lose no more than one."""
    loose = run_case(wall(2), Settings(tolerance=tolerance, order=order_))
    tight = run_case(wall(2), Settings(tolerance=1e-12, order=order_))
    assert loose.balance.water_error < min(tolerance / 20.0, 1e-6)
    assert loose.balance.heat_error < min(tolerance / 20.0, 1e-6)
    assert loose.balance.water_stored == pytest.approx(tight.balance.water_stored, rel=tolerance)
