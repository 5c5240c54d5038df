"""Mold index, decay and wood moisture against published figures and independent reckonings.

The papers print formulas and curves, no table of numbers; so the index at constant conditions is
set against the closed form of the model, integrated here with SciPy from the formulas as the papers
give them, and against figures computed once from that closed form and kept below.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from seamwright.moisture.transient.sorption import wood_moisture
from seamwright.moisture.verdict.decay import critical_time, loss_rate, wood_decay
from seamwright.moisture.verdict.mold import GROWTH, critical_humidity, mold_index
from seamwright.moisture.verdict.types import MoldClass

WEEKS = (4, 8, 12, 26, 52)

CONSTANT: list[tuple[MoldClass, float, float, tuple[float, ...]]] = [
    ("very_sensitive", 5, 90, (0.3662, 0.7265, 1.1455, 2.0951, 2.1040)),
    ("very_sensitive", 10, 97, (2.3655, 5.2627, 5.4433, 5.4434, 5.4434)),
    ("very_sensitive", 20, 85, (0.4283, 0.8536, 1.5343, 2.6113, 2.6160)),
    ("very_sensitive", 22, 97, (4.6825, 5.5050, 5.5050, 5.5050, 5.5050)),
    ("sensitive", 5, 95, (0.4542, 0.9079, 1.2407, 2.2759, 3.3958)),
    ("sensitive", 10, 85, (0.1451, 0.2863, 0.4222, 0.8321, 1.1551)),
    ("sensitive", 20, 90, (0.5492, 1.0641, 1.4255, 2.5529, 3.0412)),
    ("sensitive", 25, 90, (0.6391, 1.1831, 1.6009, 2.7792, 3.0494)),
    ("medium_resistant", 10, 85, (0.0, 0.0, 0.0, 0.0, 0.0)),
    ("medium_resistant", 10, 97, (0.1210, 0.2420, 0.3630, 0.7856, 1.7511)),
    ("medium_resistant", 20, 97, (0.1939, 0.3877, 0.5813, 1.3431, 2.7446)),
    ("resistant", 15, 90, (0.0224, 0.0446, 0.0667, 0.1422, 0.2748)),
    ("resistant", 20, 97, (0.0873, 0.1741, 0.2605, 0.5577, 1.0282)),
]
"""Index after 4, 8, 12, 26 and 52 weeks: closed form of the model, computed apart from the code."""


@pytest.mark.source("ojanen-2010", "growth classes, constant conditions")
@pytest.mark.parametrize(("kind", "temperature", "humidity", "expected"), CONSTANT)
def test_index_at_constant_conditions(
    kind: MoldClass, temperature: float, humidity: float, expected: tuple[float, ...]
) -> None:
    """The index follows the closed form of the model to its last printed digit."""
    hours = WEEKS[-1] * 168
    index, _ = mold_index(np.full(hours, temperature), np.full(hours, humidity / 100.0), kind)
    assert index[[w * 168 - 1 for w in WEEKS]] == pytest.approx(expected, abs=6e-5)


@pytest.mark.source("hukka-viitanen-1999", "equation of growth")
@pytest.mark.parametrize("kind", list(GROWTH))
def test_index_against_a_solver_of_ordinary_equations(kind: MoldClass) -> None:
    """SciPy on the formula as printed gives the same index at 18 °C and 95 %."""
    k = GROWTH[kind]
    t, rh = 18.0, 95.0
    least = max(-0.00267 * t**3 + 0.160 * t**2 - 3.13 * t + 100.0, k.least_humidity)
    r = (least - rh) / (least - 100.0)
    top = k.a + k.b * r - k.c * r * r
    base = 7.0 * math.exp(-0.68 * math.log(t) - 13.9 * math.log(rh) + 66.02)

    def growth(_day: float, m: np.ndarray) -> list[float]:
        k1 = k.k1_below_1 if m[0] < 1.0 else k.k1_above_1
        return [k1 * max(1.0 - math.exp(2.3 * (m[0] - top)), 0.0) / base]

    solved = solve_ivp(growth, (0.0, 100.0), [0.0], rtol=1e-9, atol=1e-11, max_step=0.05)
    index, _ = mold_index(np.full(2400, t), np.full(2400, rh / 100.0), kind)
    assert index[-1] == pytest.approx(solved.y[0, -1], abs=2e-3)


@pytest.mark.source("hukka-viitanen-1999", "critical relative humidity")
def test_critical_humidity() -> None:
    """Below 20 °C the cubic of the paper, above it the floor of the class."""
    found = critical_humidity(np.array([1.0, 5.0, 10.0, 15.0, 20.0]))
    assert found == pytest.approx([97.03, 88.02, 82.03, 80.04, 80.04], abs=0.005)
    assert critical_humidity(np.array([25.0, 10.0]), 85.0) == pytest.approx([85.0, 85.0])


@pytest.mark.source("hukka-viitanen-1999", "decline")
def test_decline_falls_rests_and_falls_slowly() -> None:
    """0.032 a day for six hours, nothing to a day, 0.016 a day after; times the class."""
    dry = np.full(72, 0.5)
    wet = np.full(2000, 0.97)
    hours = np.concatenate([wet, dry])
    index, _ = mold_index(np.full(len(hours), 20.0), hours, "sensitive", 0.5)
    fall = index[2000 - 1] - index[2000:]
    assert fall[5] == pytest.approx(0.5 * 6 * 0.00133)
    assert fall[23] == pytest.approx(0.5 * 6 * 0.00133)
    assert fall[71] == pytest.approx(0.5 * (6 * 0.00133 + 48 * 0.000667))


DECAY = [
    (5, 95.5, 3142.45, 1.0675e-3), (5, 97, 1616.28, 2.005e-3), (5, 100, 771.43, 3.880e-3),
    (10, 97, 1043.16, 2.985e-3), (10, 99, 638.56, 4.235e-3), (15, 98, 578.18, 4.590e-3),
    (20, 95.5, 877.15, 4.0075e-3), (20, 97, 574.99, 4.945e-3), (20, 100, 220.41, 6.820e-3),
    (25, 99, 218.80, 7.175e-3), (30, 97, 371.64, 6.905e-3), (30, 100, 57.14, 8.780e-3),
]  # fmt: skip


@pytest.mark.source("viitanen-2010", "critical time and rate of mass loss")
@pytest.mark.parametrize(("temperature", "humidity", "hours", "rate"), DECAY)
def test_decay_at_constant_conditions(
    temperature: float, humidity: float, hours: float, rate: float
) -> None:
    """Time to activation and rate after it by the paper's two formulas, figures computed apart."""
    assert float(critical_time(temperature, humidity / 100)) == pytest.approx(hours, abs=0.006)
    assert float(loss_rate(temperature, humidity / 100)) == pytest.approx(rate, rel=1e-4)
    steps = math.ceil(hours) + 100
    active, lost, _ = wood_decay(np.full(steps, temperature), np.full(steps, humidity / 100))
    assert active[math.floor(hours) - 1] < 1.0 <= active[math.ceil(hours) - 1] + 1e-9
    assert lost[-1] == pytest.approx((steps - hours) * rate, rel=1e-4)


