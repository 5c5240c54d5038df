"""Running means, hours over a limit, the season of an hour, and whether a year repeats."""

from __future__ import annotations

import numpy as np

from seamwright.moisture.types import Floats
from seamwright.moisture.verdict.types import HOURS_OF_YEAR, Trend

_MONTH_ENDS = np.cumsum([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]) * 24
_SEASONS = ("winter", "spring", "summer", "fall")
_SAME = 1e-3
_ROUNDING = 1e-9


def running_mean(values: Floats, hours: int) -> Floats:
    """Return the means over every full stretch of so many hours (n - hours + 1,).

    A series shorter than that has one mean, over all of it. `values` (n,) in any unit.

    >>> running_mean(np.array([1.0, 2.0, 6.0]), 2)
    array([1.5, 4. ])
    """
    length = min(hours, len(values))
    sums = np.cumsum(np.concatenate([[0.0], values]))
    return np.asarray((sums[length:] - sums[:-length]) / length)


def worst_mean(values: Floats, hours: int) -> tuple[float, int]:
    """Return the largest running mean and the hour in the middle of its stretch."""
    means = running_mean(values, hours)
    top = float(means.max())
    at = int(np.argmax(means >= top - _ROUNDING * abs(top)))
    return top, at + min(hours, len(values)) // 2


def warm_humidity(temperature: Floats, humidity: Floats, hours: int = 720) -> tuple[float, int]:
    """Return the largest 30-day mean of the relative humidity while that of the temperature is 5 to
    40 °C [-], and its hour; 0 where it never is. Source: ASHRAE 160-2009 (seen second-hand).
    """
    warmth = running_mean(temperature, hours)
    counted = np.where((warmth >= 5.0) & (warmth <= 40.0), running_mean(humidity, hours), 0.0)
    at = int(np.argmax(counted))
    return float(counted[at]), at + min(hours, len(humidity)) // 2


def hours_over(values: Floats, limit: float) -> tuple[int, int]:
    """Return the hours above a limit, of the whole series and of the worst whole year in it."""
    over = (values > limit).astype(float)
    year = running_mean(over, HOURS_OF_YEAR) * min(HOURS_OF_YEAR, len(values))
    return int(over.sum()), round(float(year.max()))


def season_of(hour: int, start: int = 0, *, south: bool = False) -> str:
    """Return the season of an hour counted from a series that starts at hour `start` of its year.

    Winter is December to February, half a year off `south` of the equator.

    >>> season_of(0), season_of(0, south=True)
    ('winter', 'summer')
    """
    month = int(np.searchsorted(_MONTH_ENDS, (start + hour) % HOURS_OF_YEAR, side="right"))
    return _SEASONS[((month + 1) % 12 // 3 + (2 if south else 0)) % 4]


def yearly_change(values: Floats) -> float | None:
    """Return the mean of the last year less that of the year before; None under two years."""
    if len(values) < 2 * HOURS_OF_YEAR:
        return None
    last = values[-HOURS_OF_YEAR:].mean()
    return float(last - values[-2 * HOURS_OF_YEAR : -HOURS_OF_YEAR].mean())


def trend_of(change: float | None, tolerance: float = _SAME) -> Trend:
    """Return what a yearly change means; `tolerance` in its unit, one in a thousand by default."""
    if change is None:
        return "unknown"
    if abs(change) <= tolerance:
        return "repeating"
    return "wetting" if change > 0.0 else "drying"
