"""Fresh air that a house must have by machine, and how little its leaks count for.

The tighter the shell, the less air comes in by itself: a house as tight as panels can be must have
mechanical ventilation, designed and commissioned by someone qualified.
"""

from __future__ import annotations

from dataclasses import dataclass

from seamwright.errors import SeamwrightError

RATE_SOURCE = (
    "ASHRAE 62.2, editions from 2013: 0.15 L/s per m² of floor and 3.5 L/s per person, one more "
    "person than bedrooms (seen in a public script; not checked against the standard)"
)
CREDIT_SOURCE = (
    "ASHRAE 62.2-2016, infiltration credit with normalized leakage and weather factor "
    "(from memory); 62.2 gives the factor by place in its annex"
)
CAUTION = (
    "A tight house needs mechanical ventilation. Do not leave leaks in place of a fan: they let in "
    "least when the air is still and mild, and most when it is cold and windy, through wood that "
    "must stay dry. Fuel-burning appliances need sealed combustion or make-up air; have them "
    "checked by someone qualified. Local code outranks these figures."
)

_PER_AREA = 0.15e-3
"""[m³/(s·m²)] Source: `RATE_SOURCE`."""

_PER_PERSON = 3.5e-3
"""[m³/s] Source: `RATE_SOURCE`."""

_REFERENCE_HEIGHT = 2.5
"""[m] ASHRAE 62.2, normalized leakage (from memory)."""

_HEIGHT_EXPONENT = 0.4
"""[-] ASHRAE 62.2, normalized leakage (from memory)."""

_CREDIT_DIVISOR = 1.44e3
"""[s·m²/m³] Q = NL·wsf·A/1.44 in L/s and m² (7.3 in cfm and ft²), ASHRAE 62.2 (from memory)."""

_MOST_CREDIT = 2.0 / 3.0
"""[-] The leaks count for no more than this part of the whole. ASHRAE 62.2-2016 (from memory)."""


@dataclass(frozen=True, kw_only=True, slots=True)
class VentilationNeed:
    """What 62.2 asks for. `total` with leaks and fans together, `credit` for the leaks, `fan` what
    machines must bring at least, running all the time. [m³/s]
    """

    floor_area: float
    bedrooms: int
    total: float
    credit: float
    fan: float
    source: str
    caution: str = CAUTION


def required_rate(floor_area: float, bedrooms: int) -> float:
    """Return the outdoor air a dwelling needs. [m³/s]

    Parameters
    ----------
    floor_area : float
        Conditioned floor area. [m²]
    bedrooms : int
        Bedrooms; one without is counted as having one.

    Source
    ------
    ASHRAE 62.2, editions from 2013: Q = 0.15 A + 3.5 (N + 1) L/s.
    """
    if not floor_area > 0.0:
        raise SeamwrightError(
            f"a floor area of {floor_area:g} m² is not above zero; check the plan"
        )
    if bedrooms < 0:
        raise SeamwrightError(f"{bedrooms} bedrooms: the number cannot be below zero")
    return _PER_AREA * floor_area + _PER_PERSON * (max(bedrooms, 1) + 1)


def infiltration_credit(
    leak_area: float, floor_area: float, height: float, weather_factor: float
) -> float:
    """Return the yearly effective flow of the leaks. [m³/s]

    Parameters
    ----------
    leak_area : float
        Effective leakage area at 4 Pa. [m²]
    floor_area : float
        Conditioned floor area. [m²]
    height : float
        From the lowest grade to the highest ceiling within the shell. [m]
    weather_factor : float
        Weather and shielding factor of the place, from the annex of the standard. [1/h]

    Source
    ------
    ASHRAE 62.2-2016: NL = 1000 (ELA/A)(H/2.5)^0.4, Q = NL·wsf·A/1.44 L/s (``from memory``).
    """
    leakage = 1000.0 * leak_area / floor_area * (height / _REFERENCE_HEIGHT) ** _HEIGHT_EXPONENT
    return float(leakage * weather_factor * floor_area / _CREDIT_DIVISOR)


def ventilation_need(
    floor_area: float,
    bedrooms: int,
    *,
    leak_area: float | None = None,
    height: float | None = None,
    weather_factor: float | None = None,
    balanced: bool = False,
) -> VentilationNeed:
    """Return the rate that machines must bring, with the credit for leaks where it can be worked
    out (leak area, height and weather factor all given; else none is taken, the safe side).

    `balanced` systems get the credit in full, others (exhaust or supply alone) the part
    infiltration / total, because a fan that pulls takes leaks over. The leaks count for two thirds
    of the total at most.

    Source
    ------
    ASHRAE 62.2-2016: Q_fan = Q_tot − φ Q_inf (``from memory``).
    """
    total = required_rate(floor_area, bedrooms)
    credit = 0.0
    source = RATE_SOURCE
    if leak_area is not None and height is not None and weather_factor is not None:
        flow = infiltration_credit(leak_area, floor_area, height, weather_factor)
        flow = min(flow, _MOST_CREDIT * total)
        credit = flow if balanced else flow * flow / total
        source = f"{RATE_SOURCE}; {CREDIT_SOURCE}"
    return VentilationNeed(
        floor_area=floor_area,
        bedrooms=bedrooms,
        total=total,
        credit=credit,
        fan=total - credit,
        source=source,
    )