GRID_HUMIDITY = (0.05, 0.10, 0.20, 0.30, 0.40, 0.50, 0.60, 0.65, 0.70, 0.80, 0.85, 0.90, 0.95)
GRID = {
    -1.1: (1.40, 2.60, 4.61, 6.31, 7.89, 9.51, 11.33, 12.37, 13.55, 16.53, 18.52, 21.02, 24.33),
    10.0: (1.36, 2.57, 4.60, 6.31, 7.87, 9.47, 11.24, 12.27, 13.43, 16.38, 18.36, 20.89, 24.27),
    21.1: (1.30, 2.48, 4.49, 6.17, 7.70, 9.24, 10.97, 11.96, 13.09, 15.99, 17.95, 20.48, 23.89),
    37.8: (1.16, 2.27, 4.18, 5.78, 7.22, 8.68, 10.30, 11.24, 12.31, 15.09, 17.00, 19.48, 22.88),
}


@pytest.mark.source("wood-handbook", "equation 4-5; table 4-2 prints it to 0.1 %")
@pytest.mark.parametrize("temperature", list(GRID))
def test_equilibrium_moisture_of_wood(temperature: float) -> None:
    """The equation in °C gives the grid that the one in kelvin-free tables prints."""
    found = 100.0 * wood_moisture(np.array(GRID_HUMIDITY), temperature)
    assert found == pytest.approx(GRID[temperature], abs=0.0051)


@pytest.mark.source("wood-handbook", "table 4-2 at 21.1 °C (from memory)")
def test_equilibrium_moisture_as_printed() -> None:
    """Table 4-2 at 70 °F to a tenth of a percent."""
    printed = (2.5, 4.5, 6.2, 7.7, 9.2, 11.0, 12.0, 13.1, 16.0, 17.9, 20.5, 23.9)
    found = 100.0 * wood_moisture(np.array(GRID_HUMIDITY[1:]), 21.1)
    assert found == pytest.approx(printed, abs=0.06)
