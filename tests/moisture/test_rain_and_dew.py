"""Rain and dew on a board: what it draws in, what runs off, and that every hour comes to rest."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from tests.moisture.boards import EVEN, FINE, any_weather, damp_year, in_the_open

from seamwright.errors import InputError
from seamwright.moisture.transient.line import line_mesh
from seamwright.moisture.transient.run import run_case
from seamwright.moisture.transient.types import FILM, Settings
from seamwright.moisture.types import Floats

TEN_MINUTES = Settings(step=600.0, least_step=1.0)


@pytest.mark.parametrize("points", [EVEN, FINE], ids=["even", "fine"])
@pytest.mark.parametrize("rainy", [False, True], ids=["dew", "rain"])
@pytest.mark.parametrize("rule", [Settings(), TEN_MINUTES], ids=["hours", "ten minutes"])
def test_a_damp_year_comes_to_rest(points: Floats, rainy: bool, rule: Settings) -> None:
    """Rain, dewy nights and sun in turn: no hour fails, books close to 1e-6."""
    hours = 8760 if rule.step == 3600.0 else 2000
    case = damp_year(points, hours, rainy=rainy)
    run = run_case(case, rule)
    assert run.converged
    assert max(run.balance.heat_error, run.balance.water_error) < 1e-6
    assert run.end_humidity.max() < 1.0 + 1e-3
    assert run.balance.ran_off > 0.0


def test_all_rain_is_drawn_in_or_runs_off() -> None:
    """Offered is what stays and what runs off, to the last gram, and the board never overflows."""
    hours, still = 400, np.full(400, 10.0)
    case = in_the_open(EVEN, still, still, np.ones(hours), np.full(hours, 1e-3), film=math.inf)
    run = run_case(case)
    osb = case.materials[0].sorption
    full = 0.011 * (osb.y[-1] - np.interp(0.6, osb.x, osb.y)) + FILM
    assert 0.4 * full < run.balance.water_stored < full
    offered = hours * 3600.0 * 1e-3
    assert run.balance.water_stored + run.balance.ran_off == pytest.approx(offered, rel=1e-8)


def test_dew_stands_as_a_film_and_then_runs() -> None:
    """On a cold face of full board dew fills the film, no more; the rest is told as run off."""
    hours, air = 300, np.full(300, 15.0)
    case = in_the_open(EVEN, air - 10.0, air, np.ones(hours), np.zeros(hours), start=1.0)
    run = run_case(case)
    balance = run.balance
    assert run.converged
    assert balance.water_stored == pytest.approx(FILM, rel=0.02)
    assert balance.ran_off == pytest.approx(balance.water_in - balance.water_stored, rel=1e-6)
    assert balance.ran_off > 5.0 * FILM
    held = replace(case, mesh=replace(case.mesh, rim_film=np.full(2, math.inf)))
    assert run_case(held).balance.ran_off == 0.0


def test_a_face_that_rain_does_not_reach_keeps_its_dew() -> None:
    """Without a share of rain and without a film given nothing runs off, as behind covers."""
    hours, air = 100, np.full(100, 15.0)
    case = in_the_open(EVEN, air - 10.0, air, np.ones(hours), np.zeros(hours), start=1.0)
    run = run_case(replace(case, mesh=replace(case.mesh, rim_rain=np.zeros(2))))
    assert run.balance.ran_off == 0.0
    assert run.balance.water_stored > 2.0 * FILM


def test_nearly_all_weather_comes_to_rest() -> None:
    """Of 100 random sequences of rain, dew and sun on five materials at least 98 come to rest."""
    runs = [run_case(any_weather(seed), Settings(order=1 + seed % 2)) for seed in range(100)]
    assert sum(run.converged for run in runs) >= 98
    assert all(run.advice for run in runs if not run.converged)


def test_a_film_too_thin_is_refused() -> None:
    """A film of nothing is told, with the least one."""
    still = np.full(1, 10.0)
    case = in_the_open(EVEN, still, still, np.ones(1), np.zeros(1))
    mesh = line_mesh(EVEN, (0,) * 11, rain=(0.0, 1.0), film=(math.inf, 0.0))
    with pytest.raises(InputError, match=r"film of 0 kg/m² on a rim is below 0\.001"):
        run_case(replace(case, mesh=mesh))
