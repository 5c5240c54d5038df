"""What holds for any sequence of rain, dew and sun on a board."""

from __future__ import annotations

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.moisture.boards import any_weather

from seamwright.moisture.transient.run import run_case
from seamwright.moisture.transient.types import Settings

LAW = settings(derandomize=True, max_examples=60, deadline=None)


@LAW
@given(seed=st.integers(0, 10**6), order=st.sampled_from([1, 2]))
def test_any_weather_comes_to_rest_or_says_so(seed: int, order: int) -> None:
    """A run either comes to rest with closed books, or has no figures and gives advice."""
    run = run_case(any_weather(seed), Settings(order=order))
    if run.converged:
        assert run.balance.heat_error < 1e-6
        assert run.balance.water_error < 1e-6
        assert np.isfinite(run.end_humidity).all()
    else:
        assert "least_step" in run.advice


@LAW
@given(seed=st.integers(0, 10**6))
def test_no_more_runs_off_than_comes(seed: int) -> None:
    """What runs off is no more than rain and dew together; without either nothing runs."""
    case = any_weather(seed)
    run = run_case(case)
    offered = 3600.0 * float(case.drive.rain[:, 1].sum())
    assert 0.0 <= run.balance.ran_off <= offered + run.balance.water_in
