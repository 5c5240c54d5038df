"""What a forecast says: the leakage before the test, what it is made of, what it hangs on."""

from __future__ import annotations

from dataclasses import dataclass

from seamwright.leakage.prior_rows import Workmanship
from seamwright.leakage.types import Target

LEVELS = (0.05, 0.10, 0.50, 0.90, 0.95)
"""The percentiles every spread gives."""


@dataclass(frozen=True, kw_only=True, slots=True)
class Spread:
    """A forecast number: its mean and the values that 5, 10, 50, 90 and 95 % of draws stay below.

    All in the unit of the number.
    """

    mean: float
    p05: float
    p10: float
    p50: float
    p90: float
    p95: float


@dataclass(frozen=True, kw_only=True, slots=True)
class KindShare:
    """All places of one kind: how many, how long [m], and their part in the flow at 50 Pa. [m³/s]

    `low` and `high` hold 90 % of the draws; `share` is the part of the mean flow, 0 to 1.
    """

    kind: str
    sort: str
    count: int
    length: float
    flow: float
    low: float
    high: float
    share: float


@dataclass(frozen=True, kw_only=True, slots=True)
class PlaceShare:
    """One place: its mean flow at 50 Pa, the limits that hold 90 % [m³/s], its part of the mean."""

    id: str
    kind: str
    sort: str
    length: float
    flow: float
    low: float
    high: float
    share: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Driver:
    """One cause of uncertainty: the median flow of the house with it at its 10 % and 90 % value.

    Everything else varies as it does. `share` is the squared rank correlation with the flow: near
    enough its part of the variance, and the parts need not add to 1. [m³/s], [-]
    """

    name: str
    low: float
    high: float
    share: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Budget:
    """What the target leaves for each metre of joint at 50 Pa, and what the forecast expects.

    `others` is the median flow of nodes, services and window units, taken off the target first
    [m³/s]; `allowed` may be negative: then they alone use the target up. [m³/(s·m)]
    """

    joint_length: float
    others: float
    allowed: float
    expected: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Bar:
    """One step of the histogram: flow at 50 Pa from `low` to `high` [m³/s], part of all draws."""

    low: float
    high: float
    part: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Anchor:
    """What a test result is compared with to learn from it: the logarithm of the flow at 50 Pa with
    every shared factor at one, how each factor (by name) moves it, and the scatter left. [-]
    """

    log_flow: float
    weights: tuple[tuple[str, float], ...]
    scatter: float


@dataclass(frozen=True, kw_only=True, slots=True)
class Forecast:
    """The result of a fan test that has not been made, as a distribution.

    `workmanship` is that of every crew that `crews` does not name with its own.
    `flow_50` in m³/s, `ach50` in 1/h, `q50` in m³/(h·m²), `ela_4` in m². `ach50` and `q50` are None
    where the volume or area is unknown; `chance` is None without a target that can be measured.
    """

    workmanship: Workmanship
    draws: int
    seed: int
    flow_50: Spread
    ach50: Spread | None
    q50: Spread | None
    ela_4: Spread
    target: Target | None
    target_flow: float | None
    chance: float | None
    by_kind: tuple[KindShare, ...]
    by_place: tuple[PlaceShare, ...]
    drivers: tuple[Driver, ...]
    budget: Budget | None
    histogram: tuple[Bar, ...]
    anchor: Anchor
    crews: tuple[tuple[str, Workmanship], ...] = ()
