"""Intervals: scaled, averaged, and widened by errors that all readings share."""

from __future__ import annotations

import math
from collections.abc import Sequence
from statistics import fmean

from seamwright.leakage.types import Accuracy, Interval


def scaled(interval: Interval, factor: float) -> Interval:
    """Return the interval times a positive factor."""
    return Interval(
        value=interval.value * factor, low=interval.low * factor, high=interval.high * factor
    )


def mean_interval(intervals: Sequence[Interval], *, shared: bool = False) -> Interval:
    """Return the mean of independent estimates; half-widths add in quadrature.

    With `shared` the estimates have their errors in common, and averaging does not shrink them.
    """
    count = len(intervals)
    value = fmean(i.value for i in intervals)
    if shared:
        low, high = fmean(i.low for i in intervals), fmean(i.high for i in intervals)
        return Interval(value=value, low=low, high=high)
    below = math.sqrt(math.fsum((i.value - i.low) ** 2 for i in intervals)) / count
    above = math.sqrt(math.fsum((i.high - i.value) ** 2 for i in intervals)) / count
    return Interval(value=value, low=value - below, high=value + above)


def widened(interval: Interval, *shares: float | None) -> Interval:
    """Return the interval with further 95 % errors, as parts of the value; None adds nothing.

    Half-widths of the logarithm add in quadrature, so no limit falls below zero. Source:
    ``jcgm-100``, 5.1.2: independent contributions add as squares.
    """
    more = math.fsum(math.log1p(share) ** 2 for share in shares if share is not None)
    if more == 0.0:
        return interval
    below = math.hypot(math.log(interval.value / interval.low), math.sqrt(more))
    above = math.hypot(math.log(interval.high / interval.value), math.sqrt(more))
    return Interval(
        value=interval.value,
        low=interval.value * math.exp(-below),
        high=interval.value * math.exp(above),
    )


def device_error(accuracy: Accuracy | None, pressure: float, exponent: float) -> float | None:
    """Return the 95 % error of the flow at `pressure` that both gauges leave, as a part of it.

    An error of the pressure gauge moves the flow by the exponent times its part of the pressure.
    """
    if accuracy is None:
        return None
    flow = 0.0 if accuracy.flow is None else accuracy.flow
    gauge = 0.0 if accuracy.pressure is None else exponent * accuracy.pressure / pressure
    return math.hypot(flow, gauge)
