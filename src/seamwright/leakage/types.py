"""Fan-test readings and what they add up to. SI throughout: Pa, m³/s, m², m³; temperatures in °C.

Pressures are indoor minus outdoor: negative when the fan draws air out of the house.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

Direction: TypeAlias = Literal["depressurize", "pressurize"]
Outcome: TypeAlias = Literal["passes", "fails", "cannot tell"]
Method: TypeAlias = Literal["iso_9972", "astm_e779", "astm_e1827"]


@dataclass(frozen=True, kw_only=True, slots=True)
class Reading:
    """One held pressure: indoor minus outdoor [Pa] and fan flow as read [m³/s].

    `device` names the range of the fan it was read on, empty where the file does not say.
    """

    pressure: float
    flow: float
    line: int | None = None
    device: str = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class Device:
    """A range of the fan device (a ring or plate) and the flows it can measure. [m³/s]"""

    name: str
    low: float
    high: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Accuracy:
    """How well the instruments and the house were measured, 95 %; None where not known.

    `flow`, `volume` and `area` are parts of the value [-], `pressure` is in Pa. These errors are
    shared by all readings, so they do not shrink with their number.
    """

    flow: float | None = None
    pressure: float | None = None
    volume: float | None = None
    area: float | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Series:
    """The readings of one direction with its baselines (fan off) before and after. [Pa]"""

    direction: Direction
    readings: tuple[Reading, ...]
    baseline_before: tuple[float, ...] = ()
    baseline_after: tuple[float, ...] = ()


@dataclass(frozen=True, kw_only=True, slots=True)
class Conditions:
    """Air on both sides during the test, and the building's height. Humidities 0 to 1."""

    indoor_temperature: float
    outdoor_temperature: float
    barometric_pressure: float
    indoor_humidity: float = 0.5
    outdoor_humidity: float = 0.5
    wind_speed: float | None = None
    height: float | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Envelope:
    """The house by its numbers; each with the rule it was measured by. [m³], [m²]"""

    volume: float | None = None
    area: float | None = None
    floor_area: float | None = None
    rule: str = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class Interval:
    """A value with its 95 % confidence limits."""

    value: float
    low: float
    high: float


@dataclass(frozen=True, kw_only=True, slots=True)
class PowerLaw:
    """Flow = coefficient × pressure difference ^ exponent, fitted in logarithms.

    `coefficient` in m³/(s·Paⁿ). `s_exponent` and `s_log_coefficient` are standard errors; `mean_x`,
    `sum_square_x` describe the spread of ln(pressure) and `residual` the residual standard
    deviation, which together give the interval of a predicted flow.
    """

    coefficient: Interval
    exponent: Interval
    r_squared: float
    s_exponent: float
    s_log_coefficient: float
    mean_x: float
    sum_square_x: float
    residual: float
    count: int


@dataclass(frozen=True, kw_only=True, slots=True)
class Check:
    """One validity rule of the standard: what was measured, its limit, and whether it holds.

    A rule that is not `required` is advice of the standard: it is told, and blocks no verdict.
    """

    rule: str
    measured: str
    limit: str
    holds: bool
    source: str
    required: bool = True


@dataclass(frozen=True, kw_only=True, slots=True)
class SeriesResult:
    """One direction: the points used (corrected), the fit, and the numbers read from it."""

    direction: Direction
    pressures: tuple[float, ...]
    flows: tuple[float, ...]
    offset: float
    fit: PowerLaw
    standard_coefficient: float
    flow_50: Interval
    ela_4: Interval
    eqla_10: Interval
    checks: tuple[Check, ...]


@dataclass(frozen=True, kw_only=True, slots=True)
class Target:
    """What the house must reach: the measure, its limit and the edition it comes from."""

    measure: Literal["ach50", "q50", "flow_50"]
    limit: float
    source: str


@dataclass(frozen=True, kw_only=True, slots=True)
class FanResult:
    """The whole test. Means of the directions tested; measures None where the house's volume or
    area is unknown. ACH50 in 1/h, q50 in m³/(h·m²). `flows_at` are the flows at the reference
    pressures [Pa], [m³/s]; `per_floor_50` is the flow at 50 Pa over the floor area [m³/(h·m²)];
    `flow_50`, `ach50`, `q50` and the areas include the errors of
    instruments and house where `accuracy` gives them.
    """

    method: Method
    series: tuple[SeriesResult, ...]
    flow_50: Interval
    ach50: Interval | None
    q50: Interval | None
    ela_4: Interval
    eqla_10: Interval
    checks: tuple[Check, ...]
    target: Target | None
    outcome: Outcome | None
    reason: str
    flows_at: tuple[tuple[float, Interval], ...] = ()
    accuracy: Accuracy | None = None
    per_floor_50: Interval | None = None
