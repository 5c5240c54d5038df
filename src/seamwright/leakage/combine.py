"""How leaks add up: seals one behind another, leaks side by side, areas and flows."""

from __future__ import annotations

import math
from collections.abc import Sequence

from seamwright.leakage.air import REFERENCE_DENSITY

EXPONENT = 0.65
"""Flow exponent of a house where nobody has measured one. [-]

ASTM E1827's one-point method assumes it; the ASHRAE Handbook gives 0.6 to 0.7 for whole houses.
"""

AREA_PRESSURE = 4.0
"""Pressure of an effective leakage area, with a discharge coefficient of 1. [Pa]

ASHRAE Handbook of Fundamentals 2001, chapter 26."""

TEST_PRESSURE = 50.0
"""Pressure of a fan test's result. [Pa] ISO 9972 (from memory)."""


def flow_of_area(area: float, pressure: float, exponent: float = EXPONENT) -> float:
    r"""Return the flow at `pressure` of an effective leakage area given at 4 Pa. [m³/s]

    .. math:: Q = A \sqrt{2 p_r / \rho_0}\,(p / p_r)^n,\quad p_r = 4\ \mathrm{Pa}

    One square centimetre leaks 1.33e-3 m³/s (2.8 cfm) at 50 Pa with n = 0.65.

    Parameters
    ----------
    area : float
        Effective leakage area at 4 Pa, discharge coefficient 1. [m²]
    pressure : float
        Pressure difference, above zero. [Pa]
    exponent : float
        Flow exponent. [-]

    Source
    ------
    ASHRAE Handbook of Fundamentals 2001, chapter 26: C = A_L Δp_r^(0.5 − n) (2/ρ0)^0.5.
    """
    reference = area * math.sqrt(2.0 * AREA_PRESSURE / REFERENCE_DENSITY)
    return float(reference * (pressure / AREA_PRESSURE) ** exponent)


def area_of_flow(flow: float, pressure: float, exponent: float = EXPONENT) -> float:
    """Return the effective leakage area at 4 Pa of a flow at `pressure`. [m²]

    The inverse of `flow_of_area`; same source.
    """
    return flow / flow_of_area(1.0, pressure, exponent)


def flow_between(flow: float, at: float, wanted: float, exponent: float = EXPONENT) -> float:
    """Return a flow known at pressure `at` [Pa] at the pressure `wanted` [Pa], same unit."""
    return float(flow * (wanted / at) ** exponent)


def in_series(leaks: Sequence[float], exponent: float = EXPONENT) -> float:
    r"""Return the leak of seals that stand one behind another.

    The same flow passes each and the pressures add, so

    .. math:: C = \Bigl(\sum_k C_k^{-1/n}\Bigr)^{-n}

    which is never more than the tightest of them: another layer can only help. A perfect layer
    (0) stops everything; no layer at all is no leak path and raises ValueError.

    Valid while air cannot slip sideways along the joint between two layers; dams are there for
    that. Any unit that is proportional to the flow coefficient.
    """
    if not leaks:
        raise ValueError("a leak path needs at least one layer")
    if min(leaks) <= 0.0:
        return 0.0
    tightest = min(leaks)
    total = math.fsum((tightest / leak) ** (1.0 / exponent) for leak in leaks)
    return float(tightest * total**-exponent)
