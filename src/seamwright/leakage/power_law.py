"""The power law of leakage: fitting, predicting, one- and two-point forms."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike
from scipy.stats import t as student

from seamwright.errors import SeamwrightError
from seamwright.leakage.types import Interval, PowerLaw


def fit_power_law(pressure: ArrayLike, flow: ArrayLike, confidence: float = 0.95) -> PowerLaw:
    r"""Return the least-squares power law through the readings, in logarithms.

    .. math:: \ln Q = \ln C + n \ln \Delta p,\quad n = S_{xy}/S_x^2,\quad
       S_n = \frac{1}{S_x}\sqrt{\frac{S_y^2 - n S_{xy}}{N-2}},\quad
       S_{\ln C} = S_n \sqrt{\textstyle\sum x^2 / N}

    Parameters
    ----------
    pressure : (n,) float
        Pressure differences, all greater than zero. [Pa]
    flow : (n,) float
        Flows through the envelope, all greater than zero. [m³/s]
    confidence : float
        Two-sided confidence of the intervals. [-]

    Raises
    ------
    SeamwrightError
        With fewer than three points, or a value that has no logarithm.

    Source
    ------
    ASTM E779, annex on the error estimate (``from memory``); the printed example it is checked
    against is in ``tests/published/test_fan_test.py``.
    """
    p, q = np.asarray(pressure, float), np.asarray(flow, float)
    if len(p) < 3 or len(p) != len(q):
        raise SeamwrightError(
            f"{len(p)} reading{'s are' if len(p) != 1 else ' is'} too few for a fit with an "
            "interval; take at least 3, and 5 or more for a test by a standard (ASTM E1827 is for "
            "one or two pressures)"
        )
    if not (np.all(p > 0) and np.all(q > 0)):
        raise SeamwrightError("a pressure or flow of the fit is not above zero; leave it out")
    x, y = np.log(p), np.log(q)
    n = len(x)
    dx, dy = x - x.mean(), y - y.mean()
    sxx, sxy, syy = float(dx @ dx), float(dx @ dy), float(dy @ dy)
    if sxx < 1e-9:
        raise SeamwrightError("all readings stand at one pressure; spread them from 10 to 60 Pa")
    exponent = sxy / sxx
    log_c = float(y.mean() - exponent * x.mean())
    off = dy - exponent * dx
    rest = float(off @ off)
    residual = math.sqrt(rest / (n - 2))
    s_n = residual / math.sqrt(sxx)
    s_c = s_n * math.sqrt(float(x @ x) / n)
    k = float(student.ppf(0.5 + confidence / 2, n - 2))
    return PowerLaw(
        coefficient=Interval(
            value=math.exp(log_c), low=math.exp(log_c - k * s_c), high=math.exp(log_c + k * s_c)
        ),
        exponent=Interval(value=exponent, low=exponent - k * s_n, high=exponent + k * s_n),
        r_squared=1.0 if syy < 1e-15 else 1.0 - rest / syy,
        s_exponent=s_n,
        s_log_coefficient=s_c,
        mean_x=float(x.mean()),
        sum_square_x=sxx,
        residual=residual,
        count=n,
    )


def flow_at(fit: PowerLaw, pressure: float, confidence: float = 0.95) -> Interval:
    """Return the flow of the fitted line at `pressure` [Pa], with its interval. [m³/s]

    The interval is that of the mean line: residual × √(1/N + (ln Δp − x̄)² / Sx²).
    Source: as `fit_power_law`.
    """
    away = math.log(pressure) - fit.mean_x
    s = fit.residual * math.sqrt(1.0 / fit.count + away * away / fit.sum_square_x)
    k = float(student.ppf(0.5 + confidence / 2, fit.count - 2))
    value = fit.coefficient.value * pressure**fit.exponent.value
    return Interval(value=value, low=value * math.exp(-k * s), high=value * math.exp(k * s))


def one_point_coefficient(pressure: float, flow: float, exponent: float = 0.65) -> float:
    """Return the coefficient from one reading and an assumed exponent. [m³/(s·Paⁿ)]

    Source: ASTM E1827, one-point method with n = 0.65 (``from memory``).
    """
    return float(flow / pressure**exponent)


def two_point_exponent(first: tuple[float, float], second: tuple[float, float]) -> float:
    """Return the exponent through two (pressure, flow) readings. [-]

    Source: ASTM E1827, two-point method: n = ln(Q1/Q2) / ln(P1/P2) (``from memory``).
    """
    (p1, q1), (p2, q2) = first, second
    return math.log(q1 / q2) / math.log(p1 / p2)
